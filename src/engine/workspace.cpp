#include "workspace.h"

#include <algorithm>
#include <utility>

#include "ids.h"

namespace weatherstruck::engine {
Workspace::Workspace(const Network& network)
    : net_(network),
      spells_(network.keeps.size()),
      runs_(network.keeps.size()),
      layers_(network.keeps.size(), 1),
      changes_(network.statefuls.size()),
      starts_(network.tasks.size(), never) {
  for (const Resource& resource : network.resources) {
    auto& free = free_.emplace_back();
    free.reserve(at(network.horizon()));
    for (const int capacity : resource.capacity)
      free.insert(free.end(), at(network.ticks_per_slot), capacity);
  }
  for (const Task& task : network.tasks) {
    for (const Touch& touch : task.touches)
      layers_[at(touch.keep)] = std::max(layers_[at(touch.keep)], touch.layer + 1);
  }
  has_bucket_.assign(network.resources.size(), 0);
  for (const Bucket& bucket : network.buckets) {
    bucket_used_.emplace_back(bucket.limit.size(), 0);
    has_bucket_[at(bucket.resource)] = 1;
  }
  for (const Stateful& stateful : network.statefuls) {
    auto& states = forbidden_.emplace_back();
    for (const auto& allowed : stateful.allowed) {
      auto& next = states.emplace_back(allowed.size() + 1, network.horizon());
      for (std::size_t slot = allowed.size(); slot-- > 0;) {
        next[slot] = allowed[slot] != 0 ? next[slot + 1] : static_cast<Tick>(slot) * network.ticks_per_slot;
      }
    }
  }
  for (int slot = 0; slot < static_cast<int>(network.day_of_slot.size()); ++slot) {
    const std::size_t day = at(network.day_of_slot[at(slot)]);
    if (day_ends_.size() <= day) day_ends_.resize(day + 1);
    day_ends_[day] = (slot + 1) * network.ticks_per_slot;
  }
}

void Workspace::roll_back(Mark mark) {
  while (log_.size() > mark) {
    Entry entry = std::move(log_.back());
    log_.pop_back();
    if (auto* reserved = std::get_if<Reserved>(&entry)) {
      apply(reserved->need, reserved->from, reserved->to, -reserved->sign);
    } else if (auto* spells = std::get_if<OldSpells>(&entry)) {
      spells_[at(spells->keep)] = std::move(spells->spells);
    } else if (auto* runs = std::get_if<OldRuns>(&entry)) {
      runs_[at(runs->keep)] = std::move(runs->runs);
    } else if (auto* changes = std::get_if<OldChanges>(&entry)) {
      changes_[at(changes->stateful)] = std::move(changes->changes);
    } else if (auto* start = std::get_if<OldStart>(&entry)) {
      starts_[at(start->task)] = start->start;
    } else if (auto* holds = std::get_if<OldHolds>(&entry)) {
      holds_ = std::move(holds->holds);
    }
  }
}

void Workspace::apply(const Need& need, Tick from, Tick to, int sign) {
  const int change = sign * need.quantity;
  const auto begin = free_[at(need.resource)].begin();
  std::for_each(begin + from, begin + std::max(from, to), [&](int& free) { free -= change; });
  if (has_bucket_[at(need.resource)] == 0) return;
  for (std::size_t b = 0; b < net_.buckets.size(); ++b) {
    if (net_.buckets[b].resource != need.resource) continue;
    for (Tick t = from; t < to;) {
      const Tick end = std::min(to, day_end(t));
      bucket_used_[b][at(net_.day_of(t))] += change * (end - t);
      t = end;
    }
  }
}

Tick Workspace::day_end(Tick t) const {
  return day_ends_.empty() ? net_.horizon() : day_ends_[at(net_.day_of(t))];
}

void Workspace::release(const std::vector<Need>& needs, Tick from, Tick to) {
  if (from >= to) return;
  for (const Need& need : needs) {
    apply(need, from, to, -1);
    log_.push_back(Reserved{need, from, to, -1});
  }
}

const Need* Workspace::busy_at(const std::vector<Need>& needs, Tick t) const {
  for (const Need& need : needs) {
    if (free_[at(need.resource)][at(t)] < need.quantity) return &need;
  }
  return nullptr;
}

Tick Workspace::busy_until(const Need& need, Tick t) const {
  const auto& free = free_[at(need.resource)];
  const auto next =
      std::find_if(free.begin() + t, free.end(), [&](int left) { return left >= need.quantity; });
  return static_cast<Tick>(next - free.begin());
}

Tick Workspace::free_until(std::span<const Need> needs, Tick from, Tick to) const {
  // What has been is not asked for: a cover that lay while hands were booked elsewhere lay all the same.
  from = std::max(from, net_.now);
  if (from >= to) return to;
  for (const Need& need : needs) {
    const auto begin = free_[at(need.resource)].begin();
    const auto taken = std::find_if(begin + from, begin + to, [&](int free) { return free < need.quantity; });
    to = static_cast<Tick>(taken - begin);
    for (Tick t = from; t < to && has_bucket_[at(need.resource)] != 0;) {
      const Tick left = bucket_left(need.resource, t) / need.quantity;
      const Tick end = std::min(to, day_end(t));
      if (left < end - t) to = t + std::max(0, left);
      t = end;
    }
  }
  return to;
}

Tick Workspace::room(const std::vector<Need>& needs, Tick t) const {
  Tick room = net_.horizon() * 64;
  for (const Need& need : needs)
    room = std::min(room, std::max(0, bucket_left(need.resource, t)) / need.quantity);
  return room;
}

Tick Workspace::bucket_left(ResourceId resource, Tick t) const {
  Tick left = net_.horizon() * 64;
  if (has_bucket_[at(resource)] == 0) return left;
  for (std::size_t b = 0; b < net_.buckets.size(); ++b) {
    if (net_.buckets[b].resource != resource) continue;
    const std::size_t day = at(net_.day_of(t));
    left = std::min(left, net_.buckets[b].limit[day] - bucket_used_[b][day]);
  }
  return left;
}

bool Workspace::reserve(const std::vector<Need>& needs, Tick from, Tick to) {
  if (from >= to) return true;
  // A need listed twice for one resource is summed by taking each in turn.
  const Mark before = mark();
  for (const Need& need : needs) {
    if (free_until({&need, 1}, from, to) < to) {
      roll_back(before);
      return false;
    }
    apply(need, from, to, 1);
    log_.push_back(Reserved{need, from, to, 1});
  }
  return true;
}

// ---------------------------------------------------------------------------------------------- states

Tick Workspace::allowed_until(const StateNeed& need, Tick from) const {
  const auto& next = forbidden_[at(need.stateful)][at(need.state)];
  return std::max(from, next[at(net_.slot_of(from))]);
}

// Makes `wanted` the changes of the thing if they keep every rule; the hands go with them.
bool Workspace::install(StatefulId id, std::vector<Change> wanted) {
  const Stateful& stateful = net_.statefuls[at(id)];
  const Mark before = mark();
  int state = 0;
  for (const Change& change : changes_[at(id)]) {
    release(stateful.hands, change.at, change.at + stateful.change[at(state)][at(change.state)]);
    state = change.state;
  }
  state = 0;
  Tick holds_from = 0;
  bool sound = true;
  for (std::size_t i = 0; sound && i < wanted.size(); ++i) {
    const Change& change = wanted[i];
    const Tick over = change.at + stateful.change[at(state)][at(change.state)];
    sound = change.at >= holds_from && over <= net_.horizon() && allowed(id, state, holds_from, over) &&
            allowed(id, change.state, change.at, over) && reserve(stateful.hands, change.at, over);
    state = change.state;
    holds_from = over;
  }
  if (!sound || !allowed(id, state, holds_from, net_.horizon()) || !holds_kept(id, wanted)) {
    roll_back(before);
    return false;
  }
  log_.push_back(OldChanges{id, std::move(changes_[at(id)])});
  changes_[at(id)] = std::move(wanted);
  return true;
}

// Whether what others rely on is still so with these changes.
bool Workspace::holds_kept(StatefulId id, const std::vector<Change>& changes) const {
  const Stateful& stateful = net_.statefuls[at(id)];
  return std::all_of(holds_.begin(), holds_.end(), [&](const Hold& hold) {
    if (hold.need.stateful != id) return true;
    int state = 0;
    Tick holds_from = 0;
    for (const Change& change : changes) {
      if (change.at >= hold.to) break;
      if (change.at > hold.from) return false;
      holds_from = change.at + stateful.change[at(state)][at(change.state)];
      state = change.state;
    }
    return state == hold.need.state && holds_from <= hold.from;
  });
}

bool Workspace::hold_state(const StateNeed& need, Tick from, Tick to) {
  if (from >= to) return true;
  if (!arrange(need, from, to)) return false;
  log_.push_back(OldHolds{holds_});
  holds_.push_back({need, from, to});
  return true;
}

bool Workspace::arrange(const StateNeed& need, Tick from, Tick to) {
  const Stateful& stateful = net_.statefuls[at(need.stateful)];
  const std::vector<Change>& changes = changes_[at(need.stateful)];
  // `next` is the first change that begins after `from`.
  std::size_t next = 0;
  int before = 0;  // the state before the change in force
  int state = 0;
  Tick holds_from = 0;
  for (; next < changes.size() && changes[next].at <= from; ++next) {
    before = state;
    state = changes[next].state;
    holds_from = changes[next].at + stateful.change[at(before)][at(state)];
  }
  const Tick changes_at = next < changes.size() ? changes[next].at : net_.horizon();
  if (state == need.state && holds_from <= from) {
    if (changes_at >= to) return true;
    std::vector<Change> wanted = changes;  // in place already, but it leaves too soon: let it leave later
    wanted[next].at = to;
    return install(need.stateful, std::move(wanted));
  }
  // In use over another place, or wanted down while it is up.
  if (state != 0 || need.state == 0) return false;
  if (next > 0) {
    // It came down before `from`. From this place: then let it stay up. From another: perhaps it moves
    // straight here.
    std::vector<Change> wanted = changes;
    wanted[next - 1].at = to;
    if (before == need.state && install(need.stateful, wanted)) return true;
    if (before != need.state && before != 0) {
      wanted[next - 1] = {from - stateful.change[at(before)][at(need.state)], need.state};
      wanted.insert(wanted.begin() + static_cast<std::ptrdiff_t>(next), Change{to, 0});
      if (install(need.stateful, std::move(wanted))) return true;
    }
  }
  const Tick up = stateful.change[0][at(need.state)];
  if (from - up < net_.now) return false;
  std::vector<Change> wanted = changes;
  wanted.insert(wanted.begin() + static_cast<std::ptrdiff_t>(next),
                {Change{from - up, need.state}, Change{to, 0}});
  return install(need.stateful, std::move(wanted));
}

}  // namespace weatherstruck::engine
