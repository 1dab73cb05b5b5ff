#include "engine/brute_force_support.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "engine/choices_support.h"
#include "engine/lists_support.h"
#include "engine/state_key_support.h"

namespace weatherstruck::engine::brute {
namespace {

/// What the must-tasks that are not finished yet add.
struct Outcome {
  std::int64_t late = 0;
  Tick finish = 0;
  friend bool operator<(const Outcome& a, const Outcome& b) {
    return std::tie(a.late, a.finish) < std::tie(b.late, b.finish);
  }
  friend bool operator==(const Outcome&, const Outcome&) = default;
};
constexpr Outcome hopeless{std::int64_t{1} << 60, never};

/// All events at one boundary.
struct Moment {
  std::vector<std::pair<TaskId, Amount>> ends;  // with the amount done
  std::vector<TaskId> begins;
  std::vector<std::pair<KeepId, int>> covers;  // with the way; 0: struck
  std::vector<std::pair<StatefulId, int>> turns;
};

/// Best outcome from a state on. Exact if `best` was found below the budget then given; else nothing below
/// `budget` exists.
struct Known {
  bool exact = false;
  Outcome bound;
  Moment move;
};

/// One choice of ways, searched tick by tick, with every state remembered.
class Search {
 public:
  Search(const Network& network, Ways ways, std::int64_t& moves_left)
      : network_(network), simulator_(network, std::move(ways)), moves_left_(moves_left) {
    wanted_.resize(network.statefuls.size());
    for (TaskId i = 0; i < count_of(network.tasks); ++i) {
      if (!placed(i)) continue;
      if (const auto& need = simulator_.way(i).state) at(wanted_, need->stateful) = 1;
    }
    for (const Keep& keep : network.keeps) {
      for (const CoverWay& way : keep.ways) {
        if (way.state) at(wanted_, way.state->stateful) = 1;
      }
    }
    known_.resize(static_cast<std::size_t>(network.horizon()) + 1);
  }

  /// The best below the budget, or nothing.
  std::optional<Outcome> best_below(Outcome budget) { return search(simulator_.initial(), budget); }
  [[nodiscard]] bool gave_up() const { return moves_left_ <= 0; }

  /// Walks the remembered moves again.
  Schedule schedule() {
    Schedule result;
    result.tasks.resize(network_.tasks.size());
    result.spells.resize(network_.keeps.size());
    result.changes.resize(network_.statefuls.size());
    for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
      at(result.tasks, i).present = at(simulator_.ways(), i) != absent;
      const bool past = at(simulator_.ways(), i) == unfinished;
      at(result.tasks, i).way =
          past ? at(network_.tasks, i).history.way : std::max(0, at(simulator_.ways(), i));
    }
    State state = simulator_.initial();
    while (true) {
      const Moment move = at(known_, state.now).at(key_of(simulator_, state)).move;
      note(move, state.now, result);
      apply(state, move);
      if (state.now == network_.horizon()) break;
      simulator_.tick(state);
    }
    for (auto& spells : result.spells) {
      if (!spells.empty() && spells.back().to < 0) spells.back().to = network_.horizon();
    }
    return result;
  }

 private:
  [[nodiscard]] bool placed(TaskId task) const { return at(simulator_.ways(), task) >= 0; }
  [[nodiscard]] bool must(TaskId task) const {
    return at(network_.tasks, task).importance == Importance::must;
  }
  [[nodiscard]] std::int64_t late(TaskId task, Tick finish) const {
    const Tick due = at(network_.tasks, task).due;
    return due == never ? 0 : std::max(0, finish - due);
  }

  static void note(const Moment& move, Tick now, Schedule& result) {
    for (const auto& [task, done] : move.ends) {
      at(result.tasks, task).runs.back().end = now;
      at(result.tasks, task).runs.back().done = done;
    }
    for (const TaskId task : move.begins)
      at(result.tasks, task).runs.push_back({now, now, 0});
    for (const auto& [keep, way] : move.covers) {
      if (way > 0) {
        at(result.spells, keep).push_back({way, now, -1});
      } else {
        at(result.spells, keep).back().to = now;
      }
    }
    for (const auto& [stateful, state] : move.turns)
      at(result.changes, stateful).push_back({now, state});
  }

  bool apply(State& state, const Moment& move) {
    for (const auto& [task, done] : move.ends) {
      if (!simulator_.end_run(state, task, done)) return false;
    }
    if (!simulator_.close_ends(state)) return false;
    for (const TaskId task : move.begins) {
      if (!simulator_.begin_run(state, task)) return false;
    }
    if (!simulator_.close_begins(state)) return false;
    for (const auto& [keep, way] : move.covers) {
      if (!(way > 0 ? simulator_.cover(state, keep, way) : simulator_.strike(state, keep))) return false;
    }
    for (const auto& [stateful, to] : move.turns) {
      if (!simulator_.turn(state, stateful, to)) return false;
    }
    return true;
  }

  /// No plan ends a task sooner than if it went on from now over every tick of its clock, set up once.
  /// `never` if not within the horizon.
  [[nodiscard]] Tick soonest(const State& state, TaskId task) const {
    const TaskState& it = at(state.tasks, task);
    const Way& way = simulator_.way(task);
    const Task& data = at(network_.tasks, task);
    if (edge_is_past(network_, task, Edge::finish)) return data.history.runs.back().end;
    const bool under_way = it.phase == Phase::running && simulator_.past_run(state, task) == nullptr;
    Amount done = it.done;
    Tick t = state.now;
    if (!under_way) {
      t = std::max({t, network_.now, data.release});
      if (!data.history.runs.empty()) t = std::max(t, data.history.runs.back().end);
      // Of history, all; of what is new, what is done.
      for (int run = it.phase == Phase::running ? it.begun - 1 : it.begun; run < count_of(data.history.runs);
           ++run)
        done += at(data.history.runs, run).done;
    }
    Amount left = way.setup + way.amount - done - (under_way ? it.gone : 0);
    while (left > 0 && t < network_.horizon())
      left -= simulator_.rate(way.clock, t++);
    return left > 0 ? never : t;
  }

  /// An outcome that nothing beats; hopeless if some task cannot be done any more.
  [[nodiscard]] Outcome optimistic(const State& state) const {
    Outcome least;
    for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
      if (!placed(i) || at(state.tasks, i).phase == Phase::finished) continue;
      const Tick end = soonest(state, i);
      if (end == never) return hopeless;
      if (!must(i)) continue;
      least.late += late(i, end);
      least.finish = std::max(least.finish, end);
    }
    return least;
  }

  /// Whether a cover on the keep could still change anything.
  [[nodiscard]] bool needs_care(const State& state, KeepId k) const {
    const KeepState& it = at(state.keeps, k);
    if (it.work == Work::untouched) return false;
    for (const CureLink& link : network_.cure_links) {
      if (link.keep == k && placed(link.to) && at(state.tasks, link.to).first < 0) return true;
    }
    const Keep& keep = at(network_.keeps, k);
    for (int layer = 0; layer < simulator_.layers_of(k); ++layer) {
      const Work work = state.layers[simulator_.layer_index(k, layer)].work;
      for (int h = 0; h < count_of(keep.hazards); ++h) {
        if (!simulator_.counts(k, layer, h)) continue;
        const Amount progress = state.hazards[simulator_.hazard_index(k, layer, h)].progress;
        if (work == Work::laying || (work == Work::resting && progress < at(keep.hazards, h).until))
          return true;
      }
    }
    return false;
  }

  struct Node {
    const State& state;
    Outcome least;
    Outcome budget;
    std::optional<Outcome> best;
    Moment move;
    Moment best_move;
  };

  std::optional<Outcome> search(const State& state, Outcome budget) {
    const Outcome least = optimistic(state);
    if (!(least < budget)) return std::nullopt;
    auto& level = at(known_, state.now);
    const std::string key = key_of(simulator_, state);
    if (const auto it = level.find(key); it != level.end()) {
      if (it->second.exact) {
        if (it->second.bound < budget) return it->second.bound;
        return std::nullopt;
      }
      if (!(it->second.bound < budget)) return std::nullopt;
    }
    Node node{state, least, budget, {}, {}, {}};
    choose_ends(node, 0);
    if (gave_up() && !node.best) return std::nullopt;
    Known& entry = level[key];
    entry.exact = node.best.has_value();
    entry.bound = node.best ? *node.best : budget;
    entry.move = node.best_move;
    return node.best;
  }

  [[nodiscard]] bool enough(const Node& node) const {
    return gave_up() || (node.best && *node.best == node.least);
  }

  void choose_ends(Node& node, TaskId task) {
    if (enough(node)) return;
    if (task == count_of(network_.tasks)) {
      State next = node.state;
      for (const auto& [i, done] : node.move.ends) {
        if (!simulator_.end_run(next, i, done)) return;
      }
      if (simulator_.close_ends(next)) choose_begins(node, next, 0);
      return;
    }
    const TaskState& it = at(node.state.tasks, task);
    if (it.phase != Phase::running) return choose_ends(node, task + 1);
    const Run* past = simulator_.past_run(node.state, task);
    if (past != nullptr && past->end > node.state.now) return choose_ends(node, task + 1);
    const Way& way = simulator_.way(task);
    const Amount got = it.gone - way.setup;
    const Amount left = way.amount - it.done;
    const auto with = [&](Amount done) {
      node.move.ends.emplace_back(task, done);
      choose_ends(node, task + 1);
      node.move.ends.pop_back();
    };
    if (past != nullptr) return with(past->done);
    if (got >= left) with(left);
    if (got < left) choose_ends(node, task + 1);
    if (way.pause == Pause::anywhere && got >= 1 && got < left) with(got);
    if (way.pause == Pause::at_breaks) {
      for (const Amount mark : way.breaks) {
        if (mark > it.done && mark - it.done <= got) with(mark - it.done);
      }
    }
  }

  void choose_begins(Node& node, const State& state, TaskId task) {
    if (enough(node)) return;
    if (task == count_of(network_.tasks)) {
      State next = state;
      for (const TaskId i : node.move.begins) {
        if (!simulator_.begin_run(next, i)) return;
      }
      if (simulator_.close_begins(next)) choose_covers(node, next, 0);
      return;
    }
    const TaskState& it = at(state.tasks, task);
    const Run* past = it.phase == Phase::running ? nullptr : simulator_.past_run(state, task);
    if (past != nullptr && past->start == state.now) {
      node.move.begins.push_back(task);
      choose_begins(node, state, task + 1);
      node.move.begins.pop_back();
      return;
    }
    const bool may = past == nullptr && state.now >= network_.now && placed(task) &&
                     (it.phase == Phase::waiting || it.phase == Phase::pausing) &&
                     state.now < network_.horizon() && state.now >= at(network_.tasks, task).release &&
                     simulator_.rate(simulator_.way(task).clock, state.now) > 0;
    if (may) {
      node.move.begins.push_back(task);
      choose_begins(node, state, task + 1);
      node.move.begins.pop_back();
    }
    choose_begins(node, state, task + 1);
  }

  void choose_covers(Node& node, const State& state, KeepId keep) {
    if (enough(node)) return;
    if (keep == count_of(network_.keeps)) return choose_turns(node, state, 0);
    choose_covers(node, state, keep + 1);
    if (at(state.keeps, keep).cover == Cover::on) {
      State next = state;
      if (!simulator_.strike(next, keep)) return;
      node.move.covers.emplace_back(keep, 0);
      choose_covers(node, next, keep + 1);
      // A cover that is off at once may give way to another in the same moment.
      if (at(next.keeps, keep).cover == Cover::off) put_on(node, next, keep);
      node.move.covers.pop_back();
    } else if (at(state.keeps, keep).cover == Cover::off) {
      put_on(node, state, keep);
    }
  }

  void put_on(Node& node, const State& state, KeepId keep) {
    if (state.now >= network_.horizon() || !needs_care(state, keep)) return;
    for (int way = 1; way < count_of(at(network_.keeps, keep).ways); ++way) {
      State next = state;
      if (!simulator_.cover(next, keep, way)) continue;
      node.move.covers.emplace_back(keep, way);
      choose_covers(node, next, keep + 1);
      node.move.covers.pop_back();
    }
  }

  void choose_turns(Node& node, const State& state, StatefulId stateful) {
    if (enough(node)) return;
    if (stateful == count_of(network_.statefuls)) return go_on(node, state);
    choose_turns(node, state, stateful + 1);
    if (!at(wanted_, stateful) || at(state.statefuls, stateful).ready > state.now) return;
    for (int to = 0; to < count_of(at(network_.statefuls, stateful).change); ++to) {
      State next = state;
      if (to == at(state.statefuls, stateful).state || !simulator_.turn(next, stateful, to)) continue;
      node.move.turns.emplace_back(stateful, to);
      // After a change that takes no time another may follow in the same moment, once each.
      const bool at_once = at(next.statefuls, stateful).ready == next.now;
      choose_turns(node, next, at_once && count_of(node.move.turns) < 3 ? stateful : stateful + 1);
      node.move.turns.pop_back();
    }
  }

  void go_on(Node& node, State state) {
    Outcome here;
    bool finished = true;
    for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
      if (!placed(i) || !must(i)) continue;
      const TaskState& it = at(state.tasks, i);
      if (it.phase != Phase::finished) finished = false;
      if (it.finish != state.now) continue;
      here.late += late(i, it.finish);
      here.finish = it.finish;
    }
    const Outcome below = node.best ? *node.best : node.budget;
    std::optional<Outcome> rest;
    if (state.now == network_.horizon()) {
      if (simulator_.close(state)) rest = Outcome{};
    } else {
      --moves_left_;
      if (finished && !(here < below)) return;
      if (!simulator_.tick(state)) return;
      rest = search(state, finished ? hopeless : Outcome{below.late - here.late, below.finish});
    }
    if (!rest) return;
    const Outcome whole{here.late + rest->late, std::max(here.finish, rest->finish)};
    if (!(whole < below)) return;
    node.best = whole;
    node.best_move = node.move;
  }

  const Network& network_;
  Simulator simulator_;
  std::int64_t& moves_left_;
  std::vector<char> wanted_;
  std::vector<std::unordered_map<std::string, Known>> known_;  // only looked up, never walked
};

}  // namespace

Answer brute_force(const Network& network, const Limits& limits) {
  Answer answer;
  std::int64_t moves_left = limits.most_moves;
  for (const auto& [missing, group] : choices_of(network)) {
    Outcome best = hopeless;
    for (const Ways& ways : group) {
      Search search(network, ways, moves_left);
      const auto found = search.best_below(best);
      if (found) {
        best = *found;
        answer.found = true;
        answer.must_unplaced = missing;
        answer.must_late = best.late;
        answer.finish = best.finish;
        answer.schedule = search.schedule();
      }
      if (search.gave_up()) {
        answer.moves = limits.most_moves;
        return answer;
      }
    }
    if (answer.found) break;
  }
  answer.settled = true;
  answer.moves = limits.most_moves - moves_left;
  return answer;
}

}  // namespace weatherstruck::engine::brute
