#include "weatherstruck/matter/strip_tops.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
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

StripTops::Row resistances() {
  StripTops::Row row{};
  for (std::size_t k = 0; k < covers.size(); ++k)
    row[k] = cover_resistance(covers[k]);
  return row;
}

StripCase winter() {
  StripCase strip;
  strip.day_of_year = 33;
  return strip;
}

const HeatFilter& winter_filter() {
  static const HeatFilter filter = fit_heat_filter(winter());
  return filter;
}

std::vector<StripTops::Row> tops_in(const std::vector<Outside>& outside, Celsius start) {
  StripTops run(winter_filter(), start);
  std::vector<StripTops::Row> list;
  for (const Outside& at : outside) {
    run.step(open_air(at), resistances());
    list.push_back(run.tops());
  }
  return list;
}

TEST(StripTops, LieWithinThreeTenthsOfTheFullModelOfADryBody) {
  StripCase dry = winter();
  dry.mix.cement = base::KilogramsPerCubicMetre(0);
  dry.placed = Celsius(5);
  auto outside = swinging(240, 0, 5, 3, 0.2);
  for (std::size_t i = 0; i < outside.size(); ++i)
    outside[i].air = outside[i].air + base::Kelvins(i < 96 ? 3 : -4);
  const auto tops = tops_in(outside, dry.placed);
  for (std::size_t k = 0; k < covers.size(); ++k) {
    const auto course = top_course(dry, covered_from(outside, covers[k], 0), Hours(1));
    for (std::size_t i = 0; i < outside.size(); ++i)
      EXPECT_NEAR(tops[i][k], course[i].top.value(), 0.3) << "cover " << k << ", hour " << i;
  }
}

RC_GTEST_PROP(StripTops, NeverFallBelowTheColdestOfWhatTheyBeginWithAndWhatDrawsThem, ()) {
  const auto outside = swinging(120, *rc::gen::inRange(-8, 12), *rc::gen::inRange(0, 7),
                                *rc::gen::inRange(0, 12), *rc::gen::inRange(0, 11) / 10.0);
  const Celsius start(*rc::gen::inRange(0, 15));
  double least = coldest_start(winter_filter(), start).value();
  for (const Outside& at : outside) {
    const OpenAir open = open_air(at);
    least = std::min(least, open.air - std::max(open.sky, 0.0));
  }
  for (const StripTops::Row& row : tops_in(outside, start)) {
    for (std::size_t k = 0; k < covers.size(); ++k)
      RC_ASSERT(row[k] >= least - 1e-9);
  }
}

RC_GTEST_PROP(StripTops, ColderAirInAnyHourNeverMakesATopWarmer, ()) {
  const auto outside = swinging(96, *rc::gen::inRange(-8, 12), *rc::gen::inRange(0, 7),
                                *rc::gen::inRange(0, 12), *rc::gen::inRange(0, 11) / 10.0);
  const auto hour = *rc::gen::inRange<std::size_t>(0, outside.size());
  StripTops warm(winter_filter(), Celsius(5)), cold(winter_filter(), Celsius(5));
  for (std::size_t i = 0; i < outside.size(); ++i) {
    OpenAir open = open_air(outside[i]);
    warm.step(open, resistances());
    if (i == hour) open.air -= 3;
    cold.step(open, resistances());
    for (std::size_t k = 0; k < covers.size(); ++k)
      RC_ASSERT(cold.tops()[k] <= warm.tops()[k] + 1e-12);
  }
}

TEST(StripTops, OpenAirIsTheExchangeOfABareFaceTakenApart) {
  const Outside at{Celsius(-2), MetresPerSecond(4), Fraction(0.3)};
  const OpenAir open = open_air(at);
  for (const double sky : {0.0, 0.4, 1.0}) {
    const Exchange exchange = surface_exchange(at, sky);
    EXPECT_DOUBLE_EQ(exchange.towards.value(), open.air - sky * open.sky);
    EXPECT_DOUBLE_EQ(exchange.resistance, open.resistance);
  }
  Outside sunny = at;
  sunny.sun = 400;
  EXPECT_LT(open_air(sunny).sky, 0) << "the sun draws a face above the air";
}

}  // namespace
}  // namespace weatherstruck::matter
