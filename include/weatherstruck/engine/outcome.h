#pragma once
// What becomes of a schedule when the exposure clocks turn out other than they were believed to be.
#include <vector>

#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine {

/// The keeps whose fresh work is spoilt (Hazard::spoils, else more than it may suffer) under the covers of
/// this schedule, rising, by the clocks of this network. What lies from before now has its second allowance
/// (Hazard::most_for_past).
/// @param schedule has the network's shape; it need not keep any of its rules
[[nodiscard]] std::vector<KeepId> damaged_keeps(const Network& network, const Schedule& schedule);

/// The tasks of which a run overruns a guard, or that begin a most-link too late, rising; likewise.
[[nodiscard]] std::vector<TaskId> overrun_tasks(const Network& network, const Schedule& schedule);

}  // namespace weatherstruck::engine
