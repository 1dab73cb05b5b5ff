#pragma once
// What every part of the site checker looks at: the plan beside job and tasks, and the weather and light of
// any moment. Private to the checker.
#include <algorithm>
#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/matter/heat.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/sky/sun.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme::site {

inline constexpr std::chrono::minutes step{5};
inline constexpr std::chrono::minutes wait_tolerance{15};
inline constexpr double clearly = 0.3;  // kelvins

/// The air of one hour, nothing missing.
struct AirHour {
  base::Celsius temperature{10};
  base::Fraction humidity{1};
  base::MetresPerSecond wind{0};       ///< at 10 m
  base::MetresPerSecond near_wind{0};  ///< at the work
  base::MetresPerSecond gust{0};
  base::MillimetresPerHour rain{0};
  std::optional<base::Fraction> cloud;  ///< of this very hour; absent: clear, the coldest
  bool forecast = false;                ///< temperature, rain and wind or gust were given for this very hour
};

/// One placed or placeable task with what belongs to it.
struct Entry {
  const works::Task* task = nullptr;
  const PlannedTask* planned = nullptr;  ///< nullptr where the plan does not know it
  const trade::OperationRow* row = nullptr;
  [[nodiscard]] bool placed() const { return planned != nullptr && planned->placed(); }
  /// Told by the plan, and at least as many as the task wants.
  [[nodiscard]] int people() const {
    return std::max(task->people, planned == nullptr ? 1 : planned->people);
  }
  [[nodiscard]] bool drives() const { return task->operation == trade::Operation::drive; }
};

class View {
 public:
  View(const works::Job& the_job, const works::TaskList& the_list, const sky::Series& the_weather,
       const trade::LimitValues& the_limits, const Plan& the_plan);
  ~View() = default;
  View(const View&) = delete;
  View& operator=(const View&) = delete;
  View(View&&) = delete;
  View& operator=(View&&) = delete;

  [[nodiscard]] const works::Job& job() const { return job_; }
  [[nodiscard]] const works::TaskList& list() const { return list_; }
  [[nodiscard]] const Plan& plan() const { return plan_; }
  [[nodiscard]] const trade::LimitValues& limits() const { return limits_; }
  [[nodiscard]] double limit(std::string_view key) const { return limits_.at(key); }
  [[nodiscard]] const trade::CoverRow& cover(trade::CoverKind kind) const { return job_.covers.at(kind); }
  [[nodiscard]] const base::Zone& zone() const { return job_.site.zone; }

  /// Every task of the list, in its order.
  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  [[nodiscard]] const Entry* find(const works::Name& task) const;
  /// The drive that opens the list, and the last other one; nullptr where there is none.
  [[nodiscard]] const Entry* drive_out() const { return out_; }
  [[nodiscard]] const Entry* drive_back() const { return back_; }

  [[nodiscard]] bool has_weather() const { return has_weather_; }
  [[nodiscard]] bool has_wind() const { return has_wind_; }
  [[nodiscard]] const AirHour& air(base::Instant t) const;
  [[nodiscard]] trade::Light light(base::Instant t) const;  ///< day, twilight or dark; no lamps
  /// Temperature plainly going down (up) for three hours before and after: never against that, by a degree in
  /// all.
  [[nodiscard]] bool plainly_falling(base::Instant t) const;
  [[nodiscard]] bool plainly_rising(base::Instant t) const;
  /// Greatest temperature of the local day of t.
  [[nodiscard]] base::Celsius warmest_of_day(base::Instant t) const;

  /// A time of day of a local date as a moment.
  [[nodiscard]] base::Instant at(base::LocalDay day, std::chrono::minutes time_of_day) const;
  [[nodiscard]] std::string clock(base::Instant t) const;  ///< "Mon 9 Feb 08:15"
  /// The canopy stands over this part (as written) at t.
  [[nodiscard]] const CanopySitting* sitting_over(const works::Name& part, base::Instant t) const;
  /// Fresh work is watched to here: the end of what the plan covers, but never less than the trip.
  [[nodiscard]] base::Instant watched_until() const;
  [[nodiscard]] base::Instant begin_time() const { return begin_; }
  [[nodiscard]] base::Instant end_time() const { return end_; }

 private:
  void fill_air(const sky::Series& weather);
  void fill_light();
  const works::Job& job_;
  const works::TaskList& list_;
  const trade::LimitValues& limits_;
  const Plan& plan_;
  std::vector<Entry> entries_;
  const Entry* out_ = nullptr;
  const Entry* back_ = nullptr;
  base::Instant begin_;  // whole hours; all that the plan touches lies between
  base::Instant end_;
  std::vector<AirHour> hours_;
  bool has_weather_ = false;
  bool has_wind_ = false;
  std::vector<Span> sun_up_;
  std::vector<Span> civil_;
};

/// The moments from, from + 5 min, ... before `to`, each with how long it stands for; stops when told false.
void walk(Span span, const std::function<bool(base::Instant, base::Hours)>& look);

[[nodiscard]] inline double hours_between(base::Instant a, base::Instant b) {
  return static_cast<double>((b - a).count()) / 3600.0;
}
[[nodiscard]] inline bool overlap(const Span& a, const Span& b) {
  return a.from < b.to && b.from < a.to;
}

using Objections = std::vector<Objection>;
inline void object(Objections& to, std::string code, const works::Name& task, base::Instant at,
                   std::string text) {
  to.push_back({std::move(code), task, at, std::move(text)});
}

void check_runs(const View& view, Objections& out);
void check_people(const View& view, Objections& out);
void check_trip(const View& view, Objections& out);
void check_limits(const View& view, Objections& out);
void check_links(const View& view, Objections& out);
void check_canopy(const View& view, Objections& out);
void check_fresh(const View& view, Objections& out);
void check_covers(const View& view, Objections& out);
void check_stuff(const View& view, Objections& out);

[[nodiscard]] inline bool is_concrete(const works::Task& task) {
  return task.fresh && task.fresh->kind == works::FreshWork::Kind::concrete;
}
/// Somebody waits for the concrete of `strip` to set lines or bricks of `part` on it.
[[nodiscard]] bool stands_on(const View& view, const works::Name& part, const works::Name& strip);
/// Is a cover of this task's fresh work on at t, whatever the gust? nullptr: bare. The best of several; a
/// cover over brickwork also keeps the strip that it stands on.
[[nodiscard]] const PlannedCover* cover_on(const View& view, const works::Task& task, base::Instant t);

/// The best cover that is on at t and that no gust has taken; bare where there is none.
[[nodiscard]] trade::CoverKind holding_cover(const View& view, const works::Task& task, base::Instant t);
/// When the first bricks go on a strip; far in the future if none do.
[[nodiscard]] base::Instant walled_over(const View& view, const works::Task& strip);
/// From the finish of a pour on: until when a strip in its trench is watched for frost, its nights over or
/// bricks on it, whichever is first.
[[nodiscard]] base::Instant strip_watched_until(const View& view, const works::Task& strip,
                                                base::Instant poured);

/// A strip followed by the full balance of heat from its pour on, through the air of the view.
class StripBalance {
 public:
  StripBalance(const View& view, const matter::StripShape& shape, base::Instant poured);
  /// @param roofed a canopy stands over it: it sees no sky
  void step(base::Instant t, base::Hours dt, trade::CoverKind cover, bool roofed);
  [[nodiscard]] base::Celsius top() const { return heat_.top(); }

 private:
  const View& view_;
  matter::StripHeat heat_;
};

}  // namespace weatherstruck::programme::site
