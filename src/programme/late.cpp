#include "weatherstruck/programme/late.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "changes.h"
#include "fair_hours.h"
#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;

// Enough to tell whether a change helps; more where it does not (see PlanRequest).
constexpr int schedules = 200;

/// Codes of reasons that the weather makes; see ClockMaker and the reader of plans.
bool is_weather(const Reason& reason) {
  constexpr std::array<std::string_view, 6> codes{"rain", "cold", "heat", "canopy", "cover", "stiffening"};
  return std::find(codes.begin(), codes.end(), reason.code) != codes.end();
}

bool keeps_promise(const Plan& plan, const works::TaskList& list) {
  return plan.home && plan.in_hand.count() >= 0 && plan.all_musts_placed(list);
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
    const std::vector<Change> changes = changes_of(r_.job, r_.limits, r_.weather, r_.now);
    std::vector<std::optional<Instant>> homes(changes.size());
    r_.lanes.each(changes.size(), [&](std::size_t k, std::size_t) { homes[k] = home_with(changes[k]); });
    for (std::size_t k = 0; k < changes.size(); ++k) {
      const Change& change = changes[k];
      if (std::find(out_.tried.begin(), out_.tried.end(), change.kind) == out_.tried.end())
        out_.tried.push_back(change.kind);
      if (homes[k]) out_.cures.push_back({change.kind, change.part, *homes[k]});
    }
  }

  // Nothing where the promise is not kept with it either.
  [[nodiscard]] std::optional<Instant> home_with(const Change& change) const {
    const works::TaskList list = works::derive_tasks(change.job);
    PlanRequest request{change.job, list, r_.weather, r_.limits, change.job.trip.leave_home};
    request.schedules = schedules;
    request.seed = r_.seed;
    const PlanResult result = make_plan(request);
    if (!result.objections.empty() || !keeps_promise(result.plan, list)) return {};
    return result.plan.home;
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
