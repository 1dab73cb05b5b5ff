#pragma once
// The same trip with one thing changed: what may be tried where a plan is late or unsure.
#include <vector>

#include "weatherstruck/programme/late.h"

namespace weatherstruck::programme {

struct Change {
  Cure::Kind kind{};
  works::Name part;  ///< `without` alone
  works::Job job;
};

/// In the order of the kinds, then of the parts; only what is not so already. A trip in which everything is
/// still open at `now`: what is done cannot be planned otherwise.
[[nodiscard]] std::vector<Change> changes_of(const works::Job& job, const trade::LimitValues& limits,
                                             const sky::Series& weather, base::Instant now);

}  // namespace weatherstruck::programme
