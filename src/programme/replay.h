#pragma once
// The rest of a trip scheduled again from an hour on, in a few decodes: the order of the plan is kept, and
// what cannot go on lets what fits slip in before it, as one would do on site; what need not be done goes
// where what must be done would be late.
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct ReplayRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  const Plan& followed;  ///< until `from`
  base::Instant from;
};

struct Replay {
  /// Runs, covers, canopy, home and what is left out; no reasons, waits or assumptions. Runs know nothing of
  /// lights or of the forecast's end.
  Plan plan;
  bool sound = true;  ///< the engine's checker objects to nothing
};

[[nodiscard]] Replay replay_from(const ReplayRequest& request);

}  // namespace weatherstruck::programme
