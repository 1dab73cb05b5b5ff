#pragma once
// The operation table: one row for each kind of work, with its pace norm, what stops it, what slows it,
// and what it leaves behind. The only place where these stand.
#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

enum class Light { day, twilight, floodlit, dark };
/// Where work may be left: `never` once begun runs to its end; `at_courses` after any course.
enum class Pausing { never, at_courses, anywhere };
enum class Noise { quiet, mixer, cutter, compactor };
/// Which temperature limits of the limits table bind the work.
enum class TemperatureRule { none, brickwork, concrete, flags };
/// What the work leaves that weather can spoil.
enum class FreshWork { none, concrete, mortar_joints, bed_mortar };

struct OperationRow {
  Operation operation;
  std::string_view key;    ///< "lay-facing": the enumerator with dashes; unique
  std::string_view title;  ///< "lay facing bricks"
  std::string_view verb;   ///< imperative for a sheet: "Lay facing bricks"
  std::string_view
      unit;  ///< of the amount, plural: "bricks", "m3", "m2", "m", "hours", "t", "straps", "steps"
  std::string_view unit_one;  ///< "brick"; the same as `unit` for symbols
  double hours_per_unit;  ///< hours of one person alone per unit at pace 1, mixing and fetching on the spot
                          ///< included
  double hours_low;       ///< the quick end of the range seen or taken; see spread()
  double hours_high;      ///< the slow end
  Source source;
  std::chrono::minutes set_up;  ///< at every start or restart
  Pausing pausing;
  std::string_view rain_stop;  ///< key of the limit in mm/h at which it stops; empty: rain never stops it
  TemperatureRule temperature;
  Noise noise;
  bool messy;  ///< leaves mud or splashes: not beside finished work or after sweeping
  bool lays;   ///< needs somebody who lays bricks; false: a labourer can do it
  int people;  ///< fewest that can do it
  /// Indexed by Light; 0: not possible. For pointing and jointing under lights see also the limit
  /// pointing-lights-pace.
  std::array<double, 4> pace_in_light;
  double pace_thin_rain;   ///< pace in rain below the stop (from 0.1 mm/h)
  double pace_cold;        ///< pace in air below 5 degrees C (cold hands, thick clothes)
  double pace_wet_ground;  ///< pace on sodden ground
  FreshWork leaves;

  [[nodiscard]] constexpr double pace(Light light) const {
    return pace_in_light[static_cast<std::size_t>(light)];
  }
  [[nodiscard]] constexpr bool noisy() const { return noise != Noise::quiet; }
  /// In the cab: neither heat nor cold slows it.
  [[nodiscard]] constexpr bool at_the_wheel() const {
    return operation == Operation::drive || operation == Operation::fetch;
  }
  /// Joints made to be seen, for which the limit pointing-lights-pace holds under lights.
  [[nodiscard]] constexpr bool seen_joints() const {
    return operation == Operation::strike || operation == Operation::point ||
           operation == Operation::grout_flags;
  }
  /// The range of its time against the norm: a person of the quick end takes `low` of the norm's hours.
  [[nodiscard]] constexpr Spread spread() const {
    return {hours_low / hours_per_unit, hours_high / hours_per_unit};
  }
};

/// Every row, in the order of the enumeration.
[[nodiscard]] std::span<const OperationRow> operations();
[[nodiscard]] const OperationRow& row_for(Operation operation);
/// The operation of a key such as "lay-facing"; nullopt where there is none.
[[nodiscard]] std::optional<Operation> operation_from_key(std::string_view key);
/// Hours of one person at pace 1 for an amount in the row's unit. @throws std::invalid_argument if amount
/// is negative or not finite
[[nodiscard]] base::Hours norm_hours(Operation operation, double amount);

}  // namespace weatherstruck::trade
