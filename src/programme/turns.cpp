#include "weatherstruck/programme/turns.h"

#include <algorithm>
#include <cmath>

#include "replay.h"
#include "weatherstruck/programme/fitted_strips.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;

// Common practice or assumption, no source, all of them.
constexpr int overrun_share = 3;          // a task takes a third longer
constexpr hours rain_lasts{6};            // steady rain of a passing front
constexpr base::Kelvins night_colder{3};  // about what a forecast of the night's low may err by
constexpr hours cools_for{8};             // from the evening until it is that much colder
constexpr hours evening{4};            // before the working day's end: when the night's forecast is looked at
constexpr hours deep{6};               // after the working day's end: deep in the night
constexpr double brick_margin = 0.10;  // a stock nearer than that to its need may run out
constexpr hours two_rains_apart{2};    // a second hour of rain is worth a line
constexpr double done_less = 0.15;     // of a task, that counts as less of it
constexpr minutes home_moved{30};

struct Today {
  Span work;    ///< what is left of the working day
  Instant end;  ///< of the local day
};

class Turner {
 public:
  explicit Turner(const TurnRequest& request) : r_(request), zone_(request.job.site.zone) {
    const auto& day = r_.job.trip.working_day;
    today_ = {{std::max(r_.now, zone_.to_instant_earliest(base::LocalTime(r_.day) + day.from)),
               zone_.to_instant_earliest(base::LocalTime(r_.day) + day.to)},
              zone_.end_of(r_.day)};
  }

  std::vector<Turn> turns() {
    if (today_.work.from >= today_.work.to) return {};
    rains();
    overrun();
    canopy_down();
    short_of();
    frost();
    std::vector<char> says(asked_.size(), 0);
    const std::vector<FittedStrip> fitted = fitted_strips();
    r_.lanes.each(asked_.size(), [&](std::size_t k, std::size_t) {
      know_fitted(fitted);
      says[k] = answer(asked_[k]) ? 1 : 0;
    });
    std::vector<Turn> out;
    for (std::size_t k = 0; k < asked_.size(); ++k) {
      if (says[k] != 0) out.push_back(std::move(asked_[k].turn));
    }
    return out;
  }

 private:
  using At = std::size_t;

  static Instant hour_up(Instant t) { return std::chrono::ceil<hours>(t); }
  // The hour that holds t, but none that has begun before today's work.
  [[nodiscard]] Instant hour_of(Instant t) const {
    const Instant hour = std::chrono::floor<hours>(t);
    return std::max(hour, hour_up(today_.work.from));
  }
  // Runs of a task that are still to come today.
  [[nodiscard]] std::vector<PlannedRun> to_come(const PlannedTask& task, Instant from) const {
    std::vector<PlannedRun> runs;
    for (const PlannedRun& run : task.runs) {
      if (run.span.to > from && run.span.from < today_.end) runs.push_back(run);
    }
    return runs;
  }

  // ------------------------------------------------------------------------------------------------ turns

  // Rain that stops what is most sensitive and is not ground work; where the day has only that, rain that
  // stops it. From the start of the first such work, and from the middle of it.
  void rains() {
    const double ground = r_.limits.at(limit::rain_ground_stop);
    double rate = 0;
    for (At i = 0; i < r_.list.tasks.size(); ++i) {
      const double stop = stops_at(i);
      if (stop > 0 && stop < ground && !to_come(r_.plan.tasks[i], today_.work.from).empty())
        rate = std::max(rate, stop);
    }
    if (rate == 0) rate = ground;
    std::vector<Span> wet;
    for (At i = 0; i < r_.list.tasks.size(); ++i) {
      const double stop = stops_at(i);
      if (stop == 0 || stop > rate) continue;
      for (const PlannedRun& run : to_come(r_.plan.tasks[i], today_.work.from)) {
        if (!run.under_canopy) wet.push_back({std::max(run.span.from, today_.work.from), run.span.to});
      }
    }
    if (wet.empty()) return;
    std::sort(wet.begin(), wet.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
    const Instant first = hour_of(wet.front().from);
    rain(first, base::MillimetresPerHour(rate));
    std::chrono::seconds all{0};
    for (const Span& span : wet)
      all += span.to - span.from;
    std::chrono::seconds gone{0};
    for (const Span& span : wet) {
      gone += span.to - span.from;
      if (gone * 2 < all) continue;
      const Instant middle = hour_of(span.to - (gone - all / 2));
      if (middle >= first + two_rains_apart) rain(middle, base::MillimetresPerHour(rate));
      return;
    }
  }
  [[nodiscard]] double stops_at(At task) const {
    const works::Task& work = r_.list.tasks[task];
    const std::string_view key = trade::row_for(work.operation).rain_stop;
    return work.outdoors && !key.empty() ? r_.limits.at(key) : 0;
  }
  void rain(Instant from, base::MillimetresPerHour rate) {
    if (from >= today_.work.to) return;
    Turn turn;
    turn.kind = Turn::Kind::rain;
    turn.at = from;
    turn.until = std::min(from + rain_lasts, today_.work.to);
    turn.rain = rate;
    sky::Series weather = r_.weather;
    each_hour(weather, {from, turn.until}, [&](sky::Hour& hour) {
      const base::Millimetres fallen(rate.value());
      if (!hour.rain || hour.rain->value < fallen) hour.rain = {fallen, sky::Origin::derived};
    });
    ask(std::move(turn), r_.job, weather, r_.plan);
  }

  // The longest work of the day that wants light.
  void overrun() {
    std::chrono::seconds longest{0};
    At which = r_.list.tasks.size();
    for (At i = 0; i < r_.list.tasks.size(); ++i) {
      const trade::OperationRow& row = trade::row_for(r_.list.tasks[i].operation);
      if (!r_.list.tasks[i].outdoors || row.pace(trade::Light::dark) >= row.pace(trade::Light::day)) continue;
      std::chrono::seconds length{0};
      for (const PlannedRun& run : to_come(r_.plan.tasks[i], today_.work.from)) {
        if (run.span.from >= today_.work.from) length += run.span.to - run.span.from;
      }
      if (length > longest) {
        longest = length;
        which = i;
      }
    }
    if (which == r_.list.tasks.size()) return;
    Plan slower = r_.plan;
    PlannedTask& task = slower.tasks[which];
    auto last = std::find_if(task.runs.rbegin(), task.runs.rend(),
                             [&](const PlannedRun& run) { return run.span.from < today_.end; });
    const bool whole = trade::row_for(r_.list.tasks[which].operation).pausing == trade::Pausing::never;
    Turn turn;
    turn.kind = Turn::Kind::overrun;
    turn.task = task.task;
    if (whole) {
      // What cannot be left is finished, later.
      last->span.to += (last->span.to - last->span.from) / overrun_share;
    } else {
      for (PlannedRun& run : task.runs) {
        if (run.span.from >= today_.work.from && run.span.from < today_.end)
          run.share *= static_cast<double>(overrun_share) / (overrun_share + 1);
      }
    }
    turn.at = last->span.to;
    ask(std::move(turn), r_.job, r_.weather, slower);
  }

  void canopy_down() {
    for (const CanopySitting& sitting : r_.plan.canopy) {
      if (sitting.over.to <= today_.work.from || sitting.over.from >= today_.work.to) continue;
      Turn turn;
      turn.kind = Turn::Kind::canopy_down;
      turn.at = hour_of(sitting.over.from);
      if (turn.at >= today_.work.to) continue;
      sky::Series weather = r_.weather;
      const base::MetresPerSecond limit_of_it =
          std::min(r_.job.kit.canopy ? r_.job.kit.canopy->gust_limit : base::MetresPerSecond(0),
                   r_.limits.speed(limit::canopy_gust));
      turn.until = today_.work.to;
      each_hour(weather, {turn.at, turn.until}, [&](sky::Hour& hour) {
        if (!hour.gust || hour.gust->value < limit_of_it) hour.gust = {limit_of_it, sky::Origin::derived};
      });
      ask(std::move(turn), r_.job, weather, r_.plan);
      return;
    }
  }

  // Whoever runs short drives: nothing is done on site meanwhile.
  void short_of() {
    if (!r_.job.supplies.merchant) return;
    for (At i = 0; i < r_.list.tasks.size(); ++i) {
      const auto runs = to_come(r_.plan.tasks[i], today_.work.from);
      if (runs.empty() || runs.front().span.from < today_.work.from) continue;
      for (const works::MaterialDraw& draw : r_.list.tasks[i].materials) {
        const trade::Operation operation = r_.list.tasks[i].operation;
        const bool laid = operation == trade::Operation::lay_facing ||
                          operation == trade::Operation::lay_below ||
                          operation == trade::Operation::lay_common;
        if (!laid || draw.material.find("brick") == std::string::npos || !may_run_out(draw.material))
          continue;
        if (const auto trip = to_merchant(hour_of(runs.front().span.from))) {
          Turn turn;
          turn.kind = Turn::Kind::short_of;
          turn.at = trip->from;
          turn.task = r_.list.tasks[i].name;
          turn.material = draw.material;
          works::Job job = r_.job;
          job.fixed.push_back({"merchant", trip->from, trip->to});
          ask(std::move(turn), job, r_.weather, r_.plan);
        }
        return;
      }
    }
  }
  // Counted, else what was delivered, else what the bill buys: against what is still to be laid.
  [[nodiscard]] bool may_run_out(const std::string& material) const {
    double needed = 0;
    double all = 0;
    for (At i = 0; i < r_.list.tasks.size(); ++i) {
      for (const works::MaterialDraw& draw : r_.list.tasks[i].materials) {
        if (draw.material != material || r_.list.tasks[i].operation == trade::Operation::wheel_in) continue;
        all += draw.amount;
        double done = 0;
        for (const PlannedRun& run : r_.plan.tasks[i].runs)
          done += run.span.to <= today_.work.from ? run.share : 0;
        if (r_.plan.tasks[i].placed()) needed += draw.amount * std::max(0.0, 1 - done);
      }
    }
    const works::Stock* stock = r_.progress == nullptr ? nullptr : r_.progress->stock_of(material);
    if (stock != nullptr && stock->left) return *stock->left < needed * (1 + brick_margin);
    double had = 0;
    for (const works::Delivery& delivery : r_.job.supplies.deliveries)
      had += delivery.material == material ? delivery.amount : 0;
    if (had == 0) {
      for (const works::TotalLine& line : works::bill_of(r_.job).totals) {
        if (line.material == material) had = line.on_site ? all * 2 : line.bought;
      }
    }
    return had < all * (1 + brick_margin);
  }
  [[nodiscard]] std::optional<Span> to_merchant(Instant from) const {
    const works::Merchant& merchant = *r_.job.supplies.merchant;
    const std::chrono::weekday weekday{r_.day};
    if (weekday == std::chrono::Sunday) return std::nullopt;
    const auto& open = weekday == std::chrono::Saturday ? merchant.saturday : merchant.monday_to_friday;
    const minutes drive(std::chrono::round<minutes>(
        std::chrono::duration<double, std::ratio<3600>>(merchant.drive_each_way.value())));
    const minutes at_the_merchant(std::lround(r_.job.practice.norms.at(trade::norm_key::merchant_stop)));
    for (const works::DaySpan& span : open) {
      const Instant opens = zone_.to_instant_earliest(base::LocalTime(r_.day) + span.from);
      const Instant shuts = zone_.to_instant_earliest(base::LocalTime(r_.day) + span.to);
      const Instant leaves = std::max(from, hour_up(opens - drive));
      if (leaves + drive + at_the_merchant <= shuts)
        return Span{leaves, leaves + drive * 2 + at_the_merchant};
    }
    return std::nullopt;
  }

  // Where fresh work stands tonight and frost would reach it.
  void frost() {
    const base::LocalDay next = r_.day + std::chrono::days(1);
    const Span night{
        today_.work.to - evening,
        zone_.to_instant_earliest(base::LocalTime(next) + r_.job.trip.working_day.from) + hours(2)};
    Turn turn;
    turn.kind = Turn::Kind::frost;
    turn.at = hour_of(night.from);
    turn.colder = night_colder;
    sky::Series weather = r_.weather;
    each_hour(weather, night, [&](sky::Hour& hour) {
      if (!hour.temperature) return;
      const double passed = std::chrono::duration<double>(hour.start - night.from) / cools_for;
      const base::Kelvins by = night_colder * std::clamp(passed, 0.0, 1.0);
      hour.temperature = {sky::quantised(hour.temperature->value - by), sky::Origin::derived};
      turn.low = turn.low ? std::min(*turn.low, hour.temperature->value) : hour.temperature->value;
    });
    if (!turn.low || turn.low->value() >= 0 || turn.at >= today_.work.to) return;
    const Instant midnight = today_.work.to + deep;
    const bool stands =
        std::any_of(r_.plan.covers.begin(), r_.plan.covers.end(),
                    [&](const PlannedCover& c) { return c.span.from < midnight && c.span.to > midnight; }) ||
        std::any_of(r_.plan.tasks.begin(), r_.plan.tasks.end(), [&](const PlannedTask& task) {
          const works::Task* work = r_.list.find(task.task);
          return work != nullptr && work->fresh && !to_come(task, today_.work.from).empty();
        });
    if (stands) ask(std::move(turn), r_.job, weather, r_.plan);
  }

  // ----------------------------------------------------------------------------------------------- answers

  template <class Change>
  static void each_hour(sky::Series& series, Span span, Change change) {
    for (sky::Hour& hour : series.hours) {
      if (hour.start + hours(1) > span.from && hour.start < span.to) change(hour);
    }
  }

  struct Asked {
    Turn turn;
    works::Job job;
    sky::Series weather;
    Plan followed;
  };
  void ask(Turn turn, const works::Job& job, const sky::Series& weather, const Plan& followed) {
    asked_.push_back({std::move(turn), job, weather, followed});
  }

  // False where there is nothing to say.
  bool answer(Asked& asked) const {
    Turn& turn = asked.turn;
    const Replay replay =
        replay_from({asked.job, r_.list, asked.weather, r_.limits, asked.followed, turn.at});
    if (!replay.sound) return false;
    turn.home = replay.plan.home;
    turn.in_hand = replay.plan.in_hand;
    for (const works::Name& name : replay.plan.left_out) {
      if (std::find(r_.plan.left_out.begin(), r_.plan.left_out.end(), name) == r_.plan.left_out.end())
        turn.left_out.push_back(name);
    }
    deeds(turn, replay.plan);
    covers(turn, replay.plan);
    canopy(turn, replay.plan);
    return says_something(turn);
  }

  [[nodiscard]] static double done_by(const PlannedTask& task, Instant t) {
    double share = 0;
    for (const PlannedRun& run : task.runs)
      share += run.span.to <= t ? run.share : 0;
    return share;
  }

  void deeds(Turn& turn, const Plan& turned) const {
    struct Stop {
      Instant from;
      works::Name task;
    };
    std::vector<Stop> stops;
    for (At i = 0; i < turned.tasks.size(); ++i) {
      const auto planned = to_come(r_.plan.tasks[i], turn.at);
      const bool concerned = !planned.empty() || turned.tasks[i].task == turn.task;
      // What goes on tomorrow anyway is no less done for going on a little longer.
      const bool begun_anyway =
          done_by(r_.plan.tasks[i], today_.end) < 1 - 1e-6 && !to_come(turned.tasks[i], turn.at).empty();
      if (concerned && !begun_anyway &&
          done_by(turned.tasks[i], today_.end) < done_by(r_.plan.tasks[i], today_.end) - done_less) {
        stops.push_back({planned.empty() ? turn.at : planned.front().span.from, turned.tasks[i].task});
      }
      const auto runs = to_come(turned.tasks[i], turn.at);
      if (runs.empty()) continue;
      Turn::Deed deed;
      deed.task = turned.tasks[i].task;
      deed.span = {std::max(turn.at, runs.front().span.from), runs.back().span.to};
      deed.under_canopy =
          std::any_of(runs.begin(), runs.end(), [](const auto& run) { return run.under_canopy; });
      deed.finished = turned.tasks[i].finish() <= today_.end;
      deed.courses_after = runs.back().courses_after;
      turn.then.push_back(std::move(deed));
    }
    std::stable_sort(stops.begin(), stops.end(),
                     [](const Stop& a, const Stop& b) { return a.from < b.from; });
    for (Stop& stop : stops)
      turn.stops.push_back(std::move(stop.task));
    std::stable_sort(turn.then.begin(), turn.then.end(),
                     [](const Turn::Deed& a, const Turn::Deed& b) { return a.span.from < b.span.from; });
  }

  // What lies on a piece soon after the turn, or in the night for frost, and would not by the plan.
  void covers(Turn& turn, const Plan& turned) const {
    const Instant look = turn.kind == Turn::Kind::frost ? today_.work.to + deep : turn.at + hours(1);
    const auto lies = [&](const Plan& plan, const PlannedCover& what) {
      return std::any_of(plan.covers.begin(), plan.covers.end(), [&](const PlannedCover& c) {
        return c.part == what.part && c.concrete == what.concrete && c.kind == what.kind &&
               c.span.from <= look && c.span.to > look;
      });
    };
    for (const PlannedCover& cover : turned.covers) {
      if (cover.span.from > look || cover.span.to <= look || lies(r_.plan, cover)) continue;
      turn.covers.push_back(cover);
      turn.covers.back().span.from = std::max(turn.at, cover.span.from);
    }
  }

  void canopy(Turn& turn, const Plan& turned) const {
    for (const CanopySitting& sitting : turned.canopy) {
      if (sitting.over.to <= turn.at || sitting.pitch_from >= today_.end) continue;
      const bool planned = std::any_of(r_.plan.canopy.begin(), r_.plan.canopy.end(), [&](const auto& other) {
        return other.part == sitting.part && other.over.from < sitting.over.to &&
               sitting.over.from < other.over.to;
      });
      if (!planned) turn.canopy.push_back(sitting);
    }
  }

  [[nodiscard]] bool says_something(const Turn& turn) const {
    if (!turn.stops.empty() || !turn.covers.empty() || !turn.canopy.empty() || !turn.left_out.empty())
      return true;
    if (turn.home.has_value() != r_.plan.home.has_value()) return true;
    return turn.home && *turn.home > *r_.plan.home + home_moved;
  }

  const TurnRequest& r_;
  const base::Zone& zone_;
  Today today_;
  std::vector<Asked> asked_;
};

}  // namespace

std::vector<Turn> turns_of(const TurnRequest& request) {
  return Turner(request).turns();
}

}  // namespace weatherstruck::programme
