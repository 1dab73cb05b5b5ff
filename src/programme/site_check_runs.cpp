// The runs by themselves: order, amounts, courses, presence, pace, marks.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "site_check_view.h"

namespace weatherstruck::programme::site {
namespace {

namespace limit = trade::limit;

using base::Instant;
using trade::Light;

constexpr double share_slack = 1e-4;
// A course is placed to the nearest five minutes; shares come back from whole ticks.
constexpr double course_slack = 0.002;
constexpr double pace_slack = 0.02;
constexpr double thin_rain = 0.1;  // mm/h, the table's own edge of thin rain
constexpr double cold_hands = 5;   // C, likewise

bool ready_runs(const PlannedTask& task) {
  for (std::size_t i = 0; i < task.runs.size(); ++i) {
    const Span& span = task.runs[i].span;
    if (span.to <= span.from) return false;
    if (i > 0 && span.from < task.runs[i - 1].span.to) return false;
  }
  return true;
}

void check_names(const View& view, Objections& out) {
  const auto& planned = view.plan().tasks;
  const auto& tasks = view.list().tasks;
  for (std::size_t i = 0; i < std::max(planned.size(), tasks.size()); ++i) {
    if (i < planned.size() && i < tasks.size() && planned[i].task == tasks[i].name) continue;
    object(out, "list", i < tasks.size() ? tasks[i].name : planned[i].task, view.job().trip.leave_home,
           fmt::format("place {} of the plan holds {}, of the task list {}", i + 1,
                       i < planned.size() ? planned[i].task : "nothing",
                       i < tasks.size() ? tasks[i].name : "nothing"));
    return;
  }
}

/// The way taken: its key, or of the first where the plan does not say. nullptr: none to choose from.
const works::TaskWay* way_of(const Entry& entry) {
  const auto& ways = entry.task->ways;
  if (ways.empty()) return nullptr;
  if (!entry.planned->way) return &ways.front();
  const auto found = std::find_if(ways.begin(), ways.end(),
                                  [&](const works::TaskWay& w) { return w.key == *entry.planned->way; });
  return found == ways.end() ? nullptr : &*found;
}

void check_way(const Entry& entry, Objections& out) {
  if (!entry.placed()) return;
  const bool chooses = !entry.task->ways.empty();
  if (chooses == entry.planned->way.has_value() && (!chooses || way_of(entry) != nullptr)) return;
  object(out, "way", entry.task->name, entry.planned->start(),
         chooses
             ? fmt::format("goes by \"{}\", which is not one of its ways", entry.planned->way.value_or(""))
             : std::string("names a way, but there is only one"));
}

/// Called for: always, or where the task it hangs on goes by that way.
bool called_for(const View& view, const works::Task& task) {
  if (!task.only_if) return true;
  const Entry* decides = view.find(task.only_if->task);
  if (decides == nullptr || !decides->placed() || !decides->planned->present) return false;
  const works::TaskWay* way = way_of(*decides);
  return way != nullptr && way->key == task.only_if->way;
}

void check_presence(const View& view, const Entry& entry, Objections& out) {
  const works::Task& task = *entry.task;
  const Instant at = entry.placed() ? entry.planned->start() : view.job().trip.leave_home;
  const bool called = called_for(view, task);
  if (called && !entry.planned->present) {
    object(out, "presence", task.name, at, "is not in the plan, though the ways taken call for it");
    return;
  }
  if (!called && (entry.planned->present || entry.placed())) {
    object(out, "presence", task.name, at,
           fmt::format("is in the plan, though {} does not go by \"{}\"", task.only_if->task,
                       task.only_if->way));
    return;
  }
  if (!called) return;
  const auto& left = view.plan().left_out;
  const bool told = std::find(left.begin(), left.end(), task.name) != left.end();
  if (told == entry.placed()) {
    object(out, "left-out-list", task.name, at,
           told ? "has its place, but the plan says that it is left out"
                : "has no place, and the plan does not say so");
  }
  if (!entry.placed() && task.importance == works::Importance::must) {
    object(out, "left-out", task.name, at, "is a must and has no place");
  }
}

void check_amount(const Entry& entry, Objections& out) {
  const works::Task& task = *entry.task;
  const auto& runs = entry.planned->runs;
  double sum = 0;
  for (const PlannedRun& run : runs) {
    if (run.share < -share_slack) {
      object(out, "amount", task.name, run.span.from, fmt::format("a run does {:.3f} of it", run.share));
      return;
    }
    sum += run.share;
  }
  if (std::abs(sum - 1) > share_slack || !std::isfinite(sum)) {
    object(out, "amount", task.name, runs.back().span.to,
           fmt::format("its runs make {:.4f} of it, not the whole", sum));
    return;
  }

  if (entry.row->pausing == trade::Pausing::never && runs.size() > 1) {
    object(out, "split", task.name, runs[1].span.from,
           fmt::format("is done in {} goes; once begun it runs to its end", runs.size()));
  }
  if (entry.row->pausing != trade::Pausing::at_courses && task.courses.empty()) return;
  double done = 0;
  for (const PlannedRun& run : runs) {
    done += run.share;
    const auto stand = static_cast<std::size_t>(std::max(run.courses_after, 0));
    const bool last = &run == &runs.back();
    if (task.courses.empty() && last) return;
    double laid = 0;
    for (std::size_t i = 0; i < std::min(stand, task.courses.size()); ++i)
      laid += task.courses[i];
    const bool told_all = !last || stand == task.courses.size();
    if (stand <= task.courses.size() && std::abs(laid - done * task.amount) <= course_slack * task.amount &&
        told_all) {
      continue;
    }
    object(out, "course", task.name, run.span.to,
           fmt::format("stops with {:.1f} {} laid, which is not the end of course {}", done * task.amount,
                       task.unit, run.courses_after));
    return;
  }
}

/// The most that anybody could have done in the run: the best hands, and of everything that slows the work in
/// an hour only the worst.
base::Hours most_done(const View& view, const Entry& entry, const PlannedRun& run) {
  std::vector<double> paces;
  for (const works::Person& person : view.job().crew) {
    if (!entry.row->lays || entry.people() > 1 || person.lays_bricks) paces.push_back(person.pace);
  }
  std::sort(paces.rbegin(), paces.rend());
  double best = 0;
  for (std::size_t i = 0; i < paces.size() && i < static_cast<std::size_t>(entry.people()); ++i)
    best += paces[i];
  double done = 0;
  const trade::OperationRow& row = *entry.row;
  const auto own = [&](double table, std::string_view key) {
    return table < 1 ? std::min(1.0, table * view.limit(key)) : table;
  };
  walk(run.span, [&](Instant t, base::Hours dt) {
    double pace = 1;
    if (entry.task->outdoors) {
      Light light = view.light(t);
      if (light == Light::dark && view.job().kit.floodlights) light = Light::floodlit;
      // What is not possible at all is another fault, found elsewhere.
      if (row.pace(light) > 0) {
        pace = std::min(pace, light == Light::twilight ? own(row.pace(light), limit::pace_half_light)
                              : light == Light::floodlit && row.seen_joints()
                                  ? view.limit(limit::pointing_lights_pace)
                                  : row.pace(light));
      }
      if (view.air(t).temperature.value() < cold_hands)
        pace = std::min(pace, own(row.pace_cold, limit::pace_cold));
      if (view.air(t).rain.value() >= thin_rain && !run.under_canopy)
        pace = std::min(pace, own(row.pace_thin_rain, limit::pace_thin_rain));
    }
    done += dt.value() * pace * best;
    return true;
  });
  return base::Hours(done);
}

void check_pace(const View& view, const Entry& entry, Objections& out) {
  const works::Task& task = *entry.task;
  // Driving is held against the road elsewhere; a trip to the merchant takes its hours whoever drives.
  if (entry.drives() || task.operation == trade::Operation::fetch) return;
  const works::TaskWay* way = way_of(entry);
  const double whole = way == nullptr ? task.hours.value() : way->hours.value();
  for (const PlannedRun& run : entry.planned->runs) {
    const double needed = whole * run.share + task.set_up.value();
    const double done = most_done(view, entry, run).value();
    const double slack = hours_between(Instant{}, Instant{step}) * entry.people() + pace_slack * needed;
    if (done + slack >= needed) continue;
    object(out, "too-quick", task.name, run.span.from,
           fmt::format("{:.2f} hours' work is done in a time that allows {:.2f}", needed, done));
  }
}

void check_marks(const View& view, const Entry& entry, Objections& out) {
  for (const PlannedRun& run : entry.planned->runs) {
    Instant dark{};
    Instant unknown{};
    bool any_dark = false;
    bool any_unknown = false;
    walk(run.span, [&](Instant t, base::Hours) {
      if (!any_dark && view.light(t) == Light::dark) {
        dark = t;
        any_dark = true;
      }
      if (!any_unknown && !view.air(t).forecast) {
        unknown = t;
        any_unknown = true;
      }
      return true;
    });
    if (any_unknown && !run.beyond_forecast) {
      object(out, "mark", entry.task->name, unknown,
             "no forecast for this hour, and the run does not say so");
    }
    if (!entry.task->outdoors) continue;
    if (any_dark && view.job().kit.floodlights && !run.floodlit) {
      object(out, "mark", entry.task->name, dark,
             "after dark, and the run does not say that it needs the lights");
    }
    if (run.floodlit && !view.job().kit.floodlights) {
      object(out, "mark", entry.task->name, run.span.from, "is to be floodlit, but there are no lights");
    }
  }
}

}  // namespace

void check_runs(const View& view, Objections& out) {
  check_names(view, out);
  for (const Entry& entry : view.entries()) {
    if (entry.planned == nullptr) {
      if (entry.task->importance == works::Importance::must && called_for(view, *entry.task)) {
        object(out, "left-out", entry.task->name, view.job().trip.leave_home,
               "is a must and not in the plan");
      }
      continue;
    }
    check_presence(view, entry, out);
    if (!entry.placed()) continue;
    check_way(entry, out);
    if (!ready_runs(*entry.planned)) {
      object(out, "order", entry.task->name, entry.planned->start(),
             "its runs are empty, overlap or go back in time");
      continue;
    }
    check_amount(entry, out);
    check_pace(view, entry, out);
    check_marks(view, entry, out);
  }
}

}  // namespace weatherstruck::programme::site
