#include "weatherstruck/programme/promise.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "programme/trip_case.h"

namespace weatherstruck::programme {
namespace {

using namespace std::chrono_literals;

constexpr int quick_look = 60;

TEST(Promise, OneThatIsKeptIsForbiddenByNothing) {
  AskedTrip trip{works::demo_job()};
  trip.plan.in_hand = 1h;
  trip.plan.home = trip.job.trip.home_by - 1h;
  trip.plan.left_out.clear();
  EXPECT_FALSE(promise_of(trip.asked()));
}

TEST(Promise, WhatIsNeededIsBorneOutByAPlanAndTheRestAtOnceIsNotEnough) {
  const AskedTrip trip{promised_sooner(36h)};
  const auto promise = promise_of(trip.asked());
  ASSERT_TRUE(promise);
  ASSERT_FALSE(promise->kept_after_all);
  ASSERT_FALSE(promise->together.empty());
  EXPECT_TRUE(std::any_of(promise->together.begin(), promise->together.end(), [](const Forbids& one) {
    return one.alone && one.hindrance.kind == Hindrance::Kind::promise;
  })) << "the demonstration's own promise is a day and a half later";
  for (const Forbids& one : promise->together) {
    ASSERT_EQ(one.mark, Forbids::Mark::needed);
    EXPECT_TRUE(!one.alone || plan_without(trip.asked(), {one.hindrance}, quick_look).keeps_promise);
  }
  EXPECT_FALSE(plan_without(trip.asked(), promise->beside, quick_look).keeps_promise);
}

TEST(Promise, WhatCanBeDoneInsteadIsHomeInTime) {
  const AskedTrip trip{promised_sooner(36h)};
  const auto promise = promise_of(trip.asked());
  ASSERT_TRUE(promise);
  ASSERT_TRUE(promise->instead);
  EXPECT_LE(promise->instead->home, trip.job.trip.home_by);
  EXPECT_FALSE(promise->instead->without.empty() && promise->instead->used.empty());
  for (const works::Name& name : promise->instead->left_out)
    EXPECT_NE(trip.list.find(name)->importance, works::Importance::must) << name;
}

TEST(Promise, WhatTheBudgetDidNotReachIsNotSettledAndTheBudgetHolds) {
  const AskedTrip trip{promised_sooner(36h)};
  const auto promise = promise_of(trip.asked(), 9);
  ASSERT_TRUE(promise);
  EXPECT_LE(promise->plans, 12);
  EXPECT_TRUE(std::any_of(promise->together.begin(), promise->together.end(),
                          [](const Forbids& one) { return one.mark == Forbids::Mark::not_settled; }));
}

TEST(Promise, OutOfEveryReachIsSaidToBeProved) {
  const AskedTrip trip{promised_sooner(80h)};  // eight hours with four of driving
  const auto promise = promise_of(trip.asked());
  ASSERT_TRUE(promise);
  for (const Forbids& one : promise->together)
    EXPECT_TRUE(one.hindrance.kind == Hindrance::Kind::promise || !one.alone);
  EXPECT_TRUE(promise->proved);
}

}  // namespace
}  // namespace weatherstruck::programme
