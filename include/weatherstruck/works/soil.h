#pragma once
// Where the soil goes: out of the ground, back round the brickwork, into beds, away.
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

struct SoilAccount {
  base::CubicMetres dug{0};         ///< in the ground, turf not counted
  base::CubicMetres dug_loose{0};   ///< bulked
  base::CubicMetres backfilled{0};  ///< loose, back into trenches
  base::CubicMetres into_beds{0};   ///< loose, out of what was dug
  base::CubicMetres to_buy{0};      ///< topsoil that the digging does not yield, loose
  base::CubicMetres away{0};        ///< loose, left over
  base::SquareMetres turf{0};       ///< stripped over trenches, flights and paths; in a bed it is dug in
};

/// Beds are filled from what is dug before any is bought.
[[nodiscard]] SoilAccount soil_of(const Job& job, const Expansion& expansion);

}  // namespace weatherstruck::works
