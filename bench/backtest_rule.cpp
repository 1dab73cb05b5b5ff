#include "backtest_rule.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>
#include <utility>

#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/weather_pace.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::bench {
namespace {

using base::Instant;
using programme::kTick;
using programme::Slot;
using trade::CoverKind;
using FreshKind = works::FreshWork::Kind;

// His rules; common practice, no source.
constexpr double raining = 0.3;       // mm in the hour
constexpr base::Celsius too_cold{3};  // for mortar and concrete
constexpr base::Celsius chilly{5};    // then hessian goes under the sheet
constexpr std::chrono::hours after_a_pour{24};
constexpr std::chrono::hours fresh_for{72};  // as long as he has covers for it
constexpr double hours_of_a_tick = 1.0 / 12;

struct State {
  bool present = true;
  double left = 0;    // hours of his
  double whole = 0;   // likewise
  double set_up = 0;  // still to do before it goes on
  std::optional<Instant> done;
  std::vector<programme::PlannedRun> runs;
};

/// Concrete or the work above it, of one part.
struct Piece {
  works::Name part;
  bool concrete = false;
  friend bool operator<(const Piece& a, const Piece& b) {
    return a.part != b.part ? a.part < b.part : a.concrete < b.concrete;
  }
};
struct Lying {
  base::SquareMetres area;
  Instant last;  // worked on
  std::optional<std::size_t> cover;
};

class Mason {
 public:
  explicit Mason(const RuleOfThumb& asked) : a_(asked), states_(asked.list.tasks.size()) {
    if (a_.job.crew.size() != 1) throw std::invalid_argument("the rule of thumb is for one man");
    for (std::size_t i = 0; i < states_.size(); ++i) {
      const works::Task& task = a_.list.tasks[i];
      State& state = states_[i];
      // He takes the usual way, the first.
      if (task.only_if) {
        const works::Task* of = a_.list.find(task.only_if->task);
        state.present = of != nullptr && !of->ways.empty() && of->ways.front().key == task.only_if->way;
      }
      const double hours = task.ways.empty() ? task.hours.value() : task.ways.front().hours.value();
      state.whole = state.left = std::max(hours * a_.paces[i], 1e-6) / a_.job.crew.front().pace;
    }
  }

  programme::Plan work() {
    plan_.horizon_from = a_.came.begin_time();
    plan_.horizon_to = a_.came.end_time();
    drive_out();
    for (Instant now = arrival(); now < a_.came.end_time() && !all_done(); now += kTick)
      tick(now);
    if (all_done()) drive_home();
    read();
    return std::move(plan_);
  }

 private:
  [[nodiscard]] const works::Task& task(std::size_t i) const { return a_.list.tasks[i]; }
  [[nodiscard]] static bool is_drive(const works::Task& task) {
    return task.operation == trade::Operation::drive;
  }
  [[nodiscard]] const Slot& slot(Instant now) const {
    return a_.came.slots[static_cast<std::size_t>(a_.came.tick_down(now) / programme::kTicksPerSlot)];
  }
  [[nodiscard]] std::chrono::seconds drive(base::Hours wheel) const {
    const double hours = programme::drive_with_rests(wheel, a_.limits).value();
    return std::chrono::ceil<std::chrono::minutes>(std::chrono::duration<double, std::ratio<3600>>(hours));
  }
  [[nodiscard]] Instant arrival() const {
    const auto tick = a_.came.tick_up(a_.job.trip.leave_home + drive(a_.job.trip.drive_out));
    return a_.came.at_tick(tick);
  }
  [[nodiscard]] bool all_done() const {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (states_[i].present && !is_drive(task(i)) && !states_[i].done) return false;
    }
    return true;
  }

  void drive_out() {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (!is_drive(task(i))) continue;
      put_run(i, a_.job.trip.leave_home, arrival(), 1);
      states_[i].done = arrival();
      return;
    }
  }
  void drive_home() {
    Instant left = arrival();
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (states_[i].done) left = std::max(left, *states_[i].done);
    }
    put_covers_on(left);
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (!is_drive(task(i)) || states_[i].done) continue;
      const Instant home = left + drive(a_.job.trip.drive_back);
      put_run(i, left, home, 1);
      states_[i].done = home;
      plan_.leaves_site = left;
      plan_.home = home;
      plan_.in_hand = a_.job.trip.home_by - home;
    }
  }

  void put_run(std::size_t i, Instant from, Instant to, double share) {
    auto& runs = states_[i].runs;
    if (!runs.empty() && runs.back().span.to == from) {
      runs.back().span.to = to;
      runs.back().share += share;
    } else {
      runs.push_back({{from, to}, share});
    }
  }

  [[nodiscard]] bool may_make_noise(const Slot& at) const {
    const works::NoisyHours& noisy = a_.job.site.noisy;
    const auto& spans = at.weekday == std::chrono::Sunday     ? noisy.sunday
                        : at.weekday == std::chrono::Saturday ? noisy.saturday
                                                              : noisy.monday_to_friday;
    return std::any_of(spans.begin(), spans.end(), [&](const works::DaySpan& span) {
      return span.from <= at.clock && at.clock < span.to;
    });
  }
  [[nodiscard]] bool in_his_day(const Slot& at) const {
    return at.clock >= a_.job.trip.working_day.from && at.clock < a_.job.trip.working_day.to &&
           worked_today_ < a_.job.trip.longest_day.value() - 1e-9;
  }
  [[nodiscard]] bool goes_now(std::size_t i, const Slot& at) const {
    const trade::OperationRow& row = trade::row_for(task(i).operation);
    if (task(i).outdoors && at.rain.value() >= raining) return false;
    if (task(i).fresh && at.air < too_cold) return false;
    if (task(i).noisy && !may_make_noise(at)) return false;
    return row.pace(at.light) > 0;
  }
  /// The same light, cold, mud and long days slow him as slow the plan.
  [[nodiscard]] double pace_in(std::size_t i, const Slot& at) const {
    namespace limit = trade::limit;
    const trade::OperationRow& row = trade::row_for(task(i).operation);
    const std::chrono::duration<double, std::ratio<3600>> since = at.clock - a_.job.trip.working_day.from;
    const bool tired = !row.at_the_wheel() && since.count() >= a_.limits.at(limit::pace_long_day_from);
    return row.pace(at.light) * programme::weather_pace(row, a_.limits, at) *
           (tired ? a_.limits.at(limit::pace_long_day) : 1);
  }
  /// What may not be left half done is not begun where the day is too short for it.
  [[nodiscard]] bool fits_in_the_day(std::size_t i, Instant now) const {
    if (trade::row_for(task(i).operation).pausing != trade::Pausing::never) return true;
    double hours = states_[i].left + states_[i].set_up;
    double worked = worked_today_;
    const int today = slot(now).day;
    for (Instant t = now; t < a_.came.end_time() && hours > 0; t += kTick) {
      const Slot& at = slot(t);
      if (at.day != today || at.clock >= a_.job.trip.working_day.to ||
          worked >= a_.job.trip.longest_day.value() || (task(i).noisy && !may_make_noise(at)))
        return false;
      const double pace = pace_in(i, at);
      if (pace <= 0) return false;
      hours -= pace * hours_of_a_tick;
      worked += hours_of_a_tick;
    }
    return hours <= 0;
  }

  [[nodiscard]] bool waited(const works::Link& link, Instant done, Instant now) const {
    switch (link.wait) {
      case works::Wait::none:
        return true;
      case works::Wait::concrete_to_lay:
      case works::Wait::concrete_to_lay_box:
      case works::Wait::concrete_to_lay_high:
        return now >= done + after_a_pour;
      case works::Wait::hours:
        return now >= done + std::chrono::seconds(std::llround(link.hours.value() * 3600));
      default:
        return a_.job.site.zone.day_of(now) > a_.job.site.zone.day_of(done);  // the next day
    }
  }
  [[nodiscard]] bool is_ready(std::size_t i, Instant now) const {
    return std::all_of(a_.list.links.begin(), a_.list.links.end(), [&](const works::Link& link) {
      if (link.to != task(i).name) return true;
      const auto from = static_cast<std::size_t>(a_.list.find(link.from) - a_.list.tasks.data());
      const State& before = states_[from];
      if (!before.present) return true;
      if (link.kind == works::Link::Kind::start_start)
        return !before.runs.empty() && waited(link, before.runs.front().span.from, now);
      return before.done && waited(link, *before.done, now);
    });
  }

  /// What he was at, else the first of the list that can be gone on with.
  [[nodiscard]] std::optional<std::size_t> what_now(Instant now) const {
    const Slot& at = slot(now);
    if (!in_his_day(at)) return std::nullopt;
    if (at_ && !states_[*at_].done && goes_now(*at_, at)) return at_;
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (!states_[i].present || states_[i].done || is_drive(task(i))) continue;
      const bool begun = !states_[i].runs.empty();
      if (goes_now(i, at) && is_ready(i, now) && (begun || fits_in_the_day(i, now))) return i;
    }
    return std::nullopt;
  }

  void tick(Instant now) {
    const Slot& at = slot(now);
    if (at.day != today_) {
      today_ = at.day;
      worked_today_ = 0;
    }
    const bool shelters = !in_his_day(at) || at.rain.value() >= raining;
    if (shelters && !covered_) put_covers_on(now);
    if (!shelters && covered_) take_covers_off(now);
    const std::optional<std::size_t> next = what_now(now);
    if (!next) {
      at_.reset();
      return;
    }
    if (covering_ > 0) {  // covers come off, or go on, before he works on
      covering_ -= hours_of_a_tick;
      worked_today_ += hours_of_a_tick;
      return;
    }
    State& state = states_[*next];
    if (at_ != next) state.set_up = task(*next).set_up.value();
    at_ = next;
    worked_today_ += hours_of_a_tick;
    double does = pace_in(*next, at) * hours_of_a_tick;
    const double sets_up = std::min(state.set_up, does);
    state.set_up -= sets_up;
    does = std::min(does - sets_up, state.left);
    state.left -= does;
    const bool done = state.left <= 1e-9;
    put_run(*next, now, now + kTick, does / state.whole);
    if (done) {
      state.done = now + kTick;
      at_.reset();
    }
    if (task(*next).fresh) {
      const Piece piece{task(*next).part, task(*next).fresh->kind == FreshKind::concrete};
      Lying& lying = lying_[piece];
      lying.area = std::max(lying.area, task(*next).fresh->cover);
      lying.last = now + kTick;
    }
  }

  static double hours_of_cover(CoverKind kind, base::SquareMetres area, bool on) {
    const trade::CoverRow& row = trade::row_for(kind);
    const double minutes = (on ? row.minutes_on_per_m2 : row.minutes_off_per_m2) * area.value();
    return std::max(row.least_minutes, minutes) / 60;
  }

  /// The newest first, as far as they go.
  void put_covers_on(Instant now) {
    covered_ = true;
    std::vector<std::pair<Instant, Piece>> newest;
    for (const auto& [piece, lying] : lying_) {
      if (now - lying.last < fresh_for) newest.emplace_back(lying.last, piece);
    }
    std::stable_sort(newest.begin(), newest.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    base::SquareMetres sheet = a_.job.kit.sheet;
    base::SquareMetres hessian = a_.job.kit.hessian;
    for (const auto& [last, piece] : newest) {
      Lying& lying = lying_[piece];
      const bool both = slot(now).air < chilly && sheet >= lying.area && hessian >= lying.area;
      CoverKind kind = CoverKind::bare;
      if (both) {
        kind = CoverKind::hessian_and_sheet;
      } else if (sheet >= lying.area) {
        kind = CoverKind::sheet;
      } else if (hessian >= lying.area) {
        kind = CoverKind::hessian;
      }
      if (kind == CoverKind::bare) continue;
      if (kind != CoverKind::hessian) sheet -= lying.area;
      if (kind != CoverKind::sheet) hessian -= lying.area;
      programme::PlannedCover cover;
      cover.part = piece.part;
      cover.concrete = piece.concrete;
      cover.kind = kind;
      cover.area = lying.area;
      cover.span = {now, a_.came.end_time()};
      lying.cover = plan_.covers.size();
      if (in_his_day(slot(now))) covering_ += hours_of_cover(kind, lying.area, true);
      plan_.covers.push_back(std::move(cover));
    }
  }
  void take_covers_off(Instant now) {
    covered_ = false;
    for (auto& [piece, lying] : lying_) {
      if (lying.cover) {
        programme::PlannedCover& cover = plan_.covers[*lying.cover];
        cover.span.to = now;
        covering_ += hours_of_cover(cover.kind, cover.area, false);
      }
      lying.cover.reset();
    }
  }

  void read() {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      programme::PlannedTask planned;
      planned.task = task(i).name;
      planned.present = states_[i].present;
      if (!task(i).ways.empty()) planned.way = task(i).ways.front().key;
      planned.runs = std::move(states_[i].runs);
      double so_far = 0;
      for (programme::PlannedRun& run : planned.runs) {
        so_far += run.share;
        double laid = 0;
        for (const double course : task(i).courses) {
          laid += course;
          if (laid <= so_far * task(i).amount + 1e-6) ++run.courses_after;
        }
        for (Instant t = run.span.from; t < run.span.to; t += kTick)
          run.floodlit = run.floodlit || (!is_drive(task(i)) && slot(t).light == trade::Light::floodlit);
      }
      if (planned.present && !states_[i].done) plan_.left_out.push_back(planned.task);
      plan_.tasks.push_back(std::move(planned));
    }
  }

  const RuleOfThumb& a_;
  std::vector<State> states_;
  std::map<Piece, Lying> lying_;
  programme::Plan plan_;
  std::optional<std::size_t> at_;
  int today_ = -1;
  double worked_today_ = 0;
  bool covered_ = false;
  double covering_ = 0;  // hours of it before he can work on
};

}  // namespace

programme::Plan by_rule_of_thumb(const RuleOfThumb& asked) {
  return Mason(asked).work();
}

}  // namespace weatherstruck::bench
