#pragma once
// Jobs and weather drawn at random, whole ones, as people ask for them: every kind of part, crew, kit, set of
// limits and season, so that the two checkers meet what no example thought of. Invented.
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::programme {

struct AnyJob {
  works::Job job;
  sky::Series weather;  ///< hourly, from leaving home to six days beyond the promise
};

/// The job of a seed; the same seed gives the same job. It passes works::check.
[[nodiscard]] AnyJob any_job(unsigned seed);

/// What either checker says of the plan for it, a line each; empty: nothing but what had no place.
/// @param schedules budget of the search
[[nodiscard]] std::string broken_rules(const AnyJob& any, int schedules);

}  // namespace weatherstruck::programme
