#include "weatherstruck/programme/second_opinion.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "programme/planned_case.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::hours;

class SecondForecast : public testing::Test {
 protected:
  static const PlannedCase& week() {
    static const PlannedCase one(works::demo_job(), demo_week());
    return one;
  }
  static const Plan& plan() {
    static const Plan made = make_plan(week().request(0, 100)).plan;
    return made;
  }
  static std::optional<SecondOpinion> held(const sky::Series& other, base::Instant now) {
    const PlannedCase& c = week();
    return second_opinion({c.job, c.list, c.weather, other, c.limits, plan(), now});
  }
  static base::Instant leave() { return week().job.trip.leave_home; }
};

TEST_F(SecondForecast, TheSameForecastAgainChangesNothing) {
  const auto second = held(week().weather, leave());
  ASSERT_TRUE(second);
  EXPECT_FALSE(second->differs());
  EXPECT_EQ(second->later, std::chrono::seconds(0));
  EXPECT_EQ(second->home, plan().home);
  EXPECT_TRUE(second->spoilt.empty());
}

TEST_F(SecondForecast, AWetterOneBringsHimHomeLaterOrLeavesWorkOut) {
  sky::Series wet = week().weather;
  wet.source = "Other";
  for (sky::Hour& hour : wet.hours) {
    // Tuesday in the working day.
    if (hour.start >= leave() + hours(26) && hour.start < leave() + hours(38))
      hour.rain = {base::Millimetres(4)};
  }
  const auto second = held(wet, leave());
  ASSERT_TRUE(second);
  EXPECT_TRUE(second->differs());
  EXPECT_EQ(second->source, "Other");
  EXPECT_TRUE(!second->left_out.empty() || (second->later && *second->later > std::chrono::seconds(0)) ||
              !second->home);
}

TEST_F(SecondForecast, AHardFrostSpoilsWhatThePlanKeepsAgainstAMildNight) {
  sky::Series frost = week().weather;
  for (sky::Hour& hour : frost.hours) {
    if (hour.start >= leave() + hours(12)) hour.temperature = {base::Celsius(-12)};
  }
  const auto second = held(frost, leave());
  ASSERT_TRUE(second);
  EXPECT_THAT(second->spoilt, testing::Not(testing::IsEmpty()));
}

TEST_F(SecondForecast, OneThatIsOverOrBeginsAfterTheTripSaysNothing) {
  sky::Series early = week().weather;
  early.hours.resize(2);
  EXPECT_FALSE(held(early, leave() + hours(3)));
  sky::Series late = week().weather;
  for (sky::Hour& hour : late.hours)
    hour.start += std::chrono::days(30);
  EXPECT_FALSE(held(late, leave()));
  EXPECT_FALSE(held(sky::Series{}, leave()));
}

TEST_F(SecondForecast, WhatIsGoneByIsNotForecastAnew) {
  sky::Series wet = week().weather;
  for (sky::Hour& hour : wet.hours) {
    if (hour.start < leave() + hours(14)) hour.rain = {base::Millimetres(9)};
  }
  const auto second = held(wet, leave() + hours(15));
  ASSERT_TRUE(second);
  EXPECT_FALSE(second->differs());
}

}  // namespace
}  // namespace weatherstruck::programme
