#pragma once
// A job with all that a plan of it is made from.
#include <utility>
#include <vector>

#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/possible_trips.h"
#include "weatherstruck/trade/limits.h"

namespace weatherstruck::programme {

struct PlannedCase {
  works::Job job;
  sky::Series weather;
  works::TaskList list;
  trade::LimitValues limits;

  PlannedCase(works::Job the_job, sky::Series series)
      : job(std::move(the_job)), weather(std::move(series)), list(works::derive_tasks(job)) {
    std::vector<trade::LimitSetting> settings;
    for (const works::LimitOverride& o : job.limits.overrides)
      settings.push_back({o.key, o.value});
    limits = trade::limits_for(job.limits.set, job.limits.cold_rule, settings).values;
  }

  [[nodiscard]] PlanRequest request(int weathers, int schedules = 200) const {
    PlanRequest it{job, list, weather, limits, job.trip.leave_home};
    it.schedules = schedules;
    it.weathers = weathers;
    return it;
  }
  [[nodiscard]] Programme programme(const Plan* followed = nullptr, base::Instant now = {}) const {
    return build_programme(job, list, weather, limits, followed != nullptr ? now : job.trip.leave_home,
                           followed);
  }
  [[nodiscard]] PossibleRequest possible(const Programme& programme, std::uint64_t seed) const {
    return {job, list, weather, limits, job.trip.leave_home, programme, seed};
  }
};

}  // namespace weatherstruck::programme
