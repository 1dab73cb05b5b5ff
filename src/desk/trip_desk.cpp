#include "weatherstruck/desk/trip_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/trade/cautions.h"
#include "weatherstruck/works/expand.h"

namespace weatherstruck::desk {
namespace {

// A forecast older than this is told: the services whose files are read issue several a day.
constexpr std::chrono::hours old_forecast{24};

base::Metres deepest_trench(const works::Job& job) {
  base::Metres deepest{0};
  for (const works::FootingPart& footing : works::expand(job).footings)
    deepest = std::max(deepest, footing.plan.deepest);
  return deepest;
}

}  // namespace

render::TripFacts PlannedTrip::facts() const {
  return {open.job, list, series, open.limits, result.plan, now, remarks, result.objections.empty()};
}

std::optional<Refusal> refusal(const works::Job& job, const sky::Series& series, base::Instant now) {
  const auto site_time = [&](base::Instant t) { return base::day_and_time(job.site.zone.to_local(t)); };
  if (now >= job.trip.home_by) {
    return Refusal{
        Refusal::Kind::trip_over,
        fmt::format(
            "It is {} and the trip ended {}. Say another moment with --now, or give the job a new trip.",
            site_time(now), site_time(job.trip.home_by))};
  }
  const base::Instant from = std::max(now, job.trip.leave_home);
  if (series.empty() || series.end_time() <= from) {
    return Refusal{Refusal::Kind::forecast_over,
                   series.empty() ? std::string("The forecast holds no hours. Fetch it again.")
                                  : fmt::format("The forecast ended {}, before {}. Fetch a newer one.",
                                                site_time(series.end_time()), site_time(from))};
  }
  if (series.begin_time() >= job.trip.home_by) {
    return Refusal{Refusal::Kind::forecast_over,
                   fmt::format("The forecast begins {}, after the trip. Fetch one for the days of the trip.",
                               site_time(series.begin_time()))};
  }
  return std::nullopt;
}

PlannedTrip plan_trip(OpenJob open, std::vector<sky::Series> forecasts, base::Instant now) {
  PlannedTrip trip{std::move(open), {}, {}, {}, now, {}};
  trip.list = works::derive_tasks(trip.open.job);
  const base::Instant leave = trip.open.job.trip.leave_home;
  const auto issued = [&](const sky::Series& series) {
    return std::max(leave, series.issued.value_or(leave));
  };
  std::stable_sort(forecasts.begin(), forecasts.end(),
                   [&](const sky::Series& a, const sky::Series& b) { return issued(a) < issued(b); });
  std::optional<programme::Plan> followed;
  for (std::size_t i = 0; i < forecasts.size(); ++i) {
    const base::Instant seen = issued(forecasts[i]);
    if (i > 0 && seen > now) break;  // not out yet
    trip.series = i == 0 ? std::move(forecasts[i]) : sky::join(trip.series, forecasts[i]);
    const bool more_at_once = i + 1 < forecasts.size() && issued(forecasts[i + 1]) == seen && seen <= now;
    if (more_at_once) continue;
    programme::PlanRequest request{trip.open.job, trip.list, trip.series, trip.open.limits,
                                   followed ? seen : leave};
    if (followed) request.followed = &*followed;
    trip.result = programme::make_plan(request);
    followed = trip.result.plan;
  }
  const base::Zone& zone = trip.open.job.site.zone;
  const auto gone = zone.day_of(now) - zone.day_of(leave);
  if (now > leave && gone.count() > 0) {
    trip.remarks.push_back(
        gone.count() == 1 ? "Yesterday's work is taken as done to this plan. Look before you trust it."
                          : "The days gone by are taken as done to this plan. Look before you trust it.");
  }
  for (const std::string& danger : trip.result.plan.dangers)
    trip.remarks.push_back(danger);
  if (trip.series.issued && now - *trip.series.issued > old_forecast) {
    trip.remarks.push_back(fmt::format(
        "The forecast was issued {}, {} h ago.", base::day_and_time(zone.to_local(*trip.series.issued)),
        std::chrono::duration_cast<std::chrono::hours>(now - *trip.series.issued).count()));
  }
  return trip;
}

render::MorningFacts take_morning(const PlannedTrip& trip) {
  const render::TripFacts facts = trip.facts();
  const std::vector<render::TripDay> days = render::trip_days(facts);
  const base::Zone& zone = trip.open.job.site.zone;
  render::MorningFacts morning;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const base::Instant stop =
        zone.to_instant_earliest(base::LocalTime(days[i].day) + trip.open.job.trip.working_day.to);
    if (days[i].span.from <= trip.now) morning.day = trip.now < stop || i + 1 == days.size() ? i : i + 1;
  }
  morning.cautions = trade::choose_cautions(
      render::caution_facts(facts, days.at(morning.day), deepest_trench(trip.open.job)), trip.open.limits);
  return morning;
}

}  // namespace weatherstruck::desk
