#pragma once
// US National Weather Service, observations of a station (/stations/{id}/observations of api.weather.gov):
// what the night was, for the morning's plan.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Reports in any order; each value with its unit beside it, of today ("wmoUnit:km_h-1") or of 2019
/// ("unit:m_s-1", rain in "unit:m"). null or an absent key is missing. Rain is of the hour before the report:
/// of those at the minute of the hour at which most have any, since reports between count it twice; where
/// those have none, precipitationLast3Hours. Every value is marked measured; the issue is the last report.
/// @param faults gets every fault, places JSON pointers; where it stays unchanged the series is whole
[[nodiscard]] sky::Series read_nws_observations(const files::Json& document, const ReadOptions& options,
                                                base::Faults& faults);

}  // namespace weatherstruck::feed
