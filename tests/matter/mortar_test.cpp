#include "weatherstruck/matter/mortar.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;
using base::Hours;
using base::MetresPerSecond;

double hours_to_thumbprint(Suction suction, double celsius, double humidity, double wind) {
  return thumbprint_hours(suction).usual.value() /
         stiffening_rate(Celsius(celsius), Fraction(humidity), MetresPerSecond(wind));
}

TEST(Stiffening, StandsAtTheStatedHoursWhenDryAndMild) {
  EXPECT_EQ(stiffening_rate(Celsius(20), Fraction(0.5), MetresPerSecond(0)), 1);
  EXPECT_EQ(hours_to_thumbprint(Suction::quick, 20, 0.5, 0), 1.5);
}

TEST(Stiffening, ColdDampAirKeepsJointsSoftForManyHours) {
  // Common practice, no source: in cold damp weather joints stay soft for many hours, so pointing is left for
  // later.
  EXPECT_GT(hours_to_thumbprint(Suction::quick, 5, 0.95, 1), 6);
  EXPECT_LT(hours_to_thumbprint(Suction::quick, 5, 0.95, 1), 14);
}

TEST(Stiffening, EngineeringBricksOfTheMorningAreReadyLateInTheAfternoon) {
  // zhclg.com, timing of jointing up (verified): low-suction bricks laid first thing may not be ready until
  // late afternoon.
  EXPECT_GT(hours_to_thumbprint(Suction::slow, 16, 0.6, 2), 6);
  EXPECT_LT(hours_to_thumbprint(Suction::slow, 16, 0.6, 2), 10);
}

RC_GTEST_PROP(Stiffening, ColderDamperStillerIsNeverFaster, ()) {
  const auto pair = [](int low, int high) {
    const int a = *rc::gen::inRange(low, high), b = *rc::gen::inRange(low, high);
    return std::pair(std::min(a, b) / 10.0, std::max(a, b) / 10.0);
  };
  const auto [cold, warm] = pair(-200, 400);
  const auto [dry, damp] = pair(0, 12);
  const auto [still, windy] = pair(0, 200);
  RC_ASSERT(stiffening_rate(Celsius(cold), Fraction(damp), MetresPerSecond(still)) <=
            stiffening_rate(Celsius(warm), Fraction(dry), MetresPerSecond(windy)));
  RC_ASSERT(mortar_frost_rate(Celsius(cold)) <= mortar_frost_rate(Celsius(warm)));
}

TEST(FrostSafe, EightHoursAtFiveDegreesAreEnough) {
  // CRREL SR 97-16 (verified): mortar kept at 40 F (about 5 C) or more for 8 h is immune to one freeze.
  EXPECT_NEAR(mortar_frost_safe_hours().value(), 8 * 0.2925, 1e-3);
  EXPECT_NEAR(mortar_frost_safe_hours().value() / mortar_frost_rate(Celsius(5)), 8, 1e-12);
}

TEST(FrostSafe, WarmthNeverMakesItLessThanTheSourceAndFrostStopsIt) {
  EXPECT_NEAR(mortar_frost_safe_hours().value() / mortar_frost_rate(Celsius(25)), 8, 1e-12);
  EXPECT_GT(mortar_frost_safe_hours().value() / mortar_frost_rate(Celsius(2)), 8);
  EXPECT_EQ(mortar_frost_rate(Celsius(0)), 0);
}

TEST(WorkableLife, IsTheLimitUntilItIsHot) {
  EXPECT_EQ(workable_life(Celsius(20), Hours(2)).value(), 2);    // NBS clause (verified)
  EXPECT_EQ(workable_life(Celsius(32), Hours(2.5)).value(), 1);  // from memory
  EXPECT_EQ(workable_life(Celsius(32), Hours(0.5)).value(), 0.5);
}

}  // namespace
}  // namespace weatherstruck::matter
