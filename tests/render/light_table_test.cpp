#include "weatherstruck/render/light_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

TEST(LightTable, HasALineForEachDayOfTheTrip) {
  const sample::Trip trip = sample::trip();
  const auto days = light_days(trip.job);
  ASSERT_EQ(days.size(), 2U);
  const std::string text = light_table(trip.job, days, Ink::plain);
  EXPECT_THAT(text, HasSubstr("  Mon 9 Feb "));
  EXPECT_THAT(text, HasSubstr("  Tue 10 Feb "));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(LightTable, CountsOnlyLightWithinTheWorkingDay) {
  sample::Trip trip = sample::trip();
  trip.job.trip.working_day = {std::chrono::hours(12), std::chrono::hours(13)};
  EXPECT_EQ(light_days(trip.job).front().working, std::chrono::hours(1));
}

// North of the polar circle there is no sunset in June and no sunrise in December.
TEST(LightTable, SaysWhereTheSunNeitherRisesNorSets) {
  sample::Trip trip = sample::trip();
  trip.job.site.latitude = 78;
  const base::LocalDay june{std::chrono::local_days(std::chrono::year(2026) / 6 / 21)};
  const base::LocalDay december{std::chrono::local_days(std::chrono::year(2026) / 12 / 21)};
  const std::string text =
      light_table(trip.job, {light_day(trip.job, june), light_day(trip.job, december)}, Ink::plain);
  EXPECT_THAT(text, HasSubstr("all day"));
  EXPECT_THAT(text, HasSubstr("none"));
  EXPECT_EQ(light_day(trip.job, june).working, std::chrono::hours(12));
  EXPECT_EQ(light_day(trip.job, december).working, std::chrono::hours(0));
}

}  // namespace
}  // namespace weatherstruck::render
