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
      run_marks_(network.keeps.size(), 0),
      spell_marks_(network.keeps.size(), 0),
      left_unsound_(network.keeps.size(), 0),
      green_known_(network.keeps.size()),
      awaited_(network.keeps.size(), 0),
      starts_(network.tasks.size(), never) {
  for (const Resource& resource : network.resources)
    free_.emplace_back(resource.capacity, network.ticks_per_slot);
  for (const Task& task : network.tasks) {
    for (const Touch& touch : task.touches)
      layers_[at(touch.keep)] = std::max(layers_[at(touch.keep)], touch.layer + 1);
  }
  for (const CureLink& link : network.cure_links)
    awaited_[at(link.keep)] = 1;
  buckets_.resize(network.resources.size());
  for (const Bucket& bucket : network.buckets)
    buckets_[at(bucket.resource)].push_back(bucket.limit);
  for (const Stateful& stateful : network.statefuls) {
    auto& states = forbidden_.emplace_back();
    for (const auto& allowed : stateful.allowed) {
      auto& next = states.emplace_back(allowed.size() + 1, network.horizon());
      for (std::size_t slot = allowed.size(); slot-- > 0;) {
        next[slot] = allowed[slot] != 0 ? next[slot + 1] : static_cast<Tick>(slot) * network.ticks_per_slot;
      }
    }
  }
  for (Tick t = 0; t < network.horizon(); ++t) {
    const auto day = static_cast<std::uint16_t>(network.day_of(t));
    days_.push_back(day);
    if (day_ends_.size() <= day) day_ends_.resize(at(day) + 1);
    day_ends_[day] = t + 1;
  }
}

void Workspace::roll_back(Mark mark) {
  while (log_.size() > mark) {
    const Entry entry = log_.back();
    log_.pop_back();
    if (const auto* reserved = std::get_if<Reserved>(&entry)) {
      apply(reserved->need, reserved->from, reserved->to, -reserved->sign);
    } else if (const auto* put = std::get_if<SpellPut>(&entry)) {
      take_spell(put->keep, put->index);
    } else if (const auto* dropped = std::get_if<SpellDropped>(&entry)) {
      put_spell(dropped->keep, dropped->index, dropped->spell);
    } else if (const auto* run = std::get_if<RunPut>(&entry)) {
      take_run(run->keep, run->index);
    } else if (const auto* changes = std::get_if<ChangesReplaced>(&entry)) {
      const auto old = old_changes_.end() - static_cast<std::ptrdiff_t>(changes->count);
      changes_[at(changes->stateful)].assign(old, old_changes_.end());
      old_changes_.erase(old, old_changes_.end());
    } else if (const auto* start = std::get_if<OldStart>(&entry)) {
      starts_[at(start->task)] = start->start;
    } else if (std::holds_alternative<HoldPut>(entry)) {
      holds_.pop_back();
    } else if (const auto* hold = std::get_if<HoldDropped>(&entry)) {
      holds_.insert(holds_.begin() + static_cast<std::ptrdiff_t>(hold->index), hold->hold);
    }
  }
}

void Workspace::apply(const Need& need, Tick from, Tick to, int sign) {
  const int change = sign * need.quantity;
  free_[at(need.resource)].take(from, to, change);
  for (std::vector<Tick>& left : buckets_[at(need.resource)]) {
    for (Tick t = from; t < to;) {
      const std::size_t day = day_of(t);
      const Tick end = std::min(to, day_ends_[day]);
      left[day] -= change * (end - t);
      t = end;
    }
  }
}

Tick Workspace::day_end(Tick t) const {
  return day_ends_[day_of(t)];
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
    if (free_[at(need.resource)].at(t) < need.quantity) return &need;
  }
  return nullptr;
}

Tick Workspace::busy_until(const Need& need, Tick t) const {
  return free_[at(need.resource)].first_with(t, need.quantity);
}

Tick Workspace::short_until(const std::vector<Need>& needs, Tick t) const {
  if (t >= net_.horizon()) return t;
  const Need* busy = busy_at(needs, t);
  return busy == nullptr ? t : busy_until(*busy, t);
}

Tick Workspace::free_until(std::span<const Need> needs, Tick from, Tick to) const {
  // What has been is not asked for: a cover that lay while hands were booked elsewhere lay all the same.
  from = std::max(from, net_.now);
  if (from >= to) return to;
  for (const Need& need : needs) {
    to = free_[at(need.resource)].first_below(from, to, need.quantity);
    if (buckets_[at(need.resource)].empty()) continue;
    for (Tick t = from; t < to;) {
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
  Tick least = net_.horizon() * 64;
  for (const std::vector<Tick>& left : buckets_[at(resource)])
    least = std::min(least, left[day_of(t)]);
  return least;
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
bool Workspace::install(StatefulId id, const std::vector<Change>& wanted) {
  const Stateful& stateful = net_.statefuls[at(id)];
  std::vector<Change>& now = changes_[at(id)];
  // What is cheap to ask first, over the whole of it.
  int state = 0;
  Tick holds_from = 0;
  for (const Change& change : wanted) {
    const Tick over = change.at + stateful.change[at(state)][at(change.state)];
    if (change.at < holds_from || over > net_.horizon() || !allowed(id, state, holds_from, over) ||
        !allowed(id, change.state, change.at, over))
      return false;
    state = change.state;
    holds_from = over;
  }
  if (!allowed(id, state, holds_from, net_.horizon()) || !holds_kept(id, wanted)) return false;
  // Hands for what is the same at the beginning and at the end stay as they are. (How long a change takes
  // hangs on the state before it, so one more of the end is done again.)
  std::size_t same = 0;
  while (same < std::min(now.size(), wanted.size()) && now[same] == wanted[same])
    ++same;
  std::size_t same_end = 0;
  while (same_end < std::min(now.size(), wanted.size()) - same &&
         now[now.size() - 1 - same_end] == wanted[wanted.size() - 1 - same_end])
    ++same_end;
  same_end -= same_end > 0 ? 1 : 0;
  const auto each = [&](const std::vector<Change>& changes, auto&& fn) {
    int before = same > 0 ? changes[same - 1].state : 0;
    for (std::size_t i = same; i < changes.size() - same_end; ++i) {
      if (!fn(changes[i].at, changes[i].at + stateful.change[at(before)][at(changes[i].state)])) return false;
      before = changes[i].state;
    }
    return true;
  };
  const Mark before = mark();
  each(now, [&](Tick from, Tick to) {
    release(stateful.hands, from, to);
    return true;
  });
  if (!each(wanted, [&](Tick from, Tick to) { return reserve(stateful.hands, from, to); })) {
    roll_back(before);
    return false;
  }
  log_.push_back(ChangesReplaced{id, now.size()});
  old_changes_.insert(old_changes_.end(), now.begin(), now.end());
  now = wanted;
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
  log_.push_back(HoldPut{});
  holds_.push_back({need, from, to});
  return true;
}

Workspace::InForce Workspace::in_force(StatefulId id, Tick t) const {
  const Stateful& stateful = net_.statefuls[at(id)];
  const std::vector<Change>& changes = changes_[at(id)];
  InForce it;
  for (; it.next < changes.size() && changes[it.next].at <= t; ++it.next) {
    it.before = it.state;
    it.state = changes[it.next].state;
    it.holds_from = changes[it.next].at + stateful.change[at(it.before)][at(it.state)];
  }
  return it;
}

bool Workspace::elsewhere(const StateNeed& need, Tick from) const {
  const InForce now = in_force(need.stateful, from);
  return !(now.state == need.state && now.holds_from <= from) && (now.state != 0 || need.state == 0);
}

bool Workspace::there(const std::vector<Need>& needs, Tick from, Tick to) const {
  from = std::max(from, net_.now);
  return from >= to || std::all_of(needs.begin(), needs.end(), [&](const Need& need) {
           return free_[at(need.resource)].first_below(from, to, need.quantity) == to;
         });
}

bool Workspace::arrange(const StateNeed& need, Tick from, Tick to) {
  const Stateful& stateful = net_.statefuls[at(need.stateful)];
  const std::vector<Change>& changes = changes_[at(need.stateful)];
  std::vector<Change>& wanted = wanted_;
  const auto [next, before, state, holds_from] = in_force(need.stateful, from);
  const Tick changes_at = next < changes.size() ? changes[next].at : net_.horizon();
  if (state == need.state && holds_from <= from) {
    if (changes_at >= to) return true;
    wanted = changes;  // in place already, but it leaves too soon: let it leave later
    wanted[next].at = to;
    return install(need.stateful, wanted);
  }
  // In use over another place, or wanted down while it is up.
  if (state != 0 || need.state == 0) return false;
  if (next > 0) {
    // It came down before `from`. From this place: then let it stay up. From another: perhaps it moves
    // straight here.
    wanted = changes;
    wanted[next - 1].at = to;
    if (before == need.state && install(need.stateful, wanted)) return true;
    if (before != need.state && before != 0) {
      wanted[next - 1] = {from - stateful.change[at(before)][at(need.state)], need.state};
      wanted.insert(wanted.begin() + static_cast<std::ptrdiff_t>(next), Change{to, 0});
      if (install(need.stateful, wanted)) return true;
    }
  }
  const Tick up = stateful.change[0][at(need.state)];
  if (from - up < net_.now || from - up < holds_from || !there(stateful.hands, from - up, from) ||
      !there(stateful.hands, to, std::min(net_.horizon(), to + stateful.change[at(need.state)][0])))
    return false;
  wanted = changes;
  wanted.insert(wanted.begin() + static_cast<std::ptrdiff_t>(next),
                {Change{from - up, need.state}, Change{to, 0}});
  return install(need.stateful, wanted);
}

}  // namespace weatherstruck::engine
