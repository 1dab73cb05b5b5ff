// Fresh work: covers, hazards, cure, green work.
#include <fmt/format.h>

#include <algorithm>

#include "checker.h"

namespace weatherstruck::engine {

void Checker::check_keep(std::size_t k) {
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
  for (int layer = -1; layer < max_layers; ++layer)
    check_hazards(k, layer, in_force);
  for (const CureLink& link : net_.cure_links) {
    if (at(link.keep) == k) check_cure(k, link, in_force);
  }
  if (keep.green) check_green(k, *keep.green, laying_on(k, -1, net_.now));
}

// Which ticks hold a run that closes the keep.
std::vector<char> Checker::closed_in(std::size_t k) const {
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

// Which ticks hold a run that shelters the keep.
std::vector<char> Checker::sheltered_in(std::size_t k) const {
  std::vector<char> sheltered(at(net_.horizon()), 0);
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    for (const Touch& touch : net_.tasks[i].touches) {
      if (at(touch.keep) != k || !way_of(i).shelters) continue;
      for (const Run& run : plan_.tasks[i].runs)
        std::fill(sheltered.begin() + run.start, sheltered.begin() + run.end, char{1});
    }
  }
  return sheltered;
}

// Which ticks hold a laying run of the keep, begun at `since` or later, by any task but one; layer -1: of
// any.
std::vector<char> Checker::laying_on(std::size_t k, TaskId but, Tick since, int layer) const {
  std::vector<char> laying(at(net_.horizon()), 0);
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    if (static_cast<TaskId>(i) == but) continue;
    for (const Touch& touch : net_.tasks[i].touches) {
      if (at(touch.keep) != k || touch.lays == 0 || (layer >= 0 && touch.layer != layer)) continue;
      for (const Run& run : plan_.tasks[i].runs) {
        if (run.start >= since) std::fill(laying.begin() + run.start, laying.begin() + run.end, char{1});
      }
    }
  }
  return laying;
}

// Those that count by layer, of one; layer -1: the others, of the keep as one.
void Checker::check_hazards(std::size_t k, int layer, const std::vector<int>& in_force) {
  const Keep& keep = net_.keeps[k];
  const Tick horizon = net_.horizon();
  const std::vector<char> laying = laying_on(k, -1, 0, layer);
  const std::vector<char> closing = closed_in(k);
  const std::vector<char> sheltered = sheltered_in(k);
  const std::vector<char> fresh = laying_on(k, -1, net_.now, layer);
  for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
    const Hazard& hazard = keep.hazards[h];
    if (hazard.by_layer == (layer < 0)) continue;
    for (Tick stop = 1; stop < horizon; ++stop) {
      if (laying[at(stop - 1)] == 0 || laying[at(stop)] != 0) continue;
      Amount progress = 0;
      Amount exposed = 0;
      for (Tick t = stop; t < horizon && laying[at(t)] == 0 && closing[at(t)] == 0 && progress < hazard.until;
           ++t) {
        const CoverWay& way = keep.ways[at(in_force[at(t)])];
        progress += clock(way.until[h]).rate(t);
        ClockId open = way.exposure[h];
        if (hazard.under_shelter && sheltered[at(t)] != 0) open = *hazard.under_shelter;
        if (open != no_clock && t >= net_.now) exposed += clock(open).rate(t);
      }
      const Amount most = hazard.most_at(fresh[at(stop - 1)] == 0);
      if (exposed > most) {
        broken(Rule::hazard,
               fmt::format("{}, left at {}: {} {}, at most {}", keep.name, stop, hazard.name, exposed, most));
      }
    }
  }
}

void Checker::check_cure(std::size_t k, const CureLink& link, const std::vector<int>& in_force) {
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

void Checker::check_green(std::size_t k, const Green& green, const std::vector<char>& laying) {
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

Amount Checker::done_by(std::size_t task, Tick t) const {
  const Placement& placement = plan_.tasks[task];
  if (!placement.placed()) return 0;
  const Way& way = way_of(task);
  Amount done = 0;
  for (const Run& run : placement.runs) {
    if (run.start >= t) break;
    done += t >= run.end ? run.done
                         : std::clamp<Amount>(clock(way.clock).passed(run.start, t) - way.setup, 0, run.done);
  }
  return done;
}

}  // namespace weatherstruck::engine
