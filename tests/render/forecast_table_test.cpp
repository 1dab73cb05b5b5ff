#include "weatherstruck/render/forecast_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::HasSubstr;
using testing::Not;

TEST(ForecastTable, GoesByThreeHoursOfTheSitesClock) {
  const sample::Trip trip = sample::trip();
  const std::string text = forecast_table(trip.job, trip.limits, trip.series, at(9, 4), Ink::plain);
  EXPECT_THAT(text, HasSubstr("Hand, issued Mon 9 Feb 03:00\n"));
  EXPECT_THAT(text, HasSubstr("Mon 9 Feb\n  06-09   6 °C     dry     9    18    50%  g\n"));
  EXPECT_THAT(text, HasSubstr("  12-15   6 °C  2.5 mm     9    18    50%  g  all but digging\n"));
  EXPECT_THAT(text, HasSubstr("g gust reckoned from the mean wind"));
  EXPECT_THAT(text, Not(HasSubstr("chance")));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(ForecastTable, SaysWhenItMissesTheTripOrEndsBeforeIt) {
  sample::Trip trip = sample::trip();
  trip.series.hours.resize(30);
  EXPECT_THAT(forecast_table(trip.job, trip.limits, trip.series, at(9, 4), Ink::plain),
              HasSubstr("Stands on    Hand of Mon 9 Feb 03:00 to Tue 10 Feb 06:00; then no forecast, each"));
  trip.series.hours.resize(5);
  EXPECT_THAT(forecast_table(trip.job, trip.limits, trip.series, at(9, 4), Ink::plain),
              HasSubstr("It says nothing about the trip: it runs from Mon 9 Feb 00:00 to Mon 9 Feb 05:00."));
}

TEST(ForecastTable, ShowsADashAndNoZeroForWhatIsMissing) {
  sample::Trip trip = sample::trip();
  for (sky::Hour& hour : trip.series.hours)
    hour.rain.reset();
  EXPECT_THAT(forecast_table(trip.job, trip.limits, trip.series, at(9, 4), Ink::plain),
              HasSubstr("  06-09   6 °C     -     9    18    50%  g\n"));
}

}  // namespace
}  // namespace weatherstruck::render
