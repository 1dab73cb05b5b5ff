#pragma once
// The fast filters of strips that have been fitted. Fitting takes a hundredth of a second, and one command
// makes many programmes of the same strips. What is kept is no state: it is what would be worked out again.
#include <vector>

#include "weatherstruck/matter/heat_filter.h"

namespace weatherstruck::programme {

struct FittedStrip {
  matter::StripCase strip;
  matter::HeatFilter filter;
};

/// What this lane has fitted, the oldest first; a few.
[[nodiscard]] std::vector<FittedStrip> fitted_strips();
/// Takes over what another has fitted, so that work beside it need not fit it again.
void know_fitted(const std::vector<FittedStrip>& strips);

}  // namespace weatherstruck::programme
