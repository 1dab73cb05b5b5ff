#pragma once
// MET Norway Locationforecast 2.0, "compact" and "complete" (api.met.no, JSON data format documentation).
// Times are UTC; a step's readings stand at its time; next_1_hours and next_6_hours follow it.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Rain: next_1_hours while a step has it, from then on next_6_hours of the six-hour steps; the six-hour
/// windows of hourly steps overlap and are never added. The last step, which has readings only, ends the
/// series. Where the tenth and ninetieth of a hundred are given for temperature or wind, the hour's error is
/// their distance over 2.56. Units are read from meta.units; a unit other than the documented one is a fault.
/// @param faults gets every fault; where it stays unchanged the series is whole
/// @return an empty series where there are faults
[[nodiscard]] sky::Series read_met_norway(const files::Json& document, const ReadOptions& options,
                                          base::Faults& faults);

}  // namespace weatherstruck::feed
