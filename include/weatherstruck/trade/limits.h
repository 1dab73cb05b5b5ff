#pragma once
// The limits table: every limit that the plan keeps, with value, unit, allowed range, class and source, for
// the sets `uk` and `us`. Any limit can be overridden by a job; the plan then says so.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

struct Limit {
  std::string_view key;    ///< "rain-facework-stop"
  std::string_view title;  ///< plain words: "rain that stops laying facing bricks"
  double value;
  std::string_view unit;  ///< "C", "K", "mm/h", "mm", "m/s", "h", "min", "m", "kg", "N/mm2", "month",
                          ///< "o'clock", "courses", "nights", "days", "factor", "kg/m2/h", "yes/no"
  double low, high;       ///< what an override may be, ends included
  LimitClass cls;
  std::optional<LimitSet> set;   ///< nullopt: both sets
  std::optional<ColdRule> rule;  ///< nullopt: whatever the cold rule
  Source source;
};

/// Keys of the table. Temperatures are of the air in the shade at the site unless said otherwise.
namespace limit {
// cold, brickwork: stop when below `stop` and falling (nbs: at or below); resume when at or above `resume`,
// rising, and the day is expected to pass `expected`. Where `protected` is 1, work may go on below `stop` if
// mortar is at or above `mortar` when laid and the work is covered against frost; never below `hard_stop`.
inline constexpr std::string_view brick_cold_stop = "brick-cold-stop";
inline constexpr std::string_view brick_cold_resume = "brick-cold-resume";
inline constexpr std::string_view brick_cold_expected = "brick-cold-expected";
inline constexpr std::string_view brick_cold_protected = "brick-cold-protected";
inline constexpr std::string_view brick_cold_mortar = "brick-cold-mortar";
inline constexpr std::string_view brick_cold_hard_stop = "brick-cold-hard-stop";
/// Of hydraulic lime, in place of stop and resume above; no work below them, warm mortar or not.
inline constexpr std::string_view brick_lime_cold_stop = "brick-lime-cold-stop";
inline constexpr std::string_view brick_lime_cold_resume = "brick-lime-cold-resume";
inline constexpr std::string_view brick_heat = "brick-heat";
inline constexpr std::string_view pour_cold_start = "pour-cold-start";      ///< and rising
inline constexpr std::string_view concrete_cold = "concrete-cold";          ///< of the concrete itself
inline constexpr std::string_view concrete_heat = "concrete-heat";          ///< of the concrete itself
inline constexpr std::string_view flags_cold_stop = "flags-cold-stop";      ///< falling
inline constexpr std::string_view flags_cold_resume = "flags-cold-resume";  ///< rising
inline constexpr std::string_view flags_heat = "flags-heat";                ///< jointing, rising
inline constexpr std::string_view flags_keep_above = "flags-keep-above";
inline constexpr std::string_view flags_keep_hours = "flags-keep-hours";
// rain
inline constexpr std::string_view rain_facework_continue = "rain-facework-continue";
inline constexpr std::string_view rain_facework_stop = "rain-facework-stop";
inline constexpr std::string_view rain_facework_minutes = "rain-facework-minutes";
inline constexpr std::string_view rain_below_stop = "rain-below-stop";
inline constexpr std::string_view rain_pour_stop = "rain-pour-stop";
inline constexpr std::string_view rain_pointing_stop = "rain-pointing-stop";
inline constexpr std::string_view rain_flags_stop = "rain-flags-stop";
inline constexpr std::string_view rain_ground_stop = "rain-ground-stop";  ///< digging, carrying, filling
inline constexpr std::string_view rain_cover = "rain-cover";              ///< fresh work is covered from here
inline constexpr std::string_view soft_joint_inspect = "soft-joint-inspect";
inline constexpr std::string_view soft_joint_remake = "soft-joint-remake";
// wind and covers
inline constexpr std::string_view canopy_gust = "canopy-gust";
inline constexpr std::string_view canopy_overnight_gust = "canopy-overnight-gust";
inline constexpr std::string_view fresh_wall_wind = "fresh-wall-wind";
inline constexpr std::string_view cover_shortest = "cover-shortest";
inline constexpr std::string_view night_cover_first_month = "night-cover-first-month";
inline constexpr std::string_view night_cover_last_month = "night-cover-last-month";
inline constexpr std::string_view cover_mean_day = "cover-mean-day";  ///< us only
inline constexpr std::string_view evaporation_precaution = "evaporation-precaution";
inline constexpr std::string_view strip_frost_nights = "strip-frost-nights";
inline constexpr std::string_view concrete_frost_strength = "concrete-frost-strength";
/// Of the top under its cover as the plan's clocks reckon it (programme/strip_frost.h).
inline constexpr std::string_view strip_top_above = "strip-top-above";
// waits
inline constexpr std::string_view strip_wait_mild = "strip-wait-mild";
inline constexpr std::string_view strip_wait_cold = "strip-wait-cold";
inline constexpr std::string_view strip_mild_from = "strip-mild-from";
inline constexpr std::string_view strip_cold_from = "strip-cold-from";
inline constexpr std::string_view strip_wait_courses = "strip-wait-courses";  ///< walls up to this many
inline constexpr std::string_view box_wait = "box-wait";
inline constexpr std::string_view box_wait_courses = "box-wait-courses";
inline constexpr std::string_view high_wall_wait_warm = "high-wall-wait-warm";
inline constexpr std::string_view high_wall_wait_cold = "high-wall-wait-cold";
inline constexpr std::string_view high_wall_warm_from = "high-wall-warm-from";
inline constexpr std::string_view fill_half_wait = "fill-half-wait";
inline constexpr std::string_view fill_rest_wait = "fill-rest-wait";
inline constexpr std::string_view fill_cold_below = "fill-cold-below";
inline constexpr std::string_view fill_cold_factor = "fill-cold-factor";
inline constexpr std::string_view grout_wait = "grout-wait";
inline constexpr std::string_view flags_foot_wait = "flags-foot-wait";
inline constexpr std::string_view strap_wait = "strap-wait";
inline constexpr std::string_view plate_load_wait = "plate-load-wait";
inline constexpr std::string_view cure_plain_days = "cure-plain-days";
inline constexpr std::string_view mortar_life = "mortar-life";
inline constexpr std::string_view concrete_place_within = "concrete-place-within";
// heights
inline constexpr std::string_view green_height_facing = "green-height-facing";
inline constexpr std::string_view green_height_engineering = "green-height-engineering";
inline constexpr std::string_view retaining_caution_height = "retaining-caution-height";
inline constexpr std::string_view retaining_caution_span = "retaining-caution-span";
inline constexpr std::string_view retaining_engineer_height = "retaining-engineer-height";
inline constexpr std::string_view free_wall_half_brick = "free-wall-half-brick";
inline constexpr std::string_view free_wall_one_brick = "free-wall-one-brick";
// hours
inline constexpr std::string_view drive_rest_every = "drive-rest-every";
inline constexpr std::string_view drive_rest = "drive-rest";
inline constexpr std::string_view day_red_line = "day-red-line";
inline constexpr std::string_view rest_before_drive = "rest-before-drive";
inline constexpr std::string_view evening_from = "evening-from";
inline constexpr std::string_view pointing_lights_pace = "pointing-lights-pace";
inline constexpr std::string_view noise_weekday_from = "noise-weekday-from";
inline constexpr std::string_view noise_weekday_to = "noise-weekday-to";
inline constexpr std::string_view noise_saturday_from = "noise-saturday-from";
inline constexpr std::string_view noise_saturday_to = "noise-saturday-to";
// pace: what a job may set of the factors of weather and light. The factors of each kind of work stand in the
// table of operations; the first four are multiplied with them, but never to more than 1.
inline constexpr std::string_view pace_half_light = "pace-half-light";
inline constexpr std::string_view pace_thin_rain = "pace-thin-rain";
inline constexpr std::string_view pace_wet_ground = "pace-wet-ground";
inline constexpr std::string_view pace_cold = "pace-cold";
inline constexpr std::string_view pace_freezing = "pace-freezing";  ///< at 0 degrees against 5
inline constexpr std::string_view pace_hot_from = "pace-hot-from";
inline constexpr std::string_view pace_hot = "pace-hot";            ///< ten degrees above it
inline constexpr std::string_view pace_hot_damp = "pace-hot-damp";  ///< there, in saturated air against 60 %
inline constexpr std::string_view pace_long_day_from = "pace-long-day-from";
inline constexpr std::string_view pace_long_day = "pace-long-day";
// ground
inline constexpr std::string_view footing_thickness = "footing-thickness";
inline constexpr std::string_view footing_overlap = "footing-overlap";
inline constexpr std::string_view footing_frost_depth = "footing-frost-depth";
inline constexpr std::string_view footing_slope = "footing-slope";  ///< us only: steeper is stepped
inline constexpr std::string_view ground_mean = "ground-mean";      ///< over the year, a metre down
inline constexpr std::string_view ground_swing = "ground-swing";  ///< half of the year's range at the surface
inline constexpr std::string_view trench_caution = "trench-caution";
inline constexpr std::string_view trench_support = "trench-support";  ///< us only
inline constexpr std::string_view lift_caution = "lift-caution";
}  // namespace limit

/// Every row of every set and rule.
[[nodiscard]] std::span<const Limit> limit_table();

/// A value that a job sets itself.
struct LimitSetting {
  std::string key;
  double value = 0;
};

/// The limits in force for one job.
class LimitValues {
 public:
  struct Entry {
    const Limit* row;  ///< never null; lives for ever
    double value;      ///< row->value unless overridden
    bool overridden;
  };
  /// The value in the row's unit. @throws std::logic_error for a key that this set does not have
  [[nodiscard]] double at(std::string_view key) const { return entry(key).value; }
  [[nodiscard]] const Entry& entry(std::string_view key) const&;
  /// nullptr where the set has no such limit (footing_slope in `uk`).
  [[nodiscard]] const Entry* find(std::string_view key) const&;
  [[nodiscard]] std::span<const Entry> all() const& { return entries_; }
  // What these hand out lives as long as the object: not for a temporary.
  const Entry& entry(std::string_view key) const&& = delete;
  const Entry* find(std::string_view key) const&& = delete;
  std::span<const Entry> all() const&& = delete;
  /// Typed readers. @throws std::logic_error if the row's unit is another
  [[nodiscard]] base::Celsius temperature(std::string_view key) const;
  [[nodiscard]] base::MillimetresPerHour rain_rate(std::string_view key) const;
  [[nodiscard]] base::Millimetres depth(std::string_view key) const;  ///< unit "mm"
  [[nodiscard]] base::MetresPerSecond speed(std::string_view key) const;
  [[nodiscard]] base::Hours hours(
      std::string_view key) const;  ///< unit "h"; also "min" and "days", converted

 private:
  friend struct LimitsMaker;
  std::vector<Entry> entries_;  // in table order
};

struct ResolvedLimits {
  LimitValues values;   ///< faulty settings left at the table's value
  base::Faults faults;  ///< "unknown-limit", "limit-out-of-range", "limit-twice"
};

/// The limits of a set under a cold rule with a job's own values on top. Settings of norms, paces and covers
/// (own_figures.h) are only checked. The cold rule is of the UK; under
/// `us` it changes nothing.
/// @param place JSON pointer of the list of settings; faults carry place + "/" + index
[[nodiscard]] ResolvedLimits limits_for(LimitSet set, ColdRule rule,
                                        std::span<const LimitSetting> settings = {},
                                        std::string_view place = "/limits/overrides");

}  // namespace weatherstruck::trade
