#pragma once
// A schedule of the engine as people read it.
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {

/// With the order that it was made from, so that the next plan can go on from it. Nothing is checked, and
/// `soonest_home` is not looked for. Reasons are those of `listed.best.why`, which holds a list for each
/// task.
/// @param programme the schedule is of its network; what was done before now stands in it
[[nodiscard]] Plan read_back(const PlanRequest& request, const Programme& programme,
                             const engine::ListPlan& listed);

}  // namespace weatherstruck::programme
