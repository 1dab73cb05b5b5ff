#include "weatherstruck/matter/mortar.h"

#include <algorithm>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

constexpr base::Celsius frost_reference{5};
constexpr base::Celsius hot_mix{30};
constexpr base::Hours hot_life{1};

/// From `low` at x0 to `high` at x1 in a line, held outside.
double ramp(double x, double x0, double x1, double low, double high) {
  const double share = std::clamp((x - x0) / (x1 - x0), 0.0, 1.0);
  return low + share * (high - low);
}

}  // namespace

HourRange thumbprint_hours(Suction suction) {
  return suction == Suction::quick ? HourRange{base::Hours(1), base::Hours(1.5), base::Hours(2)}
                                   : HourRange{base::Hours(5), base::Hours(6.5), base::Hours(8)};
}

double stiffening_rate(base::Celsius air, base::Fraction humidity, base::MetresPerSecond wind) {
  return fhp_rate(air) * drying_factor(humidity, wind);
}

double drying_factor(base::Fraction humidity, base::MetresPerSecond wind) {
  return ramp(humidity.value(), 0.6, 1.0, 1.0, 0.5) * ramp(wind.value(), 1.0, 6.0, 1.0, 1.5);
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
