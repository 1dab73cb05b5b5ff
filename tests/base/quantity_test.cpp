#include "weatherstruck/base/quantity.h"

#include <gtest/gtest.h>

#include <type_traits>

namespace weatherstruck::base {
namespace {

// What must not compile is under tests/compile_fail; here stands what must.
static_assert(sizeof(Metres) == sizeof(double));
static_assert(std::is_trivially_copyable_v<Metres> && std::is_trivially_copyable_v<Celsius>);
static_assert(!std::is_convertible_v<double, Metres> && !std::is_convertible_v<Metres, double>);
static_assert(Metres(2) * Metres(3) == SquareMetres(6));
static_assert(std::is_same_v<decltype(Celsius(7) - Celsius(2)), Kelvins>);

TEST(Quantity, AddsScalesAndCompares) {
  Metres wall(2.25);
  wall += Metres(0.5);
  wall -= Metres(0.75);
  EXPECT_EQ(wall, Metres(2));
  EXPECT_EQ(wall * 2, 2 * wall);
  EXPECT_EQ(wall / 4, Metres(0.5));
  EXPECT_EQ(wall / Metres(0.5), 4.0);
  EXPECT_EQ(-wall, Metres(-2));
  EXPECT_LT(wall, Metres(3));
}

TEST(Quantity, ProductsHaveTheirOwnUnit) {
  EXPECT_EQ((SquareMetres(3) * Metres(0.5)).value(), 1.5);
  EXPECT_EQ((Metres(0.5) * SquareMetres(3)).value(), 1.5);
  EXPECT_EQ((SquareMetres(6) / Metres(3)).value(), 2.0);
  EXPECT_EQ((CubicMetres(6) / Metres(3)).value(), 2.0);
  EXPECT_EQ((CubicMetres(0.5) * KilogramsPerCubicMetre(2000)).value(), 1000.0);
  EXPECT_EQ((MillimetresPerHour(1.5) * Hours(2)).value(), 3.0);
  EXPECT_EQ(to_millimetres(Metres(0.215)).value(), 215.0);
  EXPECT_EQ(to_metres(Millimetres(65)).value(), 0.065);
}

TEST(Celsius, IsAPointOnAScale) {
  EXPECT_EQ(Celsius(7) - Celsius(2), Kelvins(5));
  EXPECT_EQ(Celsius(2) + Kelvins(5), Celsius(7));
  EXPECT_EQ(Celsius(2) - Kelvins(5), Celsius(-3));
  EXPECT_LT(Celsius(-1), Celsius(0));
}

}  // namespace
}  // namespace weatherstruck::base
