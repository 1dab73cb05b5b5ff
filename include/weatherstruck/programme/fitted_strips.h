#pragma once
// The fast filters of strips that have been fitted. Fitting one takes twenty thousandths of a second, and one
// command makes many programmes of the same strips; so does tomorrow's. What is kept is no state: it is what
// would be worked out again, to the last bit.
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/matter/heat_filter.h"

namespace weatherstruck::programme {

struct FittedStrip {
  matter::StripCase strip;
  matter::HeatFilter filter;
};

/// The day of the year (1 to 365) for which strips poured about this day are fitted: the middle of its week,
/// counted from the first of January. A filter holds for a week to either side (matter/heat_filter.h).
[[nodiscard]] int fitting_day(const base::Zone& zone, base::Instant poured);

/// What this lane has fitted, the oldest first; at most sixteen.
[[nodiscard]] std::vector<FittedStrip> fitted_strips();
/// Takes over what another has fitted, so that work beside it need not fit it again.
void know_fitted(const std::vector<FittedStrip>& strips);

}  // namespace weatherstruck::programme
