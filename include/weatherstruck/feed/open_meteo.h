#pragma once
// JSON in the shape of Open-Meteo's forecast (open-meteo.com/en/docs): lists side by side, a unit for each.
// Times are local by utc_offset_seconds, or seconds since 1970; sums, gusts and chances are of the hour
// before. The free service is not for trade use; its data are CC BY 4.0.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Variables by the names of today and of before ("wind_speed_10m", "windspeed_10m"); others are passed over.
/// Units are read from hourly_units: the wind is in km/h unless another was asked for. null is missing.
/// @param faults gets every fault, places JSON pointers; where it stays unchanged the series is whole
/// @return an empty series where there are faults
[[nodiscard]] sky::Series read_open_meteo(const files::Json& document, const ReadOptions& options,
                                          base::Faults& faults);

}  // namespace weatherstruck::feed
