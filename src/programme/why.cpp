#include "weatherstruck/programme/why.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/work_hours.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// A look of this many schedules from the plan as it is: enough to take what a lifted fact offers.
constexpr int quick_look = 99;
constexpr std::size_t most_facts = 8;
constexpr std::size_t longest_chain = 20;
constexpr minutes worth_it{15};
// What is counted for each night that ends work: the hours that longer days would give it.
constexpr hours for_a_night{1};

bool is_behind(const Reason& reason) {
  return (reason.code == "after" || reason.code == "wait") && !reason.by.empty();
}

class Asking {
 public:
  Asking(const TripCase& trip, std::size_t task) : t_(trip), task_(task) {}

  Why run() {
    const PlannedTask& planned = t_.plan.tasks.at(task_);
    split(planned);
    if (planned.placed()) {
      length(planned);
      chain();
    } else {
      for (const Hindrance& fact : hindrances_of(t_)) {
        const bool elsewhere = fact.kind == Hindrance::Kind::wait && fact.part != t_.list.tasks[task_].of;
        if (fact.kind != Hindrance::Kind::part && fact.kind != Hindrance::Kind::promise && !elsewhere)
          add(fact, worth_it);
      }
    }
    lift();
    return std::move(out_);
  }

 private:
  void split(const PlannedTask& planned) {
    std::vector<Reason> before;
    std::vector<Reason> within;
    for (const Reason& reason : planned.reasons)
      (planned.placed() && reason.span.from >= planned.start() ? within : before).push_back(reason);
    out_.before = drawn_together(before);
    out_.within = drawn_together(within);
    out_.days = day_by_day(planned.reasons, t_.job);
  }

  void length(const PlannedTask& planned) {
    const works::Task& task = t_.list.tasks[task_];
    works::TaskList alone;
    alone.tasks.push_back(task);
    alone.tasks.front().only_if.reset();
    for (const works::TaskWay& way : task.ways) {
      if (planned.way && way.key == *planned.way) alone.tasks.front().hours = way.hours;
    }
    // A run that goes on where the last one ended is no new start.
    int starts = 0;
    for (std::size_t i = 0; i < planned.runs.size(); ++i) {
      out_.at_work += planned.runs[i].span.to - planned.runs[i].span.from;
      if (i == 0 || planned.runs[i].span.from > planned.runs[i - 1].span.to) ++starts;
    }
    alone.tasks.front().set_up = task.set_up * starts;
    out_.in_fair_weather = task.operation == trade::Operation::drive
                               ? task.hours
                               : works::crew_hours(t_.job, alone) / std::max(1, planned.people);
  }

  // Back from the task through what it stood behind last, gathering what held each.
  void chain() {
    std::size_t at = task_;
    while (out_.behind.size() < longest_chain) {
      const PlannedTask& planned = t_.plan.tasks[at];
      if (planned.placed() && planned.start() < t_.now) return;
      const Reason* last = nullptr;
      for (const Reason& reason : planned.reasons) {
        if (planned.placed() && reason.span.from >= planned.start() && at == task_) continue;
        gather(at, reason);
        if (is_behind(reason) && (last == nullptr || reason.span.to > last->span.to)) last = &reason;
      }
      if (last == nullptr) return;
      const auto next = std::find_if(t_.list.tasks.begin(), t_.list.tasks.end(),
                                     [&](const works::Task& task) { return task.name == last->by; });
      if (next == t_.list.tasks.end() ||
          std::find(out_.behind.begin(), out_.behind.end(), last->by) != out_.behind.end())
        return;
      out_.behind.push_back(last->by);
      at = static_cast<std::size_t>(next - t_.list.tasks.begin());
    }
  }

  void add(const Hindrance& fact, seconds time) {
    const auto known =
        std::find_if(held_.begin(), held_.end(), [&](const auto& one) { return one.hindrance == fact; });
    if (known == held_.end()) {
      held_.push_back({fact, time});
    } else {
      known->time += time;
    }
  }

  /// Working hours of the span, by day.
  template <class Use>
  void by_day(const Span& span, const Use& use) const {
    const base::Zone& zone = t_.job.site.zone;
    const works::DaySpan& on_site = t_.job.trip.working_day;
    for (base::LocalDay day = zone.day_of(span.from); day <= zone.day_of(span.to);
         day += std::chrono::days(1)) {
      const base::Instant from =
          std::max(span.from, zone.to_instant_earliest(base::LocalTime(day) + on_site.from));
      const base::Instant to = std::min(span.to, zone.to_instant_earliest(base::LocalTime(day) + on_site.to));
      if (from < to) use(day, from, to - from);
    }
  }

  void gather(std::size_t at, const Reason& reason) {
    const works::Task& task = t_.list.tasks[at];
    const auto daily = [&](Hindrance::Kind kind) {
      by_day(reason.span, [&](base::LocalDay day, base::Instant /*from*/, seconds time) {
        add({kind, day, {}}, time);
      });
    };
    const auto once = [&](const Hindrance& fact) {
      by_day(reason.span, [&](base::LocalDay, base::Instant, seconds time) { add(fact, time); });
    };
    if (reason.code == "rain") {
      daily(Hindrance::Kind::rain);
    } else if (reason.code == "heat") {
      daily(Hindrance::Kind::heat);
    } else if (reason.code == "canopy") {
      daily(Hindrance::Kind::wind);
    } else if (reason.code == "cold") {
      // Nights are counted from noon to noon: the afternoon's cold is that of the night to come.
      const base::Zone& zone = t_.job.site.zone;
      by_day(reason.span, [&](base::LocalDay day, base::Instant from, seconds time) {
        const bool morning = from < zone.to_instant_earliest(base::LocalTime(day) + hours(12));
        add({Hindrance::Kind::cold, day + std::chrono::days(morning ? 0 : 1), {}}, time);
      });
    } else if (reason.code == "dark") {
      if (!t_.job.kit.floodlights) once({Hindrance::Kind::dark, {}, {}});
    } else if (reason.code == "off-hours") {
      add({Hindrance::Kind::hours, {}, {}}, for_a_night);
    } else if (reason.code == "day-full") {
      once({Hindrance::Kind::hours, {}, {}});
    } else if (reason.code == "quiet-hours") {
      once({Hindrance::Kind::quiet_hours, {}, {}});
    } else if (reason.code == "fixed-time") {
      once({Hindrance::Kind::fixed_times, {}, {}});
    } else if (reason.code == "person") {
      if (t_.job.crew.size() == 1) once({Hindrance::Kind::hands, {}, {}});
    } else if (reason.code == "cover") {
      once({Hindrance::Kind::covers, {}, {}});
    } else if (reason.code == "stiffening") {
      once({Hindrance::Kind::striking, {}, task.of});
    } else if (reason.code == "wait") {
      const works::Task* from = t_.list.find(reason.by);
      for (const works::Link& link : t_.list.links) {
        if (from != nullptr && link.from == reason.by && link.to == task.name &&
            link.wait != works::Wait::none)
          once({Hindrance::Kind::wait, {}, from->of, link.wait});
      }
    } else if (reason.code == "delivery") {
      once({Hindrance::Kind::delivery, {}, {}});
    }
  }

  [[nodiscard]] std::optional<base::Instant> start_in(const Plan& plan) const {
    const works::Name& name = t_.list.tasks[task_].name;
    for (const PlannedTask& task : plan.tasks) {
      if (task.task == name && task.placed()) return task.start();
    }
    return {};
  }

  void lift() {
    if (t_.plan.tasks[task_].placed() && t_.plan.tasks[task_].start() < t_.now) return;
    std::erase_if(held_, [](const auto& one) { return one.time < worth_it; });
    std::stable_sort(held_.begin(), held_.end(),
                     [](const auto& a, const auto& b) { return a.time > b.time; });
    if (held_.size() > most_facts && t_.plan.tasks[task_].placed()) held_.resize(most_facts);
    if (held_.empty()) return;
    // Beside a search as long with nothing lifted, so that the luck of a search is no gain.
    std::vector<Plan> plans(1 + held_.size());
    t_.lanes.each(plans.size(), [&](std::size_t k, std::size_t) {
      std::vector<Hindrance> without;
      if (k > 0) without.push_back(held_[k - 1].hindrance);
      plans[k] = plan_without(t_, without, quick_look).plan;
    });
    const Plan& same = plans.front();
    const std::optional<base::Instant> was = start_in(same);
    for (std::size_t k = 0; k < held_.size(); ++k) {
      const Plan& plan = plans[k + 1];
      const std::optional<base::Instant> is = start_in(plan);
      Lifted lifted{held_[k].hindrance, {}, {}};
      if (was && is) lifted.sooner = *was - *is;
      if (same.home && plan.home) lifted.home_sooner = *same.home - *plan.home;
      lifted.had_place = was.has_value();
      if (!was) lifted.found = is;
      out_.lifted.push_back(lifted);
    }
    const auto gain = [](const Lifted& one) {
      return one.found ? seconds::max() : one.sooner.value_or(seconds(0));
    };
    std::stable_sort(out_.lifted.begin(), out_.lifted.end(), [&](const Lifted& a, const Lifted& b) {
      return a.gains() != b.gains() ? a.gains() : gain(a) > gain(b);
    });
  }

  struct HeldBy {
    Hindrance hindrance;
    seconds time{0};
  };
  const TripCase& t_;
  std::size_t task_;
  std::vector<HeldBy> held_;
  Why out_;
};

}  // namespace

bool Lifted::gains() const {
  if (!had_place) return found.has_value();
  return sooner.value_or(seconds(0)) >= worth_it || home_sooner.value_or(seconds(0)) >= worth_it;
}

Why why_of(const TripCase& trip, std::size_t task) {
  return Asking(trip, task).run();
}

}  // namespace weatherstruck::programme
