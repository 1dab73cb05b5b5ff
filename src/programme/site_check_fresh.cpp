// What the weather does to fresh work from each stop on: rain on soft joints, rain on concrete before it
// sets, frost before it is safe, the first night in the months of covering.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "site_check_view.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
using Kind = works::FreshWork::Kind;
namespace limit = trade::limit;

constexpr std::chrono::minutes cover_slack{15};
// One man covers one piece after the other, and may do so for a while after dark.
constexpr double dusk_hours = 1.0;

struct Shelter {
  double rain_through = 1;
  double drying_through = 1;
  base::Kelvins lift{0};
};

/// What keeps the weather off at t: the cover unless a gust takes it, and the canopy. The better of each.
Shelter shelter_at(const View& view, const works::Task& task, Instant t) {
  Shelter shelter;
  const auto add = [&](const trade::CoverRow& row) {
    if (view.air(t).gust > row.gust_limit) return;
    shelter.rain_through = std::min(shelter.rain_through, row.rain_through);
    shelter.drying_through = std::min(shelter.drying_through, row.drying_through);
    shelter.lift = std::max(shelter.lift, row.lift);
  };
  if (const PlannedCover* cover = cover_on(view, task, t)) add(view.cover(cover->kind));
  if (view.sitting_over(task.of, t) != nullptr) add(view.cover(trade::CoverKind::canopy));
  return shelter;
}

base::Celsius at_work(const AirHour& air, const Shelter& shelter) {
  return trade::under_cover(air.temperature, shelter.lift);
}

double class_s(trade::CementSpeed speed) {
  switch (speed) {
    case trade::CementSpeed::rapid:
      return matter::s_rapid;
    case trade::CementSpeed::normal:
      return matter::s_normal;
    case trade::CementSpeed::slow:
      return matter::s_slow;
  }
  return matter::s_normal;
}

/// The end of a run after which this fresh work is left, and the start of more of the same kind on the part.
struct Stop {
  const Entry* entry = nullptr;
  Span span;
};

std::vector<Stop> stops_of(const View& view) {
  std::vector<Stop> stops;
  for (const Entry& entry : view.entries()) {
    if (!entry.placed() || !entry.task->fresh) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      Instant next = std::max(view.watched_until(), run.span.to);
      bool goes_on = false;
      for (const Entry& other : view.entries()) {
        if (!other.placed() || !other.task->fresh || other.task->part != entry.task->part) continue;
        if (other.task->fresh->kind != entry.task->fresh->kind) continue;
        for (const PlannedRun& more : other.planned->runs) {
          goes_on = goes_on || (more.span.from <= run.span.to && more.span.to > run.span.to);
          if (more.span.from >= run.span.to) next = std::min(next, more.span.from);
        }
      }
      if (!goes_on) stops.push_back({&entry, {run.span.to, next}});
    }
  }
  return stops;
}

void check_soft(const View& view, const Stop& stop, Objections& out) {
  const works::Task& task = *stop.entry->task;
  const double stiff = works::thumbprint_hours(*task.fresh, view.job().practice).usual.value();
  const double most = view.limit(limit::soft_joint_inspect);
  double set = 0;
  double rain = 0;
  walk(stop.span, [&](Instant t, base::Hours dt) {
    if (set >= stiff) return false;
    const Shelter shelter = shelter_at(view, task, t);
    const AirHour& air = view.air(t);
    const double rate =
        matter::stiffening_rate(air.temperature, air.humidity, air.near_wind * shelter.drying_through);
    // Within the step in which it stiffens only the rain until then counts.
    const double soft = rate > 0 ? std::min(dt.value(), (stiff - set) / rate) : dt.value();
    rain += air.rain.value() * shelter.rain_through * soft;
    set += rate * dt.value();
    if (rain <= most + 1e-9) return true;
    object(out, "soft-in-rain", task.name, t,
           fmt::format("left soft at {}, has seen {:.1f} mm of rain at {}, at most {:.1f}",
                       view.clock(stop.span.from), rain, view.clock(t), most));
    return false;
  });
}

void check_mortar_frost(const View& view, const Stop& stop, Objections& out) {
  const works::Task& task = *stop.entry->task;
  const double safe = works::frost_safe_amount(*task.fresh, view.job().practice).value();
  double aged = 0;
  walk(stop.span, [&](Instant t, base::Hours dt) {
    if (aged >= safe) return false;
    const base::Celsius work = at_work(view.air(t), shelter_at(view, task, t));
    aged += matter::mortar_frost_rate(work) * dt.value();
    if (work.value() >= 0) return true;
    object(out, "frost", task.name, t,
           fmt::format("left at {}, is at {:.1f} C at {} before it is safe from frost",
                       view.clock(stop.span.from), work.value(), view.clock(t)));
    return false;
  });
}

/// Flags: kept covered below a temperature for some hours, frost or not.
void check_flags_cold(const View& view, const Stop& stop, Objections& out) {
  const works::Task& task = *stop.entry->task;
  const double keep = view.limit(limit::flags_keep_above);
  const Instant until =
      stop.span.from + std::chrono::minutes(static_cast<int>(view.limit(limit::flags_keep_hours) * 60));
  walk({stop.span.from, std::min(until, stop.span.to)}, [&](Instant t, base::Hours) {
    if (view.air(t).temperature.value() >= keep || shelter_at(view, task, t).lift.value() > 0) return true;
    object(out, "frost", task.name, t,
           fmt::format("its bed lies bare at {:.1f} C at {}, covered below {:.1f}",
                       view.air(t).temperature.value(), view.clock(t), keep));
    return false;
  });
}

void check_concrete(const View& view, const Stop& stop, Objections& out) {
  const works::Task& task = *stop.entry->task;
  const works::Practice& practice = view.job().practice;
  const matter::StrengthLaw law =
      matter::early_age_law(trade::row_for(practice.concrete).cube, class_s(practice.cement));
  const auto age =
      matter::equivalent_hours_to(law, base::Megapascals(view.limit(limit::concrete_frost_strength)));
  const double initial = matter::initial_set(base::Celsius(20)).value();
  const double spoils = view.limit(limit::rain_pour_stop);
  const Instant watched = strip_watched_until(view, task, stop.span.from);
  const Instant walled = walled_over(view, task);
  std::optional<StripBalance> balance;
  if (task.fresh->strip) balance.emplace(view, *task.fresh->strip, stop.span.from);
  double aged = 0;
  double set = 0;
  bool rained = false;
  bool froze = false;
  walk(stop.span, [&](Instant t, base::Hours dt) {
    const Shelter shelter = shelter_at(view, task, t);
    const base::Celsius work = at_work(view.air(t), shelter);
    const bool wet = view.air(t).rain.value() * shelter.rain_through >= spoils - 1e-9;
    if (set < initial && wet && !rained && t < walled) {
      rained = true;
      object(out, "wet-concrete", task.name, t,
             fmt::format("has not set at {} in {:.1f} mm/h of rain", view.clock(t),
                         view.air(t).rain.value() * shelter.rain_through));
    }
    // A strip in its trench is no longer a worry after its covered nights or under a wall; anything else when
    // it has its strength.
    const bool safe = (age && aged >= age->value()) || t >= watched;
    // In the ground, the balance of heat says whether a cover is enough. Bare, it also breaks the rule of
    // practice that a strip is covered in a frost, however warm the ground may keep it.
    base::Celsius coldest = work;
    if (balance) {
      const trade::CoverKind cover = holding_cover(view, task, t);
      balance->step(t, dt, cover, view.sitting_over(task.of, t) != nullptr);
      coldest = cover == trade::CoverKind::bare ? std::min(work, balance->top()) : balance->top();
    }
    if (!safe && !froze && coldest.value() < 0) {
      froze = true;
      object(out, "frost", task.name, t,
             fmt::format("poured by {}, is at {:.1f} C at {} before it is safe from frost",
                         view.clock(stop.span.from), coldest.value(), view.clock(t)));
    }
    aged += matter::fhp_rate(work) * dt.value();
    set += matter::setting_rate(work) * dt.value();
    return !safe || set < initial;
  });
}

bool in_cover_months(const View& view, base::LocalDay day) {
  const std::chrono::year_month_day date(day);
  const auto month = static_cast<unsigned>(date.month());
  const auto first = static_cast<unsigned>(view.limit(limit::night_cover_first_month));
  const auto last = static_cast<unsigned>(view.limit(limit::night_cover_last_month));
  return first <= last ? month >= first && month <= last : month >= first || month <= last;
}

void check_first_night(const View& view, const Stop& stop, Objections& out) {
  const works::Task& task = *stop.entry->task;
  const base::LocalDay day = view.zone().day_of(stop.span.from);
  if (task.fresh->cover.value() <= 0 || !in_cover_months(view, day)) return;
  const works::DaySpan& hours = view.job().trip.working_day;
  const Instant evening = std::max<Instant>(stop.span.from, view.at(day, hours.to));
  if (stop.span.to <= evening) return;  // more is laid before night; its own stop counts
  const Instant morning = view.at(day + std::chrono::days(1), hours.from);
  const Span night{evening + cover_slack, std::min<Instant>(morning - cover_slack, view.watched_until())};
  double bare = 0;
  walk(night, [&](Instant t, base::Hours dt) {
    if (cover_on(view, task, t) != nullptr || view.sitting_over(task.of, t) != nullptr) return true;
    if (view.light(t) != trade::Light::dark) return true;
    bare += dt.value();
    if (bare <= dusk_hours + 1e-9) return true;
    object(out, "bare-night", task.name, t,
           fmt::format(
               "left at {}, lies bare at {}; from month {:.0f} to {:.0f} fresh work is covered every night",
               view.clock(stop.span.from), view.clock(t), view.limit(limit::night_cover_first_month),
               view.limit(limit::night_cover_last_month)));
    return false;
  });
}

}  // namespace

void check_fresh(const View& view, Objections& out) {
  for (const Stop& stop : stops_of(view)) {
    const Kind kind = stop.entry->task->fresh->kind;
    if (kind == Kind::concrete) {
      check_concrete(view, stop, out);
    } else {
      // Mortar under a plate is under a plate.
      if (kind != Kind::plate_bed) check_soft(view, stop, out);
      check_mortar_frost(view, stop, out);
      if (kind == Kind::flags) check_flags_cold(view, stop, out);
    }
    check_first_night(view, stop, out);
  }
}

}  // namespace weatherstruck::programme::site
