#include "weatherstruck/works/work_hours.h"

#include <algorithm>

#include "weatherstruck/trade/operations.h"

namespace weatherstruck::works {
namespace {

double mean_pace(const Job& job, bool layers_only) {
  double sum = 0;
  double people = 0;
  for (const Person& person : job.crew) {
    if (layers_only && !person.lays_bricks) continue;
    sum += person.pace;
    people += 1;
  }
  return people > 0 ? sum / people : 0.0;
}

bool called_for(const TaskList& list, const Task& task) {
  if (!task.only_if) return true;
  const Task* decides = list.find(task.only_if->task);
  return decides != nullptr && !decides->ways.empty() && decides->ways.front().key == task.only_if->way;
}

/// Hands each task that is called for with its person-hours to `add`.
template <class Add>
void each_task(const Job& job, const TaskList& list, const Progress* progress, const Add& add) {
  const double all = mean_pace(job, false);
  const double layers = std::min(all, mean_pace(job, true));
  for (const Task& task : list.tasks) {
    if (task.operation == trade::Operation::drive || !called_for(list, task)) continue;
    const double pace = trade::row_for(task.operation).lays ? layers : all;
    if (pace <= 0) continue;
    const TaskProgress* done = progress == nullptr ? nullptr : progress->find(task.name);
    const double left = done == nullptr ? 1.0 : done->finished ? 0.0 : 1.0 - done->share();
    if (left <= 0) continue;
    add(task, (task.hours * left + task.set_up) / pace);
  }
}

}  // namespace

base::Hours crew_hours(const Job& job, const TaskList& list, const Progress* progress) {
  base::Hours sum(0);
  each_task(job, list, progress, [&](const Task&, base::Hours hours) { sum += hours; });
  return sum;
}

std::vector<PartHours> hours_by_part(const Job& job, const TaskList& list) {
  std::vector<PartHours> parts;
  PartHours site{{}, base::Hours(0)};
  each_task(job, list, nullptr, [&](const Task& task, base::Hours hours) {
    if (task.of.empty()) {
      site.hours += hours;
      return;
    }
    auto at =
        std::find_if(parts.begin(), parts.end(), [&](const PartHours& part) { return part.of == task.of; });
    if (at == parts.end()) at = parts.insert(parts.end(), {task.of, base::Hours(0)});
    at->hours += hours;
  });
  if (site.hours.value() > 0) parts.push_back(site);
  return parts;
}

}  // namespace weatherstruck::works
