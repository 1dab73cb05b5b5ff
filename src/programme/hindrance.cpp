#include "weatherstruck/programme/hindrance.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <variant>

#include "fair_hours.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/works/without_part.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr hours long_day_from{6};
constexpr hours long_day_to{21};
constexpr hours noon{12};
constexpr base::SquareMetres more_covers{20};
// Less than this stops nothing and slows nothing: the least of the limits that a job may set.
constexpr double some_rain = 0.1;
constexpr double cold_below = 5;
constexpr double hot_above = 25;

Instant leave_or_now(const TripCase& trip) {
  return std::max(trip.now, trip.job.trip.leave_home);
}

Span day_of(const base::Zone& zone, base::LocalDay day) {
  return {zone.to_instant_earliest(base::LocalTime(day)),
          zone.to_instant_earliest(base::LocalTime(day + std::chrono::days(1)))};
}

Span night_to(const base::Zone& zone, base::LocalDay day) {
  return {zone.to_instant_earliest(base::LocalTime(day - std::chrono::days(1)) + noon),
          zone.to_instant_earliest(base::LocalTime(day) + noon)};
}

template <class Test>
bool any_hour(const sky::Series& weather, const Span& span, const Test& test) {
  return std::any_of(weather.hours.begin(), weather.hours.end(), [&](const sky::Hour& hour) {
    return hour.start >= span.from && hour.start < span.to && test(hour);
  });
}

Instant arrival(const works::Trip& trip) {
  return trip.leave_home + std::chrono::seconds(std::lround(trip.drive_out.value() * 3600));
}

bool is_done(const TripCase& trip, const works::Name& name) {
  for (const PlannedTask& task : trip.plan.tasks) {
    if (task.task == name) return task.placed() && task.finish() <= trip.now;
  }
  return false;
}

bool is_begun(const TripCase& trip, const works::Name& part) {
  for (std::size_t i = 0; i < trip.plan.tasks.size(); ++i) {
    const PlannedTask& task = trip.plan.tasks[i];
    const works::Task* listed = trip.list.find(task.task);
    if (listed != nullptr && listed->of == part && task.placed() && task.start() < trip.now) return true;
  }
  return false;
}

void of_weather(const TripCase& trip, std::vector<Hindrance>& out) {
  const base::Zone& zone = trip.job.site.zone;
  const base::LocalDay first = zone.day_of(leave_or_now(trip));
  const base::LocalDay last = zone.day_of(std::max(trip.job.trip.home_by, leave_or_now(trip)));
  const auto days = [&](Hindrance::Kind kind, auto&& span_of, auto&& test) {
    for (base::LocalDay day = first; day <= last; day += std::chrono::days(1)) {
      if (any_hour(trip.weather, span_of(zone, day), test)) out.push_back({kind, day, {}});
    }
  };
  days(Hindrance::Kind::rain, day_of,
       [](const sky::Hour& hour) { return hour.rain && hour.rain->value.value() >= some_rain; });
  days(Hindrance::Kind::cold, night_to, [](const sky::Hour& hour) {
    return hour.temperature && hour.temperature->value.value() < cold_below;
  });
  days(Hindrance::Kind::heat, day_of,
       [](const sky::Hour& hour) { return hour.temperature && hour.temperature->value.value() > hot_above; });
  const std::optional<works::Canopy>& canopy = trip.job.kit.canopy;
  days(Hindrance::Kind::wind, day_of,
       [&](const sky::Hour& hour) { return canopy && hour.gust && hour.gust->value >= canopy->gust_limit; });
}

void lift(works::Job& job, const Hindrance& fact, const trade::LimitValues& limits,
          const sky::Series& weather) {
  switch (fact.kind) {
    case Hindrance::Kind::dark:
      job.kit.floodlights = true;
      break;
    case Hindrance::Kind::hours:
      job.trip.working_day = {std::min<std::chrono::minutes>(job.trip.working_day.from, long_day_from),
                              std::max<std::chrono::minutes>(job.trip.working_day.to, long_day_to)};
      job.trip.longest_day = std::max(job.trip.longest_day, limits.hours(trade::limit::day_red_line));
      break;
    case Hindrance::Kind::quiet_hours: {
      const std::vector<works::DaySpan> always{{hours(0), hours(24)}};
      job.site.noisy = {always, always, always};
      break;
    }
    case Hindrance::Kind::fixed_times:
      job.fixed.clear();
      break;
    case Hindrance::Kind::delivery:
      for (works::Delivery& delivery : job.supplies.deliveries)
        delivery.at = std::min(delivery.at, arrival(job.trip));
      break;
    case Hindrance::Kind::striking:
      for (works::Part& part : job.parts) {
        if (works::name_of(part) != fact.part) continue;
        std::visit(
            [](auto& any) {
              if constexpr (requires { any.joints; }) any.joints = trade::JointFinish::none;
            },
            part);
      }
      break;
    case Hindrance::Kind::covers:
      job.kit.hessian += more_covers;
      job.kit.sheet += more_covers;
      job.kit.mats += more_covers;
      break;
    case Hindrance::Kind::hands:
      job.crew.push_back({"second-pair", true, 1.0});
      break;
    case Hindrance::Kind::part:
      if (auto less = works::without_part(job, fact.part)) job = std::move(*less);
      break;
    case Hindrance::Kind::promise:
      job.trip.home_by = std::max(job.trip.home_by, weather.end_time());
      break;
    default:
      break;
  }
}

void lift(works::TaskList& list, const Hindrance& fact) {
  if (fact.kind != Hindrance::Kind::wait) return;
  for (works::Link& link : list.links) {
    const works::Task* from = list.find(link.from);
    if (link.wait == fact.wait && from != nullptr && from->of == fact.part) link.wait = works::Wait::none;
  }
}

void lift(sky::Series& weather, const Hindrance& fact, const base::Zone& zone) {
  switch (fact.kind) {
    case Hindrance::Kind::rain:
      weather = dry_in(std::move(weather), day_of(zone, fact.day));
      break;
    case Hindrance::Kind::cold:
      weather = mild_in(std::move(weather), night_to(zone, fact.day));
      break;
    case Hindrance::Kind::heat:
      weather = mild_in(std::move(weather), day_of(zone, fact.day));
      break;
    case Hindrance::Kind::wind:
      weather = calm_in(std::move(weather), day_of(zone, fact.day));
      break;
    default:
      break;
  }
}

}  // namespace

std::string_view key_of(Hindrance::Kind kind) {
  switch (kind) {
    case Hindrance::Kind::rain:
      return "rain";
    case Hindrance::Kind::cold:
      return "cold";
    case Hindrance::Kind::heat:
      return "heat";
    case Hindrance::Kind::wind:
      return "wind";
    case Hindrance::Kind::dark:
      return "dark";
    case Hindrance::Kind::hours:
      return "hours";
    case Hindrance::Kind::quiet_hours:
      return "quiet-hours";
    case Hindrance::Kind::fixed_times:
      return "fixed-times";
    case Hindrance::Kind::delivery:
      return "delivery";
    case Hindrance::Kind::wait:
      return "wait";
    case Hindrance::Kind::striking:
      return "striking";
    case Hindrance::Kind::covers:
      return "covers";
    case Hindrance::Kind::hands:
      return "hands";
    case Hindrance::Kind::part:
      return "part";
    case Hindrance::Kind::promise:
      return "promise";
  }
  return {};
}

std::vector<Hindrance> hindrances_of(const TripCase& trip) {
  std::vector<Hindrance> out;
  const works::Job& job = trip.job;
  of_weather(trip, out);
  const auto is = [&](Hindrance::Kind kind, bool so) {
    if (so) out.push_back({kind, {}, {}});
  };
  const bool on_the_way = trip.now <= arrival(job.trip);
  is(Hindrance::Kind::dark, !job.kit.floodlights);
  is(Hindrance::Kind::hours, job.trip.working_day.from > long_day_from ||
                                 job.trip.working_day.to < long_day_to ||
                                 job.trip.longest_day < trip.limits.hours(trade::limit::day_red_line));
  is(Hindrance::Kind::quiet_hours, std::any_of(trip.list.tasks.begin(), trip.list.tasks.end(),
                                               [](const works::Task& task) { return task.noisy; }));
  is(Hindrance::Kind::fixed_times, std::any_of(job.fixed.begin(), job.fixed.end(), [&](const auto& fixed) {
       return fixed.to > leave_or_now(trip) && fixed.from < job.trip.home_by;
     }));
  is(Hindrance::Kind::delivery,
     on_the_way && std::any_of(job.supplies.deliveries.begin(), job.supplies.deliveries.end(),
                               [&](const auto& delivery) { return delivery.at > arrival(job.trip); }));
  for (const works::Link& link : trip.list.links) {
    if (link.wait == works::Wait::none || is_done(trip, link.to)) continue;
    const works::Task* from = trip.list.find(link.from);
    if (from == nullptr) continue;
    const Hindrance fact{Hindrance::Kind::wait, {}, from->of, link.wait};
    if (std::find(out.begin(), out.end(), fact) == out.end()) out.push_back(fact);
  }
  is(Hindrance::Kind::covers, true);
  is(Hindrance::Kind::hands, job.crew.size() == 1);
  for (const works::Part& part : job.parts) {
    const works::Name& name = works::name_of(part);
    if (!is_begun(trip, name) && works::without_part(job, name))
      out.push_back({Hindrance::Kind::part, {}, name});
  }
  is(Hindrance::Kind::promise, !trip.weather.empty() && trip.weather.end_time() > job.trip.home_by);
  return out;
}

Without plan_without(const TripCase& trip, const std::vector<Hindrance>& facts, int schedules) {
  works::Job job = trip.job;
  for (const Hindrance& fact : facts)
    lift(job, fact, trip.limits, trip.weather);
  works::TaskList list = works::derive_tasks(job);
  sky::Series weather = trip.weather;
  for (const Hindrance& fact : facts) {
    lift(list, fact);
    lift(weather, fact, job.site.zone);
  }
  const bool gone = trip.now > job.trip.leave_home;
  PlanRequest request{job, list, weather, trip.limits, gone ? trip.now : job.trip.leave_home, &trip.plan};
  request.schedules = schedules;
  request.seed = trip.seed;
  Without out;
  out.plan = make_plan(request).plan;
  out.keeps_promise = out.plan.home && out.plan.in_hand.count() >= 0 && out.plan.all_musts_placed(list);
  // A must that cannot be placed within the forecast leaves no least moment either.
  out.out_of_reach =
      !out.keeps_promise && (!out.plan.soonest_home || *out.plan.soonest_home > job.trip.home_by);
  return out;
}

}  // namespace weatherstruck::programme
