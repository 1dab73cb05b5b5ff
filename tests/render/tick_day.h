#pragma once
// A day of the demonstration's job planned by hand, with every kind of box: what the phone sheet makes of
// ticks must not depend on how well anybody plans. Invented.
#include <chrono>

#include "weatherstruck/render/trip.h"
#include "weatherstruck/works/expand.h"
#include "works/demo_job.h"

namespace weatherstruck::render {

struct TickDay {
  works::Job job = works::demo_job();
  works::TaskList list = works::derive_tasks(job);
  sky::Series series{};
  trade::LimitValues limits = works::limits_of(job).values;
  programme::Plan plan{};

  static base::Instant at(int hour, int minute = 0) {
    return std::chrono::sys_days(std::chrono::year(2026) / std::chrono::February / 10) +
           std::chrono::hours(hour) + std::chrono::minutes(minute);
  }
  [[nodiscard]] TripFacts facts() const { return {job, list, series, limits, plan, at(5), {}, true}; }
};

inline TickDay tick_day() {
  TickDay day;
  for (const works::Task& task : day.list.tasks) {
    programme::PlannedTask planned;
    planned.task = task.name;
    day.plan.tasks.push_back(planned);
  }
  const auto place = [&](const char* name, base::Instant from, base::Instant to, int courses = 0) {
    for (programme::PlannedTask& planned : day.plan.tasks) {
      if (planned.task != name) continue;
      programme::PlannedRun run;
      run.span = {from, to};
      run.share = 1;
      run.courses_after = courses;
      planned.runs.push_back(run);
    }
  };
  using Day = TickDay;
  place("bed-dig", Day::at(7), Day::at(8));
  place("bed-pour", Day::at(8), Day::at(9));
  place("shelter-below", Day::at(9), Day::at(11), 4);
  place("shelter-lay", Day::at(11), Day::at(15), 6);
  place("steps-build", Day::at(15), Day::at(17), 3);
  const auto cover = [&](const char* part, bool concrete, trade::CoverKind kind, base::Instant from,
                         base::Instant to) {
    day.plan.covers.push_back({part, part, concrete, kind, base::SquareMetres(2), {from, to}, false});
  };
  cover("shelter-north-footing", true, trade::CoverKind::hessian_and_sheet, Day::at(-8), Day::at(8));
  cover("bed", false, trade::CoverKind::mat, Day::at(17), Day::at(30));
  day.plan.canopy.push_back({"shelter", Day::at(10, 50), {Day::at(11), Day::at(15)}, Day::at(15, 10)});
  day.plan.horizon_from = Day::at(0);
  day.plan.horizon_to = Day::at(48);
  day.plan.forecast_until = Day::at(24);
  day.plan.home = Day::at(20);
  return day;
}

}  // namespace weatherstruck::render
