#include "plausible.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "weatherstruck/base/text.h"

namespace weatherstruck::feed {
namespace {

enum class Kind { temperature, speed, share, depth };

Kind kind_of(Measure measure) {
  switch (measure) {
    case Measure::temperature:
    case Measure::dew_point:
      return Kind::temperature;
    case Measure::wind:
    case Measure::gust:
      return Kind::speed;
    case Measure::rain_in_an_hour:
      return Kind::depth;
    case Measure::humidity:
    case Measure::cloud:
    case Measure::rain_chance:
      return Kind::share;
  }
  return Kind::share;
}

struct Unit {
  Kind kind;
  std::string_view name;
  UnitRule rule;
  bool shown;  // named in the list of what is allowed; the others are the same unit spelt otherwise
};

// Definitions of the SI brochure and NIST SP 811; a knot is 1852 m in an hour, a mile 1609.344 m.
constexpr double kMph = 0.44704;
constexpr double kKnot = 1852.0 / 3600.0;
constexpr std::array<Unit, 40> kUnits{{
    {Kind::temperature, "degC", {1, 0}, true},
    {Kind::temperature, "celsius", {1, 0}, false},
    {Kind::temperature, "C", {1, 0}, false},
    {Kind::temperature, "F", {5.0 / 9.0, -160.0 / 9.0}, true},
    {Kind::temperature, "degF", {5.0 / 9.0, -160.0 / 9.0}, false},
    {Kind::temperature, "fahrenheit", {5.0 / 9.0, -160.0 / 9.0}, false},
    {Kind::temperature, "K", {1, -273.15}, true},
    {Kind::temperature, "kelvin", {1, -273.15}, false},
    {Kind::speed, "m/s", {1, 0}, true},
    {Kind::speed, "ms", {1, 0}, false},
    {Kind::speed, "mps", {1, 0}, false},
    {Kind::speed, "m_s-1", {1, 0}, false},
    {Kind::speed, "km/h", {1 / 3.6, 0}, true},
    {Kind::speed, "kmh", {1 / 3.6, 0}, false},
    {Kind::speed, "kph", {1 / 3.6, 0}, false},
    {Kind::speed, "km_h-1", {1 / 3.6, 0}, false},
    {Kind::speed, "mph", {kMph, 0}, true},
    {Kind::speed, "mp/h", {kMph, 0}, false},
    {Kind::speed, "kn", {kKnot, 0}, true},
    {Kind::speed, "kt", {kKnot, 0}, false},
    {Kind::speed, "kts", {kKnot, 0}, false},
    {Kind::speed, "knots", {kKnot, 0}, false},
    {Kind::share, "%", {0.01, 0}, true},
    {Kind::share, "pct", {0.01, 0}, false},
    {Kind::share, "percent", {0.01, 0}, false},
    {Kind::share, "0-1", {1, 0}, true},
    {Kind::share, "fraction", {1, 0}, false},
    {Kind::share, "1", {1, 0}, false},
    {Kind::share, "okta", {0.125, 0}, true},
    {Kind::share, "oktas", {0.125, 0}, false},
    {Kind::share, "eighths", {0.125, 0}, false},
    {Kind::depth, "mm", {1, 0}, true},
    {Kind::depth, "kg/m2", {1, 0}, false},
    {Kind::depth, "kg_m-2", {1, 0}, false},
    {Kind::depth, "l/m2", {1, 0}, false},
    {Kind::depth, "cm", {10, 0}, true},
    {Kind::depth, "m", {1000, 0}, false},
    {Kind::depth, "in", {25.4, 0}, true},
    {Kind::depth, "inch", {25.4, 0}, false},
    {Kind::depth, "inches", {25.4, 0}, false},
}};

const Plausible& row_of(Measure measure) {
  return *std::find_if(kPlausible.begin(), kPlausible.end(),
                       [&](const Plausible& row) { return row.measure == measure; });
}

bool same_letters(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

}  // namespace

std::optional<base::Fault> impossible(Measure measure, double value, std::string place, double hours) {
  const Plausible& row = row_of(measure);
  const double most = measure == Measure::rain_in_an_hour ? row.most * std::max(1.0, hours) : row.most;
  // A hair of slack: converted units must not fail at the very edge.
  if (std::isfinite(value) && value >= row.least - 1e-9 && value <= most + 1e-9) return std::nullopt;
  return base::Fault{
      "impossible-value", std::move(place),
      fmt::format("{} {} {}", row.name, base::plain_number(value * row.shown_times, 2), row.unit),
      fmt::format("{} to {} {}", base::plain_number(row.least * row.shown_times, 1),
                  base::plain_number(most * row.shown_times, 1), row.unit),
      "Check the unit, or leave the value out where the reading is false."};
}

double tamed(Measure measure, double value) {
  if (kind_of(measure) == Kind::share) return std::clamp(value, 0.0, 1.0);
  const bool never_negative = measure != Measure::temperature && measure != Measure::dew_point;
  return never_negative ? std::max(value, 0.0) : value;
}

std::optional<UnitRule> unit_rule(Measure measure, std::string_view unit) {
  const Kind kind = kind_of(measure);
  for (const Unit& known : kUnits) {
    if (known.kind == kind && same_letters(known.name, unit)) return known.rule;
  }
  return std::nullopt;
}

std::string units_allowed(Measure measure) {
  std::string out;
  for (const Unit& known : kUnits) {
    if (!known.shown || known.kind != kind_of(measure)) continue;
    if (!out.empty()) out += ", ";
    out += known.name;
  }
  return out;
}

}  // namespace weatherstruck::feed
