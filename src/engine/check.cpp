#include "weatherstruck/engine/check.h"

#include <fmt/format.h>

#include <algorithm>

#include "checker.h"

namespace weatherstruck::engine {

Checker::Checker(const Network& network, const Schedule& schedule) : net_(network), plan_(schedule) {}

std::vector<Violation> Checker::run() {
  check_shape();
  if (!found_.empty()) return std::move(found_);  // the rest would read past the ends
  place_states();
  for (std::size_t i = 0; i < net_.tasks.size(); ++i)
    check_task(i);
  for (const Link& link : net_.links)
    check_link(link);
  for (std::size_t k = 0; k < net_.keeps.size(); ++k)
    check_keep(k);
  check_resources();
  return std::move(found_);
}

void Checker::broken(Rule rule, std::string what) {
  found_.push_back({rule, std::move(what)});
}

const Clock& Checker::clock(ClockId id) const {
  return net_.clocks[at(id)];
}

const Way& Checker::way_of(std::size_t task) const {
  return net_.tasks[task].ways[at(plan_.tasks[task].way)];
}

void Checker::check_shape() {
  const Tick horizon = net_.horizon();
  if (plan_.tasks.size() != net_.tasks.size() || plan_.spells.size() != net_.keeps.size() ||
      plan_.changes.size() != net_.statefuls.size()) {
    broken(Rule::shape, "the schedule is for another network");
    return;
  }
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    const Task& task = net_.tasks[i];
    const Placement& placement = plan_.tasks[i];
    if (placement.way < 0 || at(placement.way) >= task.ways.size()) {
      broken(Rule::shape, fmt::format("{}: way {} does not exist", task.name, placement.way));
      continue;
    }
    const auto& past = task.history.runs;
    const bool kept = past.empty() || (placement.present && placement.way == task.history.way &&
                                       placement.runs.size() >= past.size() &&
                                       std::equal(past.begin(), past.end(), placement.runs.begin()));
    if (!kept) broken(Rule::shape, fmt::format("{}: what has been done is not as it was", task.name));
    Tick last = 0;
    for (const Run& run : placement.runs) {
      if (run.start < last || run.end <= run.start)
        broken(Rule::shape, fmt::format("{}: runs out of order", task.name));
      if (run.end > horizon) broken(Rule::horizon, fmt::format("{} runs past the horizon", task.name));
      last = run.end;
    }
    bool present = true;
    if (task.presence && past.empty()) {
      const Placement& host = plan_.tasks[at(task.presence->task)];
      const auto& ways = task.presence->ways;
      present = host.placed() && std::find(ways.begin(), ways.end(), host.way) != ways.end();
    }
    if (placement.present != present || (!present && !placement.runs.empty())) {
      broken(Rule::shape, fmt::format("{}: should {}be there", task.name, present ? "" : "not "));
    }
  }
  for (std::size_t k = 0; k < net_.keeps.size(); ++k) {
    const Keep& keep = net_.keeps[k];
    Tick free_from = 0;
    for (const Spell& spell : plan_.spells[k]) {
      if (spell.way < 1 || at(spell.way) >= keep.ways.size()) {
        broken(Rule::shape, fmt::format("{}: cover {} does not exist", keep.name, spell.way));
        continue;
      }
      const CoverWay& way = keep.ways[at(spell.way)];
      if (spell.from < free_from || spell.to < spell.from + way.on) {
        broken(Rule::cover, fmt::format("{}: covers overlap or are off before they are on", keep.name));
      }
      if (spell.to != horizon && spell.to + way.off > horizon) {
        broken(Rule::horizon, fmt::format("{}: a cover comes off past the horizon", keep.name));
      }
      free_from = spell.to == horizon ? horizon : spell.to + way.off;
    }
  }
  for (std::size_t s = 0; s < net_.statefuls.size(); ++s) {
    const Stateful& stateful = net_.statefuls[s];
    Tick free_from = 0;
    int state = 0;
    for (const Change& change : plan_.changes[s]) {
      if (change.state < 0 || at(change.state) >= stateful.allowed.size() || change.state == state) {
        broken(Rule::shape, fmt::format("{}: a change to no other state", stateful.name));
        continue;
      }
      if (change.at < free_from) broken(Rule::shape, fmt::format("{}: changes overlap", stateful.name));
      if (change.at < net_.now)
        broken(Rule::release, fmt::format("{} changes at {}, before now", stateful.name, change.at));
      free_from = change.at + stateful.change[at(state)][at(change.state)];
      if (free_from > horizon)
        broken(Rule::horizon, fmt::format("{} changes past the horizon", stateful.name));
      state = change.state;
    }
  }
}

// state_[s][t]: the state that holds at tick t, or -1 while it changes.
void Checker::place_states() {
  const Tick horizon = net_.horizon();
  for (std::size_t s = 0; s < net_.statefuls.size(); ++s) {
    const Stateful& stateful = net_.statefuls[s];
    std::vector<int> states(at(horizon), 0);
    int before = 0;
    for (const Change& change : plan_.changes[s]) {
      const Tick over = change.at + stateful.change[at(before)][at(change.state)];
      for (Tick t = change.at; t < horizon; ++t)
        states[at(t)] = t < over ? -1 : change.state;
      for (Tick t = change.at; t < over; ++t) {
        for (const int state : {before, change.state}) {
          if (stateful.allowed[at(state)][at(net_.slot_of(t))] == 0) {
            broken(Rule::state_allowed,
                   fmt::format("{} changes from or to state {} at {}", stateful.name, state, t));
          }
        }
      }
      before = change.state;
    }
    for (Tick t = 0; t < horizon; ++t) {
      const int state = states[at(t)];
      if (state >= 0 && stateful.allowed[at(state)][at(net_.slot_of(t))] == 0) {
        broken(Rule::state_allowed, fmt::format("{} is in state {} at {}", stateful.name, state, t));
      }
    }
    state_.push_back(std::move(states));
  }
}

void Checker::want_state(const std::optional<StateNeed>& need, Tick from, Tick to, const std::string& who) {
  if (!need) return;
  for (Tick t = from; t < to; ++t) {
    if (state_[at(need->stateful)][at(t)] != need->state) {
      broken(Rule::state, fmt::format("{} at {}: {} is not in state {}", who, t,
                                      net_.statefuls[at(need->stateful)].name, need->state));
      return;
    }
  }
}

void Checker::check_resources() {
  const auto ticks = at(net_.horizon());
  std::vector<std::vector<int>> used(net_.resources.size(), std::vector<int>(ticks, 0));
  // Where something uses it that can still be chosen.
  std::vector<std::vector<char>> chosen(net_.resources.size(), std::vector<char>(ticks, 0));
  const auto use = [&](const std::vector<Need>& needs, Tick from, Tick to, bool past = false) {
    for (const Need& need : needs) {
      for (Tick t = from; t < to; ++t) {
        used[at(need.resource)][at(t)] += need.quantity;
        if (!past && t >= net_.now) chosen[at(need.resource)][at(t)] = 1;
      }
    }
  };
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    const auto& runs = plan_.tasks[i].runs;
    for (std::size_t r = 0; r < runs.size(); ++r)
      use(way_of(i).needs, runs[r].start, runs[r].end, r < net_.tasks[i].history.runs.size());
  }
  for (std::size_t k = 0; k < net_.keeps.size(); ++k) {
    for (const Spell& spell : plan_.spells[k]) {
      const CoverWay& way = net_.keeps[k].ways[at(spell.way)];
      const bool left_on = spell.to == net_.horizon();
      use(way.hands, spell.from, spell.from + way.on);
      if (!left_on) use(way.hands, spell.to, spell.to + way.off);
      use(way.area, spell.from, left_on ? spell.to : spell.to + way.off);
    }
  }
  for (std::size_t s = 0; s < net_.statefuls.size(); ++s) {
    int before = 0;
    for (const Change& change : plan_.changes[s]) {
      use(net_.statefuls[s].hands, change.at,
          change.at + net_.statefuls[s].change[at(before)][at(change.state)]);
      before = change.state;
    }
  }
  for (std::size_t r = 0; r < net_.resources.size(); ++r) {
    const Resource& resource = net_.resources[r];
    for (std::size_t t = 0; t < ticks; ++t) {
      const int capacity = resource.capacity[at(net_.slot_of(static_cast<Tick>(t)))];
      if (chosen[r][t] != 0 && used[r][t] > capacity) {
        broken(Rule::capacity,
               fmt::format("{} at {}: {} in use of {}", resource.name, t, used[r][t], capacity));
        break;
      }
    }
  }
  for (const Bucket& bucket : net_.buckets) {
    std::vector<Tick> day_use(bucket.limit.size(), 0);
    std::vector<char> judged(bucket.limit.size(), 0);
    for (std::size_t t = 0; t < ticks; ++t) {
      const std::size_t day = at(net_.day_of(static_cast<Tick>(t)));
      day_use[day] += used[at(bucket.resource)][t];
      if (chosen[at(bucket.resource)][t] != 0) judged[day] = 1;
    }
    for (std::size_t d = 0; d < day_use.size(); ++d) {
      if (judged[d] != 0 && day_use[d] > bucket.limit[d]) {
        broken(Rule::bucket,
               fmt::format("{} on day {}: {} used of {}", net_.resources[at(bucket.resource)].name, d,
                           day_use[d], bucket.limit[d]));
      }
    }
  }
}

const char* to_text(Rule rule) {
  switch (rule) {
    case Rule::shape:
      return "shape";
    case Rule::horizon:
      return "horizon";
    case Rule::release:
      return "release";
    case Rule::standing_clock:
      return "standing clock";
    case Rule::amount:
      return "amount";
    case Rule::pause:
      return "pause";
    case Rule::span:
      return "span";
    case Rule::guard:
      return "guard";
    case Rule::capacity:
      return "capacity";
    case Rule::bucket:
      return "bucket";
    case Rule::state:
      return "state";
    case Rule::state_allowed:
      return "state allowed";
    case Rule::link_least:
      return "link, too soon";
    case Rule::link_most:
      return "link, too late";
    case Rule::cure:
      return "cure";
    case Rule::cover:
      return "cover";
    case Rule::hazard:
      return "hazard";
    case Rule::green:
      return "green";
  }
  return "";
}

std::vector<Violation> check(const Network& network, const Schedule& schedule) {
  return Checker(network, schedule).run();
}

}  // namespace weatherstruck::engine
