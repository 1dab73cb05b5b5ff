#pragma once
// Carrying for a job: which route, how many loads, how long.
#include <cstddef>

#include "weatherstruck/measure/haul.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {

[[nodiscard]] measure::CarryRoute carry_route(const Route& route);

/// Place in job.site.routes of the one used: the first, unless another takes fewer hours.
/// @pre the job has a route
[[nodiscard]] std::size_t chosen_route(const Job& job);

/// Everything of `uses` along the route: bulk and bags by volume, bricks and flags by the barrow load;
/// sheets, plates and fixings go along with them and count nothing.
struct Carry {
  base::Hours hours{0};
  int trips = 0;
  base::CubicMetres volume{0};  ///< bulk and bags, loose
  double bricks = 0;
  double flags = 0;
};
[[nodiscard]] Carry carry(const Uses& uses, const Route& route, const Kit& kit);

/// The job's soil or other loose stuff, out or in.
[[nodiscard]] Carry carry_loose(base::CubicMetres volume, const Route& route, const Kit& kit);

}  // namespace weatherstruck::works
