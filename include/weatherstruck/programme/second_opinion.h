#pragma once
// A plan held against another forecast of the same days: the same order of work by it, and the plan as it
// stands in its weather.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct SecondRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;  ///< that the plan stands on
  const sky::Series& other;    ///< at least one hour
  const trade::LimitValues& limits;
  const Plan& plan;
  base::Instant now;
};

struct SecondOpinion {
  std::string source;
  std::optional<base::Instant> issued;
  base::Instant until;                ///< its end; from there on it is the plan's own weather
  std::optional<base::Instant> home;  ///< with the plan's order of work in its weather; nullopt: not home
  bool in_time = false;               ///< home by the promise with every must done
  std::vector<works::Name> left_out;  ///< done in the plan's own weather and not in this one
  std::vector<std::string> spoilt;    ///< pieces to be made good if the plan is followed to the hour in it
  /// By how much home moves; nullopt where one of the two is not home.
  std::optional<std::chrono::seconds> later;
  bool was_in_time = false;  ///< the plan is, by its own weather

  /// Whether it tells anything that the plan does not: half an hour, the promise, work left out or spoilt.
  [[nodiscard]] bool differs() const;
};

/// One decode in each weather, from now (before the trip from leaving) on; hours that the other does not
/// reach, and those gone by, are those of the plan's weather. Nullopt where the other says nothing of what is
/// to come, or the plan is of another list.
[[nodiscard]] std::optional<SecondOpinion> second_opinion(const SecondRequest& request);

}  // namespace weatherstruck::programme
