#pragma once
// Deutscher Wetterdienst, MOSMIX: hourly forecasts of single stations to ten days, KML (opendata.dwd.de) in a
// KMZ archive. Element names, units and meaning: DWD, "MetElementDefinition" of MOSMIX. Values are valid at
// their step; sums, gusts and chances are of the hour before it.
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// TTT, Td (kelvin), FF, N; FX1 as gust of the hour before its step, where it is missing the least of the
/// FX3 (three hours before) that cover it, marked derived; RR1c as rain of the hour before, where a stretch
/// has none the total of RR3c or RR6c, split; R101 (more than 0.1 mm), else wwP (anything at all), as chance
/// of rain; E_TTT and E_FF, absolute errors, times 1.25 as the hour's error. "-" is missing. Of a file with
/// several stations the one nearest to the place of the options.
/// @param kml    the text inside the archive
/// @param faults gets every fault, places "TTT, step 5"; where it stays unchanged the series is whole
/// @return an empty series where there are faults
[[nodiscard]] sky::Series read_mosmix(std::string_view kml, const ReadOptions& options, base::Faults& faults);

/// The same from the archive.
[[nodiscard]] sky::Series read_mosmix_archive(std::string_view kmz, const ReadOptions& options,
                                              base::Faults& faults);

/// True for KML text with a list of forecast steps.
[[nodiscard]] bool looks_like_mosmix(std::string_view text);

}  // namespace weatherstruck::feed
