#pragma once
// Fitted strips kept beside the plans, so that only the first plan of a week fits them.
#include <string_view>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::desk {

/// Takes from the record what this program has fitted for the week of a trip (a programme's hours begin with
/// it).
void know_kept_strips(record::Store& store, std::string_view program, const base::Zone& zone,
                      base::Instant leave);

/// Keeps what has been fitted since.
void keep_fitted_strips(record::Store& store, std::string_view program, base::Instant now);

}  // namespace weatherstruck::desk
