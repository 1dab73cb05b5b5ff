#include "weatherstruck/programme/clocks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "recipes.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/programme/strip_frost.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using engine::ClockId;
using std::chrono::minutes;

constexpr double ticks_an_hour = std::chrono::hours(1) / kTick;
// A night away is worth as much as four hours' work in the wet, two in the dark (assumption).
constexpr int night_away = 48;
constexpr double least_counted = 1e-3;  // K: at the limit is as bad as below it

std::string_view key_of(trade::CoverKind cover) {
  return trade::row_for(cover).key;
}

// Clocks of covers that keep off as much are one: hessian is as warm as a sheet, a sheet over it as dry.
std::string warmth(std::string_view of, const trade::CoverRow& row) {
  return fmt::format("{} {} {}", of, row.lift.value(), row.gust_limit.value());
}

double strength_rate(base::Celsius at) {
  static const RateByTenths rate(matter::fhp_rate);
  return rate(at);
}
double set_rate(base::Celsius at) {
  static const RateByTenths rate(matter::setting_rate);
  return rate(at);
}
double frost_rate(base::Celsius at) {
  static const RateByTenths rate(matter::mortar_frost_rate);
  return rate(at);
}

bool unlit(const Slot& slot) {
  return slot.light == trade::Light::dark || slot.light == trade::Light::floodlit;
}

/// Whether a cover stays where it was put: not in gusts above its limit.
bool holds(const Slot& slot, const trade::CoverRow& cover) {
  return slot.gust <= cover.gust_limit;
}

/// Air at the work: the air itself, warmer under a cover in frost.
base::Celsius at_work(const Slot& slot, const trade::CoverRow& cover) {
  return holds(slot, cover) ? trade::under_cover(slot.air, cover.lift) : slot.air;
}

}  // namespace

ClockMaker::ClockMaker(const works::Job& job, const trade::LimitValues& limits, SlotTable& table,
                       engine::Network& network, Causes told)
    : job_(job), limits_(limits), table_(table), network_(network), told_(told) {
  causes_.push_back({});  // cause 0: none
}

engine::CauseId ClockMaker::cause(std::string code, std::string text) {
  const Cause wanted{std::move(code), std::move(text)};
  const auto found = std::find(causes_.begin(), causes_.end(), wanted);
  if (found != causes_.end()) return static_cast<engine::CauseId>(found - causes_.begin());
  causes_.push_back(wanted);
  return static_cast<engine::CauseId>(causes_.size() - 1);
}

ClockId ClockMaker::make(const std::string& name, Recipe recipe, const Why& why, HangsOn hangs_on) {
  return make_shared(name, name, std::move(recipe), why, hangs_on);
}

ClockId ClockMaker::make_shared(const std::string& name, const std::string& figures, Recipe recipe,
                                const Why& why, HangsOn hangs_on) {
  if (const auto found = made_.find(figures); found != made_.end()) return found->second;
  Rates rates(table_.slots.size());
  recipe(table_, rates);
  std::vector<engine::CauseId> causes;
  if (told_ == Causes::told) causes.resize(rates.size(), 0);
  for (std::size_t i = 0; why && i < causes.size(); ++i) {
    if (rates[i] == 0) causes[i] = why(i);
  }
  network_.clocks.emplace_back(name, kTicksPerSlot, std::move(rates), std::move(causes));
  recipes_.push_back(hangs_on == HangsOn::weather ? std::move(recipe) : Recipe{});
  const auto id = static_cast<ClockId>(network_.clocks.size() - 1);
  made_.emplace(figures, id);
  return id;
}

ClockId ClockMaker::drive_home() {
  // Nobody drives home in the small hours: not until the rest after the latest stop of a working day is over.
  const auto rest = minutes(std::llround(limits_.hours(limit::rest_before_drive).value() * 60));
  const auto rested = std::max(minutes(0), job_.trip.working_day.to + rest - minutes(24 * 60));
  return make(
      "drive home", by_slot([rested](const Slot& slot) { return slot.clock < rested ? 0 : kReferenceTick; }),
      [&](std::size_t) { return cause("rest", "rest before a long drive"); }, HangsOn::calendar);
}

ClockId ClockMaker::nights_away(engine::Tick drive) {
  const int each = std::max(1, night_away / std::max(1, drive));
  return make("nights away", by_slot([each](const Slot& slot) { return slot.day * each; }), {},
              HangsOn::calendar);
}

ClockId ClockMaker::merchant() {
  const std::optional<works::Merchant>& merchant = job_.supplies.merchant;
  return make(
      "merchant", by_slot([merchant](const Slot& slot) {
        if (!merchant || slot.weekday == std::chrono::Sunday) return 0;
        const bool saturday = slot.weekday == std::chrono::Saturday;
        const bool open = within(saturday ? merchant->saturday : merchant->monday_to_friday, slot.clock);
        return open ? kPersonTick : 0;
      }),
      [&](std::size_t) {
        return cause("merchant", merchant ? "the merchant is shut" : "no merchant is named");
      },
      HangsOn::calendar);
}

ClockId ClockMaker::plain() {
  return make("time", by_slot([](const Slot&) { return kReferenceTick; }), {}, HangsOn::calendar);
}

ClockId ClockMaker::stiffening(trade::CoverKind cover, bool at_the_least) {
  // Whether the canopy stands over it then is not known here: at the least, what it keeps of the wind is
  // lost.
  const double canopy =
      at_the_least && job_.kit.canopy ? job_.covers.at(trade::CoverKind::canopy).drying_through : 1.0;
  const trade::CoverRow& row = job_.covers.at(cover);
  return make_shared(fmt::format("stiffening{}, {}", canopy < 1 ? " at the least" : "", key_of(cover)),
                     fmt::format("stiffening {} {} {}", canopy, row.drying_through, row.gust_limit.value()),
                     by_weather([&row, canopy](const Slot& slot) {
                       static const auto near =
                           matter::wind_at_height(base::MetresPerSecond(1), base::Metres(0.5));
                       const double covered = holds(slot, row) ? row.drying_through : 1.0;
                       const auto wind = slot.wind * near.value() * std::min(covered, canopy);
                       // What little a cover warms it by in a frost is not counted on, nor is a fraction of a
                       // unit.
                       return std::floor(kReferenceTick * strength_rate(slot.air) *
                                         matter::drying_factor(slot.humidity, wind));
                     }));
}

ClockId ClockMaker::mortar_frost_safety(trade::CoverKind cover) {
  const trade::CoverRow& row = job_.covers.at(cover);
  return make_shared(
      fmt::format("mortar safe from frost, {}", key_of(cover)), warmth("mortar_frost_safety", row),
      by_weather([row](const Slot& slot) { return kReferenceTick * frost_rate(at_work(slot, row)); }));
}

ClockId ClockMaker::setting(trade::CoverKind cover) {
  const trade::CoverRow& row = job_.covers.at(cover);
  return make_shared(
      fmt::format("setting, {}", key_of(cover)), warmth("setting", row),
      by_weather([row](const Slot& slot) { return kReferenceTick * set_rate(at_work(slot, row)); }));
}

ClockId ClockMaker::strength(trade::CoverKind cover) {
  const trade::CoverRow& row = job_.covers.at(cover);
  return make_shared(
      fmt::format("strength, {}", key_of(cover)), warmth("strength", row),
      by_weather([row](const Slot& slot) { return kReferenceTick * strength_rate(at_work(slot, row)); }));
}

// `mild` hours while it is at `mild_from` or warmer, `cold` hours while at `cold_from` or warmer, nothing
// below.
ClockId ClockMaker::wait(const std::string& name, base::Hours mild, base::Celsius mild_from, base::Hours cold,
                         base::Celsius cold_from) {
  const auto per_tick = [](base::Hours hours) {
    const double ticks = hours.value() * 60 / static_cast<double>(kTick.count());
    return ticks <= 0 ? static_cast<double>(kWaitWhole) : std::ceil(static_cast<double>(kWaitWhole) / ticks);
  };
  return make(name,
              by_weather([mild_from, cold_from, mild_rate = per_tick(mild),
                          cold_rate = per_tick(cold)](const Slot& slot) {
                return slot.air >= mild_from ? mild_rate : slot.air >= cold_from ? cold_rate : 0.0;
              }),
              [&](std::size_t i) {
                return cause("cold", fmt::format("{} \u00b0C: it hardens only above {:g}",
                                                 base::plain_number(table_.slots[i].air.value(), 0),
                                                 cold_from.value()));
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
  const trade::CoverRow& row = job_.covers.at(cover);
  const double spoils = limits_.rain_rate(limit::rain_pour_stop).value();
  return make_shared(fmt::format("rain{}, {}", on_concrete ? " on concrete" : "", key_of(cover)),
                     fmt::format("rain {} {} {}", on_concrete, row.rain_through, row.gust_limit.value()),
                     by_weather([&row, spoils, on_concrete](const Slot& slot) {
                       const double reaching =
                           slot.rain.value() * (holds(slot, row) ? row.rain_through : 1.0);
                       // Rain in which no pour is begun washes a surface that has not set, however short.
                       const double washed = on_concrete && reaching >= spoils ? kSpoilt : 0.0;
                       return std::ceil(reaching * 1000.0 / ticks_an_hour) + washed;
                     }));
}

ClockId ClockMaker::below(base::Celsius least, trade::CoverKind cover, base::Celsius least_bare) {
  const std::string bare = cover == trade::CoverKind::bare || least_bare == least
                               ? std::string()
                               : fmt::format(", blown off {:g}", least_bare.value());
  const trade::CoverRow& row = job_.covers.at(cover);
  return make_shared(fmt::format("below {:g}, {}{}", least.value(), key_of(cover), bare),
                     warmth(fmt::format("below {} {}", least.value(), least_bare.value()), row),
                     by_weather([row, least, least_bare](const Slot& slot) {
                       const base::Celsius asked = holds(slot, row) ? least : least_bare;
                       const double under = (asked - at_work(slot, row)).value();
                       return under <= 0 ? 0.0 : std::ceil(under * 1000.0 / ticks_an_hour);
                     }));
}

ClockId ClockMaker::strip_frost(std::size_t strip, trade::CoverKind cover) {
  const double above = limits_.at(limit::strip_top_above);
  const bool bare = cover == trade::CoverKind::bare;
  const std::size_t lane = bare ? lane_bare_night : lane_of(cover);
  const auto recipe = [row = job_.covers.at(cover), strip, above, bare, lane](const SlotTable& table,
                                                                              Rates& rates) {
    const auto& tops = table.strips[strip].tops;
    for (std::size_t h = 0; h < table.hours.size(); ++h) {
      const auto [from, to] = table.hours[h];
      const Slot& first = table.slots[from];
      const double air = bare || !holds(first, row) ? -first.air.value() : 0;
      const auto rate_of = [&](bool lit) {
        double under = air;
        if (!tops.empty()) {
          const double top = tops[h][bare && lit ? lane_bare_day : lane];
          if (top <= above) under = std::max(under, above - top + least_counted);
        }
        return under <= 0 ? 0 : static_cast<std::int32_t>(std::ceil(under * 1000.0 / ticks_an_hour));
      };
      const std::int32_t dark = rate_of(false);
      const std::int32_t lit = bare ? rate_of(true) : dark;
      for (std::size_t i = from; i < to; ++i)
        rates[i] = unlit(table.slots[i]) ? dark : lit;
    }
  };
  return make(fmt::format("frost of strip {}, {}", strip, key_of(cover)), recipe);
}

bool cover_month(const trade::LimitValues& limits, unsigned month) {
  const auto first = static_cast<unsigned>(limits.at(limit::night_cover_first_month));
  const auto last = static_cast<unsigned>(limits.at(limit::night_cover_last_month));
  return first <= last ? month >= first && month <= last : month >= first || month <= last;
}

ClockId ClockMaker::uncovered_night() {
  return make("night in the cover months", by_slot([&limits = limits_](const Slot& slot) {
                return unlit(slot) && cover_month(limits, slot.month) ? 1 : 0;
              }),
              {}, HangsOn::calendar);
}

ClockId ClockMaker::darkness() {
  return make("darkness", by_slot([](const Slot& slot) { return unlit(slot) ? 1 : 0; }), {},
              HangsOn::calendar);
}

ClockId ClockMaker::evening() {
  const auto from = minutes(std::llround(limits_.at(limit::evening_from) * 60));
  return make("evening", by_slot([from](const Slot& slot) { return slot.clock >= from ? 1 : 0; }), {},
              HangsOn::calendar);
}

ClockId ClockMaker::ticks() {
  return make("ticks", by_slot([](const Slot&) { return 1; }), {}, HangsOn::calendar);
}

ClockId ClockMaker::wet() {
  return make("in the wet", by_slot([](const Slot& slot) { return slot.rain.value() >= 0.1 ? 1 : 0; }));
}

}  // namespace weatherstruck::programme
