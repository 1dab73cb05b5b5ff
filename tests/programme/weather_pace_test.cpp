#include "weatherstruck/programme/weather_pace.h"

#include <gtest/gtest.h>

namespace weatherstruck::programme {
namespace {

using trade::Operation;

double pace(Operation operation, const Slot& slot) {
  const trade::LimitValues limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule{}).values;
  return weather_pace(trade::row_for(operation), limits, slot);
}

Slot mild() {
  Slot slot;
  slot.air = base::Celsius(14);
  return slot;
}

TEST(WeatherPace, AMildDryHourIsWorthTheWholeOfIt) {
  EXPECT_EQ(pace(Operation::unload, mild()), 1);
}

TEST(WeatherPace, SoddenGroundThinRainAndFrostEachTakeSomeOfIt) {
  Slot sodden = mild();
  sodden.sodden = true;
  Slot wet = mild();
  wet.rain = base::MillimetresPerHour(0.2);
  Slot cold = mild();
  cold.air = base::Celsius(-2);
  for (const Slot& slot : {sodden, wet, cold}) {
    EXPECT_LT(pace(Operation::unload, slot), 1);
    EXPECT_GT(pace(Operation::unload, slot), 0);
  }
}

TEST(WeatherPace, TheColdDoesNotSlowHimAtTheWheel) {
  Slot cold = mild();
  cold.air = base::Celsius(-2);
  EXPECT_EQ(pace(Operation::drive, cold), 1);
}

}  // namespace
}  // namespace weatherstruck::programme
