#include "weatherstruck/works/standing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

base::Instant at(int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / 9) + std::chrono::hours(hour) +
         std::chrono::minutes(minute);
}

Book book_of(const std::vector<std::pair<What, base::Instant>>& said) {
  Book book;
  for (const auto& [what, when] : said)
    book.append({"k" + std::to_string(book.size()), what, when, when, std::nullopt});
  return book;
}

std::vector<std::string> codes(const Standing& standing) {
  std::vector<std::string> list;
  for (const Remark& remark : standing.progress.remarks)
    list.push_back(remark.code);
  return list;
}

TEST(Standing, AnEmptyBookIsTheJobAsDrawn) {
  const Job job = demo_job();
  const Standing standing = standing_of(job, {}, at(12));
  EXPECT_FALSE(standing.book);
  EXPECT_EQ(standing.list.tasks.size(), derive_tasks(job).tasks.size());
  EXPECT_THAT(standing.job.ground, IsEmpty());
}

TEST(Standing, LevelsReadMakeTheStepsAndTheTasksOfTheFooting) {
  const Job job = demo_job();
  const Standing drawn = standing_of(job, {}, at(12));
  // Level along its whole length: no step, so less to dig than on the guessed fall of 150 mm.
  const Standing level =
      standing_of(job,
                  book_of({{LevelRead{"shelter-north-footing", base::Metres(0), base::Metres(1)}, at(8)},
                           {LevelRead{"shelter-north-footing", base::Metres(3), base::Metres(1)}, at(8, 5)}}),
                  at(12));
  ASSERT_EQ(level.job.ground.size(), 1U);
  ASSERT_EQ(level.progress.footings.size(), 1U);
  EXPECT_GT(level.progress.footings.front().steps_before, 0);
  EXPECT_TRUE(level.progress.footings.front().plan.steps.empty());
  const auto amount = [](const Standing& standing, const Name& task) {
    const Task* found = standing.list.find(task);
    return found == nullptr ? -1.0 : found->amount;
  };
  EXPECT_LT(amount(level, "shelter-north-pour"), amount(drawn, "shelter-north-pour"));
  EXPECT_EQ(amount(level, "shelter-south-pour"), amount(drawn, "shelter-south-pour"));
}

TEST(Standing, WhatEndsAtAMomentComesBeforeWhatBeginsAtIt) {
  // Said in the wrong order and at one moment: the keys alone would put the begin first.
  const Standing standing = standing_of(
      demo_job(),
      book_of({{Begin{"unload"}, at(7)}, {Begin{"set-out"}, at(8)}, {Done{"unload", Whole{}}, at(8)}}),
      at(12));
  EXPECT_THAT(codes(standing), testing::Not(testing::Contains("taken-as-done")));
}

TEST(Standing, NobodyIsAskedToWriteDownTheDriveToTheSite) {
  const Standing standing = standing_of(demo_job(), book_of({{Begin{"unload"}, at(7)}}), at(7, 30));
  EXPECT_THAT(codes(standing), testing::Not(testing::Contains("taken-as-done")));
  EXPECT_TRUE(standing.book);
}

TEST(Standing, WallsThatStandHaveAFootingUnderThemThatHadItsTime) {
  const base::Instant next_day = at(16, 10) + std::chrono::hours(24);
  Book book;
  book.append({"k", Done{"bed-lay", Courses{2}}, next_day, next_day, std::nullopt});
  const Standing standing = standing_of(demo_job(), book, next_day + std::chrono::hours(2));
  const TaskProgress& poured = *standing.progress.find("bed-pour");
  EXPECT_TRUE(poured.taken);
  // 12 h in the cold (the limits table) before ten past four is the evening of the day before.
  EXPECT_EQ(poured.finished, at(21));
  EXPECT_LT(*standing.progress.find("bed-dig")->finished, at(21));
  EXPECT_FALSE(standing.progress.find("shelter-north-pour")->finished) << "nothing stands on it";
  EXPECT_FALSE(standing.progress.find("drive-out")->taken) << "the drive is no work on site";
}

TEST(Standing, NobodyPouredBeforeHeCame) {
  const Standing standing =
      standing_of(demo_job(), book_of({{Done{"bed-lay", Courses{2}}, at(16, 10)}}), at(18));
  // He left at 5 and drove for 2 h.
  EXPECT_EQ(standing.progress.find("bed-pour")->finished, at(7));
}

TEST(Standing, WheelingInUsesNothingUp) {
  const auto left = [](const std::vector<std::pair<What, base::Instant>>& said) {
    const Standing standing = standing_of(demo_job(), book_of(said), at(18));
    return *standing.progress.stock_of("cement");
  };
  const Stock counted = left({{StockCount{"cement", 500}, at(7)}});
  const Stock wheeled = left({{StockCount{"cement", 500}, at(7)},
                              {Begin{"shelter-wheel-concrete"}, at(8)},
                              {Done{"shelter-wheel-concrete", Whole{}}, at(9)}});
  const Stock poured = left({{StockCount{"cement", 500}, at(7)},
                             {Begin{"shelter-north-pour"}, at(9)},
                             {Done{"shelter-north-pour", Whole{}}, at(10)}});
  EXPECT_EQ(wheeled.used, 0);
  EXPECT_EQ(*wheeled.left, 500);
  EXPECT_EQ(wheeled.needed, counted.needed);
  EXPECT_GT(poured.used, 0);
  EXPECT_DOUBLE_EQ(*poured.left, 500 - poured.used);
  EXPECT_NEAR(poured.needed, counted.needed - poured.used, 1e-9);
}

TEST(Standing, LevelsThatGiveNoFootingAreAskedAbout) {
  // A fall of 3 m in 3 m is no place for a footing.
  const Standing standing = standing_of(
      demo_job(),
      book_of({{LevelRead{"shelter-north-footing", base::Metres(0), base::Metres(1)}, at(8)},
               {LevelRead{"shelter-north-footing", base::Metres(3), base::Metres(-2)}, at(8, 5)}}),
      at(12));
  EXPECT_THAT(standing.job.ground, IsEmpty());
  EXPECT_THAT(codes(standing), testing::Contains("ground-refused"));
}

}  // namespace
}  // namespace weatherstruck::works
