// The job that is 60 bricks short is worked by hand in docs/quantities-worked.md
// (tests/files/worked_job_test.cpp).
#include "weatherstruck/works/shortage.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

/// The demo's base and bed with nothing delivered.
Job short_job() {
  Job job = demo_job();
  job.supplies.deliveries.clear();
  job.importance.push_back({"bed", Importance::may});
  return job;
}

TEST(Shortage, WithoutACountNothingIsKnown) {
  const Job job = short_job();
  EXPECT_TRUE(stock_of(job, bill_of(job)).empty());
}

TEST(Shortage, WhatLiesThereAndWhatIsBroughtStandAgainstTheNeed) {
  Job job = short_job();
  const double need = std::ceil(bill_of(job).total_of("facing-brick"));
  job.supplies.stock = {{"facing-brick", 100}};
  job.supplies.deliveries = {{"facing-brick", 200, job.trip.leave_home}};
  const auto lines = stock_of(job, bill_of(job));
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].needed, need);
  EXPECT_EQ(lines[0].short_by, need - 300);
  job.supplies.stock[0].amount = need;
  EXPECT_EQ(stock_of(job, bill_of(job))[0].spare, 200);
}

// The strip of the demo's bed is 250 deep with 150 of concrete: one whole course of 75 in the ground.
TEST(Shortage, OnlyWholeCoursesInTheGroundAreBuried) {
  EXPECT_EQ(buried_courses(Metres(0.25), Metres(0.15)), 1);
  EXPECT_EQ(buried_courses(Metres(0.3), Metres(0.15)), 2);
  EXPECT_EQ(buried_courses(Metres(0.2), Metres(0.15)), 0);
}

TEST(Shortage, GoodFacesAreNeverBuriedToSaveHardBricks) {
  const CurePlan plan = cure(short_job(), "engineering-brick", 10);
  for (const Cure& one : plan.cures)
    EXPECT_NE(one.instead, "facing-brick");
}

TEST(Shortage, WhatIsBegunIsNotBuriedAndWhatIsFinishedIsNotLowered) {
  Job job = short_job();
  job.supplies.stock = {{"engineering-brick", 400}};
  const CurePlan open = cure(job, "facing-brick", 10);
  ASSERT_FALSE(open.cures.empty());
  EXPECT_EQ(open.cures[0].kind, Cure::Kind::share_out);
  const CurePlan late = cure(job, "facing-brick", 10, {{"bed", "shelter"}, {"bed"}});
  for (const Cure& one : late.cures) {
    EXPECT_EQ(one.kind, Cure::Kind::shrink);
    EXPECT_NE(one.part, "bed");
  }
}

TEST(Shortage, TheLeastImportantGivesWayFirstAndTheSumsAgree) {
  Job job = short_job();
  job.supplies.stock = {{"engineering-brick", 0}};  // none to spare: only lower
  const CurePlan plan = cure(job, "facing-brick", 60);
  ASSERT_GE(plan.cures.size(), 2U);
  EXPECT_EQ(plan.cures[0].part, "bed");
  EXPECT_EQ(plan.cures[1].part, "shelter");
  double freed = 0;
  for (const Cure& one : plan.cures)
    freed += one.frees;
  const auto need = [](const Job& of) { return std::ceil(bill_of(of).total_of("facing-brick") - 1e-6); };
  EXPECT_EQ(freed, need(job) - need(plan.job));
  EXPECT_EQ(plan.still_short, std::max(0.0, 60 - freed));
}

TEST(Shortage, NoPartLosesItsLastSeenCourse) {
  const CurePlan plan = cure(short_job(), "facing-brick", 100000);
  EXPECT_GT(plan.still_short, 0);
  for (const Part& part : plan.job.parts) {
    if (const Base* base = std::get_if<Base>(&part)) {
      EXPECT_GT(base->courses, base->courses_below);
    }
    if (const Bed* bed = std::get_if<Bed>(&part)) {
      EXPECT_GT(bed->courses, bed->courses_below);
    }
  }
}

TEST(Shortage, AMaterialThatIsNoBrickHasNoCure) {
  EXPECT_TRUE(cure(short_job(), "cement", 50).cures.empty());
}

}  // namespace
}  // namespace weatherstruck::works
