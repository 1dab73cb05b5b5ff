#include "weatherstruck/programme/hindrance.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "programme/trip_case.h"

namespace weatherstruck::programme {
namespace {

constexpr int few = 40;

int count(const std::vector<Hindrance>& all, Hindrance::Kind kind) {
  return static_cast<int>(
      std::count_if(all.begin(), all.end(), [&](const Hindrance& one) { return one.kind == kind; }));
}

TEST(Hindrances, AreThoseThatAreSo) {
  const AskedTrip trip{works::demo_job()};
  const std::vector<Hindrance> all = hindrances_of(trip.asked());
  EXPECT_EQ(count(all, Hindrance::Kind::dark), 0) << "he has lights";
  EXPECT_EQ(count(all, Hindrance::Kind::fixed_times), 0);
  EXPECT_EQ(count(all, Hindrance::Kind::hands), 1);
  EXPECT_EQ(count(all, Hindrance::Kind::delivery), 1) << "it comes three quarters of an hour after him";
  EXPECT_EQ(count(all, Hindrance::Kind::part), 4);
  EXPECT_EQ(count(all, Hindrance::Kind::promise), 1) << "the forecast reaches beyond it";
  EXPECT_GT(count(all, Hindrance::Kind::wait), 1);
  EXPECT_GT(count(all, Hindrance::Kind::rain), 0);
  EXPECT_LE(count(all, Hindrance::Kind::rain), 4) << "of four days";
}

TEST(Hindrances, WhatIsBegunIsNoMoreToBeLeftOut) {
  AskedTrip trip{works::demo_job()};
  trip.now = trip.plan.home.value() - std::chrono::hours(5);
  EXPECT_LT(count(hindrances_of(trip.asked()), Hindrance::Kind::part), 4);
  EXPECT_EQ(count(hindrances_of(trip.asked()), Hindrance::Kind::delivery), 0);
}

TEST(PlanWithout, HasNoWorkOfAPartThatIsThoughtAway) {
  const AskedTrip trip{works::demo_job()};
  const Without less = plan_without(trip.asked(), {{Hindrance::Kind::part, {}, "bed"}}, few);
  EXPECT_TRUE(std::none_of(less.plan.tasks.begin(), less.plan.tasks.end(),
                           [](const PlannedTask& task) { return task.task.rfind("bed-", 0) == 0; }));
  EXPECT_LT(less.plan.tasks.size(), trip.plan.tasks.size());
}

TEST(PlanWithout, AWaitThatIsThoughtAwayIsWaitedForNoMore) {
  const AskedTrip trip{works::demo_job()};
  const auto waits = [](const Plan& plan) {
    return std::count_if(plan.waits.begin(), plan.waits.end(), [](const PlannedWait& wait) {
      return wait.wait == works::Wait::concrete_to_lay && wait.part.rfind("shelter", 0) == 0;
    });
  };
  ASSERT_GT(waits(trip.plan), 0);
  const Hindrance wait{Hindrance::Kind::wait, {}, "shelter", works::Wait::concrete_to_lay};
  EXPECT_EQ(waits(plan_without(trip.asked(), {wait}, few).plan), 0);
}

TEST(PlanWithout, TellsAPromiseThatNobodyCanKeepFromOneThatThePlanMisses) {
  const AskedTrip hopeless{promised_sooner(std::chrono::hours(72))};
  const Without same = plan_without(hopeless.asked(), {}, few);
  EXPECT_FALSE(same.keeps_promise);
  EXPECT_TRUE(same.out_of_reach) << "sixteen hours with four of driving";
  const Without later = plan_without(hopeless.asked(), {{Hindrance::Kind::promise, {}, {}}}, 2 * few);
  EXPECT_TRUE(later.keeps_promise);
  EXPECT_FALSE(later.out_of_reach);
}

TEST(PlanWithout, DryDaysStopNothingForRain) {
  const AskedTrip trip{works::demo_job()};
  std::vector<Hindrance> rain;
  for (const Hindrance& one : hindrances_of(trip.asked())) {
    if (one.kind == Hindrance::Kind::rain) rain.push_back(one);
  }
  ASSERT_FALSE(rain.empty());
  const Plan dry = plan_without(trip.asked(), rain, few).plan;
  for (const PlannedTask& task : dry.tasks) {
    for (const Reason& reason : task.reasons)
      EXPECT_NE(reason.code, "rain") << task.task;
  }
}

}  // namespace
}  // namespace weatherstruck::programme
