#pragma once
// What fresh work may not yet bear when he drives off, and from when it may: the waits that outlive the trip.
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// Something that a piece of work may bear from a moment on.
struct MayBear {
  enum class Load {
    bricks,     ///< on a strip or slab with nothing on it yet
    feet,       ///< on flags and steps (limit `flags-foot-wait`; steps by the same, own choice)
    soil_half,  ///< against brickwork, to half height (limit `fill-half-wait`)
    soil,       ///< to the top, or anything leaned on it (limit `fill-rest-wait`)
    roof        ///< on bedded plates (limit `plate-load-wait`)
  };
  Load load{};
  works::Name of;        ///< part as written in the job
  base::Instant worked;  ///< when the last of the work that it waits for was done
  /// nullopt: not within twenty days in that weather.
  std::optional<base::Instant> from;
  bool beyond_forecast = false;  ///< reckoned with weather for which no forecast was given
};

/// In the order of the job's parts, then of Load: one line each, over already or not. Parts on which nothing
/// was done have none. From the runs of the plan, what was done before it among them; concrete only where
/// nothing stands on it yet. Soil is told for brickwork of walls, bases, beds and boxes.
/// @throws std::invalid_argument where the weather holds nothing (see make_slots)
[[nodiscard]] std::vector<MayBear> may_bear(const works::Job& job, const works::TaskList& list,
                                            const sky::Series& weather, const trade::LimitValues& limits,
                                            const Plan& plan);

}  // namespace weatherstruck::programme
