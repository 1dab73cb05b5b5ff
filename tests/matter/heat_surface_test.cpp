#include "weatherstruck/matter/heat_surface.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/evaporation.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;
using base::Metres;
using base::MetresPerSecond;

TEST(SurfaceExchange, AgreesWithTheStandardsTableOfResistances) {
  // EN ISO 6946:2007 table A.2 (seen in public code): external surface resistance by wind at the surface, two
  // decimals. An overcast sky that radiates as the air leaves only the film.
  struct Row {
    double wind, resistance;
  };
  constexpr std::array<Row, 6> table{{{1, 0.08}, {2, 0.06}, {3, 0.05}, {4, 0.04}, {7, 0.03}, {10, 0.02}}};
  const double reduced = wind_at_height(MetresPerSecond(1), Metres(0.5)).value();
  for (const Row& row : table) {
    const Outside at{Celsius(10), MetresPerSecond(row.wind / reduced)};
    EXPECT_NEAR(surface_exchange(at, 0).resistance, row.resistance, 0.005) << row.wind;
    EXPECT_NEAR(surface_exchange(at, 0).towards.value(), 10, 1e-12);
  }
}

TEST(SurfaceExchange, ClearSkyTakesAsMuchAsPublishedFormulasOfTheSkySay) {
  // Sky emissivity at 0 degrees: Campbell & Norman 1998 0.72 (sourced). Beside it, from memory: Swinbank
  // 1963, 9.2e-6 T^2 = 0.686; Brutsaert 1975, 1.24 (e/T)^(1/7) with e 4.9 hPa (80 % humidity) = 0.698.
  EXPECT_NEAR(sky_emissivity(Celsius(0), Fraction(0)), 0.72, 1e-12);
  EXPECT_NEAR(sky_emissivity(Celsius(0), Fraction(0)), 9.2e-6 * 273.15 * 273.15, 0.04);
  EXPECT_NEAR(sky_emissivity(Celsius(0), Fraction(0)), 1.24 * std::pow(4.9 / 273.15, 1.0 / 7), 0.03);
  EXPECT_NEAR(sky_emissivity(Celsius(0), Fraction(1)), 1 - 0.16 * 0.28, 1e-12);
  // 0.9 x 5.670374e-8 x 273.15^4 x 0.28 = 79.5 W/m2 (derived), drawn through the film.
  const Exchange clear = surface_exchange({Celsius(0), MetresPerSecond(0), Fraction(0)}, 1);
  EXPECT_NEAR((Celsius(0) - clear.towards).value() / clear.resistance, 79.5, 0.1);
}

TEST(SurfaceExchange, UnknownCloudIsTheColdestAndSunWarms) {
  const Outside unknown{Celsius(-3), MetresPerSecond(2)};
  const Outside clear{Celsius(-3), MetresPerSecond(2), Fraction(0)};
  Outside sunny = clear;
  sunny.sun = 300;
  EXPECT_EQ(surface_exchange(unknown, 1).towards, surface_exchange(clear, 1).towards);
  EXPECT_GT(surface_exchange(sunny, 1).towards, surface_exchange(clear, 1).towards);
  sunny.sun = -1;
  EXPECT_THROW((void)surface_exchange(sunny, 1), std::invalid_argument);
  EXPECT_THROW((void)surface_exchange({Celsius(0), MetresPerSecond(-1)}, 1), std::invalid_argument);
}

TEST(SkyShare, IsWhatCrossedStringsGive) {
  // Infinite strips opposite each other, as wide as apart: sqrt(2) - 1 = 0.414 (textbooks of radiation, from
  // memory).
  EXPECT_NEAR(sky_share(Metres(0.5), Metres(0.5)), 0.41421, 1e-5);
  EXPECT_EQ(sky_share(Metres(0), Metres(0.5)), 1);
  EXPECT_THROW((void)sky_share(Metres(-0.1), Metres(0.5)), std::invalid_argument);
  EXPECT_THROW((void)sky_share(Metres(0.1), Metres(0)), std::invalid_argument);
}

TEST(Evaporating, IsUnosRateTimesTheLatentHeat) {
  // 0.7484 kg/m2/h by Uno for 15 degree concrete, 5 degree air, 80 %, 30 km/h (reference table, derived),
  // times 2.466 MJ/kg at 15 degrees (FAO 56: 2.501 - 0.002361 T, from memory): 513 W/m2.
  const double reduced = wind_at_height(MetresPerSecond(1), Metres(0.5)).value();
  const Outside at{Celsius(5), MetresPerSecond(30 / 3.6 / reduced), Fraction(0), Fraction(0.8)};
  EXPECT_NEAR(evaporating(at, Celsius(15)).flux, 0.7484 * 2.4656e6 / 3600, 0.1);
  Outside covered = at;
  covered.cover = HeatCover::sheet;
  EXPECT_EQ(evaporating(covered, Celsius(15)).flux, 0);
  EXPECT_EQ(evaporating({Celsius(25), MetresPerSecond(8), Fraction(0), Fraction(1)}, Celsius(5)).flux, 0);
}

TEST(Evaporating, FaceIsWetUntilInitialSetAndDryAtFinalSet) {
  const base::Hours first = initial_set(Celsius(20)), last = final_set(Celsius(20));
  EXPECT_EQ(wet_share(first), 1);
  EXPECT_NEAR(wet_share((first + last) / 2), 0.5, 1e-12);
  EXPECT_EQ(wet_share(last), 0);
}

RC_GTEST_PROP(SurfaceExchange, ColderAirAlwaysDrawsColder, ()) {
  const double warm = *rc::gen::inRange(-150, 200) / 10.0;
  const double colder = warm - *rc::gen::inRange(1, 100) / 10.0;
  const double face = *rc::gen::inRange(-100, 250) / 10.0;
  const MetresPerSecond wind(*rc::gen::inRange(0, 150) / 10.0);
  const Fraction cloud(*rc::gen::inRange(0, 101) / 100.0);
  const double sky = *rc::gen::inRange(0, 101) / 100.0;
  const auto entering = [&](double air) {
    const Exchange at = surface_exchange({Celsius(air), wind, cloud}, sky);
    return (at.towards - Celsius(face)).value() / at.resistance;
  };
  RC_ASSERT(entering(colder) < entering(warm));
}

}  // namespace
}  // namespace weatherstruck::matter
