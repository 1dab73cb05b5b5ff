#include "weatherstruck/programme/late.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "weatherstruck/programme/planner.h"
#include "weatherstruck/works/check.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;

// Enough to tell whether a change helps; more where it does not (see PlanRequest).
constexpr int schedules = 200;
// Neither cold nor hot for any work, dry, and calm enough for a canopy.
constexpr double mild_from = 12;
constexpr double mild_to = 18;
constexpr double calm = 3;
constexpr double moist = 0.7;
// As long a day as is spoken of; what he may be awake at work and wheel bounds it (limits table).
constexpr hours long_day_from{6};
constexpr hours long_day_to{21};

/// Codes of reasons that the weather makes; see ClockMaker and the reader of plans.
bool is_weather(const Reason& reason) {
  constexpr std::array<std::string_view, 6> codes{"rain", "cold", "heat", "canopy", "cover", "stiffening"};
  return std::find(codes.begin(), codes.end(), reason.code) != codes.end();
}

bool keeps_promise(const Plan& plan, const works::TaskList& list) {
  return plan.home && plan.in_hand.count() >= 0 && plan.all_musts_placed(list);
}

sky::Series fair_from(sky::Series weather, Instant from) {
  constexpr auto derived = sky::Origin::derived;
  for (sky::Hour& hour : weather.hours) {
    if (hour.start < from) continue;
    if (hour.temperature)
      hour.temperature = {
          {base::Celsius(std::clamp(hour.temperature->value.value(), mild_from, mild_to)), derived}};
    if (hour.dew_point)
      hour.dew_point = {{base::Celsius(std::min(hour.dew_point->value.value(), mild_from - 4)), derived}};
    if (hour.humidity) hour.humidity = {{base::Fraction(moist), derived}};
    if (hour.wind) hour.wind = {{base::MetresPerSecond(std::min(hour.wind->value.value(), calm)), derived}};
    if (hour.gust)
      hour.gust = {{base::MetresPerSecond(std::min(hour.gust->value.value(), calm * 2)), derived}};
    if (hour.rain) hour.rain = {{base::Millimetres(0), derived}};
    if (hour.rain_chance) hour.rain_chance = {{base::Fraction(0), derived}};
  }
  return weather;
}

class Search {
 public:
  explicit Search(const LateRequest& request) : r_(request) {}

  Late run() {
    const bool gone = r_.now > r_.job.trip.leave_home;
    const Instant from = std::max(r_.now, r_.job.trip.leave_home);
    const sky::Series fair = fair_from(r_.weather, from);
    PlanRequest request{r_.job, r_.list, fair, r_.limits, gone ? r_.now : r_.job.trip.leave_home};
    request.schedules = schedules;
    request.seed = r_.seed;
    if (gone) request.followed = &r_.plan;
    const Plan dry = make_plan(request).plan;
    if (dry.home && dry.all_musts_placed(r_.list)) out_.in_fair_weather = dry.home;
    out_.weather = keeps_promise(dry, r_.list);
    stops();
    waits();
    if (!gone) cures();
    return std::move(out_);
  }

 private:
  void stops() {
    const base::Zone& zone = r_.job.site.zone;
    std::chrono::seconds longest{0};
    for (std::size_t i = 0; i < r_.plan.tasks.size(); ++i) {
      for (const Reason& reason : r_.plan.tasks[i].reasons) {
        if (!is_weather(reason)) continue;
        const auto time = on_site(reason.span, zone);
        if (time <= longest) continue;
        longest = time;
        out_.longest_stop = Late::Stop{reason, i};
      }
      for (const PlannedRun& run : r_.plan.tasks[i].runs) {
        if (r_.list.tasks[i].operation == trade::Operation::drive) continue;
        out_.work += (run.span.to - run.span.from) * r_.plan.tasks[i].people;
      }
    }
  }

  /// Within the working days.
  [[nodiscard]] std::chrono::seconds on_site(const Span& span, const base::Zone& zone) const {
    const works::DaySpan& day = r_.job.trip.working_day;
    std::chrono::seconds sum{0};
    for (base::LocalDay d = zone.day_of(span.from); d <= zone.day_of(span.to); d += std::chrono::days(1)) {
      const Instant from = std::max(span.from, zone.to_instant_earliest(base::LocalTime(d) + day.from));
      const Instant to = std::min(span.to, zone.to_instant_earliest(base::LocalTime(d) + day.to));
      if (to > from) sum += to - from;
    }
    return sum;
  }

  void waits() {
    for (const PlannedWait& wait : r_.plan.waits) {
      if (!out_.longest_wait ||
          wait.span.to - wait.span.from > out_.longest_wait->span.to - out_.longest_wait->span.from)
        out_.longest_wait = wait;
    }
  }

  void cures() {
    using Kind = Cure::Kind;
    works::Job job = r_.job;
    const Instant there =
        job.trip.leave_home + std::chrono::seconds(std::lround(job.trip.drive_out.value() * 3600));
    bool sooner = false;
    for (works::Delivery& delivery : job.supplies.deliveries) {
      sooner = sooner || delivery.at > there;
      delivery.at = std::min(delivery.at, there);
    }
    if (sooner) attempt(Kind::delivered_on_arrival, job);

    job = r_.job;
    job.kit.floodlights = true;
    if (!r_.job.kit.floodlights) attempt(Kind::lights, job);

    job = r_.job;
    if (!job.kit.canopy) {
      job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
      attempt(Kind::canopy, job);
    }

    job = r_.job;
    works::Trip& trip = job.trip;
    trip.working_day = {std::min<std::chrono::minutes>(trip.working_day.from, long_day_from),
                        std::max<std::chrono::minutes>(trip.working_day.to, long_day_to)};
    trip.longest_day = std::max(trip.longest_day, r_.limits.hours(trade::limit::day_red_line));
    attempt(Kind::longer_days, job);

    job = r_.job;
    if (job.crew.size() == 1) {
      job.crew.push_back({"mate", false, 1.0});
      attempt(Kind::labourer, job);
    }

    for (const works::Part& part : r_.job.parts) {
      if (auto less = without(part)) attempt(Kind::without, *less, works::name_of(part));
    }

    job = r_.job;
    job.trip.home_by = r_.weather.end_time();
    if (job.trip.home_by > r_.job.trip.home_by) attempt(Kind::later, job);
  }

  /// The job with the part left out; nullopt where something else stands on it or names it.
  [[nodiscard]] std::optional<works::Job> without(const works::Part& part) const {
    if (std::holds_alternative<works::Footing>(part)) return {};
    works::Job job = r_.job;
    const auto remove = [&job](const works::Name& name) {
      const auto named = [&](const works::Part& other) { return works::name_of(other) == name; };
      job.parts.erase(std::remove_if(job.parts.begin(), job.parts.end(), named), job.parts.end());
      for (works::Route& route : job.site.routes)
        route.shut_by.erase(std::remove(route.shut_by.begin(), route.shut_by.end(), name),
                            route.shut_by.end());
      job.importance.erase(std::remove_if(job.importance.begin(), job.importance.end(),
                                          [&](const auto& one) { return one.part == name; }),
                           job.importance.end());
      job.fallbacks.erase(std::remove_if(job.fallbacks.begin(), job.fallbacks.end(),
                                         [&](const auto& one) { return one.part == name; }),
                          job.fallbacks.end());
    };
    remove(works::name_of(part));
    if (const auto* wall = std::get_if<works::Wall>(&part)) remove(wall->footing);
    if (job.parts.empty() || !works::check(job).faults.empty()) return {};
    return job;
  }

  void attempt(Cure::Kind kind, const works::Job& job, const works::Name& part = {}) {
    const works::TaskList list = works::derive_tasks(job);
    PlanRequest request{job, list, r_.weather, r_.limits, job.trip.leave_home};
    request.schedules = schedules;
    request.seed = r_.seed;
    const PlanResult result = make_plan(request);
    if (std::find(out_.tried.begin(), out_.tried.end(), kind) == out_.tried.end()) out_.tried.push_back(kind);
    if (result.objections.empty() && keeps_promise(result.plan, list))
      out_.cures.push_back({kind, part, *result.plan.home});
  }

  const LateRequest& r_;
  Late out_;
};

}  // namespace

std::optional<Late> late_because(const LateRequest& request) {
  if (keeps_promise(request.plan, request.list)) return {};
  return Search(request).run();
}

}  // namespace weatherstruck::programme
