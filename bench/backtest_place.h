#pragma once
// How one station's climate differs from another's, so that what the neighbour saw can be foretold for the
// place itself, as a service would: its errors of timing and of amount stay, that it is another place goes.
#include <array>

#include "backtest_weather.h"

namespace weatherstruck::bench {

/// Means over years; the first index is the month, from 0. Rain, cloud and humidity are left as the neighbour
/// saw them.
struct PlaceDifference {
  std::array<std::array<double, 24>, 12> warmer{};  ///< by hour of the day, UTC: degrees to add
  std::array<std::array<double, 24>, 12> damper{};  ///< to the dew point
  std::array<double, 12> windier{};                 ///< factor of wind
  std::array<double, 12> gustier{};                 ///< factor of gusts

  /// Of a place that differs in nothing.
  static PlaceDifference none();
  /// Learnt from all hours that both have but those of the tested year and the two beside it.
  static PlaceDifference between(const History& place, const History& neighbour, int tested_year);
  /// What the neighbour saw at that hour, at the place.
  [[nodiscard]] ObservedHour put(const ObservedHour& seen, base::Instant hour) const;
};

}  // namespace weatherstruck::bench
