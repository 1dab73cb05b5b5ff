#include "weatherstruck/works/progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/progress_support.h"

namespace weatherstruck::works {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using trade::CoverKind;

TEST(Progress, AnEmptyBookIsAJobNotBegun) {
  const Progress progress = fold({});
  ASSERT_EQ(progress.tasks.size(), 3U);
  for (const TaskProgress& task : progress.tasks) {
    EXPECT_EQ(task.done, 0);
    EXPECT_FALSE(task.begun);
  }
  EXPECT_THAT(progress.remarks, IsEmpty());
  EXPECT_EQ(progress.find("nothing"), nullptr);
}

TEST(Progress, AmountsAddUpAndTheLastFinishes) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 9), Done{"dig", Measured{0.5, "m3"}}),
            entry("c", feb(10, 10), Done{"dig", Share{base::Fraction(0.75)}}),
            entry("d", feb(10, 11), Done{"dig", Measured{0.5, ""}})});
  const TaskProgress& dig = state_of(progress, "dig");
  EXPECT_DOUBLE_EQ(dig.done, 2);
  EXPECT_EQ(dig.begun, feb(10, 8));
  EXPECT_EQ(dig.finished, feb(10, 11));
  EXPECT_DOUBLE_EQ(dig.worked.value(), 3);
  EXPECT_THAT(progress.remarks, IsEmpty());
}

TEST(Progress, CoursesAreCountedFromTheLowest) {
  const std::vector<Entry> dug{entry("a", feb(10, 8), Begin{"dig"}),
                               entry("b", feb(10, 9), Done{"dig", Whole{}}),
                               entry("c", feb(10, 9), Begin{"lay"})};
  std::vector<Entry> entries = dug;
  entries.push_back(entry("d", feb(10, 10), Done{"lay", Measured{10, "bricks"}}));
  EXPECT_EQ(state_of(fold(entries), "lay").courses_done, 0);
  entries.push_back(entry("e", feb(10, 12), Done{"lay", Courses{2}}));
  const Progress after = fold(entries);
  EXPECT_DOUBLE_EQ(state_of(after, "lay").done, 60);
  EXPECT_EQ(state_of(after, "lay").courses_done, 2);
  EXPECT_FALSE(state_of(after, "lay").finished);
}

TEST(Progress, MoreThanThereIsIsAskedAndNotCounted) {
  const Progress progress = fold(
      {entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 9), Done{"dig", Measured{2.5, "m3"}}),
       entry("c", feb(10, 10), Done{"dig", Whole{}}), entry("d", feb(10, 11), Begin{"lay"}),
       entry("e", feb(10, 12), Done{"lay", Courses{3}}), entry("f", feb(10, 13), Done{"lay", Courses{2}})});
  EXPECT_THAT(codes_of(progress), ElementsAre("more-than-there-is", "more-than-there-is"));
  EXPECT_EQ(progress.remarks[0].kind, Remark::Kind::question);
  EXPECT_EQ(progress.remarks[0].entry, "b");
  EXPECT_THAT(progress.remarks[1].text, HasSubstr("1 courses left, and 2 were logged"));
  EXPECT_DOUBLE_EQ(state_of(progress, "lay").done, 75);
}

TEST(Progress, WhatDoesNotFitTheTaskIsAsked) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 9), Done{"dig", Courses{1}}),
            entry("c", feb(10, 10), Done{"dig", Measured{1, "loads"}}),
            entry("d", feb(10, 11), Done{"dig", Share{base::Fraction(0.5)}}),
            entry("e", feb(10, 12), Done{"dig", Share{base::Fraction(0.25)}})});
  EXPECT_THAT(codes_of(progress), ElementsAre("not-in-courses", "other-unit", "less-than-before"));
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").done, 1);
}

TEST(Progress, WorkDoneBeforeItsBeginIsAsked) {
  const Progress progress =
      fold({entry("a", feb(10, 9), Done{"dig", Whole{}}), entry("b", feb(10, 10), Begin{"dig"})});
  EXPECT_THAT(codes_of(progress), ElementsAre("done-before-begun", "finished-already", "left-open"));
  EXPECT_EQ(progress.remarks[0].kind, Remark::Kind::question);
}

TEST(Progress, WorkWithoutABeginCountsButItsHoursDoNot) {
  const Progress progress = fold({entry("a", feb(10, 9), Done{"dig", Whole{}})});
  EXPECT_THAT(codes_of(progress), ElementsAre("no-begin"));
  EXPECT_EQ(progress.remarks[0].kind, Remark::Kind::advice);
  EXPECT_TRUE(state_of(progress, "dig").finished);
  EXPECT_EQ(state_of(progress, "dig").worked.value(), 0);
}

TEST(Progress, WhatMustHaveComeFirstIsTakenAsDoneByThenAtTheLatest) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"lay"}), entry("b", feb(10, 9), Done{"lay", Courses{1}})});
  EXPECT_THAT(codes_of(progress), ElementsAre("taken-as-done"));
  EXPECT_EQ(progress.remarks[0].kind, Remark::Kind::advice);
  EXPECT_EQ(
      progress.remarks[0].text,
      "Taken as done, since \"Lay courses 1 to 4\" was begun: \"Dig the trench\". Log it if you know when.");
  EXPECT_DOUBLE_EQ(state_of(progress, "lay").done, 25);
  const TaskProgress& dig = state_of(progress, "dig");
  EXPECT_TRUE(dig.taken);
  EXPECT_EQ(dig.finished, feb(10, 8));
  EXPECT_DOUBLE_EQ(dig.done, 2);
  EXPECT_EQ(dig.worked.value(), 0) << "nobody knows how long it took";
  EXPECT_FALSE(state_of(progress, "lay").taken);
}

TEST(Progress, AWholeChainIsTakenAsDoneAndSaidOnce) {
  const Progress progress = fold({entry("a", feb(10, 8), Begin{"point"})}, feb(10, 9));
  EXPECT_THAT(codes_of(progress), ElementsAre("taken-as-done"));
  EXPECT_THAT(progress.remarks[0].text, HasSubstr("\"Dig the trench\" and \"Lay courses 1 to 4\""));
  EXPECT_EQ(state_of(progress, "lay").courses_done, 4);
  EXPECT_LT(*state_of(progress, "dig").finished, *state_of(progress, "lay").finished);
}

TEST(Progress, WhatTheBookSaysOfEarlierWorkIsNotTakenAnotherWay) {
  const std::vector<Entry> laid{entry("a", feb(10, 8), Begin{"lay"})};
  std::vector<Entry> half = laid;
  half.push_back(entry("b", feb(10, 7), Done{"dig", Share{base::Fraction(0.5)}}));
  EXPECT_TRUE(state_of(fold(half), "dig").taken) << "the rest of it was dug before eight";
  std::vector<Entry> later = laid;
  later.push_back(entry("b", feb(10, 9), Done{"dig", Share{base::Fraction(0.5)}}));
  const Progress asked = fold(later, feb(10, 9, 30));
  EXPECT_FALSE(state_of(asked, "dig").finished);
  EXPECT_THAT(codes_of(asked), ElementsAre("needs-first", "no-begin"));
  EXPECT_EQ(asked.remarks[0].kind, Remark::Kind::question);
  EXPECT_THAT(asked.remarks[0].text, HasSubstr("Which of the two is wrong?"));
  std::vector<Entry> finished = laid;
  finished.push_back(entry("b", feb(10, 9), Done{"dig", Whole{}}));
  EXPECT_FALSE(state_of(fold(finished), "dig").taken);
  EXPECT_EQ(state_of(fold(finished), "dig").finished, feb(10, 9));
}

TEST(Progress, WhatWasTakenAsDoneDrewItsMaterialUnlessItWasCountedSince) {
  std::vector<Entry> entries{entry("a", feb(10, 7), StockCount{"facing-brick", 200}),
                             entry("b", feb(10, 8), Begin{"point"})};
  EXPECT_DOUBLE_EQ(fold(entries).stock_of("facing-brick")->used, 105);
  EXPECT_DOUBLE_EQ(fold(entries).stock_of("facing-brick")->needed, 0);
  entries.push_back(entry("c", feb(10, 9), StockCount{"facing-brick", 80}));
  EXPECT_DOUBLE_EQ(*fold(entries).stock_of("facing-brick")->left, 80);
}

TEST(Progress, AnUnknownTaskOrPartIsAFault) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"roof"}), entry("b", feb(10, 9), CoverOn{"roof", CoverKind::sheet}),
            entry("c", feb(10, 9), Note{"x"}, "zz")});
  EXPECT_THAT(codes_of(progress), ElementsAre("corrects-unknown", "unknown-task", "unknown-part"));
  EXPECT_EQ(progress.remarks[0].entry, "c");
  for (const Remark& remark : progress.remarks)
    EXPECT_EQ(remark.kind, Remark::Kind::fault);
  EXPECT_THAT(progress.covers, IsEmpty());
}

TEST(Progress, HoursLeaveOutTheTimeStoodDown) {
  const Progress progress = fold({entry("a", feb(10, 8), Begin{"dig"}),
                                  entry("b", feb(10, 9), StoodDown{"rain", feb(10, 9), feb(10, 10, 30)}),
                                  entry("c", feb(10, 10), StoodDown{"hail", feb(10, 10), feb(10, 11)}),
                                  entry("d", feb(10, 12), Done{"dig", Whole{}})});
  // 8 to 12 less 9 to 11: the two overlap.
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").worked.value(), 2);
  EXPECT_EQ(progress.stood_down.size(), 2U);
}

TEST(Progress, OnePersonLeavesATaskByBeginningAnother) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 10), Begin{"point"}),
            entry("c", feb(10, 11), Done{"point", Whole{}}), entry("d", feb(10, 11), Begin{"dig"}),
            entry("e", feb(10, 12), Done{"dig", Whole{}})});
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").worked.value(), 3);
  EXPECT_DOUBLE_EQ(state_of(progress, "point").worked.value(), 1);
  ASSERT_EQ(state_of(progress, "dig").runs.size(), 2U);
  EXPECT_EQ(state_of(progress, "dig").runs[0].to, feb(10, 10));
}

TEST(Progress, ACrewSharesItsHoursBetweenOpenTasks) {
  Job job = demo_job();
  job.crew.push_back({"mate", false, 1.0});
  const TaskList list = small_list();
  const Progress progress = progress_of(
      job, list,
      book_of({entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 10), Begin{"lay"}),
               entry("c", feb(10, 12), Done{"dig", Whole{}}), entry("d", feb(10, 13), Done{"lay", Whole{}})}),
      feb(10, 20));
  // Two people: two hours both digging, two hours one at each, an hour both laying.
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").worked.value(), 6);
  EXPECT_DOUBLE_EQ(state_of(progress, "lay").worked.value(), 4);
}

TEST(Progress, ARunNobodyEndedStopsWithTheWorkingDayAndIsAsked) {
  const Progress progress =
      fold({entry("a", feb(10, 19), Begin{"dig"}), entry("b", feb(11, 9), Done{"dig", Whole{}})});
  // The invented job works until 21:00.
  ASSERT_EQ(state_of(progress, "dig").runs.size(), 1U);
  EXPECT_EQ(state_of(progress, "dig").runs[0].to, feb(10, 21));
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").worked.value(), 2);
  EXPECT_THAT(codes_of(progress), ElementsAre("left-open"));
  EXPECT_EQ(progress.remarks[0].entry, "a");
}

TEST(Progress, WorkInHandIsOpenAndLaterEntriesAreNotYet) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 12), Done{"dig", Whole{}})}, feb(10, 9));
  ASSERT_EQ(state_of(progress, "dig").runs.size(), 1U);
  EXPECT_TRUE(state_of(progress, "dig").runs[0].open);
  EXPECT_DOUBLE_EQ(state_of(progress, "dig").worked.value(), 1);
  EXPECT_EQ(state_of(progress, "dig").done, 0);
}

TEST(Progress, CoversAreOnSinceWhenTheyWerePut) {
  const Progress progress = fold({entry("a", feb(10, 17), CoverOn{"bed", CoverKind::hessian}),
                                  entry("b", feb(10, 18), CoverOn{"bed", CoverKind::sheet}),
                                  entry("c", feb(10, 18), CoverOn{"shelter-north", CoverKind::mat}),
                                  entry("d", feb(11, 7), CoverOff{"bed", CoverKind::sheet}),
                                  entry("e", feb(11, 8), CoverOff{"shelter-north", std::nullopt})});
  ASSERT_NE(progress.cover_on("bed"), nullptr);
  EXPECT_EQ(progress.cover_on("bed")->kind, CoverKind::hessian);
  EXPECT_EQ(progress.cover_on("bed")->from, feb(11, 7));
  EXPECT_EQ(progress.cover_on("shelter-north"), nullptr);
  EXPECT_THAT(progress.covers,
              ElementsAre(Cover{"bed", CoverKind::hessian, feb(10, 17), feb(10, 18)},
                          Cover{"bed", CoverKind::hessian_and_sheet, feb(10, 18), feb(11, 7)},
                          Cover{"shelter-north", CoverKind::mat, feb(10, 18), feb(11, 8)},
                          Cover{"bed", CoverKind::hessian, feb(11, 7), std::nullopt}));
  EXPECT_THAT(progress.remarks, IsEmpty());
}

TEST(Progress, CoversThatDoNotAgreeAreAsked) {
  const Progress progress = fold({entry("a", feb(10, 17), CoverOff{"bed", std::nullopt}),
                                  entry("b", feb(10, 18), CoverOn{"bed", CoverKind::mat}),
                                  entry("c", feb(10, 19), CoverOff{"bed", CoverKind::sheet}),
                                  entry("d", feb(10, 20), CoverOn{"bed", CoverKind::mat})});
  EXPECT_THAT(codes_of(progress), ElementsAre("not-covered", "other-cover", "covered-already"));
  EXPECT_EQ(progress.cover_on("bed")->from, feb(10, 18));
}

TEST(Progress, TheCanopyStandsInOnePlace) {
  std::vector<Entry> entries{entry("a", feb(10, 9), CanopyUp{"bed"}),
                             entry("b", feb(10, 12), CanopyUp{"shelter"})};
  EXPECT_EQ(fold(entries).canopy_up()->part, "shelter");
  entries.push_back(entry("c", feb(10, 17), CanopyDown{}));
  entries.push_back(entry("d", feb(10, 18), CanopyDown{}));
  const Progress progress = fold(entries);
  EXPECT_EQ(progress.canopy_up(), nullptr);
  EXPECT_THAT(progress.canopy, ElementsAre(Cover{"bed", CoverKind::canopy, feb(10, 9), feb(10, 12)},
                                           Cover{"shelter", CoverKind::canopy, feb(10, 12), feb(10, 17)}));
  EXPECT_THAT(codes_of(progress), ElementsAre("canopy-not-up"));
}

TEST(Progress, StockIsWhatWasCountedLessWhatTheWorkDrew) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Begin{"lay"}), entry("b", feb(10, 9), Done{"lay", Courses{1}}),
            entry("c", feb(10, 9), StockCount{"facing-brick", 60}),
            entry("d", feb(10, 11), Done{"lay", Courses{1}}),
            entry("e", feb(10, 12), Arrived{"facing-brick", 10})});
  const Stock& bricks = *progress.stock_of("facing-brick");
  // A course draws 105 / 4 = 26.25; two are to come, 52.5; 60 - 26.25 + 10 = 43.75 are left.
  EXPECT_EQ(bricks.counted_at, feb(10, 9));
  EXPECT_DOUBLE_EQ(bricks.used, 26.25);
  EXPECT_DOUBLE_EQ(*bricks.left, 43.75);
  EXPECT_DOUBLE_EQ(bricks.needed, 52.5);
  EXPECT_DOUBLE_EQ(*bricks.short_by, 8.75);
  EXPECT_FALSE(progress.stock_of("cement")->left);
}

TEST(Progress, WorkThatIsThereOnlyOneWayIsNeededOnlyThen) {
  // Struck as usual: 50 kg. Raked, so that it is pointed: 10 more, and what is pointed has been laid.
  EXPECT_DOUBLE_EQ(fold({}).stock_of("cement")->needed, 50);
  const Progress pointed = fold({entry("a", feb(10, 8), Begin{"point"})});
  EXPECT_EQ(state_of(pointed, "lay").way, "rake");
  EXPECT_DOUBLE_EQ(pointed.stock_of("cement")->needed, 10);
  EXPECT_DOUBLE_EQ(pointed.stock_of("cement")->used, 50);
}

TEST(Progress, StockThatMustHaveRunOutIsAsked) {
  const Progress progress =
      fold({entry("a", feb(10, 8), StockCount{"facing-brick", 20}), entry("b", feb(10, 9), Begin{"lay"}),
            entry("c", feb(10, 10), Done{"lay", Courses{2}})});
  EXPECT_THAT(codes_of(progress), ElementsAre("taken-as-done", "stock-below-nought"));
  EXPECT_EQ(*progress.stock_of("facing-brick")->left, 0);
}

TEST(Progress, LevelsMoveTheStepsAndTheCourses) {
  const auto level = [](double along, double height) {
    return LevelRead{"shelter-north-footing", base::Metres(along), base::Metres(height)};
  };
  // Guessed: 150 mm of fall, so two steps of a course. Read: 75 mm, one step; a wall of 6 at the high end
  // ends in 7. (A course is 75 mm: brick 65 and joint 10.)
  const Progress progress =
      fold({entry("a", feb(9, 10), level(0, 1.30)), entry("b", feb(9, 10, 5), level(3.3, 1.20)),
            entry("c", feb(9, 10, 10), level(3.3, 1.225))});
  ASSERT_EQ(progress.footings.size(), 1U);
  const FootingRead& north = progress.footings[0];
  EXPECT_EQ(north.steps_before, 2);
  EXPECT_EQ(north.extra_before, 2);
  ASSERT_EQ(north.levels.size(), 2U);
  EXPECT_NEAR(north.levels[1].below.value(), 0.075, 1e-12);
  EXPECT_EQ(north.plan.steps.size(), 1U);
  EXPECT_EQ(north.plan.extra_courses(), 1);
  EXPECT_THAT(progress.walls, ElementsAre(WallCourses{"shelter-north", 8, 7}));
  EXPECT_THAT(progress.remarks, IsEmpty());
}

TEST(Progress, LevelsThatCannotBeAreRefusedOrAsked) {
  const auto level = [](const char* part, double along, double height) {
    return LevelRead{part, base::Metres(along), base::Metres(height)};
  };
  const Progress progress = fold({entry("a", feb(9, 10), level("bed", 0, 0)),
                                  entry("b", feb(9, 11), level("bed-south-footing", 9, 0)),
                                  entry("c", feb(9, 12), level("bed-south-footing", 0, 0)),
                                  entry("d", feb(9, 13), level("shelter-north-footing", 0, 0)),
                                  entry("e", feb(9, 14), level("shelter-north-footing", 3, 0.2))});
  EXPECT_THAT(codes_of(progress),
              ElementsAre("unknown-footing", "beyond-the-end", "ground-rises", "one-level"));
  ASSERT_EQ(progress.footings.size(), 1U);
  EXPECT_THAT(progress.footings[0].plan.steps, IsEmpty());
}

TEST(Progress, MoneyNotesAndReadingsAreKeptWithTheirMoments) {
  const Progress progress =
      fold({entry("a", feb(10, 8), Expense{"sand", base::Money(3450, sterling()), "12"}),
            entry("b", feb(10, 9), Extra{"step", "", std::nullopt}), entry("c", feb(10, 10), Note{"dog"}),
            entry("d", feb(10, 11), Thermometer{base::Celsius(-2)}),
            entry("e", feb(10, 12), Gauge{base::Millimetres(4), feb(10, 6)})});
  EXPECT_EQ(progress.expenses.at(0).what.money.text(), "34.50 GBP");
  EXPECT_EQ(progress.extras.at(0).at, feb(10, 9));
  EXPECT_EQ(progress.notes.at(0).what.text, "dog");
  EXPECT_THAT(progress.temperatures, ElementsAre(TemperatureRead{feb(10, 11), base::Celsius(-2)}));
  EXPECT_THAT(progress.rain, ElementsAre(RainRead{feb(10, 6), feb(10, 12), base::Millimetres(4)}));
  EXPECT_THAT(codes_of(progress), ElementsAre("agreed-by"));
}

}  // namespace
}  // namespace weatherstruck::works
