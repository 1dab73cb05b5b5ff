#include "weatherstruck/works/own_pace.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/task_list.h"
#include "works/book_support.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using trade::Operation;

const base::Instant long_after = feb(28, 0);

/// Facing bricks of one job that took exp(log) times the norm.
TimedWork facing(const char* job, const char* task, double log) {
  return {job,        task,     "mason",        Operation::lay_facing,
          100,        "bricks", base::Hours(2), base::Hours(2 * std::exp(log)),
          feb(10, 12)};
}
std::vector<LearntPace> learn(std::vector<TimedWork> timed, double stated = 1,
                              const std::vector<PaceStart>& starts = {}) {
  return learn_paces(std::move(timed), starts, "mason", stated, long_after);
}

// By hand: facing ranges from 1/60 to 2.5/60 h a brick, so the whole
// deviation is ln 2.5 / 5.126 = 0.17875, its square 0.031953; half of it is his mean's, 0.49 of the other
// half the trip's. One job with 0.2 and 0.4: 1 / (0.0078285 + 0.0081480 / 2) = 84.02 against 62.59 of what
// was known.
TEST(OwnPace, IsTheMeanOfWhatWasKnownAndWhatWasLoggedByTheirWeights) {
  const std::vector<LearntPace> learnt = learn({facing("a", "x", 0.2), facing("a", "y", 0.4)});
  ASSERT_EQ(learnt.size(), 1U);
  EXPECT_EQ(learnt[0].entries, 2);
  EXPECT_EQ(learnt[0].jobs, 1);
  EXPECT_NEAR(learnt[0].times, 1.18758, 2e-5);
  EXPECT_NEAR(learnt[0].sure, 0.082587, 2e-6);
  EXPECT_NEAR(learnt[0].sigma, 0.15099, 2e-5);
}

TEST(OwnPace, OneJobOfManyTasksIsLessThanManyJobs) {
  std::vector<TimedWork> one_job;
  std::vector<TimedWork> many;
  for (const char* name : {"a", "b", "c", "d", "e", "f"}) {
    one_job.push_back(facing("a", name, 0.4));
    many.push_back(facing(name, "x", 0.4));
  }
  EXPECT_LT(learn(one_job)[0].times, learn(many)[0].times);
  EXPECT_GT(learn(one_job)[0].sure, learn(many)[0].sure);
  EXPECT_LT(learn(many)[0].times, std::exp(0.4)) << "the norm still counts for something";
}

TEST(OwnPace, BeginsFromThePaceHeGives) {
  // Logged just as the norm has it by one who was taken for a third quicker: between the two.
  const double times = learn({facing("a", "x", 0)}, 1.3)[0].times;
  EXPECT_NEAR(times, std::exp(-std::log(1.3) / 2), 1e-6) << "of one task the two weigh the same";
}

TEST(OwnPace, DoesNotHangOnTheOrderInWhichItIsTold) {
  std::vector<TimedWork> told{facing("a", "x", 0.21), facing("b", "x", -0.13), facing("a", "y", 0.37),
                              facing("c", "z", 0.055)};
  const std::vector<LearntPace> once = learn(told);
  std::reverse(told.begin(), told.end());
  EXPECT_EQ(learn(told), once);
  std::swap(told[0], told[2]);
  EXPECT_EQ(learn(told), once);
}

TEST(OwnPace, LeavesOutSlipsOthersWhatIsForgottenAndWhatIsToCome) {
  // Four times as long as the slowest that was seen: an end that was forgotten.
  const std::vector<LearntPace> slips = learn({facing("a", "x", std::log(8)), facing("a", "y", 0.1)});
  EXPECT_EQ(slips[0].slips, 1);
  EXPECT_EQ(slips[0].entries, 1);
  TimedWork mate = facing("a", "x", 0.1);
  mate.person = "mate";
  EXPECT_THAT(learn({mate}), IsEmpty());
  EXPECT_THAT(learn({facing("a", "x", 0.1)}, 1, {{"lay-facing", feb(10, 13)}}), IsEmpty());
  EXPECT_THAT(learn({facing("a", "x", 0.1)}, 1, {{"", feb(10, 13)}}), IsEmpty());
  EXPECT_EQ(learn({facing("a", "x", 0.1)}, 1, {{"", feb(10, 12)}}).size(), 1U);
  EXPECT_EQ(learn({facing("a", "x", 0.1)}, 1, {{"dig", feb(10, 13)}}).size(), 1U);
  EXPECT_THAT(learn_paces({facing("a", "x", 0.1)}, {}, "mason", 1, feb(10, 12)), IsEmpty());
}

TEST(OwnPace, IsToldByTheHourWithEightInTen) {
  const PaceFigures told = pace_figures({Operation::lay_facing, 6, 2, 0, 1.25, 0.05, 0.15});
  EXPECT_NEAR(told.norm, 50, 1e-9);
  EXPECT_NEAR(told.own, 40, 1e-9);
  EXPECT_NEAR(told.low, 40 * std::exp(-1.2816 * 0.15), 1e-9);
  EXPECT_NEAR(told.high, 40 * std::exp(1.2816 * 0.15), 1e-9);
}

class Logged : public testing::Test {
 protected:
  Job job_ = demo_job();
  TaskList list_ = derive_tasks(job_);

  [[nodiscard]] const Task& first(Operation operation) const {
    for (const Task& task : list_.tasks) {
      if (task.operation == operation) return task;
    }
    throw std::logic_error("no such work in the demo");
  }
  [[nodiscard]] std::vector<TimedWork> timed(const std::vector<Entry>& entries) const {
    return timed_work(job_, book_of(entries), long_after);
  }
};

TEST_F(Logged, ATaskWithBeginEndAndAmountIsTimed) {
  const Task& dig = first(Operation::dig);
  const std::vector<TimedWork> found =
      timed({entry("a", feb(9, 8), Begin{dig.name}),
             entry("b", feb(9, 10), Done{dig.name, Share{base::Fraction(0.5)}})});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].task, dig.name);
  EXPECT_EQ(found[0].worked, base::Hours(2));
  EXPECT_DOUBLE_EQ(found[0].amount, dig.amount / 2);
  EXPECT_DOUBLE_EQ(found[0].norm.value(), dig.hours.value() / 2 + dig.set_up.value());
  EXPECT_EQ(found[0].at, feb(9, 10));
}

// Begun again the next day: two set-ups, and no hours of the night. An hour stood down counts nothing.
TEST_F(Logged, EachStartHasItsSetUpAndStandingDownCountsNothing) {
  const Task& dig = first(Operation::dig);
  const std::vector<TimedWork> found =
      timed({entry("a", feb(9, 8), Begin{dig.name}),
             entry("b", feb(9, 10), Done{dig.name, Share{base::Fraction(0.5)}}),
             entry("c", feb(10, 8), Begin{dig.name}),
             entry("r", feb(10, 9), StoodDown{"rain", feb(10, 9), feb(10, 10)}),
             entry("d", feb(10, 11), Done{dig.name, Whole{}})});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].worked, base::Hours(4));
  EXPECT_DOUBLE_EQ(found[0].norm.value(), dig.hours.value() + 2 * dig.set_up.value());
}

TEST_F(Logged, WhatHasNoHoursOrIsAskedAboutTeachesNothing) {
  const Task& dig = first(Operation::dig);
  EXPECT_THAT(timed({entry("a", feb(9, 10), Done{dig.name, Whole{}})}), IsEmpty()) << "no begin";
  EXPECT_THAT(timed({entry("a", feb(9, 8), Begin{dig.name})}), IsEmpty()) << "no amount, and no end";
  EXPECT_THAT(timed({entry("a", feb(9, 8), Begin{dig.name}),
                     entry("b", feb(9, 10), Done{dig.name, Share{base::Fraction(0.5)}}),
                     entry("c", feb(10, 11), Done{dig.name, Whole{}})}),
              IsEmpty())
      << "the second day has no begin";
  EXPECT_THAT(timed({entry("a", feb(9, 8), Begin{dig.name}),
                     entry("b", feb(9, 10), Done{dig.name, Measured{900, ""}}),
                     entry("c", feb(9, 11), Done{dig.name, Whole{}})}),
              IsEmpty())
      << "more than there is";
  EXPECT_THAT(
      timed({entry("a", feb(9, 8), Begin{dig.name}), entry("b", feb(9, 8, 10), Done{dig.name, Whole{}})}),
      IsEmpty())
      << "ten minutes tell nothing";
  job_.crew.push_back({"mate", false, 1.0});
  EXPECT_THAT(
      timed({entry("a", feb(9, 8), Begin{dig.name}), entry("b", feb(9, 12), Done{dig.name, Whole{}})}),
      IsEmpty())
      << "whose hours they were nobody wrote down";
}

// Written late, out of order and wrong at first: what counts in the end is the same.
TEST_F(Logged, LateEntriesAndCorrectionsComeToTheSame) {
  const Task& dig = first(Operation::dig);
  const Task& wheel = first(Operation::wheel_in);
  const std::vector<Entry> in_order{
      entry("a", feb(9, 8), Begin{dig.name}), entry("b", feb(9, 11), Done{dig.name, Whole{}}),
      entry("c", feb(9, 11), Begin{wheel.name}), entry("d", feb(9, 12), Done{wheel.name, Whole{}})};
  Entry wrong = entry("b", feb(9, 10), Done{dig.name, Share{base::Fraction(0.2)}});
  const std::vector<Entry> anyhow{in_order[3], wrong, in_order[2],
                                  late(entry("b2", feb(9, 11), Done{dig.name, Whole{}}, "b"), feb(12, 20)),
                                  late(in_order[0], feb(12, 21))};
  EXPECT_EQ(timed(anyhow), timed(in_order));
  EXPECT_EQ(timed(in_order).size(), 2U);
}

TEST_F(Logged, WhatAJobSetsItselfDoesNotBendWhatIsLearnt) {
  const Task& dig = first(Operation::dig);
  const std::vector<Entry> book{entry("a", feb(9, 8), Begin{dig.name}),
                                entry("b", feb(9, 12), Done{dig.name, Whole{}})};
  const std::vector<TimedWork> plain = timed(book);
  job_.limits.overrides.push_back({"dig", 4.0});
  job_.practice.own_pace.set(Operation::dig, {3, 0.1});
  settle_own_figures(job_);
  EXPECT_EQ(timed(book), plain);
}

TEST_F(Logged, TheNextJobsHoursGoByIt) {
  const std::vector<LearntPace> learnt{{Operation::dig, 3, 1, 0, 1.5, 0.1, 0.2},
                                       {Operation::pour, 0, 0, 1, 1, 0.1, 0.2}};
  Job next = demo_job();
  next.crew.front().pace = 1.2;
  const Task plain = first(Operation::dig);
  put_own_pace(next, learnt);
  const TaskList list = derive_tasks(next);
  const Task& dig = *list.find(plain.name);
  // Placed it is divided by 1.2 again, so he takes 1.5 times the norm.
  EXPECT_DOUBLE_EQ(dig.hours.value(), plain.hours.value() * 1.5 * 1.2);
  ASSERT_TRUE(dig.own_pace);
  EXPECT_EQ(dig.own_pace->sigma, 0.2);
  EXPECT_EQ(next.practice.own_pace.all().size(), 1U) << "a slip teaches nothing";
  Job says_itself = demo_job();
  says_itself.limits.overrides.push_back({"dig", 3.0});
  put_own_pace(says_itself, learnt);
  EXPECT_TRUE(says_itself.practice.own_pace.empty());
  Job crew = demo_job();
  crew.crew.push_back({"mate", true, 1.0});
  put_own_pace(crew, learnt);
  EXPECT_TRUE(crew.practice.own_pace.empty());
}

}  // namespace
}  // namespace weatherstruck::works
