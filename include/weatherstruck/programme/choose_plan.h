#pragma once
// Which order of work is the plan: searched for on the forecast, chosen by how sure it is, and not changed
// from one morning to the next for little.
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {

/// @param programme built for the request
/// Where weathers are asked for, several plans that the forecast holds to be as good run through the same
/// possible weathers, and the surest wins. Where a plan is followed, its order stays unless it breaks or
/// another gains enough (docs/chance.md).
[[nodiscard]] engine::ListPlan choose_plan(const PlanRequest& request, const Programme& programme);

/// The order of a plan with the ways that it found.
[[nodiscard]] engine::Genes settled(const engine::ListPlan& plan);

}  // namespace weatherstruck::programme
