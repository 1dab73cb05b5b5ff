#include "engine/history_support.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {
namespace {

/// What a run has got through by `now`, down to where the task may pause; none: nothing, or it may not pause.
std::optional<Run> cut_at(const Network& network, const Way& way, const Run& run, Amount before, Tick now) {
  const Amount got = at(network.clocks, way.clock).passed(run.start, now) - way.setup;
  if (way.pause == Pause::none || got < 1) return std::nullopt;
  if (way.pause == Pause::anywhere) return Run{run.start, now, std::min(got, run.done)};
  Amount stop = before;
  for (const Amount mark : way.breaks) {
    if (mark <= before + std::min(got, run.done)) stop = std::max(stop, mark);
  }
  if (stop == before) return std::nullopt;
  return Run{run.start, now, stop - before};
}

void change_past(const Network& network, Task& task, base::Random& dice) {
  auto& runs = task.history.runs;
  const Amount amount = at(task.ways, task.history.way).amount;
  const Amount spare = amount - task.history.done();
  Run& run = runs[dice.below(runs.size())];
  switch (dice.between(0, 3)) {
    case 0:
      run.done = dice.between(1, static_cast<int>(run.done + spare));
      break;
    case 1:
      runs.back().end = dice.between(runs.back().start + 1, network.horizon());
      break;
    case 2:
      runs.front().start = dice.between(0, runs.front().start);
      break;
    default:
      runs.resize(1);
      break;
  }
}

}  // namespace

Network with_history(Network network, const Schedule& schedule, Tick now, base::Random& dice) {
  network.now = now;
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    Task& task = at(network.tasks, i);
    const Placement& placement = at(schedule.tasks, i);
    if (!placement.placed() || placement.start() >= now) continue;
    const Way& way = at(task.ways, placement.way);
    History past{placement.way, {}};
    for (const Run& run : placement.runs) {
      if (run.start >= now) break;
      if (run.end <= now || way.pause == Pause::none || dice.chance(0.3)) {
        past.runs.push_back(run);
      } else if (const auto part = cut_at(network, way, run, past.done(), now)) {
        past.runs.push_back(*part);
      }
    }
    task.history = std::move(past);
  }
  for (Keep& keep : network.keeps) {
    for (Hazard& hazard : keep.hazards) {
      if (dice.chance(0.3)) hazard.most_for_past = dice.between(0, 5);
    }
  }
  return network;
}

void done_otherwise(Network& network, base::Random& dice) {
  for (Task& task : network.tasks) {
    if (!task.history.runs.empty()) {
      if (dice.chance(0.5)) change_past(network, task, dice);
    } else if (dice.chance(0.25)) {
      // Out of turn.
      const int way = static_cast<int>(dice.below(task.ways.size()));
      const Tick start = dice.between(0, network.now - 1);
      const Tick end = dice.between(start + 1, std::min(network.horizon(), start + 3));
      const auto amount = static_cast<int>(at(task.ways, way).amount);
      task.history = {way, {{start, end, dice.between(1, amount)}}};
    }
  }
}

}  // namespace weatherstruck::engine::brute
