#include "engine/describe_support.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {
namespace {

std::string clock_name(const Network& network, ClockId clock) {
  return clock == no_clock ? "none" : at(network.clocks, clock).name();
}

std::string needs_text(const Network& network, const std::vector<Need>& needs) {
  std::string text;
  for (const Need& need : needs) {
    text += fmt::format(" {} x {}", need.quantity, at(network.resources, need.resource).name);
  }
  return text;
}

std::string way_text(const Network& network, const Way& way) {
  std::string text = fmt::format("{} on {}", way.amount, clock_name(network, way.clock));
  if (way.setup > 0) text += fmt::format(", setup {}", way.setup);
  if (way.pause == Pause::anywhere) text += ", stops anywhere";
  if (way.pause == Pause::at_breaks) text += fmt::format(", stops at {}", fmt::join(way.breaks, " "));
  if (way.longest_span) text += fmt::format(", within {}", *way.longest_span);
  text += needs_text(network, way.needs);
  if (way.state) text += fmt::format(", in state {}", way.state->state);
  for (const Guard& guard : way.guards) {
    text += fmt::format(", from {} while {} on {}, at most {} on {}", guard.from_start ? "start" : "end",
                        guard.until_amount, clock_name(network, guard.until), guard.most,
                        clock_name(network, guard.exposure));
  }
  return text;
}

std::string keep_text(const Network& network, const Keep& keep) {
  std::string text = keep.name + "\n";
  for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
    text += fmt::format("  hazard {} until {} most {}, {} for the past{}{}\n", h, keep.hazards[h].until,
                        keep.hazards[h].most, keep.hazards[h].most_for_past,
                        keep.hazards[h].by_layer ? ", by layer" : "",
                        keep.hazards[h].under_shelter
                            ? ", under shelter " + clock_name(network, *keep.hazards[h].under_shelter)
                            : "");
  }
  for (const CoverWay& way : keep.ways) {
    text += fmt::format("  {}: cures on {}, on {}, off {}", way.name, clock_name(network, way.cure), way.on,
                        way.off);
    for (std::size_t h = 0; h < way.until.size(); ++h) {
      text += fmt::format(", hazard {} until {} exposure {}", h, clock_name(network, way.until[h]),
                          clock_name(network, way.exposure[h]));
    }
    text += needs_text(network, way.area) + needs_text(network, way.hands);
    if (way.state) text += fmt::format(", in state {}", way.state->state);
    text += "\n";
  }
  if (keep.green) {
    text += fmt::format("  green {} within {} on {}\n", keep.green->limit, keep.green->firm,
                        clock_name(network, keep.green->clock));
  }
  return text;
}

std::string link_text(const Network& network, const Link& link) {
  const auto edge = [](Edge it) { return it == Edge::start ? "start" : "finish"; };
  std::string text = fmt::format("{} {} -> {} {}", at(network.tasks, link.from).name, edge(link.from_edge),
                                 at(network.tasks, link.to).name, edge(link.to_edge));
  if (link.least_clock != no_clock) {
    text += fmt::format(", least {} on {}", link.least, clock_name(network, link.least_clock));
  }
  if (link.most_clock != no_clock) {
    text += fmt::format(", most {} on {}", link.most, clock_name(network, link.most_clock));
  }
  return text + (link.waived_if_left_out ? ", waived" : "") + "\n";
}

using Change = std::function<void(Network&)>;

template <class T>
void erase(std::vector<T>& list, std::size_t index) {
  list.erase(list.begin() + static_cast<std::ptrdiff_t>(index));
}

/// The last task taken away with all that names it.
void drop_last_task(Network& network) {
  const TaskId last = count_of(network.tasks) - 1;
  const auto drop = [](auto& list, const auto& names) {
    list.erase(std::remove_if(list.begin(), list.end(), names), list.end());
  };
  drop(network.links, [&](const Link& link) { return link.from == last || link.to == last; });
  drop(network.cure_links, [&](const CureLink& link) { return link.to == last; });
  network.tasks.pop_back();
}

template <class T>
void drop_each(std::vector<Change>& changes, const T& list, auto get) {
  for (std::size_t n = 0; n < list.size(); ++n) {
    changes.push_back([get, n](Network& network) { erase(get(network), n); });
  }
}

/// Every single thing that could be taken away.
std::vector<Change> ways_to_shrink(const Network& network) {
  std::vector<Change> changes;
  if (network.tasks.size() > 1) changes.emplace_back(drop_last_task);
  drop_each(changes, network.links, [](Network& it) -> auto& { return it.links; });
  drop_each(changes, network.cure_links, [](Network& it) -> auto& { return it.cure_links; });
  drop_each(changes, network.buckets, [](Network& it) -> auto& { return it.buckets; });
  for (std::size_t k = 0; k < network.keeps.size(); ++k) {
    changes.emplace_back([k](Network& it) { it.keeps[k].green.reset(); });
    if (network.keeps[k].ways.size() > 1)
      changes.emplace_back([k](Network& it) { it.keeps[k].ways.pop_back(); });
    for (std::size_t h = 0; h < network.keeps[k].hazards.size(); ++h) {
      changes.emplace_back([k, h](Network& it) { it.keeps[k].hazards[h].until = 0; });
    }
    for (std::size_t w = 0; w < network.keeps[k].ways.size(); ++w) {
      changes.emplace_back([k, w](Network& it) { it.keeps[k].ways[w].hands.clear(); });
      changes.emplace_back([k, w](Network& it) { it.keeps[k].ways[w].area.clear(); });
      changes.emplace_back([k, w](Network& it) { it.keeps[k].ways[w].on = 0; });
      changes.emplace_back([k, w](Network& it) { it.keeps[k].ways[w].off = 0; });
      changes.emplace_back([k, w](Network& it) { it.keeps[k].ways[w].state.reset(); });
    }
  }
  for (std::size_t i = 0; i < network.tasks.size(); ++i) {
    drop_each(changes, network.tasks[i].touches, [i](Network& it) -> auto& { return it.tasks[i].touches; });
    drop_each(changes, network.tasks[i].history.runs,
              [i](Network& it) -> auto& { return it.tasks[i].history.runs; });
    changes.emplace_back([i](Network& it) { it.tasks[i].presence.reset(); });
    changes.emplace_back([i](Network& it) { it.tasks[i].release = 0; });
    changes.emplace_back([i](Network& it) { it.tasks[i].due = never; });
    changes.emplace_back([i](Network& it) { it.tasks[i].importance = Importance::must; });
    for (std::size_t w = 0; w < network.tasks[i].ways.size(); ++w) {
      const auto way = [i, w](Network& it) -> Way& { return it.tasks[i].ways[w]; };
      drop_each(changes, network.tasks[i].ways[w].needs,
                [way](Network& it) -> auto& { return way(it).needs; });
      drop_each(changes, network.tasks[i].ways[w].guards,
                [way](Network& it) -> auto& { return way(it).guards; });
      changes.emplace_back([way](Network& it) { way(it).state.reset(); });
      changes.emplace_back([way](Network& it) { way(it).setup = 0; });
      changes.emplace_back([way](Network& it) { way(it).longest_span.reset(); });
      changes.emplace_back([way](Network& it) { way(it).costs.clear(); });
      changes.emplace_back([way](Network& it) {
        way(it).pause = Pause::none;
        way(it).breaks.clear();
      });
    }
  }
  return changes;
}

}  // namespace

std::string describe(const Network& network) {
  std::string text = fmt::format("{} slots of {}, days {}, now {}\n", network.slots, network.ticks_per_slot,
                                 fmt::join(network.day_of_slot, ""), network.now);
  for (const Clock& clock : network.clocks) {
    text += fmt::format("{:>10} ", clock.name());
    for (Tick t = 0; t < network.horizon(); ++t)
      text += fmt::format("{}", clock.rate(t));
    text += "\n";
  }
  for (const Resource& resource : network.resources) {
    text += fmt::format("{:>10} {}\n", resource.name, fmt::join(resource.capacity, ""));
  }
  for (const Bucket& bucket : network.buckets) {
    text += fmt::format("{} a day: {}\n", at(network.resources, bucket.resource).name,
                        fmt::join(bucket.limit, " "));
  }
  for (const Stateful& thing : network.statefuls) {
    text += thing.name + needs_text(network, thing.hands) + "\n";
    for (std::size_t s = 0; s < thing.change.size(); ++s) {
      text += fmt::format("  {}: change {}, allowed {}\n", s, fmt::join(thing.change[s], " "),
                          fmt::join(thing.allowed[s], ""));
    }
  }
  for (const Keep& keep : network.keeps)
    text += keep_text(network, keep);
  for (const Task& task : network.tasks) {
    const char* rank = task.importance == Importance::must     ? "must"
                       : task.importance == Importance::should ? "should"
                                                               : "may";
    text += fmt::format("{} {}", task.name, rank);
    if (task.release > 0) text += fmt::format(", release {}", task.release);
    if (task.due != never) text += fmt::format(", due {}", task.due);
    if (!task.history.runs.empty()) text += fmt::format(", in way {}", task.history.way);
    for (const Run& run : task.history.runs)
      text += fmt::format(" did [{}, {}) {}", run.start, run.end, run.done);
    if (task.presence) {
      text += fmt::format(", if {} in {}", at(network.tasks, task.presence->task).name,
                          fmt::join(task.presence->ways, " "));
    }
    for (const Touch& touch : task.touches) {
      text += fmt::format(", touches {} lays {} in layer {}{}", at(network.keeps, touch.keep).name,
                          touch.lays, touch.layer, touch.closes ? " closes" : "");
    }
    text += "\n";
    for (const Way& way : task.ways)
      text += "  " + way_text(network, way) + "\n";
  }
  for (const Link& link : network.links)
    text += link_text(network, link);
  for (const CureLink& link : network.cure_links) {
    text += fmt::format("{} cured {} before {}\n", at(network.keeps, link.keep).name, link.least,
                        at(network.tasks, link.to).name);
  }
  return text;
}

std::string describe(const Network& network, const Schedule& schedule) {
  std::string text;
  for (std::size_t i = 0; i < schedule.tasks.size(); ++i) {
    const Placement& place = schedule.tasks[i];
    text += fmt::format("{}{} way {}:", network.tasks[i].name, place.present ? "" : " absent", place.way);
    for (const Run& run : place.runs)
      text += fmt::format(" [{}, {}) {}", run.start, run.end, run.done);
    text += "\n";
  }
  for (std::size_t k = 0; k < schedule.spells.size(); ++k) {
    for (const Spell& spell : schedule.spells[k]) {
      text += fmt::format("{}: way {} [{}, {})\n", network.keeps[k].name, spell.way, spell.from, spell.to);
    }
  }
  for (std::size_t s = 0; s < schedule.changes.size(); ++s) {
    for (const auto& change : schedule.changes[s]) {
      text += fmt::format("{}: at {} to {}\n", network.statefuls[s].name, change.at, change.state);
    }
  }
  return text;
}

Network shrunk(Network network, const std::function<bool(const Network&)>& shows) {
  bool smaller = true;
  while (smaller) {
    smaller = false;
    for (const Change& change : ways_to_shrink(network)) {
      Network less = network;
      change(less);
      if (describe(less) == describe(network) || !faults_of(less).empty() || !shows(less)) continue;
      network = std::move(less);
      smaller = true;
      break;
    }
  }
  return network;
}

}  // namespace weatherstruck::engine::brute
