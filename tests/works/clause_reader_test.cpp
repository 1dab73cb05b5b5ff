#include "weatherstruck/works/clause_reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/book_words_support.h"

namespace weatherstruck::works {
namespace {

using testing::ElementsAre;
using trade::CoverKind;

TEST(ClauseReader, AnAnswerSettlesTheQuestionOfItsPiece) {
  const auto answered = [](const std::string& words, const std::vector<std::string>& choices) {
    Surroundings around = at_ten_past_four();
    around.now = feb(10, 22);
    for (const std::string& choice : choices)
      around.answers.push_back({words, choice});
    const auto heard = hear(words, around);
    EXPECT_TRUE(std::holds_alternative<Understood>(heard.at(0).reading)) << describe(heard[0].reading);
    return std::get<Understood>(heard[0].reading);
  };
  EXPECT_EQ(answered("did 2 courses on the shelter at 4", {"shelter-lay"}).what,
            What(Done{"shelter-lay", Courses{2}}));
  EXPECT_EQ(answered("did 3 courses on the left at 4", {"bed-lay"}).what, What(Done{"bed-lay", Courses{3}}));
  EXPECT_EQ(answered("pointing at 4", {"begun", "bed-lay-point"}).what, What(Begin{"bed-lay-point"}));
  EXPECT_EQ(answered("covered it at 4", {"bed", "hessian and sheet"}).what,
            What(CoverOn{"bed", CoverKind::hessian_and_sheet}));
  EXPECT_EQ(answered("covered the bed with sheet at 8", {"Tue 10 Feb 20:00"}).at, feb(10, 20));
  EXPECT_EQ(answered("canopy up at 4", {"bed"}).what, What(CanopyUp{"bed"}));
}

TEST(ClauseReader, TheTimeJustSaidBeginsAStandDownAndTheRainIsItsCause) {
  for (const char* words : {"rained at two, stood down till four", "stood down till four, rained at two",
                            "rained 2 to 4, stood down"}) {
    const auto heard = hear(words);
    ASSERT_EQ(heard.size(), 1U) << words;
    ASSERT_TRUE(std::holds_alternative<Understood>(heard[0].reading)) << describe(heard[0].reading);
    EXPECT_EQ(std::get<Understood>(heard[0].reading).what, What(StoodDown{"rain", feb(10, 14), feb(10, 16)}));
  }
  const auto worked = hear("finished the bed trench at 2, stood down till four");
  EXPECT_EQ(std::get<Understood>(worked.at(1).reading).what, What(StoodDown{"", feb(10, 14), feb(10, 16)}));
  // What was said of the rain beside its time is not lost.
  EXPECT_EQ(hear("rained on the fresh wall at 2, stood down till four").size(), 2U);
  const auto backwards = hear("rained at 4, stood down till 2");
  EXPECT_TRUE(std::holds_alternative<Question>(backwards.at(1).reading)) << describe(backwards[1].reading);
}

TEST(ClauseReader, ItIsWhatWasNamedLastElseWhatTheBookHasLast) {
  const auto covered = hear("did 3 courses of bed-lay at 3, bought sand for 5, covered it with sheet at 4");
  EXPECT_EQ(std::get<Understood>(covered.at(2).reading).what, What(CoverOn{"bed", CoverKind::sheet}));
  Surroundings around = at_ten_past_four();
  around.worked = {{feb(9, 15), "steps"}, {feb(10, 11), "shelter"}, {feb(10, 15), "bed"}};
  EXPECT_EQ(std::get<Understood>(hear("covered it with sheet at 12", around).at(0).reading).what,
            What(CoverOn{"shelter", CoverKind::sheet}));
  EXPECT_TRUE(std::holds_alternative<Question>(hear("covered it with sheet at 9", around).at(0).reading))
      << "of another day";
  const auto lost = hear("did 3 courses on the left, covered it with sheet", around);
  EXPECT_TRUE(std::holds_alternative<Question>(lost.at(1).reading)) << "it may be what was not understood";
}

TEST(ClauseReader, TheOnlyCoverInTheKitNeedsNoName) {
  Job one = demo_job();
  one.kit.hessian = base::SquareMetres(0);
  const auto heard = BookWords(one, tasks()).read("covered the bed at 3", at_ten_past_four());
  ASSERT_TRUE(std::holds_alternative<Understood>(heard.at(0).reading)) << describe(heard[0].reading);
  EXPECT_EQ(std::get<Understood>(heard[0].reading).what, What(CoverOn{"bed", CoverKind::sheet}));
  const auto asked = hear("covered the bed at 3");
  EXPECT_THAT(std::get<Question>(asked.at(0).reading).candidates,
              ElementsAre("hessian", "sheet", "hessian and sheet"))
      << "mats are not in the kit";
}

TEST(ClauseReader, TheTrenchesAreAllOfThem) {
  const auto heard = hear("dug the shelter trenches by 3");
  std::vector<Name> dug;
  for (const Heard& one : heard) {
    ASSERT_TRUE(std::holds_alternative<Understood>(one.reading)) << describe(one.reading);
    const auto& good = std::get<Understood>(one.reading);
    EXPECT_EQ(good.at, feb(10, 15));
    dug.push_back(std::get<Done>(good.what).task);
  }
  for (const Heard& one : hear("dug the trenches by 3"))
    EXPECT_NE(std::get<Done>(std::get<Understood>(one.reading).what).task, "path-dig") << "no trench";
  EXPECT_THAT(dug, testing::UnorderedElementsAre("shelter-north-dig", "shelter-east-dig", "shelter-south-dig",
                                                 "shelter-west-dig"));
}

}  // namespace
}  // namespace weatherstruck::works
