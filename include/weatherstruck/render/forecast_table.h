#pragma once
// The forecast over the trip, three hours a line, with what it stops.
#include <string>

#include "weatherstruck/render/page.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

[[nodiscard]] std::string forecast_table(const works::Job& job, const trade::LimitValues& limits,
                                         const sky::Series& series, base::Instant now, Ink ink);

}  // namespace weatherstruck::render
