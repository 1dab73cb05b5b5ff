#pragma once
// How far a forecast misses by how many days it is ahead: what draws weathers and what learns a site share
// it.
#include <algorithm>

#include "weatherstruck/sky/possible.h"

namespace weatherstruck::sky {

/// Standard deviation of the temperature, kelvins.
inline double temperature_error(double days, const ForecastError& error) {
  const double rise = (error.at_half_a_day - error.at_once).value();
  const double sigma = days < 0.5 ? error.at_once.value() + rise * days / 0.5
                                  : error.at_half_a_day.value() + error.each_day.value() * (days - 0.5);
  return std::min(sigma, error.most.value());
}

/// Standard deviation of the logarithm of the wind.
inline double wind_error(double days, const ForecastError& error) {
  return std::min(error.wind + error.wind_each_day * days, error.wind_most);
}

}  // namespace weatherstruck::sky
