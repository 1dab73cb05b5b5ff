// Fresh work and what covers it.
#include <algorithm>

#include "ids.h"
#include "workspace.h"

namespace weatherstruck::engine {

namespace {

std::uint64_t number_of_run(const KeepRun& run) {
  return number_of(run.start, run.end, run.task, run.done, run.lays, run.setup, run.clock,
                   (run.layer << 3) | (run.closes ? 4 : 0) | (run.past ? 2 : 0) | (run.shelters ? 1 : 0));
}

}  // namespace

void Workspace::put_spell(KeepId keep, std::size_t index, const Spell& spell) {
  auto& spells = spells_[at(keep)];
  spells.insert(spells.begin() + static_cast<std::ptrdiff_t>(index), spell);
  spell_marks_[at(keep)] += number_of_spell(spell);
}

void Workspace::take_spell(KeepId keep, std::size_t index) {
  auto& spells = spells_[at(keep)];
  spell_marks_[at(keep)] -= number_of_spell(spells[index]);
  spells.erase(spells.begin() + static_cast<std::ptrdiff_t>(index));
}

void Workspace::put_run(const Touch& touch, KeepRun run) {
  run.lays = touch.lays;
  run.closes = touch.closes;
  run.layer = touch.layer;
  auto& runs = runs_[at(touch.keep)];
  auto place = runs.begin();
  while (place != runs.end() && place->start <= run.start)
    ++place;
  log_.push_back(RunPut{touch.keep, static_cast<std::size_t>(place - runs.begin())});
  runs.insert(place, run);
  run_marks_[at(touch.keep)] += number_of_run(run);
}

void Workspace::take_run(KeepId keep, std::size_t index) {
  auto& runs = runs_[at(keep)];
  run_marks_[at(keep)] -= number_of_run(runs[index]);
  runs.erase(runs.begin() + static_cast<std::ptrdiff_t>(index));
}

Tick Workspace::gone(KeepId keep, const Spell& spell) const {
  return spell.to == net_.horizon() ? spell.to : spell.to + net_.keeps[at(keep)].ways[at(spell.way)].off;
}

void Workspace::drop_spell(KeepId keep, std::size_t index) {
  const Spell spell = spells_[at(keep)][index];
  const CoverWay& way = net_.keeps[at(keep)].ways[at(spell.way)];
  log_.push_back(SpellDropped{keep, index, spell});
  take_spell(keep, index);
  if (way.state) {
    const auto hold = std::find_if(holds_.begin(), holds_.end(), [&](const Hold& it) {
      return it.need.stateful == way.state->stateful && it.need.state == way.state->state &&
             it.from == spell.from + way.on && it.to == spell.to;
    });
    if (hold != holds_.end()) {
      log_.push_back(HoldDropped{static_cast<std::size_t>(hold - holds_.begin()), *hold});
      holds_.erase(hold);
    }
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
  const auto& spells = spells_[at(keep)];
  std::size_t index = 0;
  while (index < spells.size() && spells[index].from < spell.from)
    ++index;
  log_.push_back(SpellPut{keep, index});
  put_spell(keep, index, spell);
  return true;
}

// Clears [start, end) of covers; a cover that was on before is kept until just before where it still does
// something. Tells from when on the keep is not as it was.
Tick Workspace::uncover_for(KeepId keep, Tick start, Tick end) {
  Tick changed_from = start;
  for (std::size_t i = 0; i < spells_[at(keep)].size();) {
    const Spell spell = spells_[at(keep)][i];
    if (spell.from >= end || gone(keep, spell) <= start) {
      ++i;
      continue;
    }
    const CoverWay& way = net_.keeps[at(keep)].ways[at(spell.way)];
    changed_from = std::min(changed_from, spell.from);
    drop_spell(keep, i);
    // Hands may be busy right before; look back a little for when they could take it off.
    for (Tick off = start - way.off;
         off > spell.from + way.on && off + way.off + 3 * net_.ticks_per_slot >= start; --off) {
      if (free_until(way.hands, off, off + way.off) < off + way.off) continue;
      if (add_spell(keep, {spell.way, spell.from, off})) {
        ++i;
        break;
      }
    }
  }
  return changed_from;
}

// Covers the keep from `from` on if it needs it; `until` is when it is next worked on (or the horizon).
bool Workspace::protect(KeepId id, Tick from, Tick until) {
  if (!green_holds(id)) return false;
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
      // Whether hands and covers are there is quick to ask, what the keep would suffer is not.
      if (free_until(way.hands, start, start + way.on) < start + way.on) continue;
      const Tick spared = free_until(way.area, start, horizon);
      if (spared <= start + way.on) {
        start = std::max(start, short_until(way.area, spared) - 1);
        continue;
      }
      // Off when it is no longer needed and somebody is there to do it, else when the work goes on, else left
      // on.
      std::vector<Tick>& ends = ends_;
      ends.clear();
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
        if (end <= start + way.on || gone(id, spell) > spared) continue;
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
    const auto& spells = spells_[k];
    std::size_t after = 0;
    while (after < spells.size() && spells[after].from < closing->start)
      ++after;
    if (after == 0 || spells[after - 1].from < net_.now) continue;
    const Mark before = mark();
    log_.push_back(SpellDropped{static_cast<KeepId>(k), after - 1, spells[after - 1]});
    take_spell(static_cast<KeepId>(k), after - 1);
    if (!sound(static_cast<KeepId>(k))) roll_back(before);
  }
}

bool Workspace::enter_run(const Task& task, const KeepRun& run, int& failed_keep) {
  for (const Touch& touch : task.touches) {
    const KeepId keep = touch.keep;
    failed_keep = keep;
    const Tick changed_from = std::min(uncover_for(keep, run.start, run.end), lifted_from_);
    changed_from_ = left_unsound_[at(keep)] != 0 ? 0 : changed_from;
    put_run(touch, run);
    Tick until = net_.horizon();
    for (const KeepRun& other : runs_[at(keep)]) {
      if (other.start >= run.end) {
        until = other.start;
        break;
      }
    }
    const bool kept = protect(keep, run.end, until);
    changed_from_ = 0;
    if (!kept) return false;
  }
  return true;
}

bool Workspace::lift_covers(const Task& task, Tick from, Tick to) {
  for (const Touch& touch : task.touches) {
    for (std::size_t i = 0; i < spells_[at(touch.keep)].size();) {
      const Tick on = spells_[at(touch.keep)][i].from;
      if (on < from || on >= to) {
        ++i;
        continue;
      }
      lifted_from_ = std::min(lifted_from_, on);
      drop_spell(touch.keep, i);
    }
  }
  return lifted_from_ != never;
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
    put_run(touch, run);
    left_unsound_[at(touch.keep)] = 1;
  }
}

void Workspace::lay(const Schedule& schedule) {
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    const Placement& placement = schedule.tasks[i];
    const Task& task = net_.tasks[i];
    if (!placement.placed() || task.touches.empty()) continue;
    const Way& way = task.ways[at(placement.way)];
    for (const Run& run : placement.runs) {
      for (const Touch& touch : task.touches) {
        put_run(touch, {run.start, run.end, static_cast<TaskId>(i), false, run.start < net_.now, way.shelters,
                        0, 0, way.setup, run.done, way.clock});
      }
    }
  }
  spells_ = schedule.spells;
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
