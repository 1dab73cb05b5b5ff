#include "backtest_trip.h"

#include <algorithm>
#include <cstdio>
#include <utility>

#include <fmt/format.h>

#include "backtest_rule.h"
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/programme/damage.h"
#include "weatherstruck/programme/follow.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/possible_trips.h"
#include "weatherstruck/programme/read_back.h"
#include "weatherstruck/programme/site_check.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::bench {
namespace {

using namespace programme;
using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;

/// Of his pace; beyond the numbers of every outlook and below those of every race.
constexpr int pace_of_the_trip = 500'000;
constexpr hours planned_again{6};    // by the site's clock
constexpr hours known_before{48};    // the ground and the strips begin with it
constexpr hours beyond_promise{96};  // the tables end within it
constexpr minutes no_move{30};       // as moves.h has it

works::Job at_the_station(const TripWorld& world, const TripAsked& asked) {
  works::Job job = world.jobs.at(asked.job);
  job.site.latitude = station_pairs.at(asked.pair).latitude;
  job.site.longitude = station_pairs.at(asked.pair).longitude;
  const base::Zone& zone = job.trip.home_zone;
  const auto shift = asked.leaves - zone.day_of(job.trip.leave_home);
  job.trip.leave_home = zone.to_instant_earliest(zone.to_local(job.trip.leave_home) + shift);
  job.trip.home_by = zone.to_instant_earliest(zone.to_local(job.trip.home_by) + shift);
  return job;
}

engine::ListPlan with(engine::Schedule schedule, const engine::Genes& genes) {
  engine::ListPlan listed;
  listed.best.why.resize(schedule.tasks.size());
  listed.best.schedule = std::move(schedule);
  listed.genes = genes;
  return listed;
}

class Trip {
 public:
  Trip(const TripWorld& world, const TripAsked& asked, const TripSettings& settings)
      : asked_(asked),
        settings_(settings),
        job_(at_the_station(world, asked)),
        list_(works::derive_tasks(job_)),
        truth_(*world.stations.at(asked.pair)[0]),
        neighbour_(*world.stations.at(asked.pair)[1]),
        hours_{std::chrono::floor<hours>(job_.trip.leave_home) - known_before,
               std::chrono::ceil<hours>(job_.trip.home_by) + beyond_promise},
        came_(as_observed(truth_, hours_)),
        seed_(static_cast<std::uint64_t>(asked.number) + 1) {
    std::vector<trade::LimitSetting> own;
    for (const works::LimitOverride& o : job_.limits.overrides)
      own.push_back({o.key, o.value});
    limits_ = trade::limits_for(job_.limits.set, job_.limits.cold_rule, own).values;
    const std::chrono::year_month_day leaves(asked.leaves);
    const auto year = static_cast<int>(leaves.year());
    if (!world.places.empty()) place_ = world.places.at(asked.pair).at(year);
    years_on_ = another_year(year, world.first_year, world.last_year, seed_) - year;
  }

  TripSeen go() {
    seen_.asked = asked_;
    const Instant now = job_.trip.leave_home;
    const sky::Series forecast = forecast_at(now);
    const PlanRequest request = request_for(forecast, now, nullptr);
    const Programme programme = build_programme(job_, list_, forecast, limits_, now);
    const engine::ListPlan listed = choose_plan(request, programme);
    const auto& value = listed.best.value;
    seen_.kept = value.must_unplaced == 0 && value.must_late == 0;
    as_made(forecast, programme, listed);
    rule_of_thumb(programme);
    if (settings_.again) each_morning(request, programme, listed);
    return seen_;
  }

 private:
  [[nodiscard]] sky::Series forecast_at(Instant now) const {
    return forecast_of({truth_, neighbour_, place_, std::chrono::floor<hours>(now), years_on_, seed_},
                       hours_);
  }
  [[nodiscard]] PlanRequest request_for(const sky::Series& forecast, Instant now,
                                        const Plan* followed) const {
    PlanRequest request{job_, list_, forecast, limits_, now, followed};
    request.schedules = settings_.schedules;
    request.weathers = settings_.weathers;
    request.seed = seed_;
    return request;
  }

  void as_made(const sky::Series& forecast, const Programme& programme, const engine::ListPlan& listed) {
    const PossibleRequest where{job_, list_, forecast, limits_, job_.trip.leave_home, programme, seed_};
    const engine::Genes genes = settled(listed);
    seen_.told = outlook_of({where, genes, listed.best.schedule, settings_.weathers}).chance();
    PossibleTrips trips(where);
    trips.put({came_, as_foreseen(truth_, neighbour_, place_, job_.trip.leave_home, hours_)},
              pace_of_the_trip);
    seen_.went_well = trips.ends_well(genes);
  }

  void rule_of_thumb(const Programme& programme) {
    SlotTable table = programme.table;
    put_weather(table, job_.site, came_);
    const std::vector<double> paces = draw_paces(list_, seed_, pace_of_the_trip);
    seen_.rule = judged(by_rule_of_thumb({job_, list_, limits_, table, paces}));
  }

  void each_morning(const PlanRequest& request, const Programme& first, const engine::ListPlan& chosen) {
    const base::Zone& zone = job_.site.zone;
    Instant now = job_.trip.leave_home;
    Plan followed;  // what was done until now, and what is still planned
    std::vector<PlannedCover> covers;
    std::vector<CanopySitting> canopy;
    Plan planned = read_back(request, first, with(chosen.best.schedule, chosen.genes));
    Plan done = followed_until(request, first, chosen, now);
    while (true) {
      Instant next = zone.to_instant_earliest(base::LocalTime(zone.day_of(now)) + planned_again);
      if (next <= now)
        next = zone.to_instant_earliest(base::LocalTime(zone.day_of(now) + std::chrono::days(1)) +
                                        planned_again);
      const bool over = done.home && *done.home <= next;
      const bool last = over || next >= job_.trip.home_by;
      keep_covers(done, now, last ? done.horizon_to : next, covers, canopy);
      if (last) break;
      followed = still_to_come(done, planned, next);
      now = next;
      const sky::Series forecast = forecast_at(now);
      const PlanRequest again = request_for(forecast, now, &followed);
      const Programme programme = build_programme(job_, list_, forecast, limits_, now, &followed);
      const engine::ListPlan listed = choose_plan(again, programme);
      Plan newer = read_back(again, programme, with(listed.best.schedule, listed.genes));
      ++seen_.replans;
      seen_.moves += moved(planned, newer, followed, now);
      planned = std::move(newer);
      done = followed_until(again, programme, listed, now);
    }
    done.covers = std::move(covers);
    done.canopy = std::move(canopy);
    seen_.again = judged(std::move(done));
  }

  /// What he does from now on in the weather that comes, going by this morning's forecast for the nights.
  [[nodiscard]] Plan followed_until(const PlanRequest& request, const Programme& programme,
                                    const engine::ListPlan& listed, Instant now) const {
    PossibleTrips trips({job_, list_, request.weather, limits_, now, programme, seed_});
    trips.put({came_, request.weather}, pace_of_the_trip);
    const engine::Genes genes = settled(listed);
    return read_back(request, trips.comes(), with(trips.done(genes), genes));
  }

  static void keep_covers(const Plan& done, Instant from, Instant to, std::vector<PlannedCover>& covers,
                          std::vector<CanopySitting>& canopy) {
    for (PlannedCover cover : done.covers) {
      cover.span = {std::max(cover.span.from, from), std::min(cover.span.to, to)};
      if (cover.span.from < cover.span.to) covers.push_back(cover);
    }
    for (CanopySitting sitting : done.canopy) {
      sitting.over = {std::max(sitting.over.from, from), std::min(sitting.over.to, to)};
      sitting.pitch_from = std::max(sitting.pitch_from, from);
      sitting.struck_by = std::min(sitting.struck_by, to);
      if (sitting.over.from < sitting.over.to) canopy.push_back(sitting);
    }
  }

  /// For the next plan: what was begun as it went, the rest as it was planned, so that nothing of what comes
  /// after is known.
  static Plan still_to_come(const Plan& done, const Plan& planned, Instant next) {
    Plan plan = done;
    for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
      if (done.tasks[i].placed() && done.tasks[i].start() < next) {
        plan.tasks[i].turn = planned.tasks[i].turn;
        plan.tasks[i].held_until = planned.tasks[i].held_until;
        continue;
      }
      plan.tasks[i] = planned.tasks[i];
      auto& runs = plan.tasks[i].runs;
      if (runs.empty() || runs.front().span.from >= next) continue;
      const auto later = next - runs.front().span.from;
      for (PlannedRun& run : runs)
        run.span = {run.span.from + later, run.span.to + later};
    }
    return plan;
  }

  /// Work not begun that the newer plan has at another time, in another way, or not any more.
  static int moved(const Plan& before, const Plan& after, const Plan& followed, Instant now) {
    int count = 0;
    for (std::size_t i = 0; i < after.tasks.size(); ++i) {
      const PlannedTask& was = before.tasks[i];
      const PlannedTask& is = after.tasks[i];
      if (followed.tasks[i].placed() && followed.tasks[i].start() < now) continue;
      if (!was.placed() && !is.placed()) continue;
      const bool same = was.placed() && is.placed() && was.way == is.way &&
                        is.start() - was.start() <= no_move && was.start() - is.start() <= no_move;
      count += same ? 0 : 1;
    }
    return count;
  }

  [[nodiscard]] Came judged(Plan done) const {
    Came came;
    came.home = done.home && *done.home <= job_.trip.home_by && done.all_musts_placed(list_);
    const Instant back = came.home ? *done.home : job_.trip.home_by;
    const base::Zone& zone = job_.trip.home_zone;
    came.days = static_cast<int>((zone.day_of(back) - zone.day_of(job_.trip.leave_home)).count()) + 1;
    // What was to be done after the promise is not looked at.
    for (PlannedTask& task : done.tasks) {
      const auto late = [&](const PlannedRun& run) { return run.span.from >= job_.trip.home_by; };
      task.runs.erase(std::remove_if(task.runs.begin(), task.runs.end(), late), task.runs.end());
      for (const PlannedRun& run : task.runs) {
        const std::chrono::duration<double, std::ratio<3600>> lit = run.span.to - run.span.from;
        came.lit_hours += run.floodlit ? lit.count() : 0;
      }
    }
    NightRequest night{job_, list_, came_, limits_, came_.end_time()};
    night.since = job_.trip.leave_home;
    for (const Verdict& verdict : judge_night(night, done)) {
      came.make_good += verdict.finding == Finding::make_good ? 1 : 0;
      came.inspect += verdict.finding == Finding::inspect ? 1 : 0;
    }
    // Nothing shows on the night when a wait is cut short: the verdicts do not see it.
    for (const Objection& objection : check_on_site(job_, list_, came_, limits_, done))
      came.hurried += objection.code == "wait" ? 1 : 0;
    return came;
  }

  TripAsked asked_;
  TripSettings settings_;
  works::Job job_;
  works::TaskList list_;
  trade::LimitValues limits_;
  const History& truth_;
  const History& neighbour_;
  PlaceDifference place_ = PlaceDifference::none();
  Stretch hours_;
  sky::Series came_;
  std::uint64_t seed_;
  int years_on_ = 0;
  TripSeen seen_;
};

std::string columns_of(const Came& came) {
  return fmt::format("{},{},{},{},{:.2f},{}", came.home ? 1 : 0, came.make_good, came.inspect, came.days,
                     came.lit_hours, came.hurried);
}

}  // namespace

TripSeen send(const TripWorld& world, const TripAsked& asked, const TripSettings& settings) {
  return Trip(world, asked, settings).go();
}

std::string trip_header() {
  return "number,job,pair,leaves,told,kept,went_well,rule_home,rule_make_good,rule_inspect,rule_days,"
         "rule_lit_hours,rule_hurried,replanned,home,make_good,inspect,days,lit_hours,hurried,replans,moves,"
         "end";
}

std::string to_line(const TripSeen& seen) {
  const std::chrono::year_month_day day(seen.asked.leaves);
  return fmt::format("{},{},{},{}-{:02}-{:02},{:.4f},{},{},{},{},{},{},{},.", seen.asked.number,
                     seen.asked.job, seen.asked.pair, static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()), seen.told,
                     seen.kept ? 1 : 0, seen.went_well ? 1 : 0, columns_of(seen.rule), seen.again ? 1 : 0,
                     columns_of(seen.again.value_or(Came())), seen.replans, seen.moves);
}

std::optional<TripSeen> from_line(const std::string& line) {
  TripSeen seen;
  Came again;
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int kept = 0, well = 0, rule_home = 0, replanned = 0, home = 0;
  char end = 0;
  const int read = std::sscanf(
      line.c_str(), "%d,%zu,%zu,%d-%u-%u,%lf,%d,%d,%d,%d,%d,%d,%lf,%d,%d,%d,%d,%d,%d,%lf,%d,%d,%d,%c",
      &seen.asked.number, &seen.asked.job, &seen.asked.pair, &year, &month, &day, &seen.told, &kept, &well,
      &rule_home, &seen.rule.make_good, &seen.rule.inspect, &seen.rule.days, &seen.rule.lit_hours,
      &seen.rule.hurried, &replanned, &home, &again.make_good, &again.inspect, &again.days, &again.lit_hours,
      &again.hurried, &seen.replans, &seen.moves, &end);
  constexpr int columns = 25;
  if (read != columns || end != '.') return std::nullopt;
  seen.asked.leaves =
      std::chrono::local_days(std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day));
  seen.kept = kept != 0;
  seen.went_well = well != 0;
  seen.rule.home = rule_home != 0;
  again.home = home != 0;
  if (replanned != 0) seen.again = again;
  return seen;
}

}  // namespace weatherstruck::bench
