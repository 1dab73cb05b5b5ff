#include "weatherstruck/works/clause_split.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "weatherstruck/works/said.h"
#include "works/book_words_support.h"

namespace weatherstruck::works {
namespace {

TEST(ClauseSplit, SeveralPiecesAreReadInTurn) {
  const auto heard = hear(
      "began digging the bed trench at 8, finished it at 10\n- stood down 2 to 3:30, rain; covered the bed "
      "with sheet and "
      "took the canopy down. note all well, and covered");
  ASSERT_EQ(heard.size(), 6U);
  EXPECT_TRUE(std::holds_alternative<Understood>(heard[0].reading));
  for (std::size_t i = 1; i < 6; ++i)
    EXPECT_TRUE(std::holds_alternative<Understood>(heard[i].reading)) << describe(heard[i].reading);
  EXPECT_EQ(std::get<Understood>(heard[1].reading).what, What(Done{"bed-dig", Whole{}}));
  EXPECT_EQ(heard[5].words, "note all well, and covered");
}

TEST(ClauseSplit, ARunOfThingsIsCutWhereEachBegins) {
  const std::vector<std::pair<std::string, std::size_t>> table{
      {"began the north trench of the shelter at 7:40, dug it by 9, 3 courses of bed-lay at 16:00, stood "
       "down "
       "2 to 3:30 rain, gauge 4 mm since 6, 200 facing bricks left",
       6},
      {"covered the bed with sheet at 3:30, bought 2 bags cement 9.80", 2},
      {"bought 2 bags cement 9.80, covered the bed with sheet at 3:30", 2},
      {"bought 2 bags cement 9.80, 200 facing bricks left, minus 2.5 at 7", 3},
      {"unloaded by 9, set out by ten, minus 2.5 C at 7, rained at two", 4},
      {"extra: step at the gate, 80 pounds, agreed with her; note: the dog is loose", 2},
      {"note: the dog is loose; extra: step at the gate, 80 pounds; bought sand for 5", 3},
      {"note the gate must stay shut; the dog is loose, and covered", 1},
      {"level on the bed south footing at 2.4 m, 150 mm down", 1},
      {"did the bed, 3 courses", 1},
      {"stood down 2 to 3:30, rain", 1},
      {"did 3 courses of bed-lay at 3, 2 courses of shelter-lay at 4", 2}};
  for (const auto& [words, count] : table) {
    const auto heard = hear(words);
    EXPECT_EQ(heard.size(), count) << words;
    for (const Heard& one : heard)
      EXPECT_TRUE(std::holds_alternative<Understood>(one.reading))
          << one.words << "\n  " << describe(one.reading);
  }
}

RC_GTEST_PROP(ClauseSplitProperties, PiecesWithTheirTimesMeanTheSameAloneAndTogetherInAnyOrder, ()) {
  static const std::vector<std::string> pieces{"did 3 courses of bed-lay at 3",
                                               "began digging the bed trench at 8",
                                               "dug the bed trench by half nine",
                                               "dug the shelter trenches by 11",
                                               "stood down 2 to 3:30, rain",
                                               "rained at two",
                                               "covered the bed with hessian and sheet at 4",
                                               "took the sheet off the shelter at 7:30",
                                               "canopy up over the bed at 1",
                                               "bought 2 bags cement 9.80 at 12",
                                               "200 facing bricks left at 4",
                                               "3 bags of cement delivered at 9",
                                               "gauge 4 mm from 6 to 9",
                                               "minus 2.5 C at 7",
                                               "level bed-south-footing 2.4 m: -0.15 m at 10",
                                               "set out by ten",
                                               "extra: step at the gate, 80 pounds, agreed with her at 2",
                                               "note at 9: the dog is loose"};
  const auto entries = [](const std::string& text) {
    std::vector<std::string> said;
    for (const Heard& heard : hear(text)) {
      const auto* got = std::get_if<Understood>(&heard.reading);
      if (got == nullptr) RC_LOG() << text << "\n" << describe(heard.reading);
      RC_ASSERT(got != nullptr && got->dated);
      said.push_back(*exact_line(got->what, got->at, job().site.zone));
    }
    return said;
  };
  std::vector<std::string> chosen = pieces;
  for (std::size_t i = chosen.size(); i > 1; --i)
    std::swap(chosen[i - 1], chosen[*rc::gen::inRange<std::size_t>(0, i)]);
  chosen.resize(*rc::gen::inRange<std::size_t>(1, 6));
  std::vector<std::string> alone;
  std::string text;
  for (const std::string& piece : chosen) {
    for (std::string& line : entries(piece))
      alone.push_back(std::move(line));
    const std::string link =
        *rc::gen::elementOf(std::vector<std::string>{", ", "; ", ". ", "\n", " and ", ", then "});
    // A note goes on to the end of its line.
    const bool kept = text.find("note", text.rfind('\n') + 1) != std::string::npos ||
                      text.find("extra", text.rfind('\n') + 1) != std::string::npos;
    text += (text.empty() ? "" : (kept ? "\n" : link)) + piece;
  }
  std::vector<std::string> together = entries(text);
  std::sort(alone.begin(), alone.end());
  std::sort(together.begin(), together.end());
  RC_LOG() << text;
  RC_ASSERT(alone == together);
}

}  // namespace
}  // namespace weatherstruck::works
