#pragma once
// How wet the ground is: a bucket that rain fills and that drains and dries. A simple first model for pace
// and bailing, not hydrology. All its constants are assumptions unless said otherwise.
#include <array>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {

/// Water that worked soil holds: beyond `capacity` it runs off; above `drains_to` it drains away, half of
/// what is above every `half_life`; above `sodden` it sticks to boots and barrow; above `standing` it lies in
/// an open trench.
struct GroundKind {
  base::Millimetres capacity;
  base::Millimetres drains_to;
  base::Hours half_life;
  base::Millimetres sodden;
  base::Millimetres standing;
};
[[nodiscard]] constexpr GroundKind ground_kind(const std::array<double, 5>& row) {
  return {base::Millimetres(row[0]), base::Millimetres(row[1]), base::Hours(row[2]),
          base::Millimetres(row[3]), base::Millimetres(row[4])};
}
inline constexpr GroundKind sandy_ground = ground_kind(number::sandy);
inline constexpr GroundKind loamy_ground = ground_kind(number::loamy);
inline constexpr GroundKind clay_ground = ground_kind(number::clayey);

struct GroundState {
  base::Millimetres water{0};  ///< 0..capacity
};

/// The state after `time` with `rain` fallen in it and `drying` (see drying_rate) taken from it; first rain,
/// then drainage, then drying. @throws std::invalid_argument if any amount is negative
[[nodiscard]] GroundState step(GroundState before, const GroundKind& kind, base::Millimetres rain,
                               base::MillimetresPerHour drying, base::Hours time);
[[nodiscard]] bool is_sodden(GroundState state, const GroundKind& kind);
/// Water to bail from a trench for each square metre of its bottom: what lies above `standing`.
[[nodiscard]] base::Millimetres standing_water(GroundState state, const GroundKind& kind);

/// Evaporation from wet ground by Penman's wind function (1948, from memory): 2.6 (1 + 0.54 u) times the
/// vapour deficit in kPa, mm a day with u at 2 m in m/s. Never below 0.
[[nodiscard]] base::MillimetresPerHour drying_rate(base::Celsius air, base::Fraction humidity,
                                                   base::MetresPerSecond wind_2m);

}  // namespace weatherstruck::matter
