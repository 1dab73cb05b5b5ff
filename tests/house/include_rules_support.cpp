#include <algorithm>
#include <array>
#include <optional>
#include <regex>
#include <sstream>
#include <stdexcept>
#include <string_view>

#include "house/include_rules.h"

namespace weatherstruck::house {

namespace {

// Headers of libraries, by how they begin, and the only floors that may know them.
struct Library {
  std::string_view prefix;
  std::vector<std::string_view> floors;
};

const std::vector<Library>& libraries() {
  static const std::vector<Library> table{
      {"nlohmann/", {"files", "feed"}},
      {"date/", {"files"}},
      {"CLI/", {"app"}},
      {"curl/", {"feed"}},
      {"sqlite3.h", {"record"}},
      {"minizip/", {"feed"}},
      {"zlib.h", {"feed"}},
      {"pugixml.hpp", {"feed", "files"}},
  };
  return table;
}

// {fmt} is for every floor, but a pure one may not use the parts that write or read the locale.
constexpr std::array<std::string_view, 4> pure_fmt{"fmt/core.h", "fmt/format.h", "fmt/ranges.h",
                                                   "fmt/compile.h"};

// Standard headers that bring threads, files, streams of the process, locales or draws that differ between
// standard libraries.
constexpr std::array<std::string_view, 21> impure_standard{
    "atomic",     "barrier",    "clocale",   "condition_variable",
    "cstdio",     "filesystem", "fstream",   "future",
    "iostream",   "latch",      "locale",    "mutex",
    "print",      "random",     "semaphore", "shared_mutex",
    "stop_token", "syncstream", "thread",    "csignal",
    "coroutine"};

// What a pure floor could reach without an include of its own.
constexpr std::array<std::string_view, 12> impure_names{"::now(",  "std::time(",  "getenv",     "std::FILE",
                                                        "fopen(",  "std::cout",   "std::cerr",  "std::cin",
                                                        "printf(", "fmt::print(", "std::rand(", "setlocale"};

template <class Table>
bool holds(const Table& table, std::string_view value) {
  return std::find(table.begin(), table.end(), value) != table.end();
}

bool begins(std::string_view text, std::string_view prefix) {
  return text.substr(0, prefix.size()) == prefix;
}

// "src/sky/sun.cpp" and "include/weatherstruck/sky/sun.h" belong to "sky".
std::string floor_of(const std::string& path) {
  static const std::regex pattern("^(?:src|include/weatherstruck)/([^/]+)/.*");
  std::smatch match;
  return std::regex_match(path, match, pattern) ? match[1].str() : std::string();
}

// What is wrong with one include, or nothing.
std::optional<std::string> fault_of(const std::vector<Floor>& floors, const Floor& floor,
                                    const std::string& target, bool quoted) {
  constexpr std::string_view own = "weatherstruck/";
  if (begins(target, own)) {
    const std::string wanted = target.substr(own.size(), target.find('/', own.size()) - own.size());
    const bool known =
        std::any_of(floors.begin(), floors.end(), [&](const Floor& other) { return other.name == wanted; });
    if (!known) return "floor " + wanted + " is not in cmake/floors.txt";
    if (wanted == floor.name || floor.uses.count(wanted) > 0) return std::nullopt;
    return "floor " + floor.name + " may not use floor " + wanted;
  }
  for (const Library& library : libraries()) {
    if (!begins(target, library.prefix)) continue;
    if (holds(library.floors, floor.name)) return std::nullopt;
    return "floor " + floor.name + " may not know this library";
  }
  if (quoted) {
    // A bare name can only be a neighbour in the same folder.
    if (target.find('/') == std::string::npos) return std::nullopt;
    return "write it as \"weatherstruck/<floor>/<name>.h\"";
  }
  if (!floor.pure) return std::nullopt;
  if (holds(pure_fmt, target)) return std::nullopt;
  const bool standard = target.find_first_of("./") == std::string::npos;
  if (!standard || holds(impure_standard, target)) {
    return "floor " + floor.name + " is pure: no input, output, clock, threads or system headers";
  }
  return std::nullopt;
}

}  // namespace

std::vector<Floor> parse_floors(const std::string& text) {
  static const std::regex pattern("^([a-z]+)( pure)? :(( [a-z]+)*)\\s*$");
  std::vector<Floor> floors;
  std::set<std::string> known;
  for (const std::string& line : lines_of(text)) {
    if (line.empty() || line.front() == '#') continue;
    std::smatch match;
    if (!std::regex_match(line, match, pattern)) throw std::runtime_error("not a floor: " + line);
    Floor floor{match[1], match[2].matched, {}};
    std::istringstream names(match[3]);
    for (std::string name; names >> name;) {
      if (known.count(name) == 0) throw std::runtime_error(floor.name + " uses " + name + ", not below it");
      floor.uses.insert(name);
    }
    if (!known.insert(floor.name).second) throw std::runtime_error("named twice: " + floor.name);
    floors.push_back(floor);
  }
  return floors;
}

std::vector<std::string> include_breaches(const std::vector<Floor>& floors,
                                          const std::vector<SourceFile>& files) {
  static const std::regex directive(R"(^\s*#\s*include\b\s*(.*)$)");
  static const std::regex form(R"re(^(?:"([^"]+)"|<([^>]+)>).*$)re");
  std::vector<std::string> breaches;
  for (const SourceFile& file : files) {
    const std::string name = floor_of(file.path);
    const auto floor =
        std::find_if(floors.begin(), floors.end(), [&](const Floor& other) { return other.name == name; });
    if (floor == floors.end()) {
      breaches.push_back(file.path + ":1: lies on no floor of cmake/floors.txt");
      continue;
    }
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string where = file.path + ":" + std::to_string(i + 1) + ": ";
      std::smatch match;
      if (std::regex_match(lines[i], match, directive)) {
        const std::string rest = match[1];
        std::smatch parts;
        if (!std::regex_match(rest, parts, form)) {
          breaches.push_back(where + "an include that names no file: " + rest);
          continue;
        }
        const bool quoted = parts[1].matched;
        const std::string target = quoted ? parts[1] : parts[2];
        const auto fault = fault_of(floors, *floor, target, quoted);
        if (fault) breaches.push_back(where + "includes " + target + "; " + *fault);
      } else if (floor->pure) {
        const std::string code = lines[i].substr(0, lines[i].find("//"));
        for (const std::string_view impure : impure_names) {
          if (code.find(impure) != std::string::npos) {
            breaches.push_back(where + "names " + std::string(impure) + "; floor " + name + " is pure");
          }
        }
      }
    }
  }
  return breaches;
}

}  // namespace weatherstruck::house
