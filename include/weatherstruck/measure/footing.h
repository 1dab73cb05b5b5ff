#pragma once
// Strip footings on falling ground: where the concrete steps down, how far the upper length laps the lower,
// how much concrete and digging that comes to, and how many courses each stretch needs to finish level.
//
// Rules: Approved Document A (England), section 2E, for plain concrete strips (read on the page). They are
// written for houses; a garden wall may lawfully do less, so what only they ask for is advice, and only what
// cannot be built or is no step at all is a fault.
#include <span>
#include <variant>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::measure {

/// Height of one course with its bed joint.
inline constexpr base::Metres course_height = base::to_metres(trade::course_height);

/// The figures of the limits table that footings are held against.
struct FootingRules {
  base::Metres least_thickness;  ///< limit "footing-thickness"
  base::Metres least_overlap;    ///< limit "footing-overlap"
  base::Metres frost_depth;      ///< limit "footing-frost-depth"
  /// The limits in force for a job; what its set does not have is taken from `uk`.
  [[nodiscard]] static FootingRules from(const trade::LimitValues& limits);
  /// Those of the `uk` set with nothing overridden: 150, 300 and 450 mm.
  [[nodiscard]] static FootingRules uk();
};

/// Overlap of the upper length over the lower at a step: max(2 S, T, 300 mm). AD A 2E2.
/// A fault (code "step-deeper-than-footing") where S > T; lengths > 0.
[[nodiscard]] std::variant<base::Metres, base::Fault> step_overlap(base::Metres step, base::Metres thickness,
                                                                   const FootingRules& rules);

/// Least thickness max(150 mm, P), P the projection beyond the wall face on each side. AD A 2E2.
[[nodiscard]] base::Metres least_thickness(base::Metres width, base::Metres wall_thickness,
                                           const FootingRules& rules);

/// Whether the bottom may follow the ground without steps: slope at most 1 in 10. IRC R403.1.5 (the top is
/// level in either case).
[[nodiscard]] bool bottom_may_slope(base::Metres drop, base::Metres length);

/// A strip as drawn. The ground falls along the length, first end high.
struct Strip {
  base::Metres length;
  base::Metres width;
  base::Metres thickness;
  base::Metres depth;  ///< ground to the bottom of the concrete at the high end
};

/// The ground's level at a place along a strip, metres below its level at the high end.
struct Level {
  base::Metres along;
  base::Metres below;
};

struct Step {
  int number = 0;          ///< from 1 at the high end
  base::Metres bottom_at;  ///< where the bottom of the trench steps down
  base::Metres top_at;     ///< where the upper concrete ends: bottom_at + overlap
  base::Metres fall;       ///< of the concrete at this step
};

/// A length with one level of concrete top.
struct Stretch {
  base::Metres from;
  base::Metres to;
  int extra_courses = 0;  ///< courses more than at the high end
};

struct FootingPlan {
  base::Metres step{0};  ///< height of each; zero if there are none
  base::Metres overlap{0};
  std::vector<Step> steps;
  std::vector<Stretch> stretches;  ///< at least one; they cover the length
  base::CubicMetres concrete{0};   ///< W T L + sum of W x overlap x step
  base::CubicMetres trench{0};     ///< ground down to the bottom, sides upright
  base::Metres deepest{0};         ///< deepest place of the trench
  base::Faults faults;             ///< cannot be built as drawn; then there are no steps
  base::Faults advice;
  [[nodiscard]] int extra_courses() const { return stretches.empty() ? 0 : stretches.back().extra_courses; }
};

/// W T L + steps x W x overlap x step. Cross-check: .5 x .225 x 6 m with 3 steps of .225 and .45 overlap:
/// 0.826875 m3.
[[nodiscard]] base::CubicMetres stepped_concrete(const Strip& strip, int steps, base::Metres step,
                                                 base::Metres overlap);

/// Steps for a fall guessed as even. Each step is one course; where the ground is so steep that such steps
/// have no room for their overlaps, two courses or more, never deeper than the concrete is thick. Their
/// number is the nearest to the drop; each stands where the ground has fallen to the middle of the step, so
/// that the trench is at most half a step shallower or deeper than asked for. Steps that crowd move along: up
/// from the low end (deeper), down from the high end.
[[nodiscard]] FootingPlan plan_footing(const Strip& strip, base::Metres drop, const FootingRules& rules);

/// The same from levels read on the ground: `along` strictly rising, at least two. A reading above an earlier
/// one counts as level with it.
[[nodiscard]] FootingPlan plan_footing(const Strip& strip, std::span<const Level> ground,
                                       const FootingRules& rules);

}  // namespace weatherstruck::measure
