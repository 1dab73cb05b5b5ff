#pragma once
// A job with one of its parts left out.
#include <optional>

#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// The job without `part`, and without what hangs on it alone: the footing under a wall, its importance, its
/// fallbacks, its name at a route. nullopt for a footing, for the last part, and where something else stands
/// on it or names it.
/// @pre `part` is the name of a part of `job`
[[nodiscard]] std::optional<Job> without_part(Job job, const Name& part);

}  // namespace weatherstruck::works
