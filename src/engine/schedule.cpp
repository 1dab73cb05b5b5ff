#include "weatherstruck/engine/schedule.h"

#include <algorithm>

namespace weatherstruck::engine {

void add_value(Value& value, const Network& network, const Task& task, const Placement& placement) {
  if (!placement.present) return;
  if (!placement.has(task, Edge::finish)) {
    switch (task.importance) {
      case Importance::must:
        ++value.must_unplaced;
        break;
      case Importance::should:
        ++value.should_unplaced;
        break;
      case Importance::may:
        ++value.may_unplaced;
        break;
    }
  } else {
    const bool must = task.importance == Importance::must;
    const std::int64_t late =
        task.due == never ? 0 : std::max<std::int64_t>(0, placement.finish() - task.due);
    (must ? value.must_late : value.other_late) += late;
    if (must) value.finish = std::max(value.finish, placement.finish());
  }
  for (const Cost& cost : task.ways[static_cast<std::size_t>(placement.way)].costs) {
    const Clock& clock = network.clocks[static_cast<std::size_t>(cost.clock)];
    for (const Run& run : placement.runs)
      value.cost += cost.weight * clock.passed(run.start, run.end);
  }
}

Value value_of(const Network& network, const Schedule& schedule) {
  Value value;
  for (std::size_t i = 0; i < network.tasks.size(); ++i)
    add_value(value, network, network.tasks[i], schedule.tasks[i]);
  return value;
}

}  // namespace weatherstruck::engine
