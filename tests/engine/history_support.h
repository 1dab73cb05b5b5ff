#pragma once
// A plan followed until some tick, made into the history of its network.
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine::brute {

/// The network at `now`, when the runs of the schedule that were begun before it are done or under way. A run
/// under way goes on as planned or, where the task may pause, is cut at `now` with what it has got through.
/// Now and then what lies has a greater allowance than what is laid anew.
[[nodiscard]] Network with_history(Network network, const Schedule& schedule, Tick now, base::Random& dice);

/// Changes what was done, as a day does: other hours, other amounts, things done out of turn.
void done_otherwise(Network& network, base::Random& dice);

}  // namespace weatherstruck::engine::brute
