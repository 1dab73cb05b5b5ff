#include "weatherstruck/matter/heat_filter.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "matter/heat_support.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;
using base::Hours;
using base::Metres;
using base::MetresPerSecond;
using test::covers;
using test::swinging;

// De Bilt, hourly from 2012-02-02 09 UTC: three nights of the cold spell of that February, down to -18.8
// degrees (KNMI, CC BY 4.0). Air in degrees, mean wind in m/s, cloud in eighths.
constexpr std::array<double, 72> air{
    -6.5,  -5.1,  -4.2,  -4.1, -3.7, -3.6, -4.8,  -5.7,  -6.1,  -6.3,  -6.5,  -6.6,  -7.0,  -7.8,  -8.2,
    -8.9,  -9.7,  -10.3, -8.6, -9.2, -7.8, -8.2,  -6.8,  -5.6,  -5.2,  -5.6,  -5.9,  -6.0,  -5.9,  -6.0,
    -6.1,  -6.5,  -8.3,  -7.6, -7.1, -9.2, -12.8, -14.3, -14.8, -13.7, -16.1, -17.0, -17.2, -17.3, -18.3,
    -18.8, -17.1, -13.5, -9.0, -5.3, -4.9, -4.8,  -5.4,  -5.9,  -6.8,  -10.2, -12.1, -13.6, -14.1, -14.4,
    -13.2, -10.9, -10.1, -9.7, -9.3, -9.2, -9.3,  -9.3,  -9.2,  -8.8,  -8.8,  -8.7};
constexpr std::array<double, 72> wind{5, 5, 5, 5, 6, 5, 5, 5, 4, 4, 4, 4, 4, 3, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1,
                                      2, 4, 4, 5, 5, 5, 4, 3, 3, 2, 2, 2, 1, 1, 2, 2, 1, 1, 1, 1, 1, 1, 1, 0,
                                      1, 1, 1, 2, 2, 2, 2, 1, 1, 2, 2, 2, 2, 2, 3, 3, 3, 3, 4, 3, 3, 4, 3, 4};
constexpr std::array<double, 72> cloud{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 5,
                                       8, 6, 8, 2, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 7, 8, 0,
                                       0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0,
                                       2, 0, 0, 0, 0, 0, 0, 2, 8, 8, 8, 8, 8, 8, 7, 8, 8, 1};

std::vector<Outside> cold_spell() {
  std::vector<Outside> list;
  for (std::size_t i = 0; i < air.size(); ++i)
    list.push_back({Celsius(air[i]), MetresPerSecond(wind[i]), Fraction(cloud[i] / 8)});
  return list;
}

double worst_off(const HeatFilter& filter, StripCase strip, Celsius placed,
                 const std::vector<Outside>& outside) {
  strip.placed = placed;
  const auto course = top_course(strip, outside, Hours(1));
  FilterRun run(filter, placed);
  double worst = 0;
  for (std::size_t i = 0; i < outside.size(); ++i)
    worst = std::max(worst, std::abs((run.step(outside[i], Hours(1)).top - course[i].top).value()));
  return worst;
}

// An ordinary strip, fitted once.
const StripCase& ordinary() {
  static const StripCase strip = [] {
    StripCase one;
    one.day_of_year = 33;
    return one;
  }();
  return strip;
}
const HeatFilter& ordinary_filter() {
  static const HeatFilter filter = fit_heat_filter(ordinary());
  return filter;
}

TEST(HeatFilter, StaysWithinAKelvinOfTheFullModelInARealColdSpell) {
  for (const HeatCover cover : covers) {
    for (const double placed : {5.0, 20.0})
      EXPECT_LT(
          worst_off(ordinary_filter(), ordinary(), Celsius(placed), covered_from(cold_spell(), cover, 5)), 1)
          << static_cast<int>(cover) << " placed at " << placed;
  }
  EXPECT_LT(ordinary_filter().worst_fitted.value(), 0.5);
}

TEST(HeatFilter, StaysWithinAKelvinAtTheCornersOfItsLimits) {
  StripCase thin;
  thin.shape = {Metres(0.1), Metres(0.3), Metres(0.1)};
  StripCase thick;
  thick.shape = {Metres(0.4), Metres(0.6), Metres(0.6)};
  thick.ground.conductivity = heat::sand_conductivity;
  thick.ground.capacity = heat::sand_capacity;
  for (const StripCase& strip : {thin, thick}) {
    const HeatFilter filter = fit_heat_filter(strip);
    EXPECT_LT(worst_off(filter, strip, Celsius(15), covered_from(cold_spell(), HeatCover::bare, 0)), 1);
    EXPECT_LT(worst_off(filter, strip, Celsius(8), covered_from(cold_spell(), HeatCover::mat, 6)), 1);
  }
}

// A strip that may be as wrong as `most`, in ten days with a change of weather in the midst and covers that
// come and go.
void stays_within(const StripCase& strip, const HeatFilter& filter, double most) {
  const double mean = *rc::gen::inRange(-8, 12), swing = *rc::gen::inRange(0, 7);
  auto outside = swinging(240, mean, swing, *rc::gen::inRange(0, 12), *rc::gen::inRange(0, 11) / 10.0);
  const double jump = *rc::gen::inRange(-8, 8);
  const auto when = *rc::gen::inRange<std::size_t>(1, 240);
  const auto cover = covers[*rc::gen::inRange<std::size_t>(0, covers.size())];
  for (std::size_t i = 0; i < outside.size(); ++i) {
    if (i >= when) outside[i].air = outside[i].air + base::Kelvins(jump);
    if (i % 24 >= 6 && i % 24 < 22) outside[i].cover = cover;
  }
  RC_ASSERT(worst_off(filter, strip, Celsius(*rc::gen::inRange(5, 21)), outside) < most);
}

RC_GTEST_PROP(HeatFilter, StaysWithinAKelvinInAnyTenDaysWithinItsLimits, ()) {
  stays_within(ordinary(), ordinary_filter(), 1.0);
}

RC_GTEST_PROP(HeatFilter, OfANarrowStripStaysWithinTwoKelvin, ()) {
  static const StripCase narrow = [] {
    StripCase strip = ordinary();
    strip.shape = {Metres(0.2), Metres(0.3), Metres(0.2)};
    return strip;
  }();
  static const HeatFilter filter = fit_heat_filter(narrow);
  stays_within(narrow, filter, 2.0);
}

TEST(HeatFilter, TellsTheAgeOfTheTopWithinAFewHundredths) {
  const auto outside = covered_from(swinging(240, 3, 4, 3, 0.5), HeatCover::hessian_and_sheet, 6);
  StripCase strip = ordinary();
  strip.placed = Celsius(10);
  const auto course = top_course(strip, outside, Hours(1));
  FilterRun run(ordinary_filter(), strip.placed);
  for (std::size_t i = 0; i < outside.size(); ++i) {
    const Hours age = run.step(outside[i], Hours(1)).equivalent_age;
    if (i < 12) continue;
    EXPECT_NEAR(age / course[i].equivalent_age, 1, 0.08) << i;
  }
}

TEST(HeatFilter, QuarterHoursAndHoursTellTheSame) {
  const auto outside = covered_from(cold_spell(), HeatCover::sheet, 5);
  FilterRun hourly(ordinary_filter(), Celsius(10)), quarterly(ordinary_filter(), Celsius(10));
  for (std::size_t i = 0; i < outside.size(); ++i) {
    const Celsius by_hour = hourly.step(outside[i], Hours(1)).top;
    Celsius by_quarter;
    for (int quarter = 0; quarter < 4; ++quarter)
      by_quarter = quarterly.step(outside[i], Hours(0.25)).top;
    EXPECT_NEAR(by_hour.value(), by_quarter.value(), 0.3) << i;
  }
}

TEST(HeatFilter, WithoutItsOwnHeatItIsColder) {
  // What is left out is hydration, which only warms, and evaporation, over once the face has set.
  FilterRun with(ordinary_filter(), Celsius(10)), without(ordinary_filter(), Celsius(10), false);
  for (const Outside& at : covered_from(swinging(96, 0, 4, 3, 0), HeatCover::mat, 0))
    EXPECT_LE(without.step(at, Hours(1)).top, with.step(at, Hours(1)).top);
}

TEST(HeatFilter, RefusesStepsThatAreTooLong) {
  FilterRun run(ordinary_filter(), Celsius(10));
  EXPECT_THROW((void)run.step({Celsius(0), MetresPerSecond(1)}, Hours(1.5)), std::invalid_argument);
  EXPECT_THROW((void)run.step({Celsius(0), MetresPerSecond(1)}, Hours(0)), std::invalid_argument);
  StripCase none;
  none.shape.thickness = Metres(0);
  EXPECT_THROW((void)fit_heat_filter(none), std::invalid_argument);
}

}  // namespace
}  // namespace weatherstruck::matter
