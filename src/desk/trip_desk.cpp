#include "weatherstruck/desk/trip_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "budget.h"
#include "strip_shelf.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/desk/workers.h"
#include "weatherstruck/files/plan_json.h"
#include "weatherstruck/programme/done.h"
#include "weatherstruck/render/second_words.h"
#include "weatherstruck/render/site_error_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/basis.h"
#include "weatherstruck/sky/observed.h"
#include "weatherstruck/sky/site_error.h"
#include "weatherstruck/trade/cautions.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/standing.h"
#include "weatherstruck/works/van_list.h"

namespace weatherstruck::desk {
namespace {

// A forecast older than this is told: the services whose files are read issue several a day.
constexpr std::chrono::hours old_forecast{24};
constexpr std::size_t most_moves = 2;  ///< told on a sheet, home not counted: it has to stay one page

base::Metres deepest_trench(const works::Job& job) {
  base::Metres deepest{0};
  for (const works::FootingPart& footing : works::expand(job).footings)
    deepest = std::max(deepest, footing.plan.deepest);
  return deepest;
}

}  // namespace

render::TripFacts PlannedTrip::facts() const {
  return {open.job,
          list,
          series,
          open.limits,
          result.plan,
          now,
          remarks,
          result.objections.empty(),
          progress ? &*progress : nullptr,
          before ? &*before : nullptr,
          verdicts,
          moves,
          turns,
          result.outlook ? &*result.outlook : nullptr};
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
  const auto none = [&](auto layer) {
    return std::none_of(series.hours.begin(), series.hours.end(),
                        [&](const sky::Hour& hour) { return (hour.*layer).has_value(); });
  };
  std::string lacks = none(&sky::Hour::temperature) ? "temperature"
                      : none(&sky::Hour::rain)      ? "rain, dry or wet"
                      : none(&sky::Hour::wind)      ? "wind"
                                                    : "";
  if (lacks.empty()) return std::nullopt;
  return Refusal{
      Refusal::Kind::forecast_lacks,
      fmt::format("The forecast gives no {}. A plan wants temperature, rain and wind: give one that "
                  "has it, or a second file that fills it up.",
                  lacks)};
}

namespace {

void put_in_order(std::vector<sky::Series>& forecasts, base::Instant leave) {
  std::stable_sort(forecasts.begin(), forecasts.end(), [&](const sky::Series& a, const sky::Series& b) {
    return std::max(leave, a.issued.value_or(leave)) < std::max(leave, b.issued.value_or(leave));
  });
}

void taken_as_done(PlannedTrip& trip) {
  const base::Zone& zone = trip.open.job.site.zone;
  const auto gone = zone.day_of(trip.now) - zone.day_of(trip.open.job.trip.leave_home);
  if (trip.now <= trip.open.job.trip.leave_home || gone.count() <= 0) return;
  trip.remarks.push_back(gone.count() == 1
                             ? "Yesterday is taken as done to plan. Look before you trust it."
                             : "The days gone by are taken as done to this plan. Look before you trust it.");
}

// No trip to the merchant is planned by itself. Before he leaves there is still time to have it delivered.
void say_what_stays_behind(PlannedTrip& trip) {
  const bool fetches =
      std::any_of(trip.list.tasks.begin(), trip.list.tasks.end(),
                  [](const works::Task& task) { return task.operation == trade::Operation::fetch; });
  if (fetches || trip.now > trip.open.job.trip.leave_home) return;
  const measure::VanPlan van = works::van_plan(trip.open.job, works::bill_of(trip.open.job));
  if (van.fits) return;
  std::string over;
  if (van.over_mass.value() > 0) over = render::mass(van.over_mass);
  if (van.over_volume.value() > 0)
    over += fmt::format("{}{:.1f} m3", over.empty() ? "" : " and ", van.over_volume.value());
  trip.remarks.push_back(fmt::format(
      "Not all goes into the van: {} too much. The plan takes it as there: have it delivered, or name a trip "
      "to the merchant.",
      over));
}

void say_age(PlannedTrip& trip) {
  if (!trip.series.issued || trip.now - *trip.series.issued <= old_forecast) return;
  trip.remarks.push_back(
      fmt::format("The forecast was issued {}, {} h ago.",
                  base::day_and_time(trip.open.job.site.zone.to_local(*trip.series.issued)),
                  std::chrono::duration_cast<std::chrono::hours>(trip.now - *trip.series.issued).count()));
}

}  // namespace

PlannedTrip plan_trip(OpenJob open, ForecastsAtHand at_hand, base::Instant now, std::uint64_t seed,
                      const Budget& budget) {
  PlannedTrip trip{std::move(open), {}, {}, {}, now, {}};
  std::vector<sky::Series> forecasts = std::move(at_hand.issues);
  trip.remarks = std::move(at_hand.remarks);
  trip.list = works::derive_tasks(trip.open.job);
  const base::Instant leave = trip.open.job.trip.leave_home;
  const auto issued = [&](const sky::Series& series) {
    return std::max(leave, series.issued.value_or(leave));
  };
  // What a station measured is known of the hours gone by, whichever plan was made when.
  const auto measured = std::stable_partition(
      forecasts.begin(), forecasts.end(), [](const sky::Series& one) { return !sky::only_readings(one); });
  std::vector<sky::Series> readings;
  if (measured != forecasts.begin()) {
    readings.assign(std::make_move_iterator(measured), std::make_move_iterator(forecasts.end()));
    forecasts.erase(measured, forecasts.end());
  }
  put_in_order(forecasts, leave);
  for (std::size_t i = 0; i < forecasts.size(); ++i) {
    const base::Instant seen = issued(forecasts[i]);
    if (i > 0 && seen > now) break;  // not out yet
    trip.series = i == 0 ? std::move(forecasts[i]) : sky::join(trip.series, forecasts[i]);
    const bool more_at_once = i + 1 < forecasts.size() && issued(forecasts[i + 1]) == seen && seen <= now;
    if (more_at_once) continue;
    for (const sky::Series& one : readings)
      trip.series = sky::join(trip.series, one);
    programme::PlanRequest request{trip.open.job, trip.list, trip.series, trip.open.limits,
                                   trip.before ? seen : leave};
    request.seed = seed;
    request.schedules = own_schedules(budget);
    const bool last = i + 1 == forecasts.size() || issued(forecasts[i + 1]) > now;
    request.weathers = last ? budget.weathers : 0;
    request.lanes = all_workers();
    if (trip.before) request.followed = &*trip.before;
    programme::PlanResult result = programme::make_plan(request);
    if (trip.before) {
      trip.moves = programme::moves_between(
          {*trip.before, result.plan, trip.list, trip.open.job.site.zone, seen, nullptr, most_moves});
    }
    trip.result = std::move(result);
    if (i + 1 < forecasts.size()) trip.before = trip.result.plan;
  }
  if (now > leave) {
    trip.verdicts = programme::judge_night({trip.open.job, trip.list, trip.series, trip.open.limits, now},
                                           trip.result.plan);
  }
  taken_as_done(trip);
  for (const std::string& danger : trip.result.plan.dangers)
    trip.remarks.push_back(danger);
  say_what_stays_behind(trip);
  say_age(trip);
  return trip;
}

namespace {

std::vector<sky::TemperatureReading> temperatures_of(const works::Progress& progress) {
  std::vector<sky::TemperatureReading> temperatures;
  for (const works::TemperatureRead& read : progress.temperatures)
    temperatures.push_back({read.at, read.air});
  return temperatures;
}

}  // namespace

sky::Series as_it_was(const std::vector<sky::Series>& issues, const works::Progress& progress) {
  const std::vector<sky::TemperatureReading> temperatures = temperatures_of(progress);
  std::vector<sky::RainReading> rain;
  for (const works::RainRead& read : progress.rain)
    rain.push_back({read.from, read.to, read.rain});
  sky::Series all = joined(issues);
  if (temperatures.empty() && rain.empty()) return all;
  return sky::observe(all, temperatures, rain).series;
}

namespace {

struct Earlier {
  files::KeptPlan plan;
  record::Plan row;
};
std::optional<Earlier> earlier(std::optional<record::Plan> row) {
  if (!row) return std::nullopt;
  std::optional<files::KeptPlan> plan = files::read_plan(row->bytes);
  if (!plan) return std::nullopt;
  return Earlier{std::move(*plan), std::move(*row)};
}

// Whether the plan says what would be planned now: nothing beneath it has moved, and it was made for this
// day.
bool still_good(const Earlier& last, const PlannedTrip& trip, const PlanMark& mark,
                const std::optional<record::ForecastId>& forecast) {
  const base::Zone& zone = trip.open.job.site.zone;
  const base::Instant leave = trip.open.job.trip.leave_home;
  const bool same_time =
      trip.now >= last.plan.now &&
      (trip.now <= leave || (last.plan.now > leave && zone.day_of(last.plan.now) == zone.day_of(trip.now)));
  return same_time && last.plan.sound && !last.row.stale.any() && forecast == last.row.forecast &&
         last.plan.own_pace == trip.open.job.practice.own_pace && last.row.program == mark.program &&
         last.row.zones == mark.zones && last.plan.plan.tasks.size() == trip.list.tasks.size();
}

std::vector<std::string> taken_by_the_book(const works::Progress& progress, const works::TaskList& list) {
  std::vector<std::string> sentences;
  for (const works::TaskProgress& state : progress.tasks) {
    const works::Task* task = list.find(state.task);
    if (state.taken && task != nullptr)
      sentences.push_back(
          fmt::format("\"{}\" is taken as done, since what follows it is begun.", works::short_title(*task)));
  }
  return sentences;
}

// What weather did to work whose hour nobody wrote down cannot be judged.
works::Progress by_the_book_alone(works::Progress progress) {
  for (works::TaskProgress& state : progress.tasks) {
    if (!state.taken || state.begun != state.finished) continue;
    state.done = 0;
    state.courses_done = 0;
    state.begun.reset();
    state.finished.reset();
  }
  return progress;
}

}  // namespace

PlannedTrip plan_kept(Shelf& shelf, OpenJob open, ForecastsAtHand forecasts, base::Instant now,
                      const PlanMark& mark) {
  record::Store& store = shelf.store();
  const Budget budget = mark.budget.value_or(Budget{});
  const KeptAs kept = open.kept.value();
  works::Standing standing = works::standing_of(open.job, open.book, now);
  const base::Instant leave = standing.job.trip.leave_home;
  const base::Zone zone = standing.job.site.zone;
  PlannedTrip trip{std::move(open), {}, {}, {}, now, {}};
  trip.open.job = std::move(standing.job);
  trip.list = std::move(standing.list);
  const bool age_said = forecasts.age_said;
  trip.remarks = std::move(forecasts.remarks);
  put_in_order(forecasts.issues, leave);
  // What the forecasts kept were worth here, by what was read since: the weathers to come miss likewise.
  const sky::SiteError site = sky::learn_site(forecasts.issues, temperatures_of(standing.progress));
  trip.series = sky::with_errors_of(as_it_was(forecasts.issues, standing.progress), site, now);
  if (standing.book) trip.progress = standing.progress;

  know_kept_strips(store, mark.program, zone, leave);
  const std::optional<Earlier> last = earlier(store.latest_plan(kept.id));
  const base::Instant today = zone.to_instant_earliest(base::LocalTime(zone.day_of(now)));
  if (now > leave) {
    if (std::optional<Earlier> yesterday = earlier(store.plan_before(kept.id, today)))
      trip.before = std::move(yesterday->plan.plan);
  }
  std::vector<std::string> assumed = taken_by_the_book(standing.progress, trip.list);
  if (last && !mark.budget && still_good(*last, trip, mark, forecasts.newest)) {
    trip.result.plan = last->plan.plan;
    trip.result.outlook = last->plan.outlook;
    trip.kept_as = last->row.id;
  } else {
    for (std::string& line : render::site_error_lines(site, render::units_of(trip.open.job.limits.set)))
      assumed.push_back(std::move(line));
    std::optional<programme::Plan> followed;
    const programme::Plan* known = last ? &last->plan.plan : nullptr;
    if (standing.book) {
      programme::DoneSoFar done =
          programme::done_so_far(trip.open.job, trip.list, standing.progress, known, now);
      followed = std::move(done.plan);
      assumed.insert(assumed.end(), std::make_move_iterator(done.assumed.begin()),
                     std::make_move_iterator(done.assumed.end()));
    } else if (now > leave && known != nullptr) {
      followed = *known;
    }
    const auto request = [&](base::Instant at, int through) {
      return programme::PlanRequest{trip.open.job,         trip.list, trip.series,
                                    trip.open.limits,      at,        followed ? &*followed : nullptr,
                                    own_schedules(budget), mark.seed, through,
                                    all_workers()};
    };
    if (now > leave && !followed) followed = programme::make_plan(request(leave, 0)).plan;
    trip.result = programme::make_plan(request(followed ? now : leave, budget.weathers));
    for (std::string& sentence : assumed)
      trip.result.plan.assumptions.push_back(std::move(sentence));
    record::NewPlan row;
    row.job = kept.id;
    row.job_version = kept.version;
    if (const auto person = store.person()) row.person_version = person->version;
    row.book_revision = kept.book_revision;
    row.forecast = forecasts.newest.value();
    row.program = mark.program;
    row.zones = mark.zones;
    row.made_at = now;
    row.bytes = files::write_plan({now, trip.result.plan, trip.result.objections.empty(), trip.result.outlook,
                                   trip.open.job.practice.own_pace});
    trip.kept_as = store.put_plan(row);
    keep_fitted_strips(store, mark.program, now);
  }
  if (trip.before) {
    programme::MoveRequest moves{*trip.before, trip.result.plan, trip.list, zone, now};
    if (trip.progress) moves.progress = &*trip.progress;
    moves.most = most_moves;
    trip.moves = programme::moves_between(moves);
  }
  if (now > leave) {
    const programme::NightRequest night{trip.open.job, trip.list, trip.series, trip.open.limits, now};
    trip.verdicts = trip.progress ? programme::judge_night(night, by_the_book_alone(*trip.progress))
                                  : programme::judge_night(night, trip.result.plan);
  }
  if (!standing.book) taken_as_done(trip);
  for (const std::string& danger : trip.result.plan.dangers)
    trip.remarks.push_back(danger);
  for (const works::Remark& remark : standing.progress.remarks) {
    if (remark.kind != works::Remark::Kind::advice) trip.remarks.push_back(remark.text);
  }
  say_what_stays_behind(trip);
  if (!age_said) say_age(trip);
  return trip;
}

void hold_beside(PlannedTrip& trip, const sky::Series& other) {
  trip.second = programme::second_opinion(
      {trip.open.job, trip.list, trip.series, other, trip.open.limits, trip.result.plan, trip.now});
  std::vector<std::string> lines;
  if (trip.second) {
    lines = render::second_lines(*trip.second, trip.open.job, trip.list);
  } else {
    lines.push_back(fmt::format("{}, to be held beside the plan, says nothing about the rest of the trip.",
                                other.source));
  }
  trip.remarks.insert(trip.remarks.begin(), lines.begin(), lines.end());
}

std::optional<programme::Late> lateness(const PlannedTrip& trip, std::uint64_t seed) {
  return programme::late_because({trip.open.job, trip.list, trip.series, trip.open.limits, trip.result.plan,
                                  trip.now, seed, all_workers()});
}

std::optional<programme::Helps> helps(const PlannedTrip& trip, std::uint64_t seed) {
  if (trip.now > trip.open.job.trip.leave_home) return std::nullopt;
  return programme::what_would_help(
      {trip.open.job, trip.series, trip.open.limits, trip.now, schedules, weathers, seed, all_workers()});
}

programme::Why why(const PlannedTrip& trip, std::size_t task, std::uint64_t seed) {
  return programme::why_of({trip.open.job, trip.list, trip.series, trip.open.limits, trip.result.plan,
                            trip.now, seed, all_workers()},
                           task);
}

std::optional<programme::Promise> promise(const PlannedTrip& trip, std::uint64_t seed) {
  return programme::promise_of(
      {trip.open.job, trip.list, trip.series, trip.open.limits, trip.result.plan, trip.now, seed});
}

void take_turns(PlannedTrip& trip, const render::MorningFacts& morning) {
  const std::vector<render::TripDay> days = render::trip_days(trip.facts());
  programme::TurnRequest request{trip.open.job,           trip.list,        trip.series,
                                 trip.open.limits,        trip.result.plan, trip.now,
                                 days.at(morning.day).day};
  if (trip.progress) request.progress = &*trip.progress;
  request.lanes = all_workers();
  trip.turns = programme::turns_of(request);
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
