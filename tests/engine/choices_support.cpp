#include "engine/choices_support.h"

#include <algorithm>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {
namespace {

/// A should- or may-task that neither lays nor closes a keep and on which nothing hangs is only in the way:
/// without it a schedule that keeps the rules still does.
bool worth_trying(const Network& network, TaskId task) {
  const Task& it = at(network.tasks, task);
  if (it.importance == Importance::must) return true;
  return std::any_of(it.touches.begin(), it.touches.end(),
                     [](const Touch& t) { return t.lays > 0 || t.closes; }) ||
         std::any_of(network.links.begin(), network.links.end(),
                     [&](const Link& link) { return link.from == task && !link.waived_if_left_out; }) ||
         std::any_of(network.tasks.begin(), network.tasks.end(),
                     [&](const Task& other) { return other.presence && other.presence->task == task; });
}

}  // namespace

std::map<int, std::vector<Ways>> choices_of(const Network& network) {
  std::map<int, std::vector<Ways>> choices;
  Ways ways(network.tasks.size(), absent);
  const auto choose = [&](const auto& self, TaskId task) -> void {
    if (task == count_of(network.tasks)) {
      if (!ways_go_together(network, ways)) return;
      int missing = 0;
      for (TaskId i = 0; i < task; ++i) {
        const bool out = at(ways, i) == left_out || at(ways, i) == unfinished;
        if (out && at(network.tasks, i).importance == Importance::must) ++missing;
      }
      choices[missing].push_back(ways);
      return;
    }
    const Task& it = at(network.tasks, task);
    if (!it.history.runs.empty()) {
      const bool whole = edge_is_past(network, task, Edge::finish);
      at(ways, task) = unfinished;
      if (!whole) self(self, task + 1);
      at(ways, task) = it.history.way;
      if (whole || worth_trying(network, task)) self(self, task + 1);
      return;
    }
    for (int way = it.presence ? absent : left_out; way < count_of(it.ways); ++way) {
      if (way >= 0 && !worth_trying(network, task)) break;
      at(ways, task) = way;
      self(self, task + 1);
    }
  };
  choose(choose, 0);
  return choices;
}

}  // namespace weatherstruck::engine::brute
