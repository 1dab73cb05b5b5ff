#pragma once
// Daylight for each day of the trip, and how much of the working day has it.
#include <chrono>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/sky/sun.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

struct LightDay {
  base::LocalDay day;
  sky::DayLight light;
  std::chrono::seconds working{0};  ///< of the working day, between dawn and dusk
};

/// The local days from leaving home to the promise.
[[nodiscard]] std::vector<LightDay> light_days(const works::Job& job);
/// The light of one local day at the site.
[[nodiscard]] LightDay light_day(const works::Job& job, base::LocalDay day);

[[nodiscard]] std::string light_table(const works::Job& job, const std::vector<LightDay>& days, Ink ink);

}  // namespace weatherstruck::render
