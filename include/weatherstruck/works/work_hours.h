#pragma once
// How long the work takes the people of the job, at their own pace.
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

}  // namespace weatherstruck::works
