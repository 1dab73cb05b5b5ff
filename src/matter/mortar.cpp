#include "weatherstruck/matter/mortar.h"

#include <algorithm>

#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {
namespace {

constexpr base::Celsius frost_reference{number::frost_reference};
constexpr base::Celsius hot_mix{number::hot_mix};
constexpr base::Hours hot_life{number::hot_life};

/// From `low` at x0 to `high` at x1 in a line, held outside.
double ramp(double x, double x0, double x1, double low, double high) {
  const double share = std::clamp((x - x0) / (x1 - x0), 0.0, 1.0);
  return low + share * (high - low);
}

}  // namespace

HourRange thumbprint_hours(Suction suction) {
  return suction == Suction::quick
             ? HourRange{base::Hours(number::quick_low), base::Hours(number::quick_usual),
                         base::Hours(number::quick_high)}
             : HourRange{base::Hours(number::slow_low), base::Hours(number::slow_usual),
                         base::Hours(number::slow_high)};
}

double stiffening_rate(base::Celsius air, base::Fraction humidity, base::MetresPerSecond wind) {
  return fhp_rate(air) * drying_factor(humidity, wind);
}

double drying_factor(base::Fraction humidity, base::MetresPerSecond wind) {
  return ramp(humidity.value(), number::damp_from, 1.0, 1.0, number::damp_factor) *
         ramp(wind.value(), number::windy_from, number::windy_to, 1.0, number::windy_factor);
}

base::Hours mortar_frost_safe_hours(base::Hours at_five) {
  return at_five * fhp_rate(frost_reference);
}

double mortar_frost_rate(base::Celsius air) {
  static const double most = fhp_rate(frost_reference);
  if (air.value() <= 0) return 0;
  return std::min(fhp_rate(air), most);
}

base::Hours workable_life(base::Celsius air, base::Hours limit) {
  return air > hot_mix ? std::min(limit, hot_life) : limit;
}

}  // namespace weatherstruck::matter
