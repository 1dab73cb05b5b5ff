#pragma once
// The plan of a trip: built, scheduled, checked, read back.
#include <optional>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/outlook.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct PlanRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  base::Instant now;  ///< nothing starts before it; before the trip: the trip's start
  /// A plan made earlier and followed until now: its work before now counts as done, the rest is planned
  /// anew.
  const Plan* followed = nullptr;
  /// Budget in decodes. From 100 on up to twice as many more where the promise is not kept, a must is left
  /// out, or work that ought to be done loses the place that it had; and where weathers are asked for about
  /// twice as many more to find plans that are surer (choose_plan.h).
  int schedules = 400;
  std::uint64_t seed = 1;
  int weathers = 0;     ///< possible weathers that the plan is followed through; 0: no outlook
  base::Lanes lanes{};  ///< what can go side by side does; the plan is the same
};

struct PlanResult {
  Plan plan;
  std::vector<Objection>
      objections;  ///< of the engine's checker and the site checker; a plan with any is not shown as good
  std::optional<Outlook> outlook{};  ///< absent where none was asked for
};

/// Same request, same result, to the byte.
/// @throws std::invalid_argument where the weather holds nothing that can be planned with
[[nodiscard]] PlanResult make_plan(const PlanRequest& request);

}  // namespace weatherstruck::programme
