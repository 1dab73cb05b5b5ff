#include "weatherstruck/matter/heat_surface.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/matter/heat_constants.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Fraction;

constexpr double zero_celsius = 273.15;
constexpr double seconds_an_hour = 3600;

double clamped(Fraction f) {
  return std::clamp(f.value(), 0.0, 1.0);
}

}  // namespace

double cover_resistance(HeatCover cover) {
  switch (cover) {
    case HeatCover::bare:
      return 0;
    case HeatCover::hessian:
      return heat::hessian_resistance;
    case HeatCover::sheet:
      return heat::sheet_resistance;
    case HeatCover::hessian_and_sheet:
      return heat::hessian_resistance + heat::sheet_resistance;
    case HeatCover::mat:
      return heat::mat_resistance;
  }
  throw std::logic_error("cover_resistance: unknown cover");
}

double cover_evaporation(HeatCover cover) {
  if (cover == HeatCover::bare) return 1;
  return cover == HeatCover::hessian ? heat::hessian_evaporation : 0;
}

double sky_share(base::Metres depth, base::Metres width) {
  if (!(width.value() > 0 && depth.value() >= 0))
    throw std::invalid_argument("sky_share: a trench has a width, and a depth of 0 or more");
  const double ratio = depth / width;
  return std::sqrt(1 + ratio * ratio) - ratio;
}

double sky_emissivity(Celsius air, Fraction cloud) {
  const double c = clamped(cloud);
  const double clear = std::clamp(heat::sky_clear_at_0 + heat::sky_clear_per_degree * air.value(), 0.0, 1.0);
  return (1 - heat::sky_cloud * c) * clear + heat::sky_cloud * c;
}

OpenAir open_air(const Outside& outside) {
  if (!(outside.wind_10m.value() >= 0 && outside.sun >= 0))
    throw std::invalid_argument("surface_exchange: wind and sun are 0 or more");
  static const double near_the_ground =
      wind_at_height(base::MetresPerSecond(1), base::Metres(heat::wind_height)).value();
  const double wind = outside.wind_10m.value() * near_the_ground;
  const double kelvin = outside.air.value() + zero_celsius;
  const double cubed = heat::emissivity * heat::stefan_boltzmann * kelvin * kelvin * kelvin;
  const double film = heat::convection_still + heat::convection_per_wind * wind + 4 * cubed;
  const double lost = cubed * kelvin * (1 - sky_emissivity(outside.air, outside.cloud.value_or(Fraction(0))));
  return {outside.air.value(), 1 / film, (lost - heat::sun_absorbed * outside.sun) / film};
}

Exchange surface_exchange(const Outside& outside, double sky) {
  const OpenAir open = open_air(outside);
  return {Celsius(open.air - sky * open.sky), open.resistance + cover_resistance(outside.cover)};
}

Exchange open_exchange(Outside outside, double sky) {
  outside.cover = HeatCover::bare;
  return surface_exchange(outside, sky);
}

Evaporating evaporating(const Outside& outside, Celsius face, double wet) {
  const double share = wet * cover_evaporation(outside.cover);
  if (share <= 0) return {};
  constexpr double probe = 0.1;
  SurfaceAir at{face, outside.air, outside.humidity.value_or(Fraction(heat::humidity_if_unknown)),
                wind_at_height(outside.wind_10m, base::Metres(heat::wind_height))};
  const double latent =
      share * (heat::latent_heat_at_0 + heat::latent_heat_per_degree * face.value()) / seconds_an_hour;
  const double now = evaporation(at).value();
  if (now <= 0) return {};
  at.concrete = face + base::Kelvins(probe);
  return {latent * now, latent * (evaporation(at).value() - now) / probe};
}

Exchange with_evaporation(const Exchange& dry, const Evaporating& wet, Celsius face) {
  if (wet.flux <= 0) return dry;
  if (!(dry.resistance > 0))
    throw std::invalid_argument("with_evaporation: a face that is held cannot evaporate");
  const double resistance = 1 / (1 / dry.resistance + wet.slope);
  // About the face, so that it does not lose figures: what enters there, over what one degree would change.
  const double entering = (dry.towards - face).value() / dry.resistance - wet.flux;
  return {face + base::Kelvins(entering * resistance), resistance};
}

double wet_share(base::Hours set) {
  static const base::Hours first = initial_set(Celsius(20));
  static const base::Hours last = final_set(Celsius(20));
  return std::clamp((last - set) / (last - first), 0.0, 1.0);
}

}  // namespace weatherstruck::matter
