#pragma once
// A schedule: when each task runs, what covers what, and how the stateful things change.
#include <compare>
#include <optional>
#include <vector>

#include "weatherstruck/engine/network.h"

namespace weatherstruck::engine {

struct Placement {
  bool present = true;  ///< false: its presence condition does not hold
  int way = 0;
  std::vector<Run> runs;  ///< rising; empty: not placed
  [[nodiscard]] bool placed() const { return present && !runs.empty(); }
  [[nodiscard]] Tick start() const { return runs.front().start; }
  [[nodiscard]] Tick finish() const { return runs.back().end; }
  /// Begun before now, and the rest has no place: it has a start and no finish.
  [[nodiscard]] bool unfinished(const Task& task) const {
    return placed() && runs.size() == task.history.runs.size() &&
           task.history.done() < task.ways[static_cast<std::size_t>(way)].amount;
  }
  /// Whether the task has this edge.
  [[nodiscard]] bool has(const Task& task, Edge edge) const {
    return placed() && (edge == Edge::start || !unfinished(task));
  }
  /// Whether the edge, which it has, lies in what was done before now.
  [[nodiscard]] bool past(const Task& task, Edge edge) const {
    return !task.history.runs.empty() && (edge == Edge::start || runs.size() == task.history.runs.size());
  }
  friend bool operator==(const Placement&, const Placement&) = default;
};

/// A cover on a keep: hands put it on over [from, from + on), it protects over [from + on, to), hands take it
/// off over [to, to + off). `to` equal to the horizon: it is left on and nobody takes it off.
struct Spell {
  int way = 0;  ///< > 0
  Tick from = 0;
  Tick to = 0;
  friend bool operator==(const Spell&, const Spell&) = default;
};

/// A stateful thing begins to change at `at`; it is in `state` from at + change[before][state] on. It starts
/// in 0.
struct Change {
  Tick at = 0;
  int state = 0;
  friend bool operator==(const Change&, const Change&) = default;
};

struct Schedule {
  std::vector<Placement> tasks;              ///< for each task
  std::vector<std::vector<Spell>> spells;    ///< for each keep, rising
  std::vector<std::vector<Change>> changes;  ///< for each stateful, rising
  friend bool operator==(const Schedule&, const Schedule&) = default;
};

/// What a schedule is worth, most important first; less is better in every member.
struct Value {
  int must_unplaced = 0;       ///< unfinished ones too; so below
  std::int64_t must_late = 0;  ///< ticks past due, summed over must-tasks
  int should_unplaced = 0;
  int may_unplaced = 0;
  std::int64_t other_late = 0;
  Amount cost = 0;
  Tick finish = 0;  ///< last end of any placed must-task
  friend auto operator<=>(const Value&, const Value&) = default;
};

[[nodiscard]] Value value_of(const Network& network, const Schedule& schedule);
/// What one task adds to that: no member ever falls, so the sum over some of the tasks is a floor for all.
void add_value(Value& value, const Network& network, const Task& task, const Placement& placement);

}  // namespace weatherstruck::engine
