#pragma once
// What weather can be. A value outside is a wrong unit, a broken sensor or a damaged file, never weather.
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {

enum class Measure { temperature, dew_point, humidity, wind, gust, cloud, rain_in_an_hour, rain_chance };

struct Plausible {
  Measure measure;
  std::string_view name;
  double least;
  double most;
  std::string_view unit;
  double shown_times;  ///< percent are kept as fractions and shown as percent
};

/// Extremes of the World Meteorological Organization's archive of records (figures from memory), rounded
/// outward: -89.2 C Vostok 1983, 56.7 C Furnace Creek 1913; dew point 35 C Dhahran 2003; gust 113.2 m/s
/// Barrow Island 1996; 305 mm in 42 minutes, Holt 1947. Humidity: sensors and models overshoot by a few
/// percent.
inline constexpr std::array<Plausible, 8> kPlausible{{
    {Measure::temperature, "temperature", -90, 60, "C", 1},
    {Measure::dew_point, "dew point", -110, 40, "C", 1},
    {Measure::humidity, "humidity", 0, 1.05, "%", 100},
    {Measure::wind, "wind", 0, 115, "m/s", 1},
    {Measure::gust, "gust", 0, 115, "m/s", 1},
    {Measure::cloud, "cloud", 0, 1.005, "%", 100},
    {Measure::rain_in_an_hour, "rain in an hour", 0, 400, "mm", 1},
    {Measure::rain_chance, "chance of rain", 0, 1, "%", 100},
}};

/// A fault "impossible-value" where the value (SI-like: C, fraction, m/s, mm) is outside, else nullopt.
/// `hours` stretches the rain limit over longer intervals.
[[nodiscard]] std::optional<base::Fault> impossible(Measure measure, double value, std::string place,
                                                    double hours = 1);

/// Overshooting fractions back to 1.
[[nodiscard]] double tamed(Measure measure, double value);

/// A value in a unit of ours from a unit of theirs: value * scale + offset.
struct UnitRule {
  double scale = 1;
  double offset = 0;
};

/// The rule for a measure and a unit's name as services and tables write it ("celsius", "degC", "km_h-1",
/// "%", "mph", "okta"); nullopt where the unit is not known for that measure. Case does not matter.
[[nodiscard]] std::optional<UnitRule> unit_rule(Measure measure, std::string_view unit);

/// The units allowed for a measure, for a fault's `expected`.
[[nodiscard]] std::string units_allowed(Measure measure);

}  // namespace weatherstruck::feed
