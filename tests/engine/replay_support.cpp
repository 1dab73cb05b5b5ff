// Feeding a schedule through the simulator.
#include <algorithm>

#include "engine/lists_support.h"
#include "engine/simulator_support.h"

namespace weatherstruck::engine::brute {
namespace {

std::optional<Broken> shape_fault(const Network& network, const Schedule& schedule) {
  if (schedule.tasks.size() != network.tasks.size() || schedule.spells.size() != network.keeps.size() ||
      schedule.changes.size() != network.statefuls.size()) {
    return Broken{Rule::shape, 0, "sizes"};
  }
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    const Placement& place = at(schedule.tasks, i);
    const std::string& name = at(network.tasks, i).name;
    if (place.way < 0 || place.way >= count_of(at(network.tasks, i).ways))
      return Broken{Rule::shape, 0, name};
    if (!place.present && !place.runs.empty()) return Broken{Rule::shape, 0, name};
    const History& past = at(network.tasks, i).history;
    const int count = count_of(past.runs);
    for (int r = 0; r < count; ++r) {
      if (!place.present || place.way != past.way || r >= count_of(place.runs) ||
          !(at(place.runs, r) == at(past.runs, r))) {
        return Broken{Rule::shape, 0, name};
      }
    }
    Tick last = 0;
    for (const Run& run : place.runs) {
      if (run.start < 0 || run.end > network.horizon()) return Broken{Rule::horizon, run.start, name};
      if (run.start < last || run.end <= run.start) return Broken{Rule::shape, run.start, name};
      last = run.end;
    }
  }
  for (KeepId k = 0; k < count_of(network.keeps); ++k) {
    for (const Spell& spell : at(schedule.spells, k)) {
      if (spell.way < 1 || spell.way >= count_of(at(network.keeps, k).ways)) {
        return Broken{Rule::shape, spell.from, at(network.keeps, k).name};
      }
    }
  }
  for (StatefulId s = 0; s < count_of(network.statefuls); ++s) {
    for (const Change& change : at(schedule.changes, s)) {
      if (change.state < 0 || change.state >= count_of(at(network.statefuls, s).change)) {
        return Broken{Rule::shape, change.at, at(network.statefuls, s).name};
      }
    }
  }
  return std::nullopt;
}

Ways ways_of(const Network& network, const Schedule& schedule) {
  Ways ways;
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    const Placement& place = at(schedule.tasks, i);
    const bool nothing_new = place.runs.size() == at(network.tasks, i).history.runs.size();
    ways.push_back(!place.present                                           ? absent
                   : place.runs.empty()                                     ? left_out
                   : nothing_new && !edge_is_past(network, i, Edge::finish) ? unfinished
                                                                            : place.way);
  }
  return ways;
}

/// The schedule, event by event.
class Player {
 public:
  Player(Simulator& simulator, const Schedule& schedule) : simulator_(simulator), schedule_(schedule) {
    next_run_.resize(schedule.tasks.size());
    next_spell_.resize(schedule.spells.size());
    striking_.resize(schedule.spells.size());
    next_change_.resize(schedule.changes.size());
  }

  /// All events at the boundary the state is at.
  bool play(State& state) {
    return ends(state) && simulator_.close_ends(state) && begins(state) && simulator_.close_begins(state) &&
           covers(state) && turns(state);
  }

  /// Whether every event has had its moment.
  [[nodiscard]] bool all_played() const {
    for (std::size_t k = 0; k < schedule_.spells.size(); ++k) {
      if (next_spell_[k] < schedule_.spells[k].size()) return false;
    }
    for (std::size_t s = 0; s < schedule_.changes.size(); ++s) {
      if (next_change_[s] < schedule_.changes[s].size()) return false;
    }
    return true;
  }

 private:
  bool ends(State& state) {
    for (std::size_t i = 0; i < schedule_.tasks.size(); ++i) {
      const auto& runs = schedule_.tasks[i].runs;
      if (next_run_[i] >= runs.size() || runs[next_run_[i]].end != state.now) continue;
      if (!simulator_.end_run(state, static_cast<TaskId>(i), runs[next_run_[i]].done)) return false;
      ++next_run_[i];
    }
    return true;
  }

  bool begins(State& state) {
    for (std::size_t i = 0; i < schedule_.tasks.size(); ++i) {
      const auto& runs = schedule_.tasks[i].runs;
      if (next_run_[i] >= runs.size() || runs[next_run_[i]].start != state.now) continue;
      if (!simulator_.begin_run(state, static_cast<TaskId>(i))) return false;
    }
    return true;
  }

  bool covers(State& state) {
    for (std::size_t k = 0; k < schedule_.spells.size(); ++k) {
      const auto& spells = schedule_.spells[k];
      while (next_spell_[k] < spells.size()) {
        const Spell& spell = spells[next_spell_[k]];
        const auto keep = static_cast<KeepId>(k);
        if (!striking_[k]) {
          if (spell.from != state.now) break;
          if (!simulator_.cover(state, keep, spell.way)) return false;
          striking_[k] = 1;
        } else {
          if (spell.to != state.now) break;
          if (!simulator_.strike(state, keep)) return false;
          striking_[k] = 0;
          ++next_spell_[k];
        }
      }
    }
    return true;
  }

  bool turns(State& state) {
    for (std::size_t s = 0; s < schedule_.changes.size(); ++s) {
      const auto& changes = schedule_.changes[s];
      while (next_change_[s] < changes.size() && changes[next_change_[s]].at == state.now) {
        if (!simulator_.turn(state, static_cast<StatefulId>(s), changes[next_change_[s]].state)) return false;
        ++next_change_[s];
      }
    }
    return true;
  }

  Simulator& simulator_;
  const Schedule& schedule_;
  std::vector<std::size_t> next_run_;
  std::vector<std::size_t> next_spell_;
  std::vector<char> striking_;
  std::vector<std::size_t> next_change_;
};

Value value_at_end(const Network& network, const Ways& ways, const State& state) {
  Value value;
  value.cost = state.cost;
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    const Task& task = at(network.tasks, i);
    const bool must = task.importance == Importance::must;
    if (at(ways, i) == left_out || at(ways, i) == unfinished) {
      if (must) ++value.must_unplaced;
      if (task.importance == Importance::should) ++value.should_unplaced;
      if (task.importance == Importance::may) ++value.may_unplaced;
    }
    if (at(ways, i) < 0) continue;
    const Tick finish = at(state.tasks, i).finish;
    const Tick late = task.due == never ? 0 : std::max(0, finish - task.due);
    (must ? value.must_late : value.other_late) += late;
    if (must) value.finish = std::max(value.finish, finish);
  }
  return value;
}

bool presence_follows(const Network& network, const Ways& ways) {
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    bool present = true;
    const Task& task = at(network.tasks, i);
    if (task.presence && task.history.runs.empty()) {
      const auto& presence = *task.presence;
      const int how = at(ways, presence.task);
      const int host = how == unfinished ? at(network.tasks, presence.task).history.way : how;
      present = std::count(presence.ways.begin(), presence.ways.end(), host) > 0;
    }
    if (present == (at(ways, i) == absent)) return false;
  }
  return true;
}

}  // namespace

bool ways_go_together(const Network& network, const Ways& ways) {
  if (!presence_follows(network, ways)) return false;
  return std::all_of(network.links.begin(), network.links.end(), [&](const Link& link) {
    const int from = at(ways, link.from);
    const bool missing = from == left_out || (from == unfinished && link.from_edge == Edge::finish);
    return link.waived_if_left_out || !missing || at(ways, link.to) < 0 ||
           edge_is_past(network, link.to, link.to_edge);
  });
}

Verdict replay(const Network& network, const Schedule& schedule) {
  if (auto fault = shape_fault(network, schedule)) return {fault, {}};
  const Ways ways = ways_of(network, schedule);
  if (!presence_follows(network, ways)) return {Broken{Rule::shape, 0, "presence"}, {}};
  if (!ways_go_together(network, ways)) return {Broken{Rule::link_least, 0, "after a task left out"}, {}};
  Simulator simulator(network, ways);
  Player player(simulator, schedule);
  State state = simulator.initial();
  while (true) {
    if (!player.play(state)) return {simulator.broken(), {}};
    if (state.now == network.horizon()) break;
    if (!simulator.tick(state)) return {simulator.broken(), {}};
  }
  if (!simulator.close(state)) return {simulator.broken(), {}};
  if (!player.all_played()) return {Broken{Rule::horizon, state.now, "a cover or change never came"}, {}};
  return {std::nullopt, value_at_end(network, ways, state)};
}

}  // namespace weatherstruck::engine::brute
