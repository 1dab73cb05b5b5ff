// Whether fresh work stays sound under the covers that it has.
#include <algorithm>

#include "ids.h"
#include "workspace.h"

namespace weatherstruck::engine {

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

const std::vector<Workspace::Stretch>& Workspace::stretches(KeepId keep, TaskId but, int layer) const {
  std::vector<Stretch>& list = stretches_;
  list.clear();
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

bool Workspace::hazards_hold(KeepId id, Measure measure) const {
  if (net_.keeps[at(id)].hazards.empty()) return true;
  if (!hazards_hold(id, all_layers, measure)) return false;
  const auto& hazards = net_.keeps[at(id)].hazards;
  if (std::none_of(hazards.begin(), hazards.end(), [](const Hazard& it) { return it.by_layer; })) return true;
  unsigned laid = 0;  // a bit for each layer
  for (const KeepRun& run : runs_[at(id)]) {
    if (run.lays > 0) laid |= 1U << static_cast<unsigned>(run.layer);
  }
  for (int layer = 0; laid != 0; ++layer, laid >>= 1U) {
    if ((laid & 1U) != 0 && !hazards_hold(id, layer, measure)) return false;
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

bool Workspace::hazards_hold(KeepId id, int layer, Measure measure) const {
  const Keep& keep = net_.keeps[at(id)];
  const auto& laying = stretches(id, -1, layer);
  // The last stop first: it is mostly the newest, and what was there before mostly holds.
  for (std::size_t i = laying.size(); i-- > 0;) {
    const Tick stop = laying[i].end;
    Tick next = i + 1 < laying.size() ? laying[i + 1].start : net_.horizon();
    for (const KeepRun& run : runs_[at(id)]) {
      if (run.closes && run.end > stop) next = std::min(next, std::max(stop, run.start));
    }
    if (next <= changed_from_) break;  // it, and all before it, are as they were when the keep was sound
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      if (keep.hazards[h].by_layer == (layer == all_layers)) continue;
      const std::optional<Hazard::Spoils>& spoils = keep.hazards[h].spoils;
      const bool for_good = measure == Measure::spoils && spoils;
      Amount left = for_good ? spoils->until : keep.hazards[h].until;
      const Amount planned = keep.hazards[h].most_at(laying[i].past);
      const Amount most = for_good ? std::max(planned, spoils->above) : planned;
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
        return suffered <= most;
      });
      if (suffered > most) return false;
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

// Green units laid on the keep by t: never falls.
Amount Workspace::laid_by(KeepId keep, Tick t) const {
  Amount sum = 0;
  for (const KeepRun& run : runs_[at(keep)]) {
    if (run.start >= t) break;
    const Amount done =
        t >= run.end
            ? run.done
            : std::clamp<Amount>(net_.clocks[at(run.clock)].passed(run.start, t) - run.setup, 0, run.done);
    sum += run.lays * done;
  }
  return sum;
}

bool Workspace::too_high(const Task& task, const Way& way, Tick start, Tick end, Amount done) const {
  for (const Touch& touch : task.touches) {
    const auto& green = net_.keeps[at(touch.keep)].green;
    if (!green || touch.lays == 0) continue;
    const Tick firm = std::max(0, net_.clocks[at(green->clock)].retreat(end, green->firm));
    Amount young = laid_by(touch.keep, end) - laid_by(touch.keep, firm) + touch.lays * done;
    if (firm > start) {
      young -= touch.lays *
               std::clamp<Amount>(net_.clocks[at(way.clock)].passed(start, firm) - way.setup, 0, done);
    }
    if (young > green->limit) return true;
  }
  return false;
}

bool Workspace::green_holds(KeepId id) {
  if (!net_.keeps[at(id)].green) return true;
  Known& known = green_known_[at(id)];
  if (known.state != run_marks_[at(id)] || !known.asked) known = {run_marks_[at(id)], true, found_green(id)};
  return known.verdict;
}

bool Workspace::found_green(KeepId id) const {
  const Green& green = *net_.keeps[at(id)].green;
  const Clock& clock = net_.clocks[at(green.clock)];
  const auto firm_by = [&](Tick t) { return laid_by(id, std::max(0, clock.retreat(t, green.firm))); };
  for (const KeepRun& run : runs_[at(id)]) {
    if (run.lays == 0 || run.past) continue;
    // What is firm never falls either: where all that is laid by the end is within the limit of what is firm
    // at t, nothing is wrong from t on; else from t on, until more than the room that is left has been laid.
    const Amount at_end = laid_by(id, run.end);
    for (Tick t = run.start + 1; t <= run.end;) {
      const Amount most = firm_by(t) + green.limit;
      if (at_end <= most) break;
      if (laid_by(id, t) > most) return false;
      Tick within = t;
      for (Tick beyond = run.end; beyond - within > 1;) {
        const Tick middle = within + (beyond - within) / 2;
        (laid_by(id, middle) > most ? beyond : within) = middle;
      }
      t = within + 1;
    }
  }
  return true;
}

// All that `sound` hangs on beside the network.
std::uint64_t Workspace::state_of(KeepId keep) const {
  std::uint64_t state = run_marks_[at(keep)] + spell_marks_[at(keep)] + number_of(keep);
  if (awaited_[at(keep)] != 0) {
    for (const CureLink& link : net_.cure_links) {
      if (link.keep == keep) state += number_of(link.to, starts_[at(link.to)]);
    }
  }
  return state;
}

bool Workspace::sound_as_of(KeepId keep, std::uint64_t state) {
  if (const std::optional<bool> known = verdicts_.find(state)) return *known;
  const bool verdict = found_sound(keep);
  verdicts_.keep(state, verdict);
  return verdict;
}

bool Workspace::found_sound(KeepId keep) {
  if (!green_holds(keep) || !hazards_hold(keep, Measure::allowed)) return false;
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
  const std::uint64_t state = state_of(id) + number_of_spell(spell);
  if (const std::optional<bool> known = verdicts_.find(state)) return *known;
  auto& spells = spells_[at(id)];
  auto place = spells.begin();
  while (place != spells.end() && place->from < spell.from)
    ++place;
  const auto index = place - spells.begin();
  spells.insert(place, spell);
  const bool good = sound_as_of(id, state);
  spells.erase(spells.begin() + index);
  return good;
}

}  // namespace weatherstruck::engine
