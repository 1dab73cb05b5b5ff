#include "weatherstruck/render/weather_words.h"

#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;

TEST(WeatherWords, NameTheHoursThatAreWet) {
  const sample::Trip trip = sample::trip();
  EXPECT_EQ(weather_line(trip.series, {at(9, 7), at(9, 19)}, trip.job.site.zone, Units::uk),
            "6 °C; rain 11:00-13:00 2.9 mm; wind to 9 mph, gusts 18");
  EXPECT_EQ(weather_line(trip.series, {at(10, 7), at(10, 12)}, trip.job.site.zone, Units::us),
            "43 °F; dry; wind to 9 mph, gusts 18");
  EXPECT_EQ(weather_line(trip.series, {at(20, 0), at(20, 5)}, trip.job.site.zone, Units::uk), "no forecast");
}

TEST(WeatherWords, NeverCallAnHourDryThatHasNoValue) {
  sample::Trip trip = sample::trip();
  for (sky::Hour& hour : trip.series.hours)
    hour.rain.reset();
  EXPECT_EQ(weather_line(trip.series, {at(10, 7), at(10, 12)}, trip.job.site.zone, Units::uk),
            "6 °C; rain not known; wind to 9 mph, gusts 18");
  trip = sample::trip();
  trip.series.hours[32].rain.reset();
  EXPECT_EQ(weather_line(trip.series, {at(10, 7), at(10, 12)}, trip.job.site.zone, Units::uk),
            "6 °C; dry, not known for every hour; wind to 9 mph, gusts 18");
}

// Limits of design/product.md: facework 1 mm/h, below ground 2 mm/h; canopy 11 m/s; pours from 2 °C.
TEST(WeatherWords, StoppedWorkFollowsTheLimits) {
  const sample::Trip trip = sample::trip();
  const auto stopped = [&](base::Instant from, base::Instant to) {
    return stopped_work(sum_up(trip.series, {from, to}), trip.limits);
  };
  EXPECT_EQ(stopped(at(9, 8), at(9, 11)), "");
  EXPECT_EQ(stopped(at(9, 12), at(9, 13)), "all but digging");
  EXPECT_EQ(stopped(at(10, 18), at(10, 21)), "canopy down");
  EXPECT_EQ(stopped(at(10, 1), at(10, 4)), "all but digging");
}

TEST(WeatherWords, SumsHourByHour) {
  const sample::Trip trip = sample::trip();
  const WeatherSum sum = sum_up(trip.series, {at(9, 11, 30), at(9, 13)});
  EXPECT_EQ(sum.hours, 2);
  EXPECT_DOUBLE_EQ(sum.rain->value(), 2.9);
  EXPECT_DOUBLE_EQ(sum.heaviest->value(), 2.5);
  EXPECT_EQ(sum.origins, (std::vector<sky::Origin>{sky::Origin::given, sky::Origin::derived}));
}

}  // namespace
}  // namespace weatherstruck::render
