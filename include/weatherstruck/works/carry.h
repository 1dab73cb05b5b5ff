#pragma once
// Carrying for a job: which route, how many loads, how long.
#include <cstddef>
#include <string_view>

#include "weatherstruck/measure/haul.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {

[[nodiscard]] measure::CarryRoute carry_route(const Route& route);

/// Place in job.site.routes of the one used: the first, unless another takes fewer hours.
/// @pre the job has a route
[[nodiscard]] std::size_t chosen_route(const Job& job);

/// Everything of `uses` along the route: bulk and bags by volume, sand damp and swollen (norm
/// "sand-bulking"), bricks and flags by the barrow load; sheets, plates and fixings go along with them and
/// count nothing.
struct Carry {
  base::Hours hours{0};
  int trips = 0;
  base::CubicMetres volume{0};  ///< bulk and bags, loose
  double bricks = 0;
  double flags = 0;
};
[[nodiscard]] Carry carry(const Uses& uses, const Route& route, const Kit& kit,
                          const trade::NormValues& norms = {});

/// Building or sharp sand.
[[nodiscard]] bool is_sand(std::string_view material);
/// Whether a material goes into mixes of concrete and mortar.
[[nodiscard]] bool is_mixed(std::string_view material);

/// Mixed concrete or mortar, wheeled wet: a barrow takes what it may weigh (norm "barrow-mass").
[[nodiscard]] Carry carry_wet(base::CubicMetres volume, base::KilogramsPerCubicMetre density,
                              const Route& route, const Kit& kit, const trade::NormValues& norms = {});

/// The job's soil (dug, so already grown: SoilRow::bulking) or other loose stuff, out or in.
[[nodiscard]] Carry carry_loose(base::CubicMetres volume, const Route& route, const Kit& kit,
                                const trade::NormValues& norms = {});

}  // namespace weatherstruck::works
