#pragma once
// How the job stands: the job with the levels read, its list of work, and the book's fold over it.
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

struct Standing {
  Job job;  ///< `ground` filled in
  TaskList list;
  Progress progress;  ///< over that list; `steps_before`, `before` and the like are of the guessed fall
  bool book = false;  ///< the book says of some task what was done
};

/// Footings whose levels give no footing that can be built keep the guessed fall, with a "ground-refused"
/// question.
/// @pre check(job) found no fault
[[nodiscard]] Standing standing_of(const Job& job, const Book& book, base::Instant now);

}  // namespace weatherstruck::works
