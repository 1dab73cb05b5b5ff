#pragma once
// The resource-constrained project scheduling problem: what is left of a network where no weather blows.
// Every task is one run of fixed length, follows others, and holds constant shares of resources of constant
// capacity; the whole is to end as soon as it can. Here a placement costs about a microsecond, so that a
// search can be held against the published benchmarks (docs/projects.md).
#include <cstdint>
#include <string>
#include <vector>

#include "weatherstruck/engine/network.h"
#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine {

struct Project {
  std::vector<Tick> duration;                ///< of each task; 0 or more
  std::vector<std::vector<int>> successors;  ///< of each task: those that start when it is over, or later
  std::vector<std::vector<int>> demand;      ///< [task][resource]; 0 to the capacity
  std::vector<int> capacity;                 ///< of each resource; 0 to 32767
};

/// What is wrong with it: sizes that differ, numbers out of range, a circle. Empty: sound.
[[nodiscard]] std::vector<std::string> faults_of(const Project& project);

struct ProjectOptions {
  int schedules = 1000;    ///< placements of the whole project, in either direction; 1 or more
  std::uint64_t seed = 1;  ///< same project, options: same plan
};

struct ProjectPlan {
  std::vector<Tick> start;  ///< of each task
  Tick makespan = 0;
  Tick bound = 0;     ///< no schedule ends sooner: the longest chain, or the work on one resource
  int schedules = 0;  ///< placements made; fewer than asked for where the bound was met
};

/// @throws std::invalid_argument with the first of faults_of
[[nodiscard]] ProjectPlan plan_project(const Project& project, const ProjectOptions& options = {});

/// The same as a network, task for task, on a horizon of that many ticks; and a plan as its schedule. So that
/// the checker, which knows nothing of projects, can judge.
[[nodiscard]] Network network_of(const Project& project, Tick horizon);
[[nodiscard]] Schedule schedule_of(const Project& project, const std::vector<Tick>& start);

}  // namespace weatherstruck::engine
