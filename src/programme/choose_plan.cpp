#include "weatherstruck/programme/choose_plan.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

#include "plan_genes.h"
#include "weatherstruck/programme/follow.h"

namespace weatherstruck::programme {
namespace {

using engine::Tick;

// Assumptions and settings of the search, no source, all of them.
constexpr int worth_another = 100;  // a smaller budget is a quick look, and stays one
constexpr std::uint64_t most_again = 6;
constexpr std::uint64_t again_for_work = 4;
constexpr std::uint64_t others = 10;  // short searches from elsewhere, for plans that differ
constexpr int share_of_another = 10;  // of the budget, for each of them
constexpr int least_for_another = 50;
constexpr int first_heat = 8;             // weathers that all run through
constexpr int final_heat = 16;            // and those that are left
constexpr int duel = 32;                  // yesterday's against the surest, in weathers new to both
constexpr std::size_t in_the_final = 4;   // so many, and the plan of yesterday
constexpr Tick moved_by = 6;              // ticks: less is no move
constexpr double most_points = 10;        // of chance, which any change is worth
constexpr Tick sooner_for_an_upset = 3;   // ticks that he must be home sooner for one near move
constexpr double appointment_weight = 3;  // others wait for it
constexpr std::uint64_t other_stream = 100;

struct Runner {
  engine::ListPlan plan;
  bool old = false;  // yesterday's order
  int good = 0;      // weathers
};

// What the forecast's own plan is first judged by. Where it is equal, the chance speaks.
auto work_done(const engine::Value& value) {
  return std::tuple(value.must_unplaced, value.must_late, value.should_unplaced, value.may_unplaced);
}

class Chooser {
 public:
  Chooser(const PlanRequest& request, const Programme& programme)
      : r_(request), programme_(programme), options_{request.schedules, request.seed, 0, {}} {
    if (r_.followed != nullptr) options_.yesterday = genes_of(*r_.followed, programme, -1);
  }

  engine::ListPlan choose() {
    if (r_.weathers == 0 || r_.schedules < worth_another) return by_the_forecast(r_.lanes.count());
    engine::ListPlan best = under_way() ? by_the_forecast(r_.lanes.count()) : look_about();
    if (!promise_is_kept(best)) return best;
    const int made = best.schedules;
    entered_.push_back({std::move(best), false});
    enter_yesterdays();
    enter_others();
    heat(0, first_heat);
    leave_the_best();
    heat(first_heat, final_heat);
    engine::ListPlan winner = std::move(entered_[winner_of_all()].plan);
    winner.schedules = made + made_;
    return winner;
  }

 private:
  // Where a trip is under way, plans from elsewhere were no surer over 24 seeds: they are left out.
  [[nodiscard]] bool under_way() const {
    const auto& tasks = programme_.network.tasks;
    return std::any_of(tasks.begin(), tasks.end(),
                       [](const engine::Task& task) { return !task.history.runs.empty(); });
  }
  static bool promise_is_kept(const engine::ListPlan& plan) {
    return plan.best.value.must_unplaced == 0 && plan.best.value.must_late == 0;
  }

  // By the forecast, and from elsewhere where that keeps the promise. One lane knows that before it looks
  // elsewhere; where there are more, they look meanwhile.
  engine::ListPlan look_about() {
    engine::ListPlan best;
    std::vector<engine::ListPlan> found(others);
    const bool meanwhile = r_.lanes.count() > 1;
    r_.lanes.each(1 + others, [&](std::size_t piece, std::size_t) {
      if (piece == 0) {
        best = by_the_forecast(1);
      } else if (meanwhile || promise_is_kept(best)) {
        found[piece - 1] = from_elsewhere(other_stream + piece - 1,
                                          std::max(least_for_another, r_.schedules / share_of_another));
      }
    });
    if (promise_is_kept(best)) others_ = std::move(found);
    return best;
  }

  // A walk can end in a rut hours from a plan that keeps the promise; another beginning often does not. Where
  // the promise is at stake it is worth many.
  engine::ListPlan by_the_forecast(std::size_t free_lanes) {
    // With more than one lane other beginnings are tried before it is known whether they are wanted: as many
    // at a time as there are lanes, of which those count that would have been tried one after the other.
    std::vector<engine::ListPlan> ahead;
    const auto look_ahead = [&] {
      const std::size_t first = ahead.size();
      const std::size_t most = r_.schedules < worth_another ? 1 : 1 + most_again;
      ahead.resize(std::min(first + free_lanes, most));
      r_.lanes.each(ahead.size() - first, [&](std::size_t k, std::size_t) {
        ahead[first + k] = first + k == 0 ? engine::plan_by_list(programme_.network, options_)
                                          : from_elsewhere(first + k, r_.schedules / 2);
      });
    };
    look_ahead();
    engine::ListPlan listed = std::move(ahead.front());
    const auto in_trouble = [&](std::uint64_t again) {
      if (listed.best.value.must_unplaced > 0 || listed.best.value.must_late > 0) return again <= most_again;
      return again <= again_for_work && loses_work(listed.best.schedule);
    };
    for (std::uint64_t again = 1; in_trouble(again) && r_.schedules >= worth_another; ++again) {
      if (again == ahead.size()) look_ahead();
      engine::ListPlan& other = ahead[again];
      const int made = listed.schedules + other.schedules;
      if (other.best.value < listed.best.value) listed = std::move(other);
      listed.schedules = made;
    }
    return listed;
  }

  [[nodiscard]] engine::ListPlan from_elsewhere(std::uint64_t again, int schedules) const {
    engine::ListOptions options = options_;
    options.seed = r_.seed + (again << 32U);
    options.beginning = static_cast<int>(again);
    options.schedules = schedules;
    return engine::plan_by_list(programme_.network, options);
  }

  // Whether work that ought to be done had its place in the plan of before and has none in this one.
  [[nodiscard]] bool loses_work(const engine::Schedule& schedule) const {
    if (r_.followed == nullptr || r_.followed->tasks.size() != r_.list.tasks.size()) return false;
    for (std::size_t i = 0; i < r_.list.tasks.size(); ++i) {
      if (r_.list.tasks[i].importance == works::Importance::should && r_.followed->tasks[i].placed() &&
          schedule.tasks[i].present && !schedule.tasks[i].placed())
        return true;
    }
    return false;
  }

  void enter(engine::ListPlan plan, bool old) {
    const auto mine = work_done(plan.best.value);
    const auto best = work_done(entered_.front().plan.best.value);
    if (mine > best) return;
    if (mine < best) entered_.clear();
    const bool known = std::any_of(entered_.begin(), entered_.end(), [&](const Runner& runner) {
      return runner.plan.best.schedule == plan.best.schedule;
    });
    if (!known || old) entered_.push_back({std::move(plan), old});
  }

  void enter_yesterdays() {
    if (options_.yesterday.order.size() != r_.list.tasks.size()) return;
    engine::Decoded decoded = engine::decode(programme_.network, options_.yesterday);
    ++made_;
    if (decoded.missed_link >= 0) return;
    enter({std::move(decoded), options_.yesterday, 1}, true);
  }

  void enter_others() {
    for (engine::ListPlan& other : others_) {
      made_ += other.schedules;
      enter(std::move(other), false);
    }
  }

  [[nodiscard]] std::vector<int> run_through(const std::vector<engine::Genes>& runners, int first,
                                             int weathers) const {
    return race({r_.job, r_.list, r_.weather, r_.limits, r_.now, programme_, r_.seed, r_.lanes}, runners,
                first, weathers);
  }

  void heat(int first, int weathers) {
    if (entered_.size() < 2) return;
    std::vector<engine::Genes> runners;
    for (const Runner& runner : entered_)
      runners.push_back(settled(runner.plan));
    const std::vector<int> good = run_through(runners, first, weathers);
    for (std::size_t i = 0; i < entered_.size(); ++i)
      entered_[i].good += good[i];
  }

  static bool surer(const Runner& a, const Runner& b) {
    return a.good != b.good ? a.good > b.good : a.plan.best.value < b.plan.best.value;
  }

  void leave_the_best() {
    std::stable_sort(entered_.begin(), entered_.end(), surer);
    std::size_t left = 0;
    for (std::size_t i = 0; i < entered_.size(); ++i) {
      if (i >= in_the_final && !entered_[i].old) continue;
      if (left != i) entered_[left] = std::move(entered_[i]);
      ++left;
    }
    entered_.resize(left);
  }

  // The one that came out best of many was lucky, too: against yesterday's it has to show it again.
  std::size_t winner_of_all() {
    const auto best = std::min_element(entered_.begin(), entered_.end(), surer);
    const auto old = std::find_if(entered_.begin(), entered_.end(), [](const Runner& r) { return r.old; });
    if (old == entered_.end() || old == best) return static_cast<std::size_t>(best - entered_.begin());
    const std::vector<int> good =
        run_through({settled(old->plan), settled(best->plan)}, first_heat + final_heat, duel);
    const double points = 100.0 * (good[1] - good[0]) / duel;
    const auto& winner = worth_the_upset(*old, *best, points) ? best : old;
    return static_cast<std::size_t>(winner - entered_.begin());
  }

  [[nodiscard]] bool worth_the_upset(const Runner& old, const Runner& other, double points) const {
    const double moves = upset(old.plan.best.schedule, other.plan.best.schedule);
    if (points > std::min(moves, most_points)) return true;
    const auto sooner = static_cast<double>(old.plan.best.value.finish - other.plan.best.value.finish);
    return points >= 0 && sooner > moves * sooner_for_an_upset;
  }

  // Where what is left of a task begins; never, if nothing is left or it has no place.
  [[nodiscard]] Tick still_to_come(std::size_t task, const engine::Schedule& schedule) const {
    const std::vector<engine::Run>& runs = schedule.tasks[task].runs;
    const std::size_t past = programme_.network.tasks[task].history.runs.size();
    return schedule.tasks[task].present && runs.size() > past ? runs[past].start : engine::never;
  }

  // What a change costs him and others who have been told: near moves weigh most, appointments more.
  [[nodiscard]] double upset(const engine::Schedule& before, const engine::Schedule& after) const {
    double sum = 0;
    for (std::size_t i = 0; i < r_.list.tasks.size(); ++i) {
      const Tick was = still_to_come(i, before);
      const Tick is = still_to_come(i, after);
      const Tick first = std::min(was, is);
      if (first == engine::never) continue;
      const bool other_way = before.tasks[i].way != after.tasks[i].way;
      if (!other_way && was != engine::never && is != engine::never && std::abs(was - is) < moved_by)
        continue;
      const auto ahead = programme_.table.at_tick(first) - r_.now;
      const double near = ahead < std::chrono::hours(24) ? 1 : ahead < std::chrono::hours(48) ? 0.5 : 0.25;
      const bool appointment = r_.list.tasks[i].operation == trade::Operation::fetch;
      sum += near * (appointment ? appointment_weight : 1);
    }
    return sum;
  }

  const PlanRequest& r_;
  const Programme& programme_;
  engine::ListOptions options_;
  std::vector<engine::ListPlan> others_;  // from elsewhere, where they were looked for
  std::vector<Runner> entered_;
  int made_ = 0;
};

}  // namespace

engine::Genes settled(const engine::ListPlan& plan) {
  engine::Genes genes = plan.genes;
  for (std::size_t i = 0; i < genes.way.size(); ++i) {
    if (plan.best.schedule.tasks[i].placed()) genes.way[i] = plan.best.schedule.tasks[i].way;
  }
  return genes;
}

engine::ListPlan choose_plan(const PlanRequest& request, const Programme& programme) {
  return Chooser(request, programme).choose();
}

}  // namespace weatherstruck::programme
