#pragma once
// Weathers for the tests of the heat balance.
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "weatherstruck/matter/heat.h"

namespace weatherstruck::matter::test {

inline constexpr std::array<HeatCover, 5> covers{HeatCover::bare, HeatCover::hessian, HeatCover::sheet,
                                                 HeatCover::hessian_and_sheet, HeatCover::mat};

/// A pour at ten in the morning: air swings about a mean, warmest at two in the afternoon.
inline std::vector<Outside> swinging(int hours, double mean, double swing, double wind, double cloud) {
  constexpr double pi = 3.14159265358979323846;
  std::vector<Outside> list;
  for (int hour = 0; hour < hours; ++hour) {
    list.push_back({base::Celsius(mean + swing * std::cos(2 * pi * (hour + 0.5 - 4) / 24)),
                    base::MetresPerSecond(wind), base::Fraction(cloud)});
  }
  return list;
}

/// Concrete and ground of one stuff at one temperature, no sides, no cement: a half-space.
inline StripCase half_space(double celsius) {
  StripCase strip;
  strip.shape = {base::Metres(0.15), base::Metres(1e9), base::Metres(0.15)};
  strip.mix.cement = base::KilogramsPerCubicMetre(0);
  strip.ground.conductivity = heat::concrete_conductivity;
  strip.ground.capacity = heat::concrete_density * heat::concrete_specific_heat;
  strip.ground.mean = base::Celsius(celsius);
  strip.ground.amplitude = base::Kelvins(0);
  strip.placed = base::Celsius(celsius);
  return strip;
}

}  // namespace weatherstruck::matter::test
