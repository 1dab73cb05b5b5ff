#include "weatherstruck/programme/clocks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/programme/cold_rule.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using engine::ClockId;
using std::chrono::minutes;

// A rate and, where it is zero, why.
struct RateAt {
  double rate = 0;
  engine::CauseId cause = 0;
};

bool within(const std::vector<works::DaySpan>& spans, minutes clock) {
  return std::any_of(spans.begin(), spans.end(),
                     [&](const works::DaySpan& span) { return span.from <= clock && clock < span.to; });
}

std::string_view key_of(trade::CoverKind cover) {
  return trade::row_for(cover).key;
}

/// A factor of the table of operations as the job has it; what does not slow the work does not quicken it.
double own_pace(double table, double own) {
  return table < 1 ? std::min(1.0, table * own) : table;
}

/// The factors of pace of one kind of work, read once: there are as many slots as quarters of an hour.
class Paces {
 public:
  Paces(const trade::OperationRow& row, const trade::LimitValues& limits)
      : thin_rain(own_pace(row.pace_thin_rain, limits.at(limit::pace_thin_rain))),
        wet_ground(own_pace(row.pace_wet_ground, limits.at(limit::pace_wet_ground))),
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

  double thin_rain, wet_ground;

 private:
  std::array<double, 4> light_;
  double cold_, freezing_, hot_from_, hot_, hot_damp_;
};

}  // namespace

ClockMaker::ClockMaker(const works::Job& job, const trade::LimitValues& limits, const SlotTable& table,
                       engine::Network& network)
    : job_(job), limits_(limits), table_(table), network_(network) {
  causes_.push_back({});  // cause 0: none
}

engine::CauseId ClockMaker::cause(std::string code, std::string text) {
  const Cause wanted{std::move(code), std::move(text)};
  const auto found = std::find(causes_.begin(), causes_.end(), wanted);
  if (found != causes_.end()) return static_cast<engine::CauseId>(found - causes_.begin());
  causes_.push_back(wanted);
  return static_cast<engine::CauseId>(causes_.size() - 1);
}

template <class RateOf>
ClockId ClockMaker::make(const std::string& name, RateOf&& rate_of) {
  if (const auto found = made_.find(name); found != made_.end()) return found->second;
  std::vector<std::int32_t> rates;
  std::vector<engine::CauseId> causes;
  for (const Slot& slot : table_.slots) {
    const RateAt at = rate_of(slot);
    rates.push_back(static_cast<std::int32_t>(std::llround(at.rate)));
    causes.push_back(at.cause);
  }
  network_.clocks.emplace_back(name, kTicksPerSlot, std::move(rates), std::move(causes));
  const auto id = static_cast<ClockId>(network_.clocks.size() - 1);
  made_.emplace(name, id);
  return id;
}

bool ClockMaker::holds(const Slot& slot, trade::CoverKind cover) {
  return slot.gust <= trade::row_for(cover).gust_limit;
}

base::Celsius ClockMaker::at_work(const Slot& slot, trade::CoverKind cover) {
  return holds(slot, cover) ? trade::under_cover(slot.air, trade::row_for(cover).lift) : slot.air;
}

std::vector<std::string> ClockMaker::cold_stops(trade::TemperatureRule rule) const {
  std::vector<base::Celsius> hourly;
  std::vector<int> day;
  std::vector<std::size_t> first_slot;
  for (std::size_t i = 0; i < table_.slots.size(); ++i) {
    const Slot& slot = table_.slots[i];
    if (i == 0 || std::chrono::floor<std::chrono::hours>(slot.start) == slot.start) {
      hourly.push_back(slot.air);
      day.push_back(slot.day);
      first_slot.push_back(i);
    }
  }
  const bool covers = job_.kit.hessian.value() > 0 || job_.kit.sheet.value() > 0 || job_.kit.mats.value() > 0;
  // Laying in the cold is for work that is covered afterwards. In the months of covering it surely is.
  const auto by_hour_when = [&](bool covered) {
    return programme::cold_stops(
        hourly, day, cold_rule(limits_, rule, job_.limits.cold_rule, covered, job_.practice.binder));
  };
  const auto by_hour_covered = by_hour_when(covers);
  const auto by_hour_bare = by_hour_when(false);
  std::vector<std::string> by_slot(table_.slots.size());
  for (std::size_t h = 0; h < first_slot.size(); ++h) {
    const std::size_t end = h + 1 < first_slot.size() ? first_slot[h + 1] : table_.slots.size();
    const auto& by_hour = cover_month(table_.slots[first_slot[h]].month) ? by_hour_covered : by_hour_bare;
    std::fill(by_slot.begin() + static_cast<std::ptrdiff_t>(first_slot[h]),
              by_slot.begin() + static_cast<std::ptrdiff_t>(end), by_hour[h]);
  }
  return by_slot;
}

ClockId ClockMaker::work(trade::Operation operation, bool noisy, bool under_canopy) {
  const trade::OperationRow& row = trade::row_for(operation);
  const std::string name =
      fmt::format("{}{}{}", row.key, noisy ? ", noisy" : "", under_canopy ? ", under the canopy" : "");
  if (const auto found = made_.find(name); found != made_.end()) return found->second;
  // Who of several does it is not known here: the mean of all, and of those who lay where only they can.
  const auto mean_pace = [&](bool layers_only) {
    double sum = 0;
    double people = 0;
    for (const works::Person& person : job_.crew) {
      if (layers_only && !person.lays_bricks) continue;
      sum += person.pace;
      people += 1;
    }
    return people > 0 ? sum / people : 0.0;
  };
  const double pace = row.lays ? std::min(mean_pace(false), mean_pace(true)) : mean_pace(false);
  std::vector<std::string> cold(table_.slots.size());
  if (row.temperature == trade::TemperatureRule::brickwork ||
      row.temperature == trade::TemperatureRule::flags)
    cold = cold_stops(row.temperature);
  const bool rain_stops = !row.rain_stop.empty() && !under_canopy;
  const double rain_stop = rain_stops ? limits_.rain_rate(row.rain_stop).value() : 0;
  const Paces paces(row, limits_);
  const double tired = limits_.at(limit::pace_long_day);
  const auto tires_after = minutes(std::llround(limits_.hours(limit::pace_long_day_from).value() * 60));
  std::size_t index = 0;
  return make(name, [&](const Slot& slot) -> RateAt {
    const std::string& too_cold = cold[index++];
    if (slot.clock < job_.trip.working_day.from || slot.clock >= job_.trip.working_day.to)
      return {0, cause("off-hours", "outside his working hours")};
    for (const works::FixedTime& fixed : job_.fixed) {
      if (fixed.from < slot.start + kSlot && slot.start < fixed.to)
        return {0, cause("fixed-time", fixed.title)};
    }
    if (noisy) {
      const works::NoisyHours& hours = job_.site.noisy;
      const auto& spans = slot.weekday == std::chrono::Sunday     ? hours.sunday
                          : slot.weekday == std::chrono::Saturday ? hours.saturday
                                                                  : hours.monday_to_friday;
      if (!within(spans, slot.clock))
        return {0, cause("quiet-hours", "quiet hours: the mixer and the cutter are still")};
    }
    const double lit = paces.in_light(slot.light);
    if (lit <= 0)
      return {0, cause("dark", slot.light == trade::Light::twilight ? "too little light" : "dark")};
    if (rain_stops && slot.rain.value() >= rain_stop) {
      return {0, cause("rain", fmt::format("rain {:.1f} mm/h, stops at {:g}", slot.rain.value(), rain_stop))};
    }
    if (!too_cold.empty()) return {0, cause("cold", too_cold)};
    if (row.temperature == trade::TemperatureRule::concrete &&
        slot.air < limits_.temperature(limit::pour_cold_start)) {
      return {0, cause("cold",
                       fmt::format("{} \u00b0C, no pour below {:g}", base::plain_number(slot.air.value(), 0),
                                   limits_.at(limit::pour_cold_start)))};
    }
    const auto heat = row.temperature == trade::TemperatureRule::brickwork ? limit::brick_heat
                      : row.temperature == trade::TemperatureRule::flags   ? limit::flags_heat
                                                                           : std::string_view{};
    if (!heat.empty() && slot.air > limits_.temperature(heat)) {
      return {0, cause("heat",
                       fmt::format("{:.0f} \u00b0C, stops above {:g}", slot.air.value(), limits_.at(heat)))};
    }
    double rate = kPersonTick * pace * lit;
    if (slot.rain.value() >= 0.1 && !under_canopy) rate *= paces.thin_rain;
    if (slot.sodden) rate *= paces.wet_ground;
    if (row.at_the_wheel()) return {rate, 0};
    rate *= paces.in_air(slot);
    if (slot.clock >= job_.trip.working_day.from + tires_after) rate *= tired;
    return {rate, 0};
  });
}

ClockId ClockMaker::drive_home() {
  // Nobody drives home in the small hours: not until the rest after the latest stop of a working day is over.
  const auto rest = minutes(std::llround(limits_.hours(limit::rest_before_drive).value() * 60));
  const auto rested = std::max(minutes(0), job_.trip.working_day.to + rest - minutes(24 * 60));
  return make("drive home", [&](const Slot& slot) -> RateAt {
    if (slot.clock < rested) return {0, cause("rest", "rest before a long drive")};
    return {kReferenceTick, 0};
  });
}

ClockId ClockMaker::merchant() {
  return make("merchant", [&](const Slot& slot) -> RateAt {
    if (!job_.supplies.merchant) return {0, cause("merchant", "no merchant is named")};
    const works::Merchant& merchant = *job_.supplies.merchant;
    const bool open = slot.weekday == std::chrono::Saturday ? within(merchant.saturday, slot.clock)
                      : slot.weekday == std::chrono::Sunday ? false
                                                            : within(merchant.monday_to_friday, slot.clock);
    if (!open) return {0, cause("merchant", "the merchant is shut")};
    return {kPersonTick, 0};
  });
}

ClockId ClockMaker::plain() {
  return make("time", [](const Slot&) -> RateAt { return {kReferenceTick, 0}; });
}

ClockId ClockMaker::stiffening(trade::CoverKind cover, bool at_the_least) {
  // Whether the canopy stands over it then is not known here: at the least, what it keeps of the wind is
  // lost.
  const double canopy =
      at_the_least && job_.kit.canopy ? trade::row_for(trade::CoverKind::canopy).drying_through : 1.0;
  return make(
      fmt::format("stiffening{}, {}", canopy < 1 ? " at the least" : "", key_of(cover)),
      [&](const Slot& slot) -> RateAt {
        const double covered = holds(slot, cover) ? trade::row_for(cover).drying_through : 1.0;
        const auto wind = matter::wind_at_height(slot.wind, base::Metres(0.5)) * std::min(covered, canopy);
        // What little a cover warms it by in a frost is not counted on, nor is a fraction of a unit.
        return {std::floor(kReferenceTick * matter::stiffening_rate(slot.air, slot.humidity, wind)), 0};
      });
}

ClockId ClockMaker::mortar_frost_safety(trade::CoverKind cover) {
  return make(fmt::format("mortar safe from frost, {}", key_of(cover)), [&](const Slot& slot) -> RateAt {
    return {kReferenceTick * matter::mortar_frost_rate(at_work(slot, cover)), 0};
  });
}

ClockId ClockMaker::setting(trade::CoverKind cover) {
  return make(fmt::format("setting, {}", key_of(cover)), [&](const Slot& slot) -> RateAt {
    return {kReferenceTick * matter::setting_rate(at_work(slot, cover)), 0};
  });
}

ClockId ClockMaker::strength(trade::CoverKind cover) {
  return make(fmt::format("strength, {}", key_of(cover)), [&](const Slot& slot) -> RateAt {
    return {kReferenceTick * matter::fhp_rate(at_work(slot, cover)), 0};
  });
}

// `mild` hours while it is at `mild_from` or warmer, `cold` hours while at `cold_from` or warmer, nothing
// below.
ClockId ClockMaker::wait(const std::string& name, base::Hours mild, base::Celsius mild_from, base::Hours cold,
                         base::Celsius cold_from) {
  const auto per_tick = [](base::Hours whole) {
    const double ticks = whole.value() * 60 / static_cast<double>(kTick.count());
    return ticks <= 0 ? static_cast<double>(kWaitWhole) : std::ceil(static_cast<double>(kWaitWhole) / ticks);
  };
  return make(name, [&](const Slot& slot) -> RateAt {
    if (slot.air >= mild_from) return {per_tick(mild), 0};
    if (slot.air >= cold_from) return {per_tick(cold), 0};
    return {0, cause("cold", fmt::format("{} \u00b0C: it hardens only above {:g}",
                                         base::plain_number(slot.air.value(), 0), cold_from.value()))};
  });
}

ClockId ClockMaker::strip_wait() {
  return wait("strip until built on", limits_.hours(limit::strip_wait_mild),
              limits_.temperature(limit::strip_mild_from), limits_.hours(limit::strip_wait_cold),
              limits_.temperature(limit::strip_cold_from));
}

ClockId ClockMaker::box_wait() {
  const auto hours = limits_.hours(limit::box_wait);
  // Slower in the cold as any strip is.
  const double slower = limits_.at(limit::strip_wait_cold) / limits_.at(limit::strip_wait_mild);
  return wait("box strip until built on", hours, limits_.temperature(limit::strip_mild_from), hours * slower,
              limits_.temperature(limit::strip_cold_from));
}

ClockId ClockMaker::high_wall_wait() {
  return wait("strip until a high wall", limits_.hours(limit::high_wall_wait_warm),
              limits_.temperature(limit::high_wall_warm_from), limits_.hours(limit::high_wall_wait_cold),
              limits_.temperature(limit::strip_cold_from));
}

ClockId ClockMaker::fill_half_wait() {
  const auto hours = limits_.hours(limit::fill_half_wait);
  return wait("wall until half filled", hours, limits_.temperature(limit::fill_cold_below),
              hours * limits_.at(limit::fill_cold_factor), base::Celsius(-50));
}

ClockId ClockMaker::fill_wait() {
  const auto hours = limits_.hours(limit::fill_rest_wait);
  return wait("wall until filled", hours, limits_.temperature(limit::fill_cold_below),
              hours * limits_.at(limit::fill_cold_factor), base::Celsius(-50));
}

ClockId ClockMaker::rain_through(trade::CoverKind cover, bool on_concrete) {
  const double through = trade::row_for(cover).rain_through;
  const double spoils = limits_.rain_rate(limit::rain_pour_stop).value();
  const double ticks_an_hour = std::chrono::hours(1) / kTick;
  return make(fmt::format("rain{}, {}", on_concrete ? " on concrete" : "", key_of(cover)),
              [&](const Slot& slot) -> RateAt {
                const double reaching = slot.rain.value() * (holds(slot, cover) ? through : 1.0);
                // Rain in which no pour is begun washes a surface that has not set, however short.
                const double washed = on_concrete && reaching >= spoils ? kSpoilt : 0.0;
                return {std::ceil(reaching * 1000.0 / ticks_an_hour) + washed, 0};
              });
}

ClockId ClockMaker::below(base::Celsius least, trade::CoverKind cover, base::Celsius least_bare) {
  const double ticks_an_hour = std::chrono::hours(1) / kTick;
  const std::string bare = cover == trade::CoverKind::bare || least_bare == least
                               ? std::string()
                               : fmt::format(", blown off {:g}", least_bare.value());
  return make(fmt::format("below {:g}, {}{}", least.value(), key_of(cover), bare),
              [&](const Slot& slot) -> RateAt {
                const base::Celsius asked = holds(slot, cover) ? least : least_bare;
                const double under = (asked - at_work(slot, cover)).value();
                return {under <= 0 ? 0.0 : std::ceil(under * 1000.0 / ticks_an_hour), 0};
              });
}

bool ClockMaker::cover_month(unsigned month) const {
  const auto first = static_cast<unsigned>(limits_.at(limit::night_cover_first_month));
  const auto last = static_cast<unsigned>(limits_.at(limit::night_cover_last_month));
  return first <= last ? month >= first && month <= last : month >= first || month <= last;
}

ClockId ClockMaker::uncovered_night() {
  return make("night in the cover months", [&](const Slot& slot) -> RateAt {
    const bool night = slot.light == trade::Light::dark || slot.light == trade::Light::floodlit;
    return {cover_month(slot.month) && night ? 1.0 : 0.0, 0};
  });
}

ClockId ClockMaker::darkness() {
  return make("darkness", [](const Slot& slot) -> RateAt {
    return {slot.light == trade::Light::dark || slot.light == trade::Light::floodlit ? 1.0 : 0.0, 0};
  });
}

ClockId ClockMaker::evening() {
  const auto from = minutes(std::llround(limits_.at(limit::evening_from) * 60));
  return make("evening", [&](const Slot& slot) -> RateAt { return {slot.clock >= from ? 1.0 : 0.0, 0}; });
}

ClockId ClockMaker::ticks() {
  return make("ticks", [](const Slot&) -> RateAt { return {1, 0}; });
}

ClockId ClockMaker::wet() {
  return make("in the wet", [](const Slot& slot) -> RateAt {
    return {slot.rain.value() >= 0.1 ? 1.0 : 0.0, 0};
  });
}

}  // namespace weatherstruck::programme
