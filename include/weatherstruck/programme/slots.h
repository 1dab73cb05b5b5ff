#pragma once
// Weather, light and calendar by quarter of an hour: the table from which every clock is made.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/matter/strip_tops.h"
#include "weatherstruck/programme/cold_rule.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::programme {

inline constexpr std::chrono::minutes kTick{5};
inline constexpr int kTicksPerSlot = 3;
inline constexpr std::chrono::minutes kSlot{15};

/// What one quarter of an hour is like at the work.
struct Slot {
  base::Instant start;
  int day = 0;                    ///< local days since the first slot's
  std::chrono::minutes clock{0};  ///< local time of day at its start
  std::chrono::weekday weekday{};
  unsigned month = 1;
  trade::Light light = trade::Light::dark;  ///< floodlit: dark, but the kit has floodlights
  base::Celsius air;
  base::MillimetresPerHour rain;
  base::MetresPerSecond wind;  ///< mean at 10 m
  base::MetresPerSecond gust;
  base::Fraction humidity{0.85};
  bool sodden = false;  ///< the ground
  bool given = true;    ///< false: another hour stands in, see SlotTable::assumptions
};

/// One shape of strip in this weather: how cold its top would be, whenever it was poured (strip_frost.h).
struct StripHours {
  matter::StripCase strip;
  base::Celsius start;                         ///< of the concrete at the begin of the table
  base::Celsius begins;                        ///< coldest of that and the ground then
  std::optional<matter::HeatFilter> filter{};  ///< fitted when a weather first asks for it
  std::vector<matter::StripTops::Row> tops{};  ///< by hour, then by lane; empty: none comes near freezing
};

/// When the falling and rising rule of one kind of work stops it in this weather.
struct ColdHours {
  ColdRuleValues in_months;     ///< while all fresh work is covered at night
  ColdRuleValues other_months;  ///< while it may not be
  std::vector<char> covered{};  ///< by hour of the table, which of the two
  std::vector<Cold> stops{};    ///< by hour
};

struct SlotTable {
  std::vector<Slot> slots;
  /// Slots [from, to) of one whole hour: the weather of all is the same.
  struct HourOf {
    std::size_t from = 0;
    std::size_t to = 0;
  };
  std::vector<HourOf> hours;
  std::vector<matter::OpenAir> open;  ///< by whole hour, from that of the first slot on
  std::vector<StripHours> strips;
  std::vector<ColdHours> colds;
  base::Instant forecast_until;          ///< first moment after which temperature, rain or wind is not given
  std::vector<std::string> assumptions;  ///< sentences

  [[nodiscard]] base::Instant begin_time() const { return slots.front().start; }
  [[nodiscard]] base::Instant end_time() const { return slots.back().start + kSlot; }
  /// Ticks from the start; rounded up or down. May lie outside the table.
  [[nodiscard]] int tick_up(base::Instant t) const;
  [[nodiscard]] int tick_down(base::Instant t) const;
  [[nodiscard]] base::Instant at_tick(int tick) const { return begin_time() + tick * kTick; }
};

/// The table over [from, to), both on whole quarters of an hour UTC.
/// An hour that the series does not give is taken as the same hour of the day before (or, before its start,
/// as its first hour with a value); an hour without gusts as the mean wind times the inland factor; both are
/// marked.
/// @throws std::invalid_argument if the series holds no temperature, rain or wind at all
[[nodiscard]] SlotTable make_slots(const works::Site& site, const works::Kit& kit, const sky::Series& weather,
                                   base::Instant from, base::Instant to);

/// The same hours of the same place in another weather: all that weather decides is written anew, light and
/// calendar stay.
/// @throws std::invalid_argument as make_slots
void put_weather(SlotTable& table, const works::Site& site, const sky::Series& weather);

}  // namespace weatherstruck::programme
