// The clock of a kind of work: calendar and light say when there are hours for it, the weather what they are
// worth.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "recipes.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/cold_rule.h"
#include "weatherstruck/programme/weather_pace.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using std::chrono::minutes;

/// A factor of the table of operations as the job has it; what does not slow the work does not quicken it.
double own_pace(double table, double own) {
  return table < 1 ? std::min(1.0, table * own) : table;
}

/// The factors of pace of one kind of work, read once: there are as many slots as quarters of an hour.
class Paces {
 public:
  Paces(const trade::OperationRow& row, const trade::LimitValues& limits)
      : thin_rain_(own_pace(row.pace_thin_rain, limits.at(limit::pace_thin_rain))),
        wet_ground_(own_pace(row.pace_wet_ground, limits.at(limit::pace_wet_ground))),
        light_(row.pace_in_light),
        cold_(own_pace(row.pace_cold, limits.at(limit::pace_cold))),
        freezing_(row.pace_cold < 1 ? limits.at(limit::pace_freezing) : 1),
        hot_from_(limits.at(limit::pace_hot_from)),
        hot_(limits.at(limit::pace_hot)),
        hot_damp_(limits.at(limit::pace_hot_damp)) {
    double& half_light = light_[static_cast<std::size_t>(trade::Light::twilight)];
    half_light = own_pace(half_light, limits.at(limit::pace_half_light));
    if (row.seen_joints())
      light_[static_cast<std::size_t>(trade::Light::floodlit)] = limits.at(limit::pointing_lights_pace);
  }

  [[nodiscard]] double in_light(trade::Light light) const { return light_[static_cast<std::size_t>(light)]; }

  [[nodiscard]] double in_weather(const Slot& slot, bool under_canopy, bool at_the_wheel) const {
    double rate = slot.rain.value() >= 0.1 && !under_canopy ? thin_rain_ : 1.0;
    if (slot.sodden) rate *= wet_ground_;
    return at_the_wheel ? rate : rate * in_air(slot);
  }

 private:
  /// Cold hands from 5 degrees down, more so towards freezing; heat, and more so in damp air.
  [[nodiscard]] double in_air(const Slot& slot) const {
    constexpr double cold_from = 5;
    constexpr double hot_span = 10;
    const double air = slot.air.value();
    if (air < cold_from) return cold_ * (1 - std::min(1.0, (cold_from - air) / cold_from) * (1 - freezing_));
    const double beyond = (air - hot_from_) / hot_span;
    if (beyond <= 0) return 1;
    const double damp = std::clamp((slot.humidity.value() - 0.6) / 0.4, 0.0, 1.0) * std::min(1.0, beyond);
    return std::max(1 - beyond * (1 - hot_), hot_ / 2) * (1 - damp * (1 - hot_damp_));
  }

  double thin_rain_, wet_ground_;
  std::array<double, 4> light_;
  double cold_, freezing_, hot_from_, hot_, hot_damp_;
};

/// What keeps work from going on whatever the weather does, in the order in which it is told.
enum class Hours { work, off, fixed, quiet, dark };

/// What in the weather stops it.
enum class Stop { none, rain, cold, cold_pour, heat };

/// The clock of one operation: its numbers, read once.
class WorkClock {
 public:
  WorkClock(const works::Job& job, const trade::LimitValues& limits, SlotTable& table,
            const trade::OperationRow& row, bool noisy, bool under_canopy)
      : job_(job),
        limits_(limits),
        row_(row),
        noisy_(noisy),
        under_canopy_(under_canopy),
        rain_stops_(!row.rain_stop.empty() && !under_canopy),
        rain_stop_(rain_stops_ ? limits.rain_rate(row.rain_stop).value() : 0),
        pours_(row.temperature == trade::TemperatureRule::concrete),
        pour_stop_(limits.temperature(limit::pour_cold_start)),
        heat_(row.temperature == trade::TemperatureRule::brickwork ? limit::brick_heat
              : row.temperature == trade::TemperatureRule::flags   ? limit::flags_heat
                                                                   : std::string_view{}),
        heat_stop_(heat_.empty() ? base::Celsius(0) : limits.temperature(heat_)),
        paces_(row, limits) {
    if (row.temperature != trade::TemperatureRule::brickwork &&
        row.temperature != trade::TemperatureRule::flags)
      return;
    // Laying in the cold is for work that is covered afterwards. In the months of covering it surely is.
    const bool covers = job.kit.hessian.value() > 0 || job.kit.sheet.value() > 0 || job.kit.mats.value() > 0;
    const auto rule = [&](bool covered) {
      return cold_rule(limits, row.temperature, job.limits.cold_rule, covered, job.practice.binder);
    };
    std::vector<char> covered;
    for (const SlotTable::HourOf& hour : table.hours)
      covered.push_back(cover_month(limits, table.slots[hour.from].month) ? 1 : 0);
    cold_ = cold_like(table, rule(covers), rule(false), std::move(covered));
  }

  [[nodiscard]] Hours hours_of(const Slot& slot) const {
    if (slot.clock < job_.trip.working_day.from || slot.clock >= job_.trip.working_day.to) return Hours::off;
    if (fixed_in(slot) != nullptr) return Hours::fixed;
    if (noisy_) {
      const works::NoisyHours& hours = job_.site.noisy;
      const auto& spans = slot.weekday == std::chrono::Sunday     ? hours.sunday
                          : slot.weekday == std::chrono::Saturday ? hours.saturday
                                                                  : hours.monday_to_friday;
      if (!within(spans, slot.clock)) return Hours::quiet;
    }
    return paces_.in_light(slot.light) <= 0 ? Hours::dark : Hours::work;
  }
  [[nodiscard]] const works::FixedTime* fixed_in(const Slot& slot) const {
    for (const works::FixedTime& fixed : job_.fixed) {
      if (fixed.from < slot.start + kSlot && slot.start < fixed.to) return &fixed;
    }
    return nullptr;
  }

  /// Of a slot by its place in the table, in any weather: what a mild dry tick is worth, or 0.
  [[nodiscard]] std::vector<double> in_the_dry(const SlotTable& table) const {
    const double pace = pace_of_crew();
    const double tired = row_.at_the_wheel() ? 1 : limits_.at(limit::pace_long_day);
    const auto fresh_until = job_.trip.working_day.from +
                             minutes(std::llround(limits_.hours(limit::pace_long_day_from).value() * 60));
    std::vector<double> rates;
    rates.reserve(table.slots.size());
    for (const Slot& slot : table.slots) {
      const bool hours = hours_of(slot) == Hours::work;
      rates.push_back(hours ? kPersonTick * pace * paces_.in_light(slot.light) *
                                  (slot.clock >= fresh_until ? tired : 1)
                            : 0.0);
    }
    return rates;
  }

  [[nodiscard]] Stop stop_of(const Slot& slot, Cold cold) const {
    if (rain_stops_ && slot.rain.value() >= rain_stop_) return Stop::rain;
    if (cold != Cold::goes_on) return Stop::cold;
    if (pours_ && slot.air < pour_stop_) return Stop::cold_pour;
    return !heat_.empty() && slot.air > heat_stop_ ? Stop::heat : Stop::none;
  }
  /// Of that the weather leaves so much.
  [[nodiscard]] double in_weather(const Slot& slot) const {
    return paces_.in_weather(slot, under_canopy_, row_.at_the_wheel());
  }

  /// Whether cold stops it in an hour of the table; only bricks and flags have such a rule.
  [[nodiscard]] Cold cold(const SlotTable& table, std::size_t hour) const {
    return cold_ ? table.colds[*cold_].stops[hour] : Cold::goes_on;
  }
  [[nodiscard]] std::vector<std::string> cold_words(const SlotTable& table) const {
    return cold_ ? cold_stops(table, table.colds[*cold_]) : std::vector<std::string>(table.hours.size());
  }

  [[nodiscard]] std::string_view heat_limit() const { return heat_; }
  [[nodiscard]] double rain_limit() const { return rain_stop_; }

 private:
  // Who of several does it is not known here: the mean of all, and of those who lay where only they can.
  [[nodiscard]] double pace_of_crew() const {
    const auto mean = [&](bool layers_only) {
      double sum = 0;
      double people = 0;
      for (const works::Person& person : job_.crew) {
        if (layers_only && !person.lays_bricks) continue;
        sum += person.pace;
        people += 1;
      }
      return people > 0 ? sum / people : 0.0;
    };
    return row_.lays ? std::min(mean(false), mean(true)) : mean(false);
  }

  const works::Job& job_;
  const trade::LimitValues& limits_;
  const trade::OperationRow& row_;
  bool noisy_, under_canopy_, rain_stops_;
  double rain_stop_;
  bool pours_;
  base::Celsius pour_stop_;
  std::string_view heat_;
  base::Celsius heat_stop_;
  Paces paces_;
  std::optional<std::size_t> cold_;  // of table.colds
};

// All of an operation that its clock asks for. What differs in nothing of it shares one.
std::string figures_of(const trade::OperationRow& row, bool noisy, bool under_canopy) {
  return fmt::format("work {} {} {} {} {} {} {} {} {} {} {}", row.rain_stop,
                     static_cast<int>(row.temperature), row.lays, row.at_the_wheel(), row.seen_joints(),
                     fmt::join(row.pace_in_light, " "), row.pace_thin_rain, row.pace_cold,
                     row.pace_wet_ground, noisy, under_canopy);
}

}  // namespace

engine::ClockId ClockMaker::work(trade::Operation operation, bool noisy, bool under_canopy) {
  const trade::OperationRow& row = trade::row_for(operation);
  const std::string name =
      fmt::format("{}{}{}", row.key, noisy ? ", noisy" : "", under_canopy ? ", under the canopy" : "");
  const std::string figures = figures_of(row, noisy, under_canopy);
  if (const auto found = made_.find(figures); found != made_.end()) return found->second;
  const WorkClock clock(job_, limits_, table_, row, noisy, under_canopy);
  const std::vector<double> dry = clock.in_the_dry(table_);
  // Most hours are none of work, whatever the weather.
  std::vector<std::size_t> open;
  std::vector<std::size_t> hour_of(table_.slots.size());
  for (std::size_t h = 0; h < table_.hours.size(); ++h) {
    const auto [from, to] = table_.hours[h];
    std::fill(hour_of.begin() + static_cast<std::ptrdiff_t>(from),
              hour_of.begin() + static_cast<std::ptrdiff_t>(to), h);
    if (std::any_of(dry.begin() + static_cast<std::ptrdiff_t>(from),
                    dry.begin() + static_cast<std::ptrdiff_t>(to), [](double rate) { return rate > 0; }))
      open.push_back(h);
  }
  const auto recipe = [clock, dry, open](const SlotTable& table, Rates& rates) {
    std::fill(rates.begin(), rates.end(), 0);
    for (const std::size_t h : open) {
      const auto [from, to] = table.hours[h];
      const Slot& slot = table.slots[from];
      if (clock.stop_of(slot, clock.cold(table, h)) != Stop::none) continue;
      const double weather = clock.in_weather(slot);
      for (std::size_t i = from; i < to; ++i)
        rates[i] = whole(dry[i] * weather);
    }
  };
  const std::vector<std::string> too_cold =
      told_ == Causes::told ? clock.cold_words(table_) : std::vector<std::string>{};
  return make_shared(name, figures, recipe, [&](std::size_t i) -> engine::CauseId {
    const Slot& slot = table_.slots[i];
    switch (clock.hours_of(slot)) {
      case Hours::off:
        return cause("off-hours", "outside his working hours");
      case Hours::fixed:
        return cause("fixed-time", clock.fixed_in(slot)->title);
      case Hours::quiet:
        return cause("quiet-hours", "quiet hours: the mixer and the cutter are still");
      case Hours::dark:
        return cause("dark", slot.light == trade::Light::twilight ? "too little light" : "dark");
      case Hours::work:
        break;
    }
    switch (clock.stop_of(slot, clock.cold(table_, hour_of[i]))) {
      case Stop::none:
        break;
      case Stop::rain:
        return cause("rain",
                     fmt::format("rain {:.1f} mm/h, stops at {:g}", slot.rain.value(), clock.rain_limit()));
      case Stop::cold:
        return cause("cold", too_cold[hour_of[i]]);
      case Stop::cold_pour:
        return cause("cold",
                     fmt::format("{} \u00b0C, no pour below {:g}", base::plain_number(slot.air.value(), 0),
                                 limits_.at(limit::pour_cold_start)));
      case Stop::heat:
        return cause("heat", fmt::format("{:.0f} \u00b0C, stops above {:g}", slot.air.value(),
                                         limits_.at(clock.heat_limit())));
    }
    return 0;
  });
}

double weather_pace(const trade::OperationRow& row, const trade::LimitValues& limits, const Slot& slot) {
  return Paces(row, limits).in_weather(slot, false, row.at_the_wheel());
}

}  // namespace weatherstruck::programme
