#include "weatherstruck/sky/site_error.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;

const Instant midnight{hours(24 * 1000)};

// Six days of the same hour.
Series forecast(Instant issued) {
  Series series;
  series.source = "A";
  series.issued = issued;
  for (int i = 0; i < 144; ++i) {
    Hour hour;
    hour.start = midnight + hours(i);
    hour.temperature = {base::Celsius(5)};
    hour.wind = {base::MetresPerSecond(4)};
    hour.rain = {base::Millimetres(i % 4 == 0 ? 1 : 0)};
    series.hours.push_back(hour);
  }
  return series;
}

// Every hour of so many, off by so much from what was told.
Series station(int of_hours, double kelvins, double factor) {
  Series series = forecast(midnight);
  series.source = "Station";
  series.issued.reset();
  series.hours.resize(static_cast<std::size_t>(of_hours));
  for (Hour& hour : series.hours) {
    hour.temperature = {base::Celsius(5 + kelvins), Origin::measured};
    hour.wind = {base::MetresPerSecond(4 * factor), Origin::measured};
    hour.rain->origin = Origin::measured;
  }
  return series;
}

SiteError learned(const std::vector<Series>& issues) {
  return learn_site(issues, {});
}

TEST(SiteError, FewerReadingsThanTheRuleWantsChangeNothing) {
  // 36 hours are many readings in three half days.
  const SiteError few = learned({forecast(midnight), station(36, 5, 2)});
  EXPECT_EQ(few.temperature.readings, 36);
  EXPECT_EQ(few.temperature.half_days, 3);
  EXPECT_FALSE(few.temperature.counts());
  EXPECT_EQ(few.temperature.times, 1);
  const Series after = with_errors_of(forecast(midnight), few, midnight + hours(48));
  for (const Hour& hour : after.hours)
    EXPECT_FALSE(hour.temperature_error || hour.wind_error);
}

TEST(SiteError, TheMissesOfASiteAreShrunkTowardsTheUsualOnes) {
  // One issue every morning, measured two kelvins above it: by hand, the usual error of each lead.
  std::vector<Series> issues;
  for (int day = 0; day < 4; ++day)
    issues.push_back(forecast(midnight + hours(24 * day)));
  issues.push_back(station(96, 2, 1));
  const SiteError site = learned(issues);
  EXPECT_EQ(site.temperature.readings, 96);
  EXPECT_EQ(site.temperature.half_days, 8);
  EXPECT_DOUBLE_EQ(site.temperature.bias, 2);
  double squares = 0;
  for (int hour = 0; hour < 24; ++hour) {
    const double usual = hour < 12 ? 0.66 + (1.44 - 0.66) * hour / 12.0 : 1.44 + 0.28 * (hour / 24.0 - 0.5);
    squares += 4 / usual / usual / 24;
  }
  EXPECT_NEAR(site.temperature.of_usual, std::sqrt(squares), 1e-9);
  EXPECT_NEAR(site.temperature.times, std::sqrt((8 + 8 * squares) / 16), 1e-9);
}

TEST(SiteError, ASiteThatIsForecastWellIsNarrowerAndNeverBeyondTheBounds) {
  const SiteError well = learned({forecast(midnight), station(120, 0, 1)});
  EXPECT_NEAR(well.temperature.times, std::max(0.6, std::sqrt(8.0 / 18)), 1e-9);
  EXPECT_EQ(learned({forecast(midnight), station(120, 30, 1)}).temperature.times, 2.0);
}

TEST(SiteError, ErrorsToComeAreSoManyTimesTheUsualOrTheSourcesOwn) {
  Series next = forecast(midnight + hours(120));
  next.hours[130].temperature_error = {base::Kelvins(1)};
  const SiteError site = learned({forecast(midnight), station(120, 30, 1)});
  const Series after = with_errors_of(next, site, midnight + hours(120));
  EXPECT_FALSE(after.hours[119].temperature_error) << "gone by";
  EXPECT_NEAR(after.hours[120].temperature_error->value.value(), 2 * 0.66, 1e-9);
  EXPECT_NEAR(after.hours[130].temperature_error->value.value(), 2, 1e-9);
}

TEST(SiteError, TheWindIsLearnedAsAFactorAndRainAsWetOrDry) {
  Series wet = station(96, 0, 2);
  wet.hours[1].rain->value = base::Millimetres(3);
  wet.hours[4].rain->value = base::Millimetres(0);
  const SiteError site = learned({forecast(midnight), wet});
  EXPECT_NEAR(site.wind.bias, std::log(2), 1e-9);
  EXPECT_GT(site.wind.times, 1.2);
  EXPECT_EQ(site.told_wet, 24);
  EXPECT_EQ(site.told_wet_came_dry, 1);
  EXPECT_EQ(site.told_dry, 72);
  EXPECT_EQ(site.told_dry_came_wet, 1);
}

TEST(SiteError, AReadingIsHeldAgainstTheNewestForecastMadeBeforeIt) {
  Series later = forecast(midnight + hours(10));
  for (Hour& hour : later.hours)
    hour.temperature = {base::Celsius(8)};
  const TemperatureReading early{midnight + hours(9), base::Celsius(8)};
  const TemperatureReading after{midnight + hours(11), base::Celsius(8)};
  const std::vector<Series> issues{forecast(midnight), later};
  EXPECT_DOUBLE_EQ(learn_site(issues, {&early, 1}).temperature.bias, 3);
  EXPECT_DOUBLE_EQ(learn_site(issues, {&after, 1}).temperature.bias, 0);
}

}  // namespace
}  // namespace weatherstruck::sky
