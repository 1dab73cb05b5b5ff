#include "weatherstruck/measure/haul.h"

#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::CubicMetres;
using base::Metres;

constexpr CubicMetres barrow{0.08};

CarryRoute level(double length, int steps = 0, double narrowest = 1.0, double rise = 0) {
  return {"side", Metres(length), Metres(rise), steps, Metres(narrowest)};
}

// Estimation notes (read on the page): wheel and deposit to 50 m, 1.0 h/m3.
TEST(Haul, ACubicMetreTakesAnHourOnAShortWay) {
  const Haul h = haul(level(38), CubicMetres(1), barrow);
  EXPECT_EQ(h.method, CarryMethod::barrow);
  EXPECT_NEAR(h.hours.value(), 1.0, 1e-9);
  EXPECT_EQ(h.trips, 13);  // 1 / .08 = 12.5
}

// A norm of the IS 7272 kind (read on the page): 0.96 h/m3 more for each 25 m beyond.
TEST(Haul, TwentyFiveMetresMoreCostAsMuchAgain) {
  EXPECT_NEAR(haul(level(75), CubicMetres(1), barrow).hours.value(), 1.96, 1e-9);
  EXPECT_NEAR(haul(level(100), CubicMetres(2), barrow).hours.value(), 2 * 2.92, 1e-9);
}

// Factor for slope is an assumption of the norms table, .5 for each tenth: 3 m up in 30 m makes 1.5.
TEST(Haul, AClimbTakesLonger) {
  EXPECT_NEAR(haul(level(30, 0, 1, 3), CubicMetres(1), barrow).hours.value(), 1.5, 1e-9);
  EXPECT_NEAR(haul(level(30, 0, 1, -3), CubicMetres(1), barrow).hours.value(), 1.0, 1e-9);
}

TEST(Haul, MethodFollowsTheNarrowestPlaceAndTheStairs) {
  EXPECT_EQ(method_for(level(20, 2)), CarryMethod::barrow);
  EXPECT_EQ(method_for(level(20, 12)), CarryMethod::relay);
  EXPECT_EQ(method_for(level(20, 0, 0.5)), CarryMethod::bucket);
  EXPECT_EQ(method_for(level(20, 0, 1, 5)), CarryMethod::bucket);
}

// By the norms table (assumptions): 12 steps, 1 m3. Buckets: 1/.024 = 41.67 trips of 1 min + 12 x .05 = 1.6
// min, 1.111 h; and the barrow's hour to the foot of the stairs.
TEST(Haul, ARelayAddsTheStairsToTheBarrow) {
  const Haul h = haul(level(30, 12), CubicMetres(1), barrow);
  EXPECT_NEAR(h.hours.value(), 1.0 + 41.6667 * 1.6 / 60, 1e-4);
  EXPECT_EQ(h.trips, 13);
}

// By hand all the way, 20 m: 41.67 trips of 1 + 2 x 20 / 40 = 2 min.
TEST(Haul, ANarrowWayIsCarriedByHand) {
  const Haul h = haul(level(20, 0, 0.5), CubicMetres(1), barrow);
  EXPECT_NEAR(h.hours.value(), 41.6667 * 2 / 60, 1e-4);
  EXPECT_EQ(h.trips, 42);
}

// 200 bricks at 50 a barrow: four trips of .08 m3 each at 1 h/m3.
TEST(Haul, BricksGoByTheBarrowLoad) {
  const Haul h = haul_count(level(38), 200, 50, 16);
  EXPECT_EQ(h.trips, 4);
  EXPECT_NEAR(h.hours.value(), 4 * 0.08, 1e-9);
}

TEST(Haul, NonsenseIsRefused) {
  EXPECT_THROW((void)haul(level(10), CubicMetres(-1), barrow), std::invalid_argument);
  EXPECT_THROW((void)haul(level(10), CubicMetres(1), CubicMetres(0)), std::invalid_argument);
  EXPECT_THROW((void)haul_count(level(10), 5, 0, 16), std::invalid_argument);
}

TEST(Haul, TheCheapestRouteIsChosenAndTheFirstOfEquals) {
  const CarryRoute routes[] = {level(30, 12), level(60), level(60)};
  // Relay 2.11 h/m3; 60 m by barrow 1 + 10 x .0384 = 1.384.
  EXPECT_EQ(best_route(routes, barrow), std::optional<std::size_t>(1));
  EXPECT_EQ(best_route({}, barrow), std::nullopt);
}

RC_GTEST_PROP(HaulProperty, MoreToCarryOrFartherNeverTakesLess, ()) {
  const CarryRoute route = level(*rc::gen::inRange(1, 200), *rc::gen::inRange(0, 30),
                                 *rc::gen::inRange(3, 20) / 10.0, *rc::gen::inRange(-5, 10));
  const double volume = *rc::gen::inRange(0, 100) / 10.0;
  const Haul once = haul(route, CubicMetres(volume), barrow);
  const Haul twice = haul(route, CubicMetres(2 * volume), barrow);
  RC_ASSERT(std::abs(twice.hours.value() - 2 * once.hours.value()) < 1e-9);
  RC_ASSERT(twice.trips >= once.trips);
  CarryRoute stairs = route;
  stairs.steps += 1;
  if (method_for(stairs) == method_for(route)) {
    RC_ASSERT(haul(stairs, CubicMetres(volume), barrow).hours.value() >= once.hours.value() - 1e-12);
  }
}

}  // namespace
}  // namespace weatherstruck::measure
