#include "engine/perturb_support.h"

#include <algorithm>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {
namespace {

Tick nudge(base::Random& dice) {
  return (dice.chance(0.5) ? 1 : -1) * (dice.chance(0.8) ? 1 : 2);
}

template <class T>
T& any_of(std::vector<T>& list, base::Random& dice) {
  return list[dice.below(list.size())];
}

void change_run(Placement& place, base::Random& dice) {
  const std::size_t index = dice.below(place.runs.size());
  Run& run = place.runs[index];
  switch (dice.between(0, 6)) {
    case 0: {
      const Tick by = nudge(dice);
      run.start += by;
      run.end += by;
      break;
    }
    case 1:
      run.start += nudge(dice);
      break;
    case 2:
      run.end += nudge(dice);
      break;
    case 3:
      run.done += dice.chance(0.5) ? 1 : -1;
      break;
    case 4: {
      const Tick middle = run.start + (run.end - run.start) / 2;
      const Amount first = run.done / 2;
      const Run rest{middle + dice.between(0, 1), run.end, run.done - first};
      run.end = middle;
      run.done = first;
      place.runs.insert(place.runs.begin() + static_cast<std::ptrdiff_t>(index) + 1, rest);
      break;
    }
    case 5:
      if (index + 1 < place.runs.size()) {
        run.end = place.runs[index + 1].end;
        run.done += place.runs[index + 1].done;
        place.runs.erase(place.runs.begin() + static_cast<std::ptrdiff_t>(index) + 1);
      }
      break;
    default:
      place.runs.erase(place.runs.begin() + static_cast<std::ptrdiff_t>(index));
      break;
  }
}

void shift(Placement& place, Tick by) {
  for (Run& run : place.runs) {
    run.start += by;
    run.end += by;
  }
}

void change_task(const Network& network, Schedule& schedule, base::Random& dice) {
  const std::size_t task = dice.below(schedule.tasks.size());
  Placement& place = schedule.tasks[task];
  switch (dice.between(0, 7)) {
    case 0:
      place.way = static_cast<int>(dice.below(network.tasks[task].ways.size()));
      break;
    case 1:
      place.runs.clear();
      break;
    case 2:
      place.present = !place.present;
      break;
    case 3:
      std::swap(place.runs, any_of(schedule.tasks, dice).runs);
      break;
    case 4: {
      const Tick start = dice.between(0, network.horizon() - 1);
      if (place.runs.empty()) place.runs = {{start, start + dice.between(1, 3), dice.between(1, 3)}};
      break;
    }
    default:
      shift(place, nudge(dice));
      break;
  }
}

void change_spells(const Network& network, Schedule& schedule, base::Random& dice) {
  const std::size_t keep = dice.below(schedule.spells.size());
  auto& spells = schedule.spells[keep];
  const auto ways = static_cast<int>(network.keeps[keep].ways.size());
  if (ways < 2) return;
  if (spells.empty() || dice.chance(0.25)) {
    const Tick from = dice.between(0, network.horizon() - 1);
    const Tick to = dice.chance(0.3) ? network.horizon() : from + dice.between(1, 5);
    spells.push_back({dice.between(1, ways - 1), from, to});
    std::sort(spells.begin(), spells.end(), [](const Spell& a, const Spell& b) { return a.from < b.from; });
    return;
  }
  const std::size_t index = dice.below(spells.size());
  Spell& spell = spells[index];
  const Tick by = nudge(dice);
  switch (dice.between(0, 5)) {
    case 0:
      spell.from += by;
      break;
    case 1:
      spell.to += by;
      break;
    case 2:
      spell.from += by;
      spell.to += by;
      break;
    case 3:
      spell.way = dice.between(1, ways - 1);
      break;
    case 4:
      spell.to = network.horizon();
      break;
    default:
      spells.erase(spells.begin() + static_cast<std::ptrdiff_t>(index));
      break;
  }
}

void change_changes(const Network& network, Schedule& schedule, base::Random& dice) {
  const std::size_t stateful = dice.below(schedule.changes.size());
  auto& changes = schedule.changes[stateful];
  const auto states = static_cast<int>(network.statefuls[stateful].change.size());
  if (changes.empty() || dice.chance(0.25)) {
    changes.push_back({dice.between(0, network.horizon() - 1), dice.between(0, states - 1)});
    std::sort(changes.begin(), changes.end(), [](const Change& a, const Change& b) { return a.at < b.at; });
    return;
  }
  const std::size_t index = dice.below(changes.size());
  switch (dice.between(0, 2)) {
    case 0:
      changes[index].at += nudge(dice);
      break;
    case 1:
      changes[index].state = dice.between(0, states - 1);
      break;
    default:
      changes.erase(changes.begin() + static_cast<std::ptrdiff_t>(index));
      break;
  }
}

}  // namespace

Schedule perturbed(const Network& network, Schedule schedule, base::Random& dice) {
  const int count = dice.chance(0.7) ? 1 : dice.between(2, 3);
  for (int n = 0; n < count; ++n) {
    const int kind = dice.between(0, 9);
    if (kind < 3) {
      Placement& place = any_of(schedule.tasks, dice);
      if (!place.runs.empty()) change_run(place, dice);
    } else if (kind < 6) {
      change_task(network, schedule, dice);
    } else if (kind < 8) {
      if (!schedule.spells.empty()) change_spells(network, schedule, dice);
    } else {
      if (!schedule.changes.empty()) change_changes(network, schedule, dice);
    }
  }
  return schedule;
}

}  // namespace weatherstruck::engine::brute
