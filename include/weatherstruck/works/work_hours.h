#pragma once
// How long the work takes the people of the job, at their own pace.
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

/// Person-hours of all tasks with one set-up each, optional tasks of the first way only, without driving; in
/// fair weather and daylight. Of several people the mean pace; of those who lay where only they can.
/// @param progress of the same list: only what is not done is counted; nullptr: everything
[[nodiscard]] base::Hours crew_hours(const Job& job, const TaskList& list,
                                     const Progress* progress = nullptr);

/// The hours of one part as written.
struct PartHours {
  Name of;  ///< empty: on the whole site
  base::Hours hours;
};
/// The same hours, part by part in the order of the list; what belongs to the whole site comes last.
[[nodiscard]] std::vector<PartHours> hours_by_part(const Job& job, const TaskList& list);

}  // namespace weatherstruck::works
