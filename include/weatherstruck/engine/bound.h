#pragma once
// What no schedule can beat.
#include "weatherstruck/engine/network.h"

namespace weatherstruck::engine {

/// No schedule in which every must-task has its place ends its must-tasks sooner: the longest chain of work
/// and waits on their clocks, and the work of each resource with no more of it than there is, by slot and by
/// day. Covers, states, guards and most-links are left out, so that the true least may be later. `never`
/// where even so not all can be placed within the horizon. What is done before now counts as done.
/// @pre faults_of(network) is empty
[[nodiscard]] Tick least_finish(const Network& network);

}  // namespace weatherstruck::engine
