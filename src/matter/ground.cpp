#include "weatherstruck/matter/ground.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/matter/constants.h"
#include "weatherstruck/matter/evaporation.h"

namespace weatherstruck::matter {

using base::Millimetres;

GroundState step(GroundState before, const GroundKind& kind, Millimetres rain,
                 base::MillimetresPerHour drying, base::Hours time) {
  if (!(rain.value() >= 0 && drying.value() >= 0 && time.value() >= 0)) {
    throw std::invalid_argument("ground step: rain, drying and time are 0 or more");
  }
  Millimetres water = std::min(before.water + rain, kind.capacity);
  if (water > kind.drains_to) {
    water = kind.drains_to + (water - kind.drains_to) * std::exp2(-(time / kind.half_life));
  }
  return {std::max(water - drying * time, Millimetres(0))};
}

bool is_sodden(GroundState state, const GroundKind& kind) {
  return state.water > kind.sodden;
}

Millimetres standing_water(GroundState state, const GroundKind& kind) {
  return std::max(state.water - kind.standing, Millimetres(0));
}

base::MillimetresPerHour drying_rate(base::Celsius air, base::Fraction humidity,
                                     base::MetresPerSecond wind_2m) {
  const double deficit = saturation_pressure(air) * (1.0 - std::clamp(humidity.value(), 0.0, 1.0));
  const double wind = std::max(wind_2m.value(), 0.0);
  return base::MillimetresPerHour(number::penman_scale * (1.0 + number::penman_wind * wind) * deficit / 24.0);
}

}  // namespace weatherstruck::matter
