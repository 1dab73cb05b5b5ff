#pragma once
// A mason who goes by rule of thumb, so that there is something to hold the plans against: he takes the work
// in the order of the trade, waits a day on concrete, stops while it rains or is near freezing, and covers
// what is fresh whenever he leaves it. He looks at no forecast.
//
// Fairly: he has the hands, kit, hours, noisy hours and pace of the plan, slowed by the same cold, mud and
// long days, and covers take him as long; but covering for the night costs him nothing of his day, a course
// may be left where rain stops it, and he strikes joints though it be dark before they are ready.
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/programme/slots.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::bench {

struct RuleOfThumb {
  const works::Job& job;
  const works::TaskList& list;
  const trade::LimitValues& limits;
  const programme::SlotTable& came;  ///< the weather as he meets it
  const std::vector<double>& paces;  ///< for each task: times the hours of the list
};

/// What he did: a plan followed to the minute, for the judge. One man only.
/// @throws std::invalid_argument where the crew is more
[[nodiscard]] programme::Plan by_rule_of_thumb(const RuleOfThumb& asked);

}  // namespace weatherstruck::bench
