// What follows from other values of an hour, each marked so.
#include <algorithm>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::sky {
namespace {

// Saturation over water, Magnus form (WMO Guide to Instruments and Methods of Observation, WMO-No. 8, annex
// 4.B); the factor in front drops out of a ratio.
double saturation(double celsius) {
  return std::exp(17.62 * celsius / (243.12 + celsius));
}

}  // namespace

void SeriesBuilder::derive_gusts(double factor) {
  std::size_t derived = 0;
  for (Hour& hour : hours_) {
    if (!hour.wind || hour.gust) continue;
    hour.gust = {quantised(hour.wind->value * factor), Origin::derived};
    ++derived;
  }
  if (derived == 0) return;
  note("derived-gust",
       fmt::format("{} {} without a gust from the source: taken as {:.2f} times the mean wind", derived,
                   derived == 1 ? "hour" : "hours", factor));
}

void SeriesBuilder::derive_humidity() {
  for (Hour& hour : hours_) {
    if (hour.humidity || !hour.temperature || !hour.dew_point) continue;
    const double share =
        saturation(hour.dew_point->value.value()) / saturation(hour.temperature->value.value());
    hour.humidity = {quantised(base::Fraction(std::clamp(share, 0.0, 1.0))), Origin::derived};
  }
}

void SeriesBuilder::bound_gusts(const std::map<base::Instant, double>& bounds) {
  for (Hour& hour : hours_) {
    const auto bound = bounds.find(hour.start);
    if (hour.gust || bound == bounds.end()) continue;
    hour.gust = {quantised(base::MetresPerSecond(bound->second)), Origin::derived};
  }
}

}  // namespace weatherstruck::sky
