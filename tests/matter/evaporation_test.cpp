#include "weatherstruck/matter/evaporation.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <iostream>
#include <stdexcept>
#include <string>

#include "matter/reference_support.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;
using base::Metres;
using base::MetresPerSecond;

SurfaceAir surface(double concrete, double air, double humidity, double kmh) {
  return {Celsius(concrete), Celsius(air), Fraction(humidity), MetresPerSecond(kmh / 3.6)};
}

TEST(Evaporation, UnroundedConstantsGiveThePublishedAmericanFigure) {
  // ACI answer, scribd 376430127 (verified): 87 F concrete, 80 F air, 50 %, 12 mph: 0.24 lb/ft2/h.
  const SurfaceAir at = surface((87 - 32) / 1.8, (80 - 32) / 1.8, 0.5, 12 * 1.609344);
  EXPECT_NEAR(pounds_per_square_foot_hour(evaporation(at)), 0.2435, 5e-5);
  EXPECT_NEAR(pounds_per_square_foot_hour(evaporation(at)), 0.24, 0.005);
}

TEST(Evaporation, RoundedFormReadsFourToFivePercentLow) {
  // Formula verified (scribd 336806344), values derived.
  EXPECT_NEAR(evaporation_rounded(surface(30, 25, 0.5, 20)).value(), 1.1880, 5e-5);
  EXPECT_NEAR(evaporation_rounded(surface(20, 10, 0.6, 15)).value(), 0.6092, 5e-5);
  const double share = evaporation_rounded(surface(30, 25, 0.5, 20)) / evaporation(surface(30, 25, 0.5, 20));
  EXPECT_GT(share, 0.95);
  EXPECT_LT(share, 0.96);
}

TEST(Evaporation, IsNeverNegative) {
  const SurfaceAir at = surface(5, 25, 1.0, 30);  // warm damp air over cold concrete
  EXPECT_EQ(evaporation(at).value(), 0);
  EXPECT_EQ(evaporation_rounded(at).value(), 0);
  EXPECT_EQ(evaporation_menzel(at).value(), 0);
}

RC_GTEST_PROP(Evaporation, MoreWindAndDrierAirNeverDryLess, ()) {
  const double concrete = *rc::gen::inRange(-10, 40), air = *rc::gen::inRange(-10, 40);
  const double humidity = *rc::gen::inRange(0, 90) / 100.0, kmh = *rc::gen::inRange(0, 60);
  const SurfaceAir at = surface(concrete, air, humidity, kmh);
  const SurfaceAir windy = surface(concrete, air, humidity, kmh + 10);
  const SurfaceAir damp = surface(concrete, air, humidity + 0.1, kmh);
  RC_ASSERT(evaporation(windy) >= evaporation(at));
  RC_ASSERT(evaporation(damp) <= evaporation(at));
  RC_ASSERT(evaporation_menzel(windy) >= evaporation_menzel(at));
}

TEST(Wind, FallsTowardsTheGround) {
  EXPECT_NEAR(wind_at_height(MetresPerSecond(10), Metres(0.5)).value(), 4.843,
              1e-3);  // ln(0.5/0.03) / ln(10/0.03)
  EXPECT_NEAR(wind_at_height(MetresPerSecond(10), Metres(10)).value(), 10, 1e-12);
  EXPECT_EQ(wind_at_height(MetresPerSecond(10), Metres(0.02)).value(), 0);
  EXPECT_THROW((void)wind_at_height(MetresPerSecond(-1), Metres(2)), std::invalid_argument);
}

TEST(Reference, EvaporationChecksAgree) {
  WS_REFERENCE_ROWS(rows, "evaporation_checks.csv");
  for (const auto& row : rows) {
    using reference::number;
    // The file names no source for a row; its columns name the formulas.
    std::cout << "concrete " << row[0] << " C, air " << row[1] << " C, humidity " << row[2] << ", wind "
              << row[3] << " km/h: " << row[5] << " kg/m2h by Uno 1998, " << row[8]
              << " by Menzel (from memory)\n";
    const SurfaceAir at = surface(number(row[0]), number(row[1]), number(row[2]), number(row[3]));
    EXPECT_NEAR(evaporation_rounded(at).value(), number(row[4]), 6e-5) << row[0];
    EXPECT_NEAR(evaporation(at).value(), number(row[5]), 6e-5) << row[0];
    EXPECT_NEAR(pounds_per_square_foot_hour(evaporation(at)), number(row[6]), 6e-5) << row[0];
    // The file does not name its vapour pressure formula (ours: Tetens), and the whole is from memory: 0.3 %.
    EXPECT_NEAR(evaporation_menzel(at).value(), number(row[8]), 0.003 * number(row[8]) + 6e-5) << row[0];
  }
  EXPECT_EQ(rows.size(), 8U);
}

}  // namespace
}  // namespace weatherstruck::matter
