#pragma once
// Small random changes to a schedule, most of which break a rule and some of which do not.
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine::brute {

/// The schedule with one to three things changed: a run shifted, cut, stretched, split, joined or dropped; a
/// task moved, left out, or said to be done in another way; a cover shifted, shortened, dropped, added or
/// swapped; a change of state moved, dropped, added or swapped. Sizes and way numbers stay in range.
[[nodiscard]] Schedule perturbed(const Network& network, Schedule schedule, base::Random& dice);

}  // namespace weatherstruck::engine::brute
