#include "weatherstruck/sky/series.h"

#include <algorithm>
#include <cmath>

namespace weatherstruck::sky {
namespace {

double rounded(double v, double steps_in_unit) {
  return std::round(v * steps_in_unit) / steps_in_unit + 0.0;  // + 0.0: no negative zero
}

}  // namespace

const Hour* Series::at(base::Instant t) const {
  // Most series have no gaps, and then the hour stands where it is reckoned to stand.
  if (hours.empty() || t < hours.front().start) return nullptr;
  const auto guess = static_cast<std::size_t>((t - hours.front().start) / std::chrono::hours(1));
  if (guess < hours.size() && hours[guess].start <= t && t < hours[guess].start + std::chrono::hours(1))
    return &hours[guess];
  const auto after = std::upper_bound(hours.begin(), hours.end(), t,
                                      [](base::Instant when, const Hour& hour) { return when < hour.start; });
  if (after == hours.begin()) return nullptr;
  const Hour& hour = *(after - 1);
  return t < hour.start + std::chrono::hours(1) ? &hour : nullptr;
}

base::Celsius quantised(base::Celsius v) {
  return base::Celsius(rounded(v.value(), 10.0));
}
base::Millimetres quantised(base::Millimetres v) {
  return base::Millimetres(rounded(v.value(), 10.0));
}
base::MetresPerSecond quantised(base::MetresPerSecond v) {
  return base::MetresPerSecond(rounded(v.value(), 10.0));
}
base::Fraction quantised(base::Fraction v) {
  return base::Fraction(rounded(v.value(), 100.0));
}

}  // namespace weatherstruck::sky
