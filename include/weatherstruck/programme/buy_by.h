#pragma once
// When a stock runs out by the plan, and the last moment to leave for the merchant so that more is there.
#include <optional>
#include <string>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// The start of the first stretch of work, from `now` on, for which `left` of the material does not last,
/// what is taken before it counted; carrying takes nothing. nullopt where it lasts.
[[nodiscard]] std::optional<base::Instant> runs_out(const works::TaskList& list, const Plan& plan,
                                                    const std::string& material, double left,
                                                    base::Instant now);

/// The last trip to the merchant that is back by `wanted`: away from the site for the drive there and back
/// and the norm "merchant-stop" in between, all of that stop while he serves, leaving no sooner than `now`.
/// nullopt where no merchant is named or none serves in time. Whether hands are free then is not looked at.
[[nodiscard]] std::optional<Span> last_trip_to_merchant(const works::Job& job, base::Instant now,
                                                        base::Instant wanted);

}  // namespace weatherstruck::programme
