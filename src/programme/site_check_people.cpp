// Who is where: hands, masons, hours of day, rests, fixed times, the merchant.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "site_check_view.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
namespace limit = trade::limit;

constexpr double day_slack = 1.0 / 12.0;  // hours: one step
constexpr std::chrono::hours day_before{24};

struct Hands {
  int at_work = 0;
  int laying = 0;  // runs that need somebody who lays
  works::Name last;
};

bool holds(const Span& span, Instant t) {
  return span.from <= t && t < span.to;
}

/// Pitching, moving or striking; not while it stands.
bool canopy_in_hand(const CanopySitting& sitting, Instant t) {
  return holds({sitting.pitch_from, sitting.over.from}, t) || holds({sitting.over.to, sitting.struck_by}, t);
}

Hands hands_at(const View& view, Instant t) {
  Hands hands;
  const int crew = static_cast<int>(view.job().crew.size());
  for (const Entry& entry : view.entries()) {
    if (!entry.placed()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      if (!holds(run.span, t)) continue;
      hands.at_work += entry.drives() ? crew : entry.people();
      if (entry.row->lays) ++hands.laying;
      hands.last = entry.task->name;
    }
  }
  // A move is the end of one sitting and the beginning of the next: one pair of hands.
  const auto& canopy = view.plan().canopy;
  if (std::any_of(canopy.begin(), canopy.end(),
                  [&](const CanopySitting& s) { return canopy_in_hand(s, t); })) {
    ++hands.at_work;
  }
  return hands;
}

Span whole(const View& view) {
  return {view.begin_time(), view.end_time()};
}

void check_hands(const View& view, Objections& out) {
  const int crew = static_cast<int>(view.job().crew.size());
  const auto masons = static_cast<int>(std::count_if(view.job().crew.begin(), view.job().crew.end(),
                                                     [](const works::Person& p) { return p.lays_bricks; }));
  bool too_many = false;
  bool no_mason = false;
  walk(whole(view), [&](Instant t, base::Hours) {
    const Hands hands = hands_at(view, t);
    if (hands.at_work > crew && !too_many) {
      object(out, "people", hands.last, t,
             fmt::format("{} wanted at once, the crew is {}", hands.at_work, crew));
    }
    if (hands.laying > masons && hands.at_work <= crew && !no_mason) {
      object(out, "mason", hands.last, t,
             fmt::format("{} wanted who lay bricks, there are {}", hands.laying, masons));
    }
    too_many = hands.at_work > crew;
    no_mason = hands.laying > masons;
    return true;
  });
}

/// Wheel hours of a drive that fall in a stretch of it: the rests are spread over it evenly.
double wheel_share(const Entry& entry) {
  double elapsed = 0;
  for (const PlannedRun& run : entry.planned->runs)
    elapsed += hours_between(run.span.from, run.span.to);
  return elapsed > 0 ? std::min(1.0, entry.task->hours.value() / elapsed) : 1.0;
}

void check_days(const View& view, Objections& out) {
  const double crew = static_cast<double>(view.job().crew.size());
  std::map<base::LocalDay, double> work;
  std::map<base::LocalDay, double> drive;
  for (const Entry& entry : view.entries()) {
    if (!entry.placed()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      walk(run.span, [&](Instant t, base::Hours dt) {
        const base::LocalDay day = view.zone().day_of(t);
        if (entry.drives()) {
          drive[day] += dt.value() * wheel_share(entry);
        } else {
          work[day] += dt.value() * entry.people() / crew;
        }
        return true;
      });
    }
  }
  walk(whole(view), [&](Instant t, base::Hours dt) {
    const auto& canopy = view.plan().canopy;
    if (std::any_of(canopy.begin(), canopy.end(),
                    [&](const CanopySitting& s) { return canopy_in_hand(s, t); })) {
      work[view.zone().day_of(t)] += dt.value() / crew;
    }
    return true;
  });
  const double longest = view.job().trip.longest_day.value();
  const double red_line = view.limit(limit::day_red_line);
  for (const auto& [day, hours] : work) {
    if (hours > longest + day_slack) {
      object(out, "long-day", "", view.zone().start_of(day),
             fmt::format("{:.1f} h of work in the day, at most {:.1f}", hours, longest));
    }
    const double both = hours + drive[day];
    if (drive[day] > 0 && both > red_line + day_slack) {
      object(out, "day-red-line", "", view.zone().start_of(day),
             fmt::format("{:.1f} h of work and driving in the day, the red line is {:.1f}", both, red_line));
    }
  }
}

void check_hours_of_day(const View& view, Objections& out) {
  const works::DaySpan& day = view.job().trip.working_day;
  for (const Entry& entry : view.entries()) {
    if (!entry.placed() || entry.drives()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      walk(run.span, [&](Instant t, base::Hours) {
        const auto time = view.zone().time_of_day(t);
        if (time >= day.from && time < day.to) return true;
        object(out, "off-hours", entry.task->name, t,
               fmt::format("at work at {}, outside the working day", view.clock(t)));
        return false;
      });
      for (const works::FixedTime& fixed : view.job().fixed) {
        if (!overlap(run.span, {fixed.from, fixed.to})) continue;
        object(out, "fixed-time", entry.task->name, std::max(run.span.from, fixed.from),
               fmt::format("falls into \"{}\"", fixed.title));
      }
    }
  }
}

void check_rest_before_drive(const View& view, Objections& out) {
  const Entry* back = view.drive_back();
  if (back == nullptr || !back->placed()) return;
  const Instant sets_off = back->planned->start();
  double free = 0;
  double longest = 0;
  walk({sets_off - day_before, sets_off}, [&](Instant t, base::Hours dt) {
    free = hands_at(view, t).at_work > 0 ? 0 : free + dt.value();
    longest = std::max(longest, free);
    return true;
  });
  const double due = view.limit(limit::rest_before_drive);
  if (longest + 1e-6 < due) {
    object(out, "rest-before-drive", back->task->name, sets_off,
           fmt::format("{:.1f} h off in the day before the drive home, {:.1f} wanted", longest, due));
  }
}

void check_merchant(const View& view, Objections& out) {
  const auto& merchant = view.job().supplies.merchant;
  for (const Entry& entry : view.entries()) {
    if (!entry.placed() || entry.task->operation != trade::Operation::fetch) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      bool served = false;
      if (merchant) {
        const std::chrono::seconds way(static_cast<std::int64_t>(merchant->drive_each_way.value() * 3600));
        const Instant in = run.span.from + way;
        const Instant gone = std::max<Instant>(in, run.span.to - way);
        const base::LocalDay day = view.zone().day_of(in);
        const std::chrono::weekday name(day);
        const bool saturday = name == std::chrono::Saturday;
        if (name != std::chrono::Sunday) {
          for (const works::DaySpan& open : saturday ? merchant->saturday : merchant->monday_to_friday) {
            served = served || (in >= view.at(day, open.from) && gone <= view.at(day, open.to));
          }
        }
      }
      if (!served) {
        object(out, "merchant", entry.task->name, run.span.from,
               merchant ? "the merchant is shut when he is there" : "there is no merchant");
      }
    }
  }
}

}  // namespace

void check_people(const View& view, Objections& out) {
  check_hands(view, out);
  check_days(view, out);
  check_hours_of_day(view, out);
  check_rest_before_drive(view, out);
  check_merchant(view, out);
}

}  // namespace weatherstruck::programme::site
