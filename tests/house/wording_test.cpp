// The tree speaks of the trade and of itself, not of how or where it was written.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "house/source_tree.h"

namespace weatherstruck::house {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// The words are put together here, so that this file does not hold them.
std::vector<std::string> forbidden_anywhere() {
  const std::string root = std::string("/wo") + "rk/";
  return {std::string("trans") + "cript",
          std::string("seed") + " document",
          std::string("tool") + " library",
          root + "main",
          root + "shared",
          root + "."};
}

std::vector<std::string> forbidden_words() {
  return {std::string("age") + "nt",   std::string("age") + "nts",        std::string("hel") + "per",
          std::string("hel") + "pers", std::string("sess") + "ion",       std::string("sess") + "ions",
          std::string("chat") + "bot", std::string("language") + " model"};
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

bool is_letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

// A word of HTTP ("User-Agent") is the protocol's own.
bool is_protocol_term(const std::string& line, std::size_t at) {
  return at >= 5 && (line.compare(at - 5, 4, "user") == 0);
}

bool holds_word(const std::string& line, const std::string& word) {
  for (std::size_t at = line.find(word); at != std::string::npos; at = line.find(word, at + 1)) {
    const bool begins = at == 0 || !is_letter(line[at - 1]);
    const std::size_t end = at + word.size();
    const bool ends = end == line.size() || !is_letter(line[end]);
    if (begins && ends && !is_protocol_term(line, at)) return true;
  }
  return false;
}

std::vector<std::string> slips_in(const std::vector<SourceFile>& files) {
  std::vector<std::string> slips;
  for (const SourceFile& file : files) {
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string line = lower(lines[i]);
      const std::string where = file.path + ":" + std::to_string(i + 1) + ": ";
      for (const std::string& words : forbidden_anywhere()) {
        if (line.find(words) != std::string::npos) slips.push_back(where + words);
      }
      for (const std::string& word : forbidden_words()) {
        if (holds_word(line, word)) slips.push_back(where + word);
      }
    }
  }
  return slips;
}

TEST(Wording, TreeHoldsNoForbiddenWords) {
  const std::vector<SourceFile> files = read_tree("");
  ASSERT_GE(files.size(), 10U) << "the tree was not found";
  for (const std::string& slip : slips_in(files))
    ADD_FAILURE() << slip;
}

TEST(Wording, PlantedWordsAreFound) {
  for (const std::string& word : forbidden_words()) {
    EXPECT_THAT(slips_in({{"a.md", "fine\nthe " + word + ".\n"}}), ElementsAre("a.md:2: " + word));
  }
  for (const std::string& words : forbidden_anywhere()) {
    EXPECT_THAT(slips_in({{"a.md", "x" + words + "y\n"}}), ElementsAre(HasSubstr("a.md:1: ")));
  }
}

TEST(Wording, InnocentWordsAreLeftAlone) {
  const std::string user = std::string("User-Age") + "nt: weatherstruck";
  EXPECT_THAT(slips_in({{"a.cpp", user + "\nwetting reagent\n/workshop/main\n"}}), IsEmpty());
}

// Marks of work left undone.
TEST(Wording, NothingIsLeftForLater) {
  const std::vector<std::string> marks{std::string("TO") + "DO", std::string("FIX") + "ME",
                                       std::string("XX") + "X:"};
  for (const std::string folder : {"include", "src", "tests", "cmake", "scripts"}) {
    for (const SourceFile& file : read_tree(folder)) {
      for (const std::string& mark : marks) {
        EXPECT_EQ(file.text.find(mark), std::string::npos) << file.path << " holds " << mark;
      }
    }
  }
}

}  // namespace
}  // namespace weatherstruck::house
