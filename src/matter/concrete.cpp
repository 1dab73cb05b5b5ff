#include "weatherstruck/matter/concrete.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <stdexcept>

#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;

constexpr double zero_celsius = 273.15;
constexpr Hours days_28{28.0 * 24.0};

double clamped(Celsius t) {
  return std::min(t.value(), hottest_rated.value());
}

bool too_cold(Celsius t) {
  return t < hydration_stops;
}

void require(bool holds, const char* what) {
  if (!holds) throw std::invalid_argument(what);
}

constexpr Celsius plastic_freezes{number::plastic_freezes};

}  // namespace

base::KelvinHours nurse_saul(Celsius temperature, Hours time, Celsius datum) {
  require(time.value() >= 0, "nurse_saul: time runs forward, give hours from 0 up");
  return base::KelvinHours(std::max((temperature - datum).value(), 0.0) * time.value());
}

double arrhenius_rate(Celsius temperature, double activation, Celsius reference) {
  if (too_cold(temperature)) return 0;
  const double t = clamped(temperature) + zero_celsius;
  const double ts = reference.value() + zero_celsius;
  return std::exp(-activation / number::gas * (1.0 / t - 1.0 / ts));
}

double fhp_rate(Celsius temperature) {
  const double below = std::max(20.0 - temperature.value(), 0.0);
  return arrhenius_rate(temperature, number::fhp_warm + number::fhp_per_degree * below);
}

double eurocode_rate(Celsius temperature) {
  if (too_cold(temperature)) return 0;
  return std::exp(number::eurocode_constant - number::eurocode_kelvin / (273.0 + clamped(temperature)));
}

double rate(RateLaw law, Celsius temperature) {
  switch (law) {
    case RateLaw::fhp:
      return fhp_rate(temperature);
    case RateLaw::eurocode:
      return eurocode_rate(temperature);
    case RateLaw::arrhenius:
      return arrhenius_rate(temperature);
  }
  throw std::logic_error("rate: unknown law");
}

double beta_cc(Hours equivalent_age, double s) {
  require(equivalent_age.value() >= 0, "beta_cc: age is 0 or more");
  require(s > 0, "beta_cc: s is positive");
  if (equivalent_age.value() == 0) return 0;
  return std::exp(s * (1.0 - std::sqrt(days_28 / equivalent_age)));
}

StrengthLaw early_age_law(base::Megapascals cube, double class_s) {
  return {mean_strength(cube), s_early * class_s / s_normal, RateLaw::fhp};
}

StrengthLaw eurocode_law(base::Megapascals cylinder, double class_s) {
  return {mean_strength(cylinder), class_s, RateLaw::eurocode};
}

base::Megapascals strength_at(const StrengthLaw& law, Hours equivalent_age) {
  return law.mean28 * beta_cc(equivalent_age, law.s);
}

std::optional<Hours> equivalent_hours_to(const StrengthLaw& law, base::Megapascals target) {
  require(target.value() >= 0, "equivalent_hours_to: a strength is 0 or more");
  if (target.value() == 0) return Hours(0);
  // target = mean28 exp(s (1 - x)), x = sqrt(28 d / age)
  const double x = 1.0 - std::log(target / law.mean28) / law.s;
  if (!(x > 0)) return std::nullopt;
  return days_28 / (x * x);
}

Hours initial_set(Celsius concrete) {
  const double f = concrete.value() * 1.8 + 32.0;
  const std::span<const SetTime> set_rows = set_times();
  if (f <= set_rows.front().fahrenheit) return Hours(set_rows.front().hours);
  for (std::size_t i = 1; i < set_rows.size(); ++i) {
    const SetTime& a = set_rows[i - 1];
    const SetTime& b = set_rows[i];
    if (f > b.fahrenheit) continue;
    const double share = (f - a.fahrenheit) / (b.fahrenheit - a.fahrenheit);
    return Hours(std::exp(std::log(a.hours) + share * (std::log(b.hours) - std::log(a.hours))));
  }
  return Hours(set_rows.back().hours);
}

Hours final_set(Celsius concrete) {
  return initial_set(concrete) * number::final_over_initial;
}

double setting_rate(Celsius concrete) {
  if (concrete < plastic_freezes) return 0;
  return initial_set(Celsius(20)) / initial_set(concrete);
}

}  // namespace weatherstruck::matter
