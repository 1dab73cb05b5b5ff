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
