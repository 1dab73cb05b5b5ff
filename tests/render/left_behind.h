#pragma once
// The demonstration's job as it is left by hand: the bed laid on a Wednesday and not filled, the steps built,
// a cover that stays on, a frosty night to come. Invented.
#include "render/tick_day.h"

namespace weatherstruck::render {

inline TickDay left_behind() {
  using std::chrono::hours;
  TickDay site = tick_day();
  site.plan.covers.clear();
  site.plan.canopy.clear();
  for (programme::PlannedTask& task : site.plan.tasks)
    task.runs.clear();
  const auto place = [&](const char* name, base::Instant from, base::Instant to) {
    for (programme::PlannedTask& task : site.plan.tasks) {
      if (task.task == name) task.runs.push_back({{from, to}, 1, 0, false, false, false});
    }
  };
  using Day = TickDay;
  place("bed-dig", Day::at(7), Day::at(8));
  place("bed-pour", Day::at(8), Day::at(9));
  place("bed-lines", Day::at(31), Day::at(32));
  place("bed-wheel-bricks", Day::at(32), Day::at(33));
  place("bed-lay", Day::at(33), Day::at(36));
  place("steps-build", Day::at(36), Day::at(39));
  site.plan.covers.push_back({"bed",
                              "the brickwork of the bed",
                              false,
                              trade::CoverKind::hessian_and_sheet,
                              base::SquareMetres(3),
                              {Day::at(39), Day::at(62)},
                              true});
  site.plan.leaves_site = Day::at(40);
  for (int i = 0; i < 96; ++i) {
    sky::Hour hour;
    hour.start = Day::at(i);
    hour.temperature = {base::Celsius(i >= 74 && i < 78 ? -3 : 8)};
    hour.wind = {base::MetresPerSecond(2)};
    hour.rain = {base::Millimetres(0)};
    site.series.hours.push_back(hour);
  }
  return site;
}

}  // namespace weatherstruck::render
