#pragma once
// What has really been done, in the shape of a plan followed until now: what make_plan goes on from.
#include <string>
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct DoneSoFar {
  Plan
      plan;  ///< one task for each of the list; runs before `now` were done, those at `now` or later were not
  std::vector<std::string> assumed;  ///< sentences: what was taken as done though the book does not say so
};

/// From the site book. A run under way ends at `now`, with no more done than the book says. Work that the
/// book does not name but without which later work in it could not have been begun is taken as done just
/// before that; so is the drive out once there is work on site.
/// @param before the plan of before, or nullptr: what is still to be done keeps its order and ways
[[nodiscard]] DoneSoFar done_so_far(const works::Job& job, const works::TaskList& list,
                                    const works::Progress& progress, const Plan* before, base::Instant now);

}  // namespace weatherstruck::programme
