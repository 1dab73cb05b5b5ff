// What README.md, DEVELOPERS.md and the pages in docs quote is there: every command line names a command and
// options of the man page (which the command table writes), every path leads to a file or folder.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "house/source_tree.h"

namespace weatherstruck::house {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

struct Manual {
  std::set<std::string> commands;  ///< "job check"
  std::set<std::string> options;   ///< "--now"
  std::set<std::string> valued;    ///< those of them that a word follows
};

std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> words(1);
  for (const char c : line) {
    if (std::isspace(static_cast<unsigned char>(c)) != 0) {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

// ".SS job check FILE" is a command; "\-\-now" stands for "--now".
Manual manual_from(const std::string& page) {
  Manual manual;
  for (std::string line : lines_of(page)) {
    line.erase(std::remove(line.begin(), line.end(), '\\'), line.end());
    const std::vector<std::string> words = words_of(line);
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i].rfind("--", 0) != 0 || words[i].size() == 2) continue;
      manual.options.insert(words[i]);
      if (i + 1 < words.size() && std::isupper(static_cast<unsigned char>(words[i + 1][0])) != 0)
        manual.valued.insert(words[i]);
    }
    if (words.empty() || words.front() != ".SS") continue;
    std::string name;
    for (std::size_t i = 1; i < words.size() && std::islower(static_cast<unsigned char>(words[i][0])) != 0;
         ++i)
      name += (name.empty() ? "" : " ") + words[i];
    manual.commands.insert(name);
  }
  return manual;
}

struct Quoted {
  std::size_t line = 0;
  std::string text;
};

// Everything set as code: spans in backticks, fenced blocks, blocks four spaces in. A line that ends in a
// backslash goes on in the next.
std::vector<Quoted> code_of(const std::string& page) {
  std::vector<Quoted> code;
  bool fenced = false;
  bool goes_on = false;
  const std::vector<std::string> lines = lines_of(page);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& line = lines[i];
    if (line.rfind("```", 0) == 0) {
      fenced = !fenced;
      continue;
    }
    if (fenced || line.rfind("    ", 0) == 0) {
      const std::size_t end = line.find_last_not_of(" \\");
      const std::string text = end == std::string::npos ? "" : line.substr(0, end + 1);
      if (goes_on) {
        code.back().text += " " + text;
      } else {
        code.push_back({i + 1, text});
      }
      goes_on = !line.empty() && line.back() == '\\';
      continue;
    }
    for (std::size_t open = line.find('`'); open != std::string::npos;) {
      const std::size_t close = line.find('`', open + 1);
      if (close == std::string::npos) break;
      code.push_back({i + 1, line.substr(open + 1, close - open - 1)});
      open = line.find('`', close + 1);
    }
  }
  return code;
}

bool is_program(const std::string& word) {
  return word == "weatherstruck" || (word.rfind("build/", 0) == 0 && word.size() > 14 &&
                                     word.compare(word.size() - 14, 14, "/weatherstruck") == 0);
}

// What is wrong with a line that starts the program; empty for any other line, and for a good one.
std::string fault_of_line(const Manual& manual, const std::string& text) {
  std::vector<std::string> words = words_of(text);
  if (!words.empty() && words.front() == "$") words.erase(words.begin());
  if (words.size() < 2 || !is_program(words.front())) return {};
  std::vector<std::string> plain;
  for (std::size_t i = 1; i < words.size() && words[i] != ">" && words[i] != "|"; ++i) {
    if (words[i].rfind("--", 0) != 0) {
      plain.push_back(words[i]);
      continue;
    }
    if (manual.options.count(words[i]) == 0) return "no option " + words[i];
    if (manual.valued.count(words[i]) > 0) ++i;
  }
  if (plain.empty()) return {};
  if (manual.commands.count(plain[0]) > 0) return {};
  if (plain.size() > 1 && manual.commands.count(plain[0] + " " + plain[1]) > 0) return {};
  return "no command " + plain[0];
}

constexpr std::array<std::string_view, 11> folders{".ci/",      "bench/", "cmake/",   "docs/",
                                                   "fixtures/", "fuzz/",  "include/", "migrations/",
                                                   "scripts/",  "src/",   "tests/"};

// The paths in a stretch of code: words that begin with a folder of the tree and are no pattern.
std::vector<std::string> paths_in(const std::string& code) {
  std::vector<std::string> paths;
  std::string word;
  const auto end_word = [&] {
    while (!word.empty() && (word.back() == '.' || word.back() == ':' || word.back() == ','))
      word.pop_back();
    const bool pattern = word.find_first_of("<>*{}[]$") != std::string::npos;
    if (!pattern && std::any_of(folders.begin(), folders.end(),
                                [&](std::string_view folder) { return word.rfind(folder, 0) == 0; }))
      paths.push_back(word);
    word.clear();
  };
  for (const char c : code) {
    if (std::isspace(static_cast<unsigned char>(c)) != 0 || c == '"' || c == '\'' || c == '(' || c == ')' ||
        c == '|' || c == ';') {
      end_word();
    } else {
      word += c;
    }
  }
  end_word();
  return paths;
}

// Where the links of a line lead, outside the web: "](docs/x.md#part)" gives "docs/x.md".
std::vector<std::string> links_in(const std::string& line) {
  std::vector<std::string> links;
  for (std::size_t at = line.find("]("); at != std::string::npos; at = line.find("](", at + 1)) {
    std::string target = line.substr(at + 2, line.find(')', at) - at - 2);
    target = target.substr(0, target.find('#'));
    if (!target.empty() && target.find(':') == std::string::npos) links.push_back(target);
  }
  return links;
}

bool there(const std::string& path) {
  return std::filesystem::exists(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/" + path);
}

std::vector<std::string> faults_of_page(const Manual& manual, const SourceFile& page) {
  std::vector<std::string> faults;
  const auto fault = [&](std::size_t line, const std::string& what) {
    faults.push_back(page.path + ":" + std::to_string(line) + ": " + what);
  };
  for (const Quoted& quoted : code_of(page.text)) {
    if (const std::string wrong = fault_of_line(manual, quoted.text); !wrong.empty())
      fault(quoted.line, wrong);
    for (const std::string& path : paths_in(quoted.text)) {
      if (!there(path)) fault(quoted.line, "nothing at " + path);
    }
  }
  const std::size_t slash = page.path.rfind('/');
  const std::string folder = slash == std::string::npos ? "" : page.path.substr(0, slash + 1);
  const std::vector<std::string> lines = lines_of(page.text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (const std::string& link : links_in(lines[i])) {
      if (!there(folder + link)) fault(i + 1, "a link to nothing: " + link);
    }
  }
  return faults;
}

std::vector<SourceFile> all_files() {
  static const std::vector<SourceFile> files = read_tree("");
  return files;
}

Manual real_manual() {
  for (const SourceFile& file : all_files()) {
    if (file.path == "docs/weatherstruck.1") return manual_from(file.text);
  }
  return {};
}

bool ends_with(const std::string& text, const std::string& end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

TEST(Pages, QuoteOnlyWhatIsThere) {
  const Manual manual = real_manual();
  ASSERT_GE(manual.commands.size(), 9U) << "the man page was not understood";
  std::set<std::string> read;
  for (const SourceFile& file : all_files()) {
    const bool at_the_top = file.path.find('/') == std::string::npos;
    if (!ends_with(file.path, ".md") || (!at_the_top && file.path.rfind("docs/", 0) != 0)) continue;
    read.insert(file.path);
    for (const std::string& fault : faults_of_page(manual, file))
      ADD_FAILURE() << fault;
  }
  EXPECT_THAT(read, Contains("README.md"));
  EXPECT_THAT(read, Contains("DEVELOPERS.md"));
}

TEST(Pages, ReadmeNamesEveryCommand) {
  std::string readme;
  for (const SourceFile& file : all_files()) {
    if (file.path == "README.md") readme = file.text;
  }
  const Manual manual = real_manual();
  ASSERT_GE(manual.commands.size(), 9U) << "the man page was not understood";
  for (const std::string& command : manual.commands)
    EXPECT_THAT(readme, HasSubstr(command)) << "README.md never says " << command;
}

TEST(Pages, MapOfTheFloorsIsWhole) {
  std::vector<std::string> floors;
  std::vector<std::string> mapped;
  for (const SourceFile& file : all_files()) {
    for (const std::string& line : lines_of(file.text)) {
      const std::size_t colon = line.find(" :");
      if (file.path == "cmake/floors.txt" && !line.empty() && line[0] != '#' && colon != std::string::npos)
        floors.push_back(line.substr(0, line.find(' ')));
      if (file.path == "DEVELOPERS.md" && line.rfind("| `", 0) == 0) {
        const std::string name = line.substr(3, line.find('`', 3) - 3);
        if (name.find_first_not_of("abcdefghijklmnopqrstuvwxyz") == std::string::npos) mapped.push_back(name);
      }
    }
  }
  ASSERT_GE(floors.size(), 5U) << "cmake/floors.txt was not understood";
  EXPECT_EQ(mapped, floors) << "the map in DEVELOPERS.md and cmake/floors.txt differ";
}

TEST(PlantedPage, ManualGivesCommandsAndOptions) {
  const Manual manual = manual_from(
      ".SS job check FILE\n.SS plan FILE \\-\\-forecast FILE\n.B \\-\\-now TIME\n.B \\-\\-json\n");
  EXPECT_THAT(manual.commands, ElementsAre("job check", "plan"));
  EXPECT_THAT(manual.options, ElementsAre("--forecast", "--json", "--now"));
  EXPECT_THAT(manual.valued, ElementsAre("--forecast", "--now"));
}

const Manual small_manual{{"job check", "plan"}, {"--forecast", "--json", "--now"}, {"--forecast", "--now"}};

TEST(PlantedPage, UnknownCommandsAndOptionsAreFound) {
  EXPECT_THAT(faults_of_page(small_manual, {"a.md", "Say `weatherstruck brew x`.\n"}),
              ElementsAre("a.md:1: no command brew"));
  EXPECT_THAT(
      faults_of_page(small_manual, {"a.md", "```\n$ weatherstruck plan x \\\n    --weather y\n```\n"}),
      ElementsAre("a.md:2: no option --weather"));
  EXPECT_THAT(faults_of_page(small_manual, {"a.md", "    build/release/weatherstruck job chekc x\n"}),
              ElementsAre("a.md:1: no command job"));
}

TEST(PlantedPage, PathsAndLinksThatLeadNowhereAreFound) {
  EXPECT_THAT(faults_of_page(small_manual, {"a.md", "See `src/cellar/wine.cpp`, and `docs/none.md`.\n"}),
              ElementsAre("a.md:1: nothing at src/cellar/wine.cpp", "a.md:1: nothing at docs/none.md"));
  EXPECT_THAT(faults_of_page(small_manual, {"docs/a.md", "[here](../cmake/nothing.txt)\n"}),
              ElementsAre("docs/a.md:1: a link to nothing: ../cmake/nothing.txt"));
}

TEST(PlantedPage, WhatIsThereIsLeftAlone) {
  EXPECT_THAT(faults_of_page(small_manual,
                             {"docs/a.md",
                              "`weatherstruck job check x`, `weatherstruck`, `weatherstruck --now 1 plan x`\n"
                              "`cmake/floors.txt`, `src/<floor>/x.cpp`, `tests/*_test.cpp`\n"
                              "[floors](../cmake/floors.txt) and [the web](https://example.org/src/x)\n"
                              "The words weatherstruck brew outside of code say nothing.\n"}),
              IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::house
