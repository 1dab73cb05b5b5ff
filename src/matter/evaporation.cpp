#include "weatherstruck/matter/evaporation.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {
namespace {

constexpr double kilometres_per_hour = 3.6;  // of one metre a second

double humidity(const SurfaceAir& at) {
  return std::clamp(at.humidity.value(), 0.0, 1.0);
}

double power_2_5(double x) {
  const double base = std::max(x, 0.0);
  return base * base * std::sqrt(base);
}

base::KilogramsPerSquareMetreHour uno(const SurfaceAir& at, double scale, double shift, double still) {
  const double drive =
      power_2_5(at.concrete.value() + shift) - humidity(at) * power_2_5(at.air.value() + shift);
  const double wind = std::max(at.wind.value(), 0.0) * kilometres_per_hour;
  return base::KilogramsPerSquareMetreHour(std::max(scale * drive * (wind + still) * 1e-6, 0.0));
}

}  // namespace

base::KilogramsPerSquareMetreHour evaporation(const SurfaceAir& at) {
  return uno(at, number::uno_scale, number::uno_shift, number::uno_still);
}

base::KilogramsPerSquareMetreHour evaporation_rounded(const SurfaceAir& at) {
  return uno(at, 5.0, 18.0, 4.0);
}

base::KilogramsPerSquareMetreHour evaporation_menzel(const SurfaceAir& at) {
  const double drive = saturation_pressure(at.concrete) - humidity(at) * saturation_pressure(at.air);
  const double wind = std::max(at.wind.value(), 0.0) * kilometres_per_hour;
  return base::KilogramsPerSquareMetreHour(
      std::max(number::menzel_scale * drive * (number::menzel_still + number::menzel_wind * wind), 0.0));
}

double pounds_per_square_foot_hour(base::KilogramsPerSquareMetreHour rate) {
  constexpr double kilograms_per_pound = 0.45359237;
  constexpr double square_metres_per_square_foot = 0.3048 * 0.3048;
  return rate.value() * square_metres_per_square_foot / kilograms_per_pound;
}

base::MetresPerSecond wind_at_height(base::MetresPerSecond wind_10m, base::Metres height,
                                     base::Metres roughness) {
  if (!(wind_10m.value() >= 0)) throw std::invalid_argument("wind_at_height: wind is 0 or more");
  if (height <= roughness) return base::MetresPerSecond(0);
  return wind_10m * (std::log(height / roughness) / std::log(base::Metres(10) / roughness));
}

double saturation_pressure(base::Celsius temperature) {
  return number::tetens_scale *
         std::exp(number::tetens_factor * temperature.value() / (temperature.value() + number::tetens_shift));
}

}  // namespace weatherstruck::matter
