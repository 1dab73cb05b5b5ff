#include "weatherstruck/programme/why.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "programme/trip_case.h"

namespace weatherstruck::programme {
namespace {

using namespace std::chrono_literals;
base::Instant at(unsigned day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / static_cast<int>(day)) +
         std::chrono::hours(hour) + std::chrono::minutes(minute);
}

TEST(DrawnTogether, StretchesOfOneCauseThatAdjoinAreOneAlsoWhereAnotherCauseRunsBetween) {
  std::vector<Reason> reasons;
  for (int minute = 0; minute < 60; minute += 5) {
    reasons.push_back(
        {{at(10, 19, minute), at(10, 19, minute) + 5min}, "stiffening", "not hard before dark"});
    reasons.push_back({{at(10, 19, minute), at(10, 19, minute) + 5min}, "off-hours", "outside his hours"});
  }
  const std::vector<Held> held = drawn_together(reasons);
  ASSERT_EQ(held.size(), 2U);
  EXPECT_EQ(held[0].span, (Span{at(10, 19), at(10, 20)}));
  EXPECT_EQ(held[1].span, (Span{at(10, 19), at(10, 20)}));
}

TEST(DrawnTogether, WeatherIsToldFromItsLowestToItsHighestFigure) {
  const std::vector<Held> held =
      drawn_together({{{at(11, 7), at(11, 8)}, "cold", "-2 °C, never at 0 or below"},
                      {{at(11, 8), at(11, 9)}, "cold", "-1 °C, never at 0 or below"},
                      {{at(11, 9), at(11, 10)}, "rain", "rain 2.1 mm/h, stops at 0.5"},
                      {{at(11, 10), at(11, 11)}, "rain", "rain 0.6 mm/h, stops at 0.5"}});
  ASSERT_EQ(held.size(), 2U);
  EXPECT_EQ(held[0].text, "-2 to -1 °C, never at 0 or below");
  EXPECT_EQ(held[1].text, "rain 0.6 to 2.1 mm/h, stops at 0.5");
}

TEST(DrawnTogether, OtherWorkOfLikeNameStaysApartAndSoDoesWhatIsHoursLater) {
  const std::vector<Held> held =
      drawn_together({{{at(10, 8), at(10, 9)}, "person", "busy with: Course 3"},
                      {{at(10, 9), at(10, 10)}, "person", "busy with: Course 4"},
                      {{at(10, 12), at(10, 13)}, "person", "busy with: Course 4"}});
  EXPECT_EQ(held.size(), 3U);
}

// By hand: the working day is 07:00 to 21:00; of 19:00 to 09:00 two hours lie in each day's, and where two
// causes hold the first named counts.
TEST(DayByDay, CountsWorkingHoursOnceUnderTheFirstCause) {
  const works::Job job = works::demo_job();
  const auto days =
      day_by_day({{{at(9, 19), at(10, 9)}, "rain", "rain"}, {{at(10, 8), at(10, 10)}, "cold", "cold"}}, job);
  ASSERT_EQ(days.size(), 2U);
  ASSERT_EQ(days[0].shares.size(), 1U);
  EXPECT_EQ(days[0].shares[0].time, 2h);
  ASSERT_EQ(days[1].shares.size(), 2U);
  EXPECT_EQ(days[1].shares[0].code, "rain");
  EXPECT_EQ(days[1].shares[0].time, 2h);
  EXPECT_EQ(days[1].shares[1].time, 1h);
  EXPECT_TRUE(day_by_day({}, job).empty());
}

std::size_t index_of(const AskedTrip& trip, const works::Name& name) {
  for (std::size_t i = 0; i < trip.list.tasks.size(); ++i) {
    if (trip.list.tasks[i].name == name) return i;
  }
  throw std::invalid_argument(name);
}

TEST(Why, GoesBackThroughWhatTheTaskStoodBehindAndTellsNoGainThatNoPlanBearsOut) {
  const AskedTrip trip{works::demo_job()};
  const std::size_t plates = index_of(trip, "shelter-plates");
  ASSERT_TRUE(trip.plan.tasks[plates].placed());
  const Why why = why_of(trip.asked(), plates);
  ASSERT_FALSE(why.behind.empty());
  EXPECT_EQ(why.behind.front(), "shelter-lay") << "plates lie on the top course";
  ASSERT_FALSE(why.lifted.empty());
  const Plan same = plan_without(trip.asked(), {}, 99).plan;
  bool told_gains = true;
  for (const Lifted& one : why.lifted) {
    EXPECT_TRUE(told_gains || !one.gains()) << "what gains comes first";
    told_gains = one.gains();
    const Plan without = plan_without(trip.asked(), {one.hindrance}, 99).plan;
    ASSERT_TRUE(one.home_sooner);
    EXPECT_EQ(*one.home_sooner, *same.home - *without.home);
  }
}

TEST(Why, TimeAtWorkIsNoLessThanThatOfFairWeather) {
  const AskedTrip trip{works::demo_job()};
  const Why why = why_of(trip.asked(), index_of(trip, "shelter-lay"));
  EXPECT_GT(why.in_fair_weather.value(), 1);
  EXPECT_GE(std::chrono::duration<double>(why.at_work).count() / 3600, why.in_fair_weather.value() - 0.1);
}

TEST(Why, OfWorkThatIsBegunNothingIsThoughtAway) {
  AskedTrip trip{works::demo_job()};
  trip.now = trip.plan.home.value() - 1h;
  EXPECT_TRUE(why_of(trip.asked(), index_of(trip, "shelter-lay")).lifted.empty());
}

}  // namespace
}  // namespace weatherstruck::programme
