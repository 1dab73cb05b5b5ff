#pragma once
// The demonstration's trip with its plan, to ask why it is as it is.
#include <chrono>

#include "programme/demo_week.h"
#include "weatherstruck/programme/hindrance.h"
#include "weatherstruck/programme/planner.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {

/// Not to be moved: the case looks into it.
struct AskedTrip {
  works::Job job;
  base::Instant now = job.trip.leave_home - std::chrono::hours(1);
  works::TaskList list = works::derive_tasks(job);
  sky::Series weather = demo_week();
  trade::ResolvedLimits limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  Plan plan = planned();

  [[nodiscard]] TripCase asked() const { return {job, list, weather, limits.values, plan, now}; }

 private:
  [[nodiscard]] Plan planned() const {
    PlanRequest request{job, list, weather, limits.values, job.trip.leave_home};
    request.schedules = 100;
    return make_plan(request).plan;
  }
};

/// The whole of it promised sooner.
inline works::Job promised_sooner(std::chrono::hours by) {
  works::Job job = works::demo_job();
  job.importance.clear();  // nothing of it may wait
  job.trip.home_by -= by;
  return job;
}

}  // namespace weatherstruck::programme
