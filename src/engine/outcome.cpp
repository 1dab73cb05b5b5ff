#include "weatherstruck/engine/outcome.h"

#include <algorithm>

#include "ids.h"
#include "workspace.h"

namespace weatherstruck::engine {

std::vector<KeepId> damaged_keeps(const Network& network, const Schedule& schedule) {
  Workspace work(network);
  work.lay(schedule);
  std::vector<KeepId> damaged;
  for (KeepId k = 0; k < static_cast<KeepId>(network.keeps.size()); ++k) {
    if (work.spoilt(k)) damaged.push_back(k);
  }
  return damaged;
}

std::vector<TaskId> overrun_tasks(const Network& network, const Schedule& schedule) {
  std::vector<TaskId> overrun;
  for (std::size_t i = 0; i < network.tasks.size(); ++i) {
    const Placement& placement = schedule.tasks[i];
    if (!placement.placed()) continue;
    const Way& way = network.tasks[i].ways[at(placement.way)];
    const bool guarded = std::any_of(placement.runs.begin(), placement.runs.end(), [&](const Run& run) {
      if (run.start < network.now) return false;
      return std::any_of(way.guards.begin(), way.guards.end(), [&](const Guard& guard) {
        const Tick from = guard.from_start ? run.start : run.end;
        const Tick until =
            std::min(network.horizon(), network.clocks[at(guard.until)].advance(from, guard.until_amount));
        return network.clocks[at(guard.exposure)].passed(from, until) > guard.most;
      });
    });
    if (guarded) overrun.push_back(static_cast<TaskId>(i));
  }
  for (const Link& link : network.links) {
    if (link.most_clock == no_clock) continue;
    const Task& last = network.tasks[at(link.to)];
    const Placement& from = schedule.tasks[at(link.from)];
    const Placement& to = schedule.tasks[at(link.to)];
    if (!from.has(network.tasks[at(link.from)], link.from_edge) || !to.has(last, link.to_edge) ||
        to.past(last, link.to_edge))
      continue;
    const Tick a = link.from_edge == Edge::start ? from.start() : from.finish();
    const Tick b = link.to_edge == Edge::start ? to.start() : to.finish();
    if (network.clocks[at(link.most_clock)].passed(a, b) > link.most) overrun.push_back(link.to);
  }
  std::sort(overrun.begin(), overrun.end());
  overrun.erase(std::unique(overrun.begin(), overrun.end()), overrun.end());
  return overrun;
}

}  // namespace weatherstruck::engine
