#pragma once
// NOAA ISD-Lite: hourly observations of stations world-wide, columns of fixed width, UTC (NCEI,
// "isd-lite-format"): year, month, day, hour, then air and dew point in tenths of a degree, pressure, wind
// direction, wind speed in tenths of m/s, sky cover code, rain of one and of six hours in tenths of a
// millimetre. -9999 is missing; -1 for rain is a trace, taken as none. No gusts.
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Rain: the hour's own, and where six hours have none of their own the six-hour total that ends there,
/// split. The format does not say where the station is: the place of the options stands. Sky cover codes 0 to
/// 8 are eighths; the others do not say how much.
/// @param faults gets every fault, places "line 12"
[[nodiscard]] sky::Series read_isd_lite(std::string_view name, std::string_view text,
                                        const ReadOptions& options, base::Faults& faults);

/// Twelve whole numbers on the first line, the first four a date and an hour.
[[nodiscard]] bool looks_like_isd_lite(std::string_view text);

}  // namespace weatherstruck::feed
