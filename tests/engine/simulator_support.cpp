#include "engine/simulator_support.h"

#include <algorithm>
#include <utility>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {

bool edge_is_past(const Network& network, TaskId task, Edge edge) {
  const Task& data = at(network.tasks, task);
  if (data.history.runs.empty()) return false;
  if (edge == Edge::start) return true;
  Amount done = 0;
  for (const Run& run : data.history.runs)
    done += run.done;
  return done == at(data.ways, data.history.way).amount;
}

Simulator::Simulator(const Network& network, Ways ways) : network_(network), ways_(std::move(ways)) {
  const Tick horizon = network.horizon();
  for (const Clock& clock : network.clocks) {
    auto& row = rates_.emplace_back();
    for (Tick t = 0; t < horizon; ++t)
      row.push_back(clock.rate(t));
  }
  std::size_t layers = 0;
  std::size_t count = 0;
  for (KeepId k = 0; k < count_of(network.keeps); ++k) {
    const Keep& keep = at(network.keeps, k);
    int most = 0;
    for (const Task& task : network.tasks) {
      for (const Touch& touch : task.touches) {
        if (touch.keep == k) most = std::max(most, touch.layer);
      }
    }
    first_layer_.push_back(layers);
    layers += static_cast<std::size_t>(most) + 2;
    first_hazard_.push_back(count);
    count += (static_cast<std::size_t>(most) + 2) * keep.hazards.size();
    auto& since = green_since_.emplace_back();
    if (!keep.green) continue;
    for (Tick t = 0; t <= horizon; ++t) {
      Tick r = t;
      while (r > 0 && gone_by(keep.green->clock, r, t) < keep.green->firm)
        --r;
      since.push_back(r);
    }
  }
  first_layer_.push_back(layers);
  first_hazard_.push_back(count);
}

State Simulator::initial() const {
  State state;
  state.tasks.resize(network_.tasks.size());
  state.keeps.resize(network_.keeps.size());
  state.layers.resize(first_layer_.back());
  state.hazards.resize(first_hazard_.back());
  state.statefuls.resize(network_.statefuls.size());
  state.used.resize(network_.buckets.size());
  state.bucket_judged.resize(network_.buckets.size());
  const bool green = std::any_of(network_.keeps.begin(), network_.keeps.end(),
                                 [](const Keep& keep) { return keep.green.has_value(); });
  if (green) state.laid.resize(network_.keeps.size() * static_cast<std::size_t>(network_.horizon() + 1));
  return state;
}

const Way& Simulator::way(TaskId task) const {
  const Task& data = at(network_.tasks, task);
  const int which = at(ways_, task);
  return at(data.ways, which == unfinished ? data.history.way : which);
}

const Run* Simulator::past_run(const State& state, TaskId task) const {
  const TaskState& it = at(state.tasks, task);
  const auto& past = at(network_.tasks, task).history.runs;
  const int next = it.phase == Phase::running ? it.begun - 1 : it.begun;
  return next < count_of(past) ? &at(past, next) : nullptr;
}

Amount Simulator::rate(ClockId clock, Tick t) const {
  return clock == no_clock ? 0 : at(at(rates_, clock), t);
}

Amount Simulator::gone_by(ClockId clock, Tick from, Tick to) const {
  Amount sum = 0;
  for (Tick t = from; t < to; ++t)
    sum += rate(clock, t);
  return sum;
}

Tick Simulator::edge(const State& state, TaskId task, Edge which) const {
  const TaskState& it = at(state.tasks, task);
  return which == Edge::start ? it.first : it.finish;
}

int Simulator::layers_of(KeepId keep) const {
  return static_cast<int>(at(first_layer_, keep + 1) - at(first_layer_, keep));
}

bool Simulator::counts(KeepId keep, int layer, int hazard) const {
  const bool as_one = layer + 1 == layers_of(keep);
  return at(at(network_.keeps, keep).hazards, hazard).by_layer != as_one;
}

std::size_t Simulator::layer_index(KeepId keep, int layer) const {
  return at(first_layer_, keep) + static_cast<std::size_t>(layer);
}

std::size_t Simulator::hazard_index(KeepId keep, int layer, int hazard) const {
  const std::size_t each = at(network_.keeps, keep).hazards.size();
  return at(first_hazard_, keep) + static_cast<std::size_t>(layer) * each + static_cast<std::size_t>(hazard);
}

Tick Simulator::green_since(KeepId keep, Tick t) const {
  return at(at(green_since_, keep), t);
}

bool Simulator::break_rule(Rule rule, Tick when, const std::string& name) {
  broken_.rule = rule;
  broken_.at = when;
  broken_.what = name;
  return false;
}

bool Simulator::guards_hold(TaskId task, Tick t, bool at_start) {
  for (const Guard& guard : way(task).guards) {
    if (guard.from_start != at_start) continue;
    Amount progress = 0;
    Amount exposure = 0;
    for (Tick u = t; u < network_.horizon() && progress < guard.until_amount; ++u) {
      progress += rate(guard.until, u);
      exposure += rate(guard.exposure, u);
    }
    if (exposure > guard.most) return break_rule(Rule::guard, t, at(network_.tasks, task).name);
  }
  return true;
}

bool Simulator::end_run(State& state, TaskId task, Amount done) {
  const Task& data = at(network_.tasks, task);
  const Way& how = way(task);
  TaskState& it = at(state.tasks, task);
  if (it.phase != Phase::running) return break_rule(Rule::shape, state.now, data.name);
  if (const Run* run = past_run(state, task)) return end_past_run(state, task, done, *run);
  const Amount total = it.done + done;
  const Amount before = it.gone - rate(how.clock, state.now - 1);
  const bool just_reached = it.gone >= how.setup + done && before < how.setup + done;
  if (done < 1 || total > how.amount) return break_rule(Rule::amount, state.now, data.name);
  if (total == how.amount) {
    if (!just_reached) return break_rule(Rule::amount, state.now, data.name);
    it.phase = Phase::finished;
    it.finish = state.now;
    if (how.longest_span && it.finish - it.new_first > *how.longest_span) {
      return break_rule(Rule::span, state.now, data.name);
    }
  } else if (how.pause == Pause::none) {
    return break_rule(Rule::pause, state.now, data.name);
  } else {
    if (how.pause == Pause::anywhere && done != it.gone - how.setup) {
      return break_rule(Rule::amount, state.now, data.name);
    }
    if (how.pause == Pause::at_breaks) {
      if (std::find(how.breaks.begin(), how.breaks.end(), total) == how.breaks.end()) {
        return break_rule(Rule::pause, state.now, data.name);
      }
      if (!just_reached) return break_rule(Rule::amount, state.now, data.name);
    }
    it.phase = Phase::pausing;
  }
  it.done = total;
  it.gone = 0;
  return guards_hold(task, state.now, false);
}

bool Simulator::end_past_run(State& state, TaskId task, Amount done, const Run& run) {
  TaskState& it = at(state.tasks, task);
  if (run.end != state.now || run.done != done) {
    return break_rule(Rule::shape, state.now, at(network_.tasks, task).name);
  }
  it.done += done;
  it.gone = 0;
  it.phase = it.done == way(task).amount ? Phase::finished : Phase::pausing;
  if (it.phase == Phase::finished) it.finish = state.now;
  return true;
}

bool Simulator::close_ends(State& state) {
  for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
    const TaskState& it = at(state.tasks, i);
    if (it.phase != Phase::running) continue;
    if (const Run* run = past_run(state, i)) {
      if (run->end <= state.now) return break_rule(Rule::shape, state.now, at(network_.tasks, i).name);
    } else if (it.gone >= way(i).setup + way(i).amount - it.done) {
      return break_rule(Rule::amount, state.now, at(network_.tasks, i).name);
    }
  }
  if (state.laid.empty()) return true;
  for (KeepId k = 0; k < count_of(network_.keeps); ++k) {
    const Keep& keep = at(network_.keeps, k);
    if (!keep.green) continue;
    Amount total = 0;
    for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
      const TaskState& it = at(state.tasks, i);
      for (const Touch& touch : at(network_.tasks, i).touches) {
        if (touch.keep != k || it.phase == Phase::waiting) continue;
        Amount now = it.phase == Phase::running ? std::max<Amount>(0, it.gone - way(i).setup) : 0;
        if (const Run* run = past_run(state, i); run != nullptr && now > run->done) now = run->done;
        total += touch.lays * (it.done + now);
      }
    }
    const int row = k * (network_.horizon() + 1);
    at(state.laid, row + state.now) = total;
    if (at(state.keeps, k).work != Work::laying || !at(state.keeps, k).new_laying) continue;
    if (total - at(state.laid, row + green_since(k, state.now)) > keep.green->limit) {
      return break_rule(Rule::green, state.now, keep.name);
    }
  }
  return true;
}

bool Simulator::begin_run(State& state, TaskId task) {
  const Task& data = at(network_.tasks, task);
  TaskState& it = at(state.tasks, task);
  if (state.now >= network_.horizon()) return break_rule(Rule::horizon, state.now, data.name);
  const Run* past = past_run(state, task);
  if (past != nullptr) {
    const bool as_it_was = it.phase != Phase::running && past->start == state.now;
    if (!as_it_was) return break_rule(Rule::shape, state.now, data.name);
    if (it.phase == Phase::waiting) it.first = state.now;
    it.phase = Phase::running;
    it.gone = 0;
    ++it.begun;
    return true;
  }
  if (state.now < std::max(data.release, network_.now)) {
    return break_rule(Rule::release, state.now, data.name);
  }
  if (it.phase == Phase::finished) return break_rule(Rule::amount, state.now, data.name);
  if (it.phase == Phase::running) return break_rule(Rule::shape, state.now, data.name);
  if (it.phase == Phase::waiting) it.first = state.now;
  if (it.new_first < 0) it.new_first = state.now;
  it.phase = Phase::running;
  it.gone = 0;
  ++it.begun;
  return guards_hold(task, state.now, true);
}

bool Simulator::close_begins(State& state) {
  for (const Link& link : network_.links) {
    if (edge(state, link.to, link.to_edge) != state.now) continue;
    if (edge_is_past(network_, link.to, link.to_edge)) continue;
    const int how = at(ways_, link.from);
    const bool there = how >= 0 || (how == unfinished && link.from_edge == Edge::start);
    if (!there) continue;  // void, or else ways_go_together
    const std::string& name = at(network_.tasks, link.to).name;
    const Tick from = edge(state, link.from, link.from_edge);
    if (from < 0) return break_rule(Rule::link_least, state.now, name);
    if (link.least_clock != no_clock && gone_by(link.least_clock, from, state.now) < link.least) {
      return break_rule(Rule::link_least, state.now, name);
    }
    if (link.most_clock != no_clock && gone_by(link.most_clock, from, state.now) > link.most) {
      return break_rule(Rule::link_most, state.now, name);
    }
  }
  for (const CureLink& link : network_.cure_links) {
    if (at(state.tasks, link.to).first != state.now || edge_is_past(network_, link.to, Edge::start)) continue;
    const KeepState& keep = at(state.keeps, link.keep);
    if (keep.work == Work::untouched) continue;
    Amount cured = keep.cured;
    if (keep.work == Work::laying) {
      // The stretch of the tick before either goes on through this tick, by others, or stops here.
      cured = 0;
      for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
        if (i == link.to || at(state.tasks, i).phase != Phase::running) continue;
        for (const Touch& touch : at(network_.tasks, i).touches) {
          if (touch.keep == link.keep && touch.lays > 0) {
            return break_rule(Rule::cure, state.now, at(network_.tasks, link.to).name);
          }
        }
      }
    }
    if (cured < link.least) return break_rule(Rule::cure, state.now, at(network_.tasks, link.to).name);
  }
  return true;
}

bool Simulator::cover(State& state, KeepId keep, int which) {
  KeepState& it = at(state.keeps, keep);
  const Keep& data = at(network_.keeps, keep);
  if (it.cover != Cover::off) return break_rule(Rule::cover, state.now, data.name);
  it.way = which;
  it.until = state.now + at(data.ways, which).on;
  it.cover = it.until > state.now ? Cover::putting_on : Cover::on;
  if (it.until > network_.horizon()) return break_rule(Rule::horizon, state.now, data.name);
  return true;
}

bool Simulator::strike(State& state, KeepId keep) {
  KeepState& it = at(state.keeps, keep);
  const Keep& data = at(network_.keeps, keep);
  if (it.cover != Cover::on) return break_rule(Rule::cover, state.now, data.name);
  const bool left_on = state.now == network_.horizon();
  it.until = state.now + (left_on ? 0 : at(data.ways, it.way).off);
  if (it.until > network_.horizon()) return break_rule(Rule::horizon, state.now, data.name);
  it.cover = it.until > state.now ? Cover::taking_off : Cover::off;
  return true;
}

bool Simulator::turn(State& state, StatefulId stateful, int to) {
  StatefulState& it = at(state.statefuls, stateful);
  const Stateful& data = at(network_.statefuls, stateful);
  if (to == it.state) return break_rule(Rule::shape, state.now, data.name);
  if (state.now < network_.now) return break_rule(Rule::release, state.now, data.name);
  if (state.now < it.ready) return break_rule(Rule::state, state.now, data.name);
  it.from = it.state;
  it.state = to;
  it.ready = state.now + at(at(data.change, it.from), to);
  if (it.ready > network_.horizon()) return break_rule(Rule::horizon, state.now, data.name);
  return true;
}

bool Simulator::holds(const State& state, const StateNeed& need) const {
  const StatefulState& it = at(state.statefuls, need.stateful);
  return it.ready <= state.now && it.state == need.state;
}

bool Simulator::close(State& state) {
  for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
    if (at(ways_, i) >= 0 && at(state.tasks, i).phase != Phase::finished) {
      return break_rule(Rule::amount, state.now, at(network_.tasks, i).name);
    }
  }
  return true;
}

}  // namespace weatherstruck::engine::brute
