#include "weatherstruck/matter/ground.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <stdexcept>

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;
using base::Hours;
using base::MetresPerSecond;
using base::Millimetres;
using base::MillimetresPerHour;

TEST(Ground, RunsOffWhenFullAndNeverBelowEmpty) {
  EXPECT_EQ(step({}, loamy_ground, Millimetres(100), MillimetresPerHour(0), Hours(0)).water.value(), 40);
  EXPECT_EQ(
      step({Millimetres(1)}, loamy_ground, Millimetres(0), MillimetresPerHour(1), Hours(5)).water.value(), 0);
}

TEST(Ground, HalfOfWhatIsFreeDrainsInAHalfLife) {
  // The assumption of the header: above 10 mm, half in 12 h.
  EXPECT_NEAR(
      step({Millimetres(30)}, loamy_ground, Millimetres(0), MillimetresPerHour(0), Hours(12)).water.value(),
      20, 1e-9);
}

TEST(Ground, IsSoddenAfterAWetNightAndClayForLonger) {
  const auto after = [](const GroundKind& kind, double hours) {
    const GroundState night = step({}, kind, Millimetres(25), MillimetresPerHour(0), Hours(8));
    return step(night, kind, Millimetres(0), MillimetresPerHour(0.02), Hours(hours));
  };
  EXPECT_TRUE(is_sodden(after(clay_ground, 12), clay_ground));
  EXPECT_FALSE(is_sodden(after(sandy_ground, 12), sandy_ground));
}

TEST(Ground, WaterStandsOnlyAboveTheMark) {
  EXPECT_EQ(standing_water({Millimetres(29)}, loamy_ground).value(), 0);
  EXPECT_EQ(standing_water({Millimetres(36)}, loamy_ground).value(), 6);
}

RC_GTEST_PROP(Ground, TwoHalvesOfADrySpellAreOneWhole, ()) {
  const GroundState start{Millimetres(*rc::gen::inRange(0, 40))};
  const Hours half(*rc::gen::inRange(0, 48));
  const auto dry = [&](GroundState s, Hours t) {
    return step(s, loamy_ground, Millimetres(0), MillimetresPerHour(0), t);
  };
  RC_ASSERT(std::abs((dry(dry(start, half), half).water - dry(start, half * 2).water).value()) < 1e-9);
}

RC_GTEST_PROP(Ground, MoreRainIsNeverDrier, ()) {
  const GroundState start{Millimetres(*rc::gen::inRange(0, 40))};
  const Millimetres less(*rc::gen::inRange(0, 30));
  const Hours time(*rc::gen::inRange(0, 48));
  const auto after = [&](Millimetres rain) {
    return step(start, clay_ground, rain, MillimetresPerHour(0.1), time).water;
  };
  RC_ASSERT(after(less + Millimetres(3)) >= after(less));
}

TEST(Ground, RefusesNegativeAmounts) {
  EXPECT_THROW((void)step({}, loamy_ground, Millimetres(-1), MillimetresPerHour(0), Hours(1)),
               std::invalid_argument);
}

TEST(Drying, IsSmallInFebruaryAndNoneInSaturatedAir) {
  // Penman's form by hand: deficit 0.8725 kPa x 0.1 at 5 degrees and 90 %, wind 3 m/s: 2.6 x 2.62 x 0.0873
  // / 24.
  EXPECT_NEAR(drying_rate(Celsius(5), Fraction(0.9), MetresPerSecond(3)).value(), 0.02476, 1e-4);
  EXPECT_EQ(drying_rate(Celsius(5), Fraction(1.0), MetresPerSecond(3)).value(), 0);
}

}  // namespace
}  // namespace weatherstruck::matter
