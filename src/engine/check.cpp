#include "weatherstruck/engine/check.h"

#include <fmt/format.h>

#include <algorithm>

namespace weatherstruck::engine {
namespace {

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

class Checker {
 public:
  Checker(const Network& network, const Schedule& schedule) : net_(network), plan_(schedule) {}

  std::vector<Violation> run() {
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

 private:
  void broken(Rule rule, std::string what) { found_.push_back({rule, std::move(what)}); }
  [[nodiscard]] const Clock& clock(ClockId id) const { return net_.clocks[at(id)]; }
  [[nodiscard]] const Way& way_of(std::size_t task) const {
    return net_.tasks[task].ways[at(plan_.tasks[task].way)];
  }

  void check_shape() {
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
  void place_states() {
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

  void want_state(const std::optional<StateNeed>& need, Tick from, Tick to, const std::string& who) {
    if (!need) return;
    for (Tick t = from; t < to; ++t) {
      if (state_[at(need->stateful)][at(t)] != need->state) {
        broken(Rule::state, fmt::format("{} at {}: {} is not in state {}", who, t,
                                        net_.statefuls[at(need->stateful)].name, need->state));
        return;
      }
    }
  }

  void check_task(std::size_t i) {
    const Placement& placement = plan_.tasks[i];
    if (!placement.placed()) return;
    const Task& task = net_.tasks[i];
    const Way& way = way_of(i);
    const Clock& work = clock(way.clock);
    Amount done = 0;
    for (std::size_t r = 0; r < placement.runs.size(); ++r) {
      const Run& run = placement.runs[r];
      const bool last = r + 1 == placement.runs.size();
      if (r < task.history.runs.size()) {
        done += run.done;
        continue;
      }
      if (run.start < net_.now)
        broken(Rule::release, fmt::format("{} begins anew at {}, before now", task.name, run.start));
      if (run.start < task.release)
        broken(Rule::release, fmt::format("{} runs at {} before {}", task.name, run.start, task.release));
      for (Tick t = run.start; t < run.end; ++t) {
        if (work.rate(t) <= 0) {
          broken(Rule::standing_clock,
                 fmt::format("{} is under way at {} while {} stands still", task.name, t, work.name()));
          break;
        }
      }
      check_amount(task, way, run, done, last);
      done += run.done;
      want_state(way.state, run.start, run.end, task.name);
      for (const Guard& guard : way.guards) {
        const Tick from = guard.from_start ? run.start : run.end;
        const Tick until = std::min(clock(guard.until).advance(from, guard.until_amount), net_.horizon());
        const Amount exposed = clock(guard.exposure).passed(from, until);
        if (exposed > guard.most) {
          broken(Rule::guard, fmt::format("{}: {} on {} from {} to {}, at most {}", task.name, exposed,
                                          clock(guard.exposure).name(), from, until, guard.most));
        }
      }
    }
    if (done != way.amount && !placement.unfinished(task))
      broken(Rule::amount, fmt::format("{}: {} done of {}", task.name, done, way.amount));
    const std::size_t past = task.history.runs.size();
    if (placement.runs.size() == past) return;
    if (way.pause == Pause::none && placement.runs.size() > past + 1)
      broken(Rule::pause, fmt::format("{} may not pause", task.name));
    const Tick spans = placement.finish() - placement.runs[past].start;
    if (way.longest_span && spans > *way.longest_span)
      broken(Rule::span, fmt::format("{} spans {}", task.name, spans));
  }

  void check_amount(const Task& task, const Way& way, const Run& run, Amount done, bool last) {
    const Clock& work = clock(way.clock);
    if (run.done < 1) {
      broken(Rule::amount, fmt::format("{}: a run that does nothing", task.name));
      return;
    }
    if (last || way.pause == Pause::at_breaks) {
      if (run.end != work.advance(run.start, way.setup + run.done)) {
        broken(Rule::amount,
               fmt::format("{}: {} from {} is not done at {}", task.name, run.done, run.start, run.end));
      }
    } else if (way.pause == Pause::anywhere && run.done != work.passed(run.start, run.end) - way.setup) {
      broken(Rule::amount, fmt::format("{}: the run from {} does another amount", task.name, run.start));
    }
    if (last) return;
    const Amount total = done + run.done;
    if (total >= way.amount) broken(Rule::amount, fmt::format("{}: more runs than there is work", task.name));
    if (way.pause == Pause::at_breaks && !std::binary_search(way.breaks.begin(), way.breaks.end(), total)) {
      broken(Rule::pause, fmt::format("{} stops at {}, where it may not", task.name, total));
    }
  }

  [[nodiscard]] Tick edge(TaskId task, Edge which) const {
    const Placement& placement = plan_.tasks[at(task)];
    return which == Edge::start ? placement.start() : placement.finish();
  }

  void check_link(const Link& link) {
    const Placement& from = plan_.tasks[at(link.from)];
    const Placement& to = plan_.tasks[at(link.to)];
    const Task& last = net_.tasks[at(link.to)];
    if (!from.present || !to.has(last, link.to_edge) || to.past(last, link.to_edge)) return;
    const std::string who = fmt::format("{} after {}", last.name, net_.tasks[at(link.from)].name);
    if (!from.has(net_.tasks[at(link.from)], link.from_edge)) {
      if (link.waived_if_left_out) return;
      broken(Rule::link_least, who + ", which is left out");
      return;
    }
    const Tick a = edge(link.from, link.from_edge);
    const Tick b = edge(link.to, link.to_edge);
    if (b < a || (link.least_clock != no_clock && clock(link.least_clock).passed(a, b) < link.least)) {
      broken(Rule::link_least, fmt::format("{}: {} to {} is too soon", who, a, b));
    }
    if (link.most_clock != no_clock && clock(link.most_clock).passed(a, b) > link.most) {
      broken(Rule::link_most, fmt::format("{}: {} to {} is too late", who, a, b));
    }
  }

  void check_keep(std::size_t k) {
    const Keep& keep = net_.keeps[k];
    const Tick horizon = net_.horizon();
    std::vector<int> in_force(at(horizon), 0);
    std::vector<char> handled(at(horizon), 0);  // covered, or being covered or uncovered
    for (const Spell& spell : plan_.spells[k]) {
      const CoverWay& way = keep.ways[at(spell.way)];
      const Tick gone = spell.to == horizon ? horizon : spell.to + way.off;
      for (Tick t = spell.from; t < gone; ++t)
        handled[at(t)] = 1;
      for (Tick t = spell.from + way.on; t < spell.to; ++t)
        in_force[at(t)] = spell.way;
      want_state(way.state, spell.from + way.on, spell.to, keep.name);
    }
    const std::vector<char> laying = laying_on(k, -1);
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      for (const Touch& touch : net_.tasks[i].touches) {
        if (at(touch.keep) != k) continue;
        for (const Run& run : plan_.tasks[i].runs) {
          for (Tick t = run.start; t < run.end; ++t) {
            if (handled[at(t)] != 0) {
              broken(Rule::cover, fmt::format("{} is worked on at {} under its cover", keep.name, t));
              break;
            }
          }
        }
      }
    }
    check_hazards(k, in_force, laying);
    for (const CureLink& link : net_.cure_links) {
      if (at(link.keep) == k) check_cure(k, link, in_force);
    }
    if (keep.green) check_green(k, *keep.green, laying_on(k, -1, net_.now));
  }

  // Which ticks hold a run that closes the keep.
  [[nodiscard]] std::vector<char> closed_in(std::size_t k) const {
    std::vector<char> closed(at(net_.horizon()), 0);
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      for (const Touch& touch : net_.tasks[i].touches) {
        if (at(touch.keep) != k || !touch.closes) continue;
        for (const Run& run : plan_.tasks[i].runs)
          std::fill(closed.begin() + run.start, closed.begin() + run.end, char{1});
      }
    }
    return closed;
  }

  // Which ticks hold a laying run of the keep, begun at `since` or later, by any task but one.
  [[nodiscard]] std::vector<char> laying_on(std::size_t k, TaskId but, Tick since = 0) const {
    std::vector<char> laying(at(net_.horizon()), 0);
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      if (static_cast<TaskId>(i) == but) continue;
      for (const Touch& touch : net_.tasks[i].touches) {
        if (at(touch.keep) != k || touch.lays == 0) continue;
        for (const Run& run : plan_.tasks[i].runs) {
          if (run.start >= since) std::fill(laying.begin() + run.start, laying.begin() + run.end, char{1});
        }
      }
    }
    return laying;
  }

  void check_hazards(std::size_t k, const std::vector<int>& in_force, const std::vector<char>& laying) {
    const Keep& keep = net_.keeps[k];
    const Tick horizon = net_.horizon();
    const std::vector<char> closing = closed_in(k);
    const std::vector<char> fresh = laying_on(k, -1, net_.now);
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      const Hazard& hazard = keep.hazards[h];
      for (Tick stop = 1; stop < horizon; ++stop) {
        if (laying[at(stop - 1)] == 0 || laying[at(stop)] != 0) continue;
        Amount progress = 0;
        Amount exposed = 0;
        for (Tick t = stop;
             t < horizon && laying[at(t)] == 0 && closing[at(t)] == 0 && progress < hazard.until; ++t) {
          const CoverWay& way = keep.ways[at(in_force[at(t)])];
          progress += clock(way.until[h]).rate(t);
          if (way.exposure[h] != no_clock && t >= net_.now) exposed += clock(way.exposure[h]).rate(t);
        }
        const Amount most = hazard.most_at(fresh[at(stop - 1)] == 0);
        if (exposed > most) {
          broken(Rule::hazard, fmt::format("{}, left at {}: {} {}, at most {}", keep.name, stop, hazard.name,
                                           exposed, most));
        }
      }
    }
  }

  void check_cure(std::size_t k, const CureLink& link, const std::vector<int>& in_force) {
    const Placement& to = plan_.tasks[at(link.to)];
    if (!to.placed()) return;
    const Keep& keep = net_.keeps[k];
    const Tick start = to.start();
    if (start < net_.now) return;  // history
    const std::vector<char> laying = laying_on(k, link.to);
    // The last stretch that begins before `start`; it must be over by then.
    Tick stop = -1;
    for (Tick t = 0; t < start; ++t) {
      if (laying[at(t)] != 0 && (t + 1 == net_.horizon() || laying[at(t + 1)] == 0)) stop = t + 1;
    }
    if (start > 0 && laying[at(start - 1)] != 0 && laying[at(start)] != 0) {
      broken(Rule::cure, fmt::format("{} starts at {} while {} is being laid", net_.tasks[at(link.to)].name,
                                     start, keep.name));
      return;
    }
    if (stop < 0) return;
    Amount cured = 0;
    for (Tick t = stop; t < start; ++t)
      cured += clock(keep.ways[at(in_force[at(t)])].cure).rate(t);
    if (cured < link.least) {
      broken(Rule::cure, fmt::format("{} starts at {}: {} has cured {} of {}", net_.tasks[at(link.to)].name,
                                     start, keep.name, cured, link.least));
    }
  }

  void check_green(std::size_t k, const Green& green, const std::vector<char>& laying) {
    for (Tick t = 1; t <= net_.horizon(); ++t) {
      if (laying[at(t - 1)] == 0) continue;
      const Tick firm = std::max(0, clock(green.clock).retreat(t, green.firm));
      Amount wet = 0;
      for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
        for (const Touch& touch : net_.tasks[i].touches) {
          if (at(touch.keep) == k) wet += touch.lays * (done_by(i, t) - done_by(i, firm));
        }
      }
      if (wet > green.limit) {
        broken(Rule::green,
               fmt::format("{} at {}: {} green, at most {}", net_.keeps[k].name, t, wet, green.limit));
        return;
      }
    }
  }

  [[nodiscard]] Amount done_by(std::size_t task, Tick t) const {
    const Placement& placement = plan_.tasks[task];
    if (!placement.placed()) return 0;
    const Way& way = way_of(task);
    Amount done = 0;
    for (const Run& run : placement.runs) {
      if (run.start >= t) break;
      done += t >= run.end
                  ? run.done
                  : std::clamp<Amount>(clock(way.clock).passed(run.start, t) - way.setup, 0, run.done);
    }
    return done;
  }

  void check_resources() {
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

  const Network& net_;
  const Schedule& plan_;
  std::vector<std::vector<int>> state_;
  std::vector<Violation> found_;
};

}  // namespace

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
