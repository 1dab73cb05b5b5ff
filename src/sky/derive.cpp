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

double usual_chance(base::Millimetres falls, double days_ahead, base::Fraction wet_hours) {
  const double amount = falls.value();
  double said = 0.03;
  if (amount > 0) said = amount < 0.2 ? 0.6 : amount < 1 ? 0.8 : 0.92;
  return wet_hours.value() + (said - wet_hours.value()) * std::exp(-days_ahead / 4);
}

void SeriesBuilder::derive_rain_chances(const std::optional<base::Instant>& issued) {
  if (!issued) return;
  std::size_t derived = 0;
  for (Hour& hour : hours_) {
    if (hour.rain_chance || !hour.rain) continue;
    const double ahead = std::chrono::duration<double, std::ratio<86400>>(hour.start - *issued).count();
    hour.rain_chance = {
        quantised(base::Fraction(usual_chance(hour.rain->value, std::max(0.0, ahead), kWetHours))),
        Origin::derived};
    ++derived;
  }
  if (derived == 0) return;
  note("derived-chance",
       fmt::format(
           "{} {} without a chance of rain from the source: reckoned from the amount and how far ahead",
           derived, derived == 1 ? "hour" : "hours"));
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
