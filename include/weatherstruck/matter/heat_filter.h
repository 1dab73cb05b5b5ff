#pragma once
// The heat balance of heat.h in six nodes, quick enough for hundreds of possible weathers: top, middle and
// rest of the strip, ground below that follows within a day, ground that follows within weeks and the deep
// ground behind; and, joined to the middle, the ground beside, which lies open to the weather. Air, wind, sky
// and cover enter as in the full model, so one fit serves every cover and every change of cover.
//
// Limits. Made for one strip, one mix, one kind of ground and a date (a week to either side). Tested to stay
// within 1 K of the full model at every hour of ten days for strips 0.1 to 0.4 m thick, 0.45 m wide or more
// and at most two thirds as thick as wide, placed at 5 to 20 degrees, in air of -19 to 20 degrees and wind up
// to 12 m/s, in steps of up to an hour; its age of the top within 8 % after the first half day. Narrower
// strips (0.3 m) come to 1.7 K, too cold, in still frosty air under thick covers. It is as wrong about the
// world as the full model is (docs/heat.md); this is what it adds.
#include <array>
#include <cstddef>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/heat.h"

namespace weatherstruck::matter {

/// The chain of nodes from the top down; the sixth node hangs beside it.
inline constexpr std::size_t heat_nodes = 5;

/// Resistances m2 K/W, capacities J/(m2 K), each for a m2 of the strip's top.
struct HeatFilter {
  HeatMix mix;
  double sky = 1;    ///< share of the sky seen
  double layer = 0;  ///< resistance from the face to the middle of the full model's top cell
  double face = 0;   ///< resistance from the face to the top node
  std::array<double, heat_nodes> joint{};     ///< of each node to the one below; the last to the deep ground
  std::array<double, heat_nodes> capacity{};  ///< three of the strip, two of the ground
  std::array<double, 3> ground{};             ///< degrees C at the pour: near, far, deep
  double beside_joint = 0;                    ///< from the middle of the strip to the ground beside
  double beside_open = 0;                     ///< from there to the weather
  double beside_capacity = 0;
  double beside_ground = 0;    ///< degrees C at the pour
  base::Kelvins worst_fitted;  ///< largest distance from the full model in the weathers it was fitted to
};

/// Where a filter of this strip begins: its ground and its share of the sky, nothing fitted yet.
/// @throws std::invalid_argument as StripHeat
[[nodiscard]] HeatFilter unfitted_heat_filter(const StripCase& strip);

/// Fits the filter to the full model, in four made-up spells of ten days (mild, then frost; wind and cloud
/// changing, or still; bare, under a mat, well covered, and covered by night only). Deterministic; about
/// twenty thousandths of a second.
/// @throws std::invalid_argument as StripHeat
[[nodiscard]] HeatFilter fit_heat_filter(const StripCase& strip);

struct FilterTrace;

/// One pour followed through one weather.
class FilterRun {
 public:
  /// @param heats false leaves the cement's own heat out (and the wet face with it): for a clock that does
  /// not know when the pour was
  FilterRun(const HeatFilter& filter, base::Celsius placed, bool heats = true);

  /// State after a step. @throws std::invalid_argument unless 0 < time <= 1 h, or as surface_exchange
  TopState step(const Outside& outside, base::Hours time);
  /// From now on writes down what each part of a step met. Null: no longer.
  void follow(FilterTrace* trace) { trace_ = trace; }

 private:
  void hydrate(base::Hours time);
  void conduct(const Exchange& exchange, base::Celsius open, base::Hours part, int count);

  HeatFilter filter_;
  bool heats_;
  double rise_;  // K, if all the cement hydrated and no heat left
  std::array<double, heat_nodes> temperature_{};
  double beside_;
  double age_ = 0, age_below_ = 0, given_off_ = 0, given_off_below_ = 0;
  double set_ = 0;               // hours at 20 degrees on the setting clock
  double layer_, layer_before_;  // of the top layer, now and a step ago
  double face_;
  FilterTrace* trace_ = nullptr;
};

}  // namespace weatherstruck::matter
