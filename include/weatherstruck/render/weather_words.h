#pragma once
// Weather in a few words: what a stretch of hours holds, and which work it stops.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"

namespace weatherstruck::render {

/// What the hours that touch a span hold. A value is absent where no hour of the span has it.
struct WeatherSum {
  std::optional<base::Celsius> low;
  std::optional<base::Celsius> high;
  std::optional<base::Millimetres> rain;      ///< of the hours that have it
  std::optional<base::Millimetres> heaviest;  ///< in one hour
  std::optional<base::Fraction> chance;       ///< greatest
  bool chance_reckoned = false;               ///< of an hour at least the source gave none
  std::optional<base::MetresPerSecond> wind;  ///< greatest mean
  std::optional<base::MetresPerSecond> gust;
  std::optional<base::Fraction> cloud;  ///< mean
  int hours = 0;                        ///< in the span
  int without_rain_value = 0;
  std::vector<sky::Origin> origins;  ///< each kind met, once, in the order of the enumeration
};
[[nodiscard]] WeatherSum sum_up(const sky::Series& series, programme::Span span);

/// Work that the weather of a span stops, in words, from the operation table's limits: "facework, pointing".
/// Light is not counted. Empty: nothing.
[[nodiscard]] std::string stopped_work(const WeatherSum& sum, const trade::LimitValues& limits);

/// One sentence for the hours that matter: temperatures, the wet hours with what falls, wind, and frost.
/// "no forecast" where there is none.
[[nodiscard]] std::string weather_line(const sky::Series& series, programme::Span span,
                                       const base::Zone& zone, Units units);

}  // namespace weatherstruck::render
