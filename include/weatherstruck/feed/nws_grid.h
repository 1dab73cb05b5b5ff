#pragma once
// US National Weather Service, forecast grid data (/gridpoints/{office}/{x},{y} of api.weather.gov).
// Each layer is a list of values over ISO 8601 intervals, its unit beside it.
#include <chrono>
#include <optional>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Temperature, dew point, humidity, wind, gust and sky cover hold over their intervals;
/// quantitativePrecipitation is the total of its interval and is split; probabilityOfPrecipitation stays
/// the chance of its whole interval. A layer that ends early or a null leaves hours without the value.
/// @param faults gets every fault; where it stays unchanged the series is whole
[[nodiscard]] sky::Series read_nws_grid(const files::Json& document, const ReadOptions& options,
                                        base::Faults& faults);

/// "P1DT2H", "PT6H", "PT90M", "P7D": whole days, hours and minutes, at least one, not zero, at most 400 days.
/// No years, months, weeks, seconds or fractions: the service does not use them.
[[nodiscard]] std::optional<std::chrono::seconds> parse_duration(std::string_view text);

}  // namespace weatherstruck::feed
