#include "weatherstruck/render/day_needs.h"

#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

TEST(DayNeeds, CountsOnlyTodaysShareOfWhatATaskTakes) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  const DayNeeds monday = needs_of(facts, days[0]);
  ASSERT_EQ(monday.bricks.size(), 1U);
  EXPECT_DOUBLE_EQ(monday.bricks[0].amount, 63);
  EXPECT_DOUBLE_EQ(monday.concrete.value(), 0.3 * 1.1);
  const DayNeeds tuesday = needs_of(facts, days[1]);
  EXPECT_DOUBLE_EQ(tuesday.bricks[0].amount, 63);
  EXPECT_DOUBLE_EQ(tuesday.concrete.value(), 0);
}

TEST(DayNeeds, FactsForCautionsComeFromTheDay) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  const trade::DayFacts monday = caution_facts(facts, days[0], base::Metres(0.4));
  EXPECT_TRUE(monday.first_digging);
  EXPECT_TRUE(monday.alone);
  EXPECT_TRUE(monday.power_tools_wet);
  EXPECT_FALSE(monday.canopy_up);
  EXPECT_DOUBLE_EQ(monday.drive.value(), 1);
  EXPECT_DOUBLE_EQ(monday.deepest_trench.value(), 0.4);
  const trade::DayFacts tuesday = caution_facts(facts, days[1], base::Metres(0.4));
  EXPECT_FALSE(tuesday.first_digging);
  EXPECT_TRUE(tuesday.canopy_up);
  EXPECT_DOUBLE_EQ(tuesday.highest_gust.value(), 12);
  EXPECT_DOUBLE_EQ(tuesday.lowest_air.value(), -1);
}

TEST(DayNeeds, AreSaidInWholeMixes) {
  EXPECT_EQ(mixes_of(base::CubicMetres(0.33), base::CubicMetres(0.09)), "4 mixes");
  EXPECT_EQ(mixes_of(base::CubicMetres(0.05), base::CubicMetres(0.09)), "1 mix");
  EXPECT_EQ(mixes_of(base::CubicMetres(0.05), base::CubicMetres(0)), "0.05 m3");
}

}  // namespace
}  // namespace weatherstruck::render
