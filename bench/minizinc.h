#pragma once
// The same task for general-purpose solvers: a network or a project as a MiniZinc model with the least finish
// as its objective. For comparison only.
#include <string>

#include "weatherstruck/engine/project.h"

namespace weatherstruck::bench {

/// A network without fresh work (weather_jobs.h) in which all must be done, of which nothing is done yet and
/// each resource is there whole or not at all. Kept: work clocks, set-up, ways, guards, spans, resources by
/// slot, hours a day, links with least and most on any clock, tasks that hang on a way. A task is one of its
/// admissible pairs of way and start, listed with its end.
/// @throws std::invalid_argument naming what such a model does not say
[[nodiscard]] std::string minizinc_of(const engine::Network& network);

[[nodiscard]] std::string minizinc_of(const engine::Project& project);

}  // namespace weatherstruck::bench
