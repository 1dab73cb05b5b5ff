#include "weatherstruck/works/standing.h"

#include <algorithm>
#include <utility>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {

Standing standing_of(const Job& job, const Book& book, base::Instant now) {
  Standing standing{job, derive_tasks(job), {}, false};
  standing.progress = progress_of(job, standing.list, book, now);
  std::vector<Remark> refused;
  for (const FootingRead& read : standing.progress.footings) {
    if (read.plan.faults.empty()) {
      standing.job.ground.push_back({read.footing, read.levels});
      continue;
    }
    refused.push_back({Remark::Kind::question, "ground-refused", "",
                       "By the levels read no footing can be built there, so the guessed fall stands: " +
                           base::to_text(read.plan.faults.front())});
  }
  if (!standing.job.ground.empty()) {
    std::vector<FootingRead> footings = std::move(standing.progress.footings);
    std::vector<WallCourses> walls = std::move(standing.progress.walls);
    standing.list = derive_tasks(standing.job);
    standing.progress = progress_of(standing.job, standing.list, book, now);
    standing.progress.footings = std::move(footings);
    standing.progress.walls = std::move(walls);
  }
  for (Remark& remark : refused)
    standing.progress.remarks.push_back(std::move(remark));
  standing.book = std::any_of(standing.progress.tasks.begin(), standing.progress.tasks.end(),
                              [](const TaskProgress& task) { return task.begun.has_value(); });
  return standing;
}

}  // namespace weatherstruck::works
