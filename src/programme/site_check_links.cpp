// Order of tasks, and the waits between them straight from the hours' temperatures.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "site_check_view.h"
#include "weatherstruck/matter/mortar.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
using works::Link;
using works::Wait;
namespace limit = trade::limit;

/// Hours at a temperature of `warm` or more, and of `cold` or more, that make the wait; colder: nothing
/// counts.
double strip_part(const View& view, double air, double mild_hours, double cold_hours) {
  if (air >= view.limit(limit::strip_mild_from)) return 1 / mild_hours;
  if (air >= view.limit(limit::strip_cold_from)) return 1 / cold_hours;
  return 0;
}

/// Share of the wait that goes by in an hour such as that of t.
double part_per_hour(const View& view, const Link& link, const works::Task& from, Instant t) {
  const AirHour& air = view.air(t);
  const double degrees = air.temperature.value();
  const double mild = view.limit(limit::strip_wait_mild);
  const double cold = view.limit(limit::strip_wait_cold);
  const double fill_slow =
      degrees < view.limit(limit::fill_cold_below) ? view.limit(limit::fill_cold_factor) : 1.0;
  switch (link.wait) {
    case Wait::none:
      return 1;
    case Wait::concrete_to_lay:
      return strip_part(view, degrees, mild, cold);
    case Wait::concrete_to_lay_box: {
      const double box = view.limit(limit::box_wait);
      return strip_part(view, degrees, box, box * cold / mild);
    }
    case Wait::concrete_to_lay_high:
      if (degrees >= view.limit(limit::high_wall_warm_from))
        return 1 / view.limit(limit::high_wall_wait_warm);
      if (degrees >= view.limit(limit::strip_cold_from)) return 1 / view.limit(limit::high_wall_wait_cold);
      return 0;
    case Wait::mortar_to_fill_half:
      return 1 / (view.limit(limit::fill_half_wait) * fill_slow);
    case Wait::mortar_to_fill:
      return 1 / (view.limit(limit::fill_rest_wait) * fill_slow);
    case Wait::mortar_to_point:
      return matter::stiffening_rate(air.temperature, air.humidity, air.near_wind) /
             works::thumbprint_hours(from.fresh.value_or(works::FreshWork{}), view.job().practice)
                 .usual.value();
    case Wait::plate_to_strap:
      return 1 / view.limit(limit::strap_wait);
    case Wait::bed_to_grout:
      return 1 / view.limit(limit::grout_wait);
    case Wait::hours:
      return link.hours.value() > 0 ? 1 / link.hours.value() : 1e9;
  }
  return 1;
}

/// When the wait has gone by; nullopt: not within what the plan covers.
std::optional<Instant> ready(const View& view, const Link& link, const works::Task& from, Instant since) {
  if (link.wait == Wait::none) return since;
  double gone = 0;
  std::optional<Instant> when;
  walk({since, view.end_time()}, [&](Instant t, base::Hours dt) {
    if (gone >= 1 - 1e-9) {
      when = t;
      return false;
    }
    gone += part_per_hour(view, link, from, t) * dt.value();
    return true;
  });
  return when;
}

bool early(std::optional<Instant> ready_at, Instant starts, bool waits) {
  if (!ready_at) return true;
  return waits ? starts + wait_tolerance < *ready_at : starts < *ready_at;
}

void check_told(const View& view, const Link& link, std::optional<Instant> ready_at, Objections& out) {
  for (const PlannedWait& told : view.plan().waits) {
    if (told.next != link.to || told.wait != link.wait || told.part != view.find(link.from)->task->part)
      continue;
    if (!early(ready_at, told.span.to, true)) continue;
    // What is told is a moment before the ready one by more than the tolerance.
    object(out, "wait", link.to, told.span.to,
           fmt::format("{} is told to be left alone until {}, which is too short", told.what,
                       view.clock(told.span.to)));
  }
}

}  // namespace

void check_links(const View& view, Objections& out) {
  for (const Link& link : view.list().links) {
    const Entry* from = view.find(link.from);
    const Entry* to = view.find(link.to);
    // Where one of them is left out there is nothing to wait for; a must left out is another fault.
    if (from == nullptr || to == nullptr || !from->placed() || !to->placed()) continue;
    const bool from_start = link.kind == Link::Kind::start_start;
    const bool to_finish = link.kind == Link::Kind::finish_finish;
    const Instant since = from_start ? from->planned->start() : from->planned->finish();
    const Instant then = to_finish ? to->planned->finish() : to->planned->start();
    if (then < since) {
      object(out, "link", link.to, then,
             fmt::format("{} at {}, but {} {} at {}", to_finish ? "ends" : "begins", view.clock(then),
                         link.from, from_start ? "begins" : "ends", view.clock(since)));
      continue;
    }
    const std::optional<Instant> ready_at = ready(view, link, *from->task, since);
    const bool waits = link.wait != Wait::none;
    if (early(ready_at, then, waits)) {
      object(out, "wait", link.to, then,
             fmt::format("{} at {}, but what {} left is ready {}", to_finish ? "ends" : "begins",
                         view.clock(then), link.from,
                         ready_at ? "at " + view.clock(*ready_at) : "later than the plan reaches"));
      continue;
    }
    if (waits && !from_start) check_told(view, link, ready_at, out);
  }
}

}  // namespace weatherstruck::programme::site
