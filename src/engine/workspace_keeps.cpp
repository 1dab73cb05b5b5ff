// Fresh work and what covers it.
#include <algorithm>

#include "ids.h"
#include "workspace.h"

namespace weatherstruck::engine {

Tick Workspace::gone(KeepId keep, const Spell& spell) const {
  return spell.to == net_.horizon() ? spell.to : spell.to + net_.keeps[at(keep)].ways[at(spell.way)].off;
}

void Workspace::drop_spell(KeepId keep, std::size_t index) {
  auto& spells = spells_[at(keep)];
  const Spell spell = spells[index];
  const CoverWay& way = net_.keeps[at(keep)].ways[at(spell.way)];
  log_.push_back(OldSpells{keep, spells});
  spells.erase(spells.begin() + static_cast<std::ptrdiff_t>(index));
  if (way.state) {
    const auto hold = std::find_if(holds_.begin(), holds_.end(), [&](const Hold& it) {
      return it.need.stateful == way.state->stateful && it.need.state == way.state->state &&
             it.from == spell.from + way.on && it.to == spell.to;
    });
    log_.push_back(OldHolds{holds_});
    if (hold != holds_.end()) holds_.erase(hold);
  }
  release(way.hands, spell.from, spell.from + way.on);
  release(way.area, spell.from, gone(keep, spell));
  if (spell.to != net_.horizon()) release(way.hands, spell.to, spell.to + way.off);
}

bool Workspace::add_spell(KeepId keep, const Spell& spell) {
  const CoverWay& way = net_.keeps[at(keep)].ways[at(spell.way)];
  const Mark before = mark();
  const Tick end = gone(keep, spell);
  const auto& runs = runs_[at(keep)];
  const bool worked_on = std::any_of(
      runs.begin(), runs.end(), [&](const KeepRun& run) { return run.start < end && run.end > spell.from; });
  const bool ok = !worked_on && spell.to >= spell.from + way.on && end <= net_.horizon() &&
                  reserve(way.hands, spell.from, spell.from + way.on) &&
                  (spell.to == net_.horizon() || reserve(way.hands, spell.to, spell.to + way.off)) &&
                  reserve(way.area, spell.from, end) &&
                  (!way.state || hold_state(*way.state, spell.from + way.on, spell.to));
  if (!ok) {
    roll_back(before);
    return false;
  }
  auto& spells = spells_[at(keep)];
  log_.push_back(OldSpells{keep, spells});
  auto place = spells.begin();
  while (place != spells.end() && place->from < spell.from)
    ++place;
  spells.insert(place, spell);
  return true;
}

// Clears [start, end) of covers; a cover that was on before is kept until just before where it still does
// something.
bool Workspace::uncover_for(KeepId keep, Tick start, Tick end) {
  for (std::size_t i = 0; i < spells_[at(keep)].size();) {
    const Spell spell = spells_[at(keep)][i];
    if (spell.from >= end || gone(keep, spell) <= start) {
      ++i;
      continue;
    }
    const CoverWay& way = net_.keeps[at(keep)].ways[at(spell.way)];
    drop_spell(keep, i);
    // Hands may be busy right before; look back a little for when they could take it off.
    for (Tick off = start - way.off;
         off > spell.from + way.on && off + way.off + 3 * net_.ticks_per_slot >= start; --off) {
      if (add_spell(keep, {spell.way, spell.from, off})) {
        ++i;
        break;
      }
    }
  }
  return true;
}

template <class Fn>
void Workspace::walk(KeepId keep, Tick from, Tick to, Fn&& fn) const {
  const auto& ways = net_.keeps[at(keep)].ways;
  Tick t = from;
  for (const Spell& spell : spells_[at(keep)]) {
    if (spell.to <= t) continue;
    const Tick on = spell.from + ways[at(spell.way)].on;
    if (on >= to) break;
    if (on > t) {
      if (!fn(ways[0], t, on)) return;
      t = on;
    }
    const Tick off = std::min(spell.to, to);
    if (off > t) {
      if (!fn(ways[at(spell.way)], t, off)) return;
      t = off;
    }
  }
  if (t < to) fn(ways[0], t, to);
}

std::vector<Workspace::Stretch> Workspace::stretches(KeepId keep, TaskId but, int layer) const {
  std::vector<Stretch> list;
  for (const KeepRun& run : runs_[at(keep)]) {
    if (run.lays == 0 || run.task == but || (layer != all_layers && run.layer != layer)) continue;
    if (list.empty() || run.start > list.back().end) {
      list.push_back({run.start, run.end, run.past});
      continue;
    }
    Stretch& last = list.back();
    if (run.end > last.end) {
      last.end = run.end;
      last.past = run.past;
    } else if (run.end == last.end) {
      last.past = last.past && run.past;
    }
  }
  return list;
}

bool Workspace::hazards_hold(KeepId id) const {
  if (net_.keeps[at(id)].hazards.empty()) return true;
  if (!hazards_hold(id, all_layers)) return false;
  const auto& hazards = net_.keeps[at(id)].hazards;
  if (std::none_of(hazards.begin(), hazards.end(), [](const Hazard& it) { return it.by_layer; })) return true;
  unsigned laid = 0;  // a bit for each layer
  for (const KeepRun& run : runs_[at(id)]) {
    if (run.lays > 0) laid |= 1U << static_cast<unsigned>(run.layer);
  }
  for (int layer = 0; laid != 0; ++layer, laid >>= 1U) {
    if ((laid & 1U) != 0 && !hazards_hold(id, layer)) return false;
  }
  return true;
}

Amount Workspace::exposed(KeepId keep, const Clock& open, ClockId sheltered, Tick from, Tick to) const {
  Amount passed = open.passed(from, to);
  for (const KeepRun& run : runs_[at(keep)]) {  // they rise, and may overlap
    if (run.start >= to) break;
    if (!run.shelters || run.end <= from) continue;
    const Tick start = std::max(run.start, from);
    const Tick end = std::min(run.end, to);
    passed -= open.passed(start, end);
    if (sheltered != no_clock) passed += net_.clocks[at(sheltered)].passed(start, end);
    from = end;
  }
  return passed;
}

bool Workspace::hazards_hold(KeepId id, int layer) const {
  const Keep& keep = net_.keeps[at(id)];
  const auto laying = stretches(id, -1, layer);
  for (std::size_t i = 0; i < laying.size(); ++i) {
    const Tick stop = laying[i].end;
    Tick next = i + 1 < laying.size() ? laying[i + 1].start : net_.horizon();
    for (const KeepRun& run : runs_[at(id)]) {
      if (run.closes && run.end > stop) next = std::min(next, std::max(stop, run.start));
    }
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      if (keep.hazards[h].by_layer == (layer == all_layers)) continue;
      Amount left = keep.hazards[h].until;
      Amount suffered = 0;
      walk(id, stop, next, [&](const CoverWay& way, Tick a, Tick b) {
        if (left <= 0) return false;
        const Clock& until = net_.clocks[at(way.until[h])];
        const Amount whole = until.passed(a, b);
        const Tick counted = std::max(a, net_.now);
        if (way.exposure[h] != no_clock && b > counted) {
          const Clock& exposure = net_.clocks[at(way.exposure[h])];
          // Mostly nothing goes by, and then it is no matter when the hazard is over.
          const std::optional<ClockId>& shelter = keep.hazards[h].under_shelter;
          const bool goes_by =
              exposure.passed(counted, b) > 0 ||
              (shelter && *shelter != no_clock && net_.clocks[at(*shelter)].passed(counted, b) > 0);
          const Tick end = goes_by && whole >= left ? until.advance(a, left) : b;
          if (goes_by && end > counted) {
            suffered +=
                shelter ? exposed(id, exposure, *shelter, counted, end) : exposure.passed(counted, end);
          }
        }
        left -= std::min(whole, left);
        return true;
      });
      if (suffered > keep.hazards[h].most_at(laying[i].past)) return false;
    }
  }
  return true;
}

bool Workspace::cure_holds(const CureLink& link, Tick start) const {
  Tick stop = -1;
  for (const Stretch& stretch : stretches(link.keep, link.to)) {
    if (stretch.start >= start) break;
    if (stretch.end > start) return false;
    stop = stretch.end;
  }
  if (stop < 0) return true;
  Amount cured = 0;
  walk(link.keep, stop, start, [&](const CoverWay& way, Tick a, Tick b) {
    cured += net_.clocks[at(way.cure)].passed(a, b);
    return true;
  });
  return cured >= link.least;
}

bool Workspace::green_holds(KeepId id) const {
  const Keep& keep = net_.keeps[at(id)];
  if (!keep.green) return true;
  const Green& green = *keep.green;
  const Clock& clock = net_.clocks[at(green.clock)];
  const auto laid_by = [&](Tick t) {
    Amount sum = 0;
    for (const KeepRun& run : runs_[at(id)]) {
      if (run.start >= t) break;
      const Amount done =
          t >= run.end
              ? run.done
              : std::clamp<Amount>(net_.clocks[at(run.clock)].passed(run.start, t) - run.setup, 0, run.done);
      sum += run.lays * done;
    }
    return sum;
  };
  for (const KeepRun& run : runs_[at(id)]) {
    if (run.lays == 0 || run.past) continue;
    for (Tick t = run.start + 1; t <= run.end; ++t) {
      const Tick firm = std::max(0, clock.retreat(t, green.firm));
      if (laid_by(t) - laid_by(firm) > green.limit) return false;
    }
  }
  return true;
}

bool Workspace::sound(KeepId keep) const {
  if (!hazards_hold(keep) || !green_holds(keep)) return false;
  for (const CureLink& link : net_.cure_links) {
    if (link.keep == keep && starts_[at(link.to)] != never && starts_[at(link.to)] >= net_.now &&
        !cure_holds(link, starts_[at(link.to)]))
      return false;
  }
  return true;
}

// The tick by which every hazard is over if the keep is left at `from` and this way holds from then on.
Tick Workspace::needed_until(const Keep& keep, const CoverWay& way, KeepId id, Tick from) const {
  Tick last = from;
  for (int layer = all_layers; layer < layers_[at(id)]; ++layer) {
    Tick stop = never;  // progress counts from the last stop
    for (const Stretch& stretch : stretches(id, -1, layer)) {
      if (stretch.end <= from) stop = stretch.end;
    }
    if (stop == never) continue;
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      if (keep.hazards[h].by_layer == (layer == all_layers)) continue;
      Amount left = keep.hazards[h].until;
      walk(id, stop, from, [&](const CoverWay& past, Tick a, Tick b) {
        left -= net_.clocks[at(past.until[h])].passed(a, b);
        return true;
      });
      last = std::max(last, std::min(net_.horizon(), net_.clocks[at(way.until[h])].advance(from, left)));
    }
  }
  return last;
}

// Whether the keep would be sound with one more spell, whatever hands and covers there are.
bool Workspace::sound_with(KeepId id, const Spell& spell) {
  auto& spells = spells_[at(id)];
  auto place = spells.begin();
  while (place != spells.end() && place->from < spell.from)
    ++place;
  const auto index = place - spells.begin();
  spells.insert(place, spell);
  const bool good = sound(id);
  spells.erase(spells.begin() + index);
  return good;
}

// Covers the keep from `from` on if it needs it; `until` is when it is next worked on (or the horizon).
bool Workspace::protect(KeepId id, Tick from, Tick until) {
  if (sound(id)) return true;
  const Keep& keep = net_.keeps[at(id)];
  const Tick horizon = net_.horizon();
  for (int w = 1; w < static_cast<int>(keep.ways.size()); ++w) {
    const CoverWay& way = keep.ways[at(w)];
    const Tick latest = until == horizon ? horizon : until - way.off;
    // What on at once and for as long as possible does not cure, later or shorter does not either.
    if (latest < from + way.on || !sound_with(id, {w, from, latest})) continue;
    const Tick needed = needed_until(keep, way, id, from);
    // Hands are often busy for a while, with other covers above all; a later start may still do.
    for (Tick start = from; start <= from + 8 * net_.ticks_per_slot && start + way.on < until; ++start) {
      // Whether hands are there is quick to ask, what the keep would suffer is not.
      if (free_until(way.hands, start, start + way.on) < start + way.on) continue;
      // Off when it is no longer needed and somebody is there to do it, else when the work goes on, else left
      // on.
      std::vector<Tick> ends;
      if (needed < until - way.off) {
        for (Tick end = needed; end + way.off <= until && end < needed + 2 * net_.ticks_per_slot;
             end += net_.ticks_per_slot) {
          ends.push_back(end);
        }
      }
      if (until == horizon) {
        ends.push_back(horizon);
      } else {
        for (Tick end = latest; end > start && end + 4 * net_.ticks_per_slot > until; --end)
          ends.push_back(end);
      }
      for (const Tick end : ends) {
        const Spell spell{w, start, end};
        if (end <= start + way.on) continue;
        if (end != horizon && free_until(way.hands, end, end + way.off) < end + way.off) continue;
        if (!sound_with(id, spell)) continue;
        const Mark before = mark();
        if (add_spell(id, spell) && sound(id)) return true;
        roll_back(before);
      }
    }
  }
  return false;
}

void Workspace::drop_needless() {
  for (std::size_t k = 0; k < spells_.size(); ++k) {
    const auto closing =
        std::find_if(runs_[k].begin(), runs_[k].end(), [](const KeepRun& run) { return run.closes; });
    if (closing == runs_[k].end()) continue;
    // The one before the keep was closed: it was put on when that was not known yet.
    auto& spells = spells_[k];
    std::size_t after = 0;
    while (after < spells.size() && spells[after].from < closing->start)
      ++after;
    if (after == 0 || spells[after - 1].from < net_.now) continue;
    const Mark before = mark();
    log_.push_back(OldSpells{static_cast<KeepId>(k), spells});
    spells.erase(spells.begin() + static_cast<std::ptrdiff_t>(after - 1));
    if (!sound(static_cast<KeepId>(k))) roll_back(before);
  }
}

bool Workspace::enter_run(const Task& task, const KeepRun& run, int& failed_keep) {
  for (const Touch& touch : task.touches) {
    const KeepId keep = touch.keep;
    failed_keep = keep;
    if (!uncover_for(keep, run.start, run.end)) return false;
    auto& runs = runs_[at(keep)];
    log_.push_back(OldRuns{keep, runs});
    KeepRun entry = run;
    entry.lays = touch.lays;
    entry.closes = touch.closes;
    entry.layer = touch.layer;
    auto place = runs.begin();
    while (place != runs.end() && place->start <= entry.start)
      ++place;
    runs.insert(place, entry);
    Tick until = net_.horizon();
    for (const KeepRun& other : runs) {
      if (other.start >= run.end) {
        until = other.start;
        break;
      }
    }
    if (!protect(keep, run.end, until)) return false;
  }
  return true;
}

void Workspace::enter_history(const Task& task, const Way& way, const KeepRun& run) {
  for (const Need& need : way.needs)
    apply(need, run.start, run.end, 1);
  int failed = 0;
  const Mark before = mark();
  if (enter_run(task, run, failed)) return;
  // It lies as it lies; what can still be covered is seen to when something else is laid or by the morning
  // sheet.
  roll_back(before);
  for (const Touch& touch : task.touches) {
    uncover_for(touch.keep, run.start, run.end);
    auto& runs = runs_[at(touch.keep)];
    KeepRun entry = run;
    entry.lays = touch.lays;
    entry.closes = touch.closes;
    entry.layer = touch.layer;
    auto place = runs.begin();
    while (place != runs.end() && place->start <= entry.start)
      ++place;
    runs.insert(place, entry);
  }
}

int Workspace::failing_cure(TaskId to, Tick start) const {
  for (std::size_t i = 0; i < net_.cure_links.size(); ++i) {
    const CureLink& link = net_.cure_links[i];
    if (link.to == to && !cure_holds(link, start)) return static_cast<int>(i);
  }
  return -1;
}

void Workspace::set_start(TaskId task, Tick start) {
  log_.push_back(OldStart{task, starts_[at(task)]});
  starts_[at(task)] = start;
}

}  // namespace weatherstruck::engine
