#include "weatherstruck/sky/series.h"

#include <cmath>

#include <gtest/gtest.h>

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

Series three_hours() {
  Series series;
  for (int i = 0; i < 3; ++i) {
    Hour hour;
    hour.start = Instant(hours(100 + i));
    series.hours.push_back(hour);
  }
  return series;
}

TEST(Series, FindsTheHourThatHoldsAMoment) {
  const Series series = three_hours();
  EXPECT_EQ(series.at(Instant(hours(101))), &series.hours[1]);
  EXPECT_EQ(series.at(Instant(hours(101) + minutes(59) + seconds(59))), &series.hours[1]);
  EXPECT_EQ(series.at(Instant(hours(102) + minutes(59))), &series.hours[2]);
}

TEST(Series, HasNothingOutsideItsHours) {
  const Series series = three_hours();
  EXPECT_EQ(series.at(Instant(hours(100)) - seconds(1)), nullptr);
  EXPECT_EQ(series.at(series.end_time()), nullptr);
  EXPECT_EQ(Series{}.at(Instant(hours(100))), nullptr);
}

TEST(Quantised, RoundsHalvesAwayFromZero) {
  EXPECT_DOUBLE_EQ(quantised(base::Celsius(0.25)).value(), 0.3);
  EXPECT_DOUBLE_EQ(quantised(base::Celsius(-0.25)).value(), -0.3);
  EXPECT_DOUBLE_EQ(quantised(base::Millimetres(0.04)).value(), 0.0);
  EXPECT_DOUBLE_EQ(quantised(base::MetresPerSecond(7.96)).value(), 8.0);
  EXPECT_DOUBLE_EQ(quantised(base::Fraction(0.863)).value(), 0.86);
  EXPECT_DOUBLE_EQ(quantised(base::Fraction(0.125)).value(), 0.13);
}

TEST(Quantised, NeverGivesANegativeZero) {
  EXPECT_FALSE(std::signbit(quantised(base::Celsius(-0.04)).value()));
}

}  // namespace
}  // namespace weatherstruck::sky
