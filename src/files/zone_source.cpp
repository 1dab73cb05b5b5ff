#include "weatherstruck/files/zone_source.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <fstream>
#include <stdexcept>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/posix_rule.h"

namespace weatherstruck::files {
namespace {

// Where Debian's tzdata and the library both look.
constexpr const char* zone_folder = "/usr/share/zoneinfo/";
constexpr const char* version_file = "/usr/share/zoneinfo/tzdata.zi";
constexpr std::streamoff longest_rule = 120;
constexpr std::size_t longest_zone_name = 64;

// The last line of a zone's file; empty where there is none.
std::string rule_of(const std::string& name) {
  std::ifstream in(zone_folder + name, std::ios::binary | std::ios::ate);
  const std::streamoff size = in.tellg();
  if (!in || size < 2) return {};
  const auto length = std::min(size, longest_rule);
  std::string tail(static_cast<std::size_t>(length), '\0');
  in.seekg(size - length);
  if (!in.read(tail.data(), length) || tail.back() != '\n') return {};
  tail.pop_back();
  const auto newline = tail.rfind('\n');
  return newline == std::string::npos ? std::string() : tail.substr(newline + 1);
}

int year_of(base::Instant at) {
  return static_cast<int>(std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(at)).year());
}

base::Zone collect(const date::time_zone& zone) {
  using namespace std::chrono_literals;
  const base::Instant first = std::chrono::sys_days(1970y / 1 / 1);
  const base::Instant last = std::chrono::sys_days(2101y / 1 / 1);
  auto info = zone.get_info(first);
  const auto initial = info.offset;
  const auto initial_abbreviation = info.abbrev;
  std::vector<base::Zone::Change> changes;
  auto offset = initial;
  auto abbreviation = initial_abbreviation;
  while (info.end < last) {
    const base::Instant at = info.end;
    info = zone.get_info(at);
    if (info.offset != offset || info.abbrev != abbreviation)
      changes.push_back({at, info.offset, info.abbrev});
    offset = info.offset;
    abbreviation = info.abbrev;
  }
  const base::Instant listed_to = changes.empty() ? first : changes.back().at;
  for (auto& change : changes_by_rule(rule_of(zone.name()), year_of(listed_to), 2100)
                          .value_or(std::vector<base::Zone::Change>())) {
    if (change.at > listed_to && change.at < last) changes.push_back(std::move(change));
  }
  return {zone.name(), initial, initial_abbreviation, std::move(changes)};
}

}  // namespace

std::vector<std::string> SystemZones::names() const {
  std::vector<std::string> out;
  for (const auto& zone : date::get_tzdb().zones)
    out.push_back(zone.name());
  std::sort(out.begin(), out.end());
  return out;
}

ZoneRead SystemZones::find(std::string_view name) const {
  // The library takes a name for a path below its folder; only a name from the list may reach it.
  const auto& zones = date::get_tzdb().zones;
  const auto at =
      std::find_if(zones.begin(), zones.end(), [name](const auto& zone) { return zone.name() == name; });
  if (at != zones.end()) {
    try {
      return {collect(*at), {}};
    } catch (const std::runtime_error&) {
      // A name without readable data behind it is as good as unknown.
    }
  }
  const auto known = names();
  std::vector<std::string> close;
  if (name.size() <= longest_zone_name) {
    // A city alone is the usual slip: "London" for "Europe/London".
    for (const auto& one : known) {
      const auto slash = one.rfind('/');
      if (slash != std::string::npos && std::string_view(one).substr(slash + 1) == name && close.size() < 3)
        close.push_back(one);
    }
    if (const auto nearest = close.empty() ? base::nearest_name(name, known) : std::nullopt)
      close.push_back(*nearest);
  }
  std::string remedy = "Write a name such as \"Europe/London\".";
  if (!close.empty()) {
    remedy = "Did you mean ";
    for (std::size_t i = 0; i < close.size(); ++i)
      remedy += fmt::format("{}\"{}\"", i == 0 ? "" : " or ", close[i]);
    remedy += "?";
  }
  const auto cut = name.substr(0, longest_zone_name);
  return {{},
          base::Fault{"unknown-zone", "", fmt::format("\"{}\"{}", cut, cut.size() < name.size() ? "..." : ""),
                      "the name of a time zone, such as \"Europe/London\"", remedy}};
}

std::string SystemZones::version() const {
  std::ifstream in(version_file);
  std::string hash;
  std::string word;
  std::string release;
  if (in >> hash >> word >> release && hash == "#" && word == "version") return release;
  return "unknown";
}

std::string machine_zone(std::string_view tz, const std::filesystem::path& link) {
  if (!tz.empty() && tz.front() == ':') tz.remove_prefix(1);
  std::string name(tz);
  if (name.empty()) {
    std::error_code failed;
    name = std::filesystem::read_symlink(link, failed).string();
    if (failed) return {};
  }
  constexpr std::string_view folder = "zoneinfo/";
  if (const std::size_t at = name.find(folder); at != std::string::npos) name.erase(0, at + folder.size());
  // A name of the kind "Europe/London"; rules spelt out ("GMT0BST") and the UTC of servers are none.
  if (name.find('/') == std::string::npos || name.front() == '/' || name.rfind("Etc/", 0) == 0) return {};
  return name;
}

}  // namespace weatherstruck::files
