// What goes by in a tick, and what may not.
#include <algorithm>

#include "engine/lists_support.h"
#include "engine/simulator_support.h"

namespace weatherstruck::engine::brute {

void Simulator::Use::take(const std::vector<Need>& needs, bool past) {
  for (const Need& need : needs) {
    at(quantity, need.resource) += need.quantity;
    if (!past) at(chosen, need.resource) = 1;
  }
}

bool Simulator::tick_tasks(State& state, Use& use) {
  for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
    TaskState& it = at(state.tasks, i);
    if (it.phase != Phase::running) continue;
    const Task& data = at(network_.tasks, i);
    const Way& how = way(i);
    const Amount speed = rate(how.clock, state.now);
    const bool past = past_run(state, i) != nullptr;
    if (!past && speed <= 0) return break_rule(Rule::standing_clock, state.now, data.name);
    if (!past && how.state && !holds(state, *how.state)) return break_rule(Rule::state, state.now, data.name);
    for (const Touch& touch : data.touches) {
      if (at(state.keeps, touch.keep).cover != Cover::off) {
        return break_rule(Rule::cover, state.now, data.name);
      }
    }
    use.take(how.needs, past);
    it.gone += speed;
    for (const Cost& cost : how.costs)
      state.cost += cost.weight * rate(cost.clock, state.now);
  }
  return true;
}

bool Simulator::expose(State& state, KeepId k) {
  KeepState& it = at(state.keeps, k);
  bool laying = false;
  bool new_laying = false;
  bool closing = false;
  bool sheltered = false;
  for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
    if (at(state.tasks, i).phase != Phase::running) continue;
    for (const Touch& touch : at(network_.tasks, i).touches) {
      laying |= touch.keep == k && touch.lays > 0;
      new_laying |= touch.keep == k && touch.lays > 0 && past_run(state, i) == nullptr;
      closing |= touch.keep == k && touch.closes;
      sheltered |= touch.keep == k && way(i).shelters;
    }
  }
  if (laying) {
    it.work = Work::laying;
  } else if (it.work != Work::untouched) {
    if (it.work == Work::laying) it.cured = 0;
    it.work = Work::resting;
    it.cured += rate(at(at(network_.keeps, k).ways, it.cover == Cover::on ? it.way : 0).cure, state.now);
  }
  it.new_laying = new_laying;
  for (int layer = 0; layer < layers_of(k); ++layer) {
    if (!expose(state, k, layer, closing, sheltered)) return false;
  }
  return true;
}

bool Simulator::expose(State& state, KeepId k, int layer, bool closing, bool sheltered) {
  const Keep& keep = at(network_.keeps, k);
  LayerState& it = state.layers[layer_index(k, layer)];
  const bool as_one = layer + 1 == layers_of(k);
  bool laying = false;
  bool new_laying = false;
  for (TaskId i = 0; i < count_of(network_.tasks); ++i) {
    if (at(state.tasks, i).phase != Phase::running) continue;
    for (const Touch& touch : at(network_.tasks, i).touches) {
      if (touch.keep != k || touch.lays == 0 || (!as_one && touch.layer != layer)) continue;
      laying = true;
      new_laying |= past_run(state, i) == nullptr;
    }
  }
  if (laying) {
    it.work = Work::laying;
    it.new_laying = new_laying;
    return true;
  }
  if (it.work == Work::untouched) return true;
  if (it.work == Work::laying) {
    it.work = Work::resting;
    it.past = !it.new_laying;
    it.new_laying = false;
    for (int h = 0; h < count_of(keep.hazards); ++h)
      state.hazards[hazard_index(k, layer, h)] = {};
  }
  const KeepState& cover = at(state.keeps, k);
  const CoverWay& force = at(keep.ways, cover.cover == Cover::on ? cover.way : 0);
  for (int h = 0; h < count_of(keep.hazards); ++h) {
    if (!counts(k, layer, h)) continue;
    HazardState& hazard = state.hazards[hazard_index(k, layer, h)];
    if (closing) hazard.progress = std::max(hazard.progress, at(keep.hazards, h).until);
    if (hazard.progress >= at(keep.hazards, h).until) continue;
    hazard.progress += rate(at(force.until, h), state.now);
    const Hazard& data = at(keep.hazards, h);
    const ClockId through = sheltered && data.under_shelter ? *data.under_shelter : at(force.exposure, h);
    if (state.now >= network_.now) hazard.exposure += rate(through, state.now);
    const Amount most = it.past ? std::max(data.most, data.most_for_past) : data.most;
    if (hazard.exposure > most) return break_rule(Rule::hazard, state.now, keep.name);
  }
  return true;
}

bool Simulator::tick_keeps(State& state, Use& use) {
  for (KeepId k = 0; k < count_of(network_.keeps); ++k) {
    const Keep& keep = at(network_.keeps, k);
    const KeepState& it = at(state.keeps, k);
    const CoverWay& how = at(keep.ways, it.way);
    if (it.cover != Cover::off) use.take(how.area);
    if (it.cover == Cover::putting_on || it.cover == Cover::taking_off) use.take(how.hands);
    if (it.cover == Cover::on && how.state && !holds(state, *how.state)) {
      return break_rule(Rule::state, state.now, keep.name);
    }
    if (!expose(state, k)) return false;
  }
  return true;
}

bool Simulator::tick_statefuls(const State& state, Use& use) {
  const int slot = network_.slot_of(state.now);
  for (StatefulId s = 0; s < count_of(network_.statefuls); ++s) {
    const StatefulState& it = at(state.statefuls, s);
    const Stateful& data = at(network_.statefuls, s);
    const bool changing = it.ready > state.now;
    if (changing) use.take(data.hands);
    if (!at(at(data.allowed, it.state), slot) || (changing && !at(at(data.allowed, it.from), slot))) {
      return break_rule(Rule::state_allowed, state.now, data.name);
    }
  }
  return true;
}

bool Simulator::tick_resources(State& state, const Use& use) {
  const int slot = network_.slot_of(state.now);
  const bool judged = state.now >= network_.now;
  for (ResourceId r = 0; r < count_of(network_.resources); ++r) {
    if (judged && at(use.chosen, r) != 0 &&
        at(use.quantity, r) > at(at(network_.resources, r).capacity, slot)) {
      return break_rule(Rule::capacity, state.now, at(network_.resources, r).name);
    }
  }
  const int day = network_.day_of(state.now);
  const bool new_day = state.now == 0 || network_.day_of(state.now - 1) != day;
  for (int b = 0; b < count_of(network_.buckets); ++b) {
    const Bucket& bucket = at(network_.buckets, b);
    if (new_day) at(state.used, b) = 0;
    if (new_day) at(state.bucket_judged, b) = 0;
    at(state.used, b) += at(use.quantity, bucket.resource);
    if (judged && at(use.chosen, bucket.resource) != 0) at(state.bucket_judged, b) = 1;
    if (at(state.bucket_judged, b) != 0 && at(state.used, b) > at(bucket.limit, day)) {
      return break_rule(Rule::bucket, state.now, at(network_.resources, bucket.resource).name);
    }
  }
  return true;
}

bool Simulator::tick(State& state) {
  Use use{std::vector<int>(network_.resources.size()), std::vector<char>(network_.resources.size())};
  const bool kept = tick_tasks(state, use) && tick_keeps(state, use) && tick_statefuls(state, use) &&
                    tick_resources(state, use);
  if (!kept) return false;
  ++state.now;
  for (KeepState& keep : state.keeps) {
    if (keep.until > state.now) continue;
    if (keep.cover == Cover::putting_on) keep.cover = Cover::on;
    if (keep.cover == Cover::taking_off) keep.cover = Cover::off;
  }
  return true;
}

}  // namespace weatherstruck::engine::brute
