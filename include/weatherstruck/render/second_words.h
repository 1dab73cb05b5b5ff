#pragma once
// Another forecast beside the plan's, in a sentence or two.
#include <string>
#include <vector>

#include "weatherstruck/programme/second_opinion.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::render {

/// At most three: whether it changes anything, when he is home by it, and what the plan as it stands would
/// lose in it.
[[nodiscard]] std::vector<std::string> second_lines(const programme::SecondOpinion& second,
                                                    const works::Job& job, const works::TaskList& list);

/// "Beside it MOSMIX of Mon 9 Feb 03:00: 12.0 mm of rain instead of 4.2 mm, -3 to 8 °C instead of 1 to 9 °C,
/// gusts to 40 mph instead of 25 mph": of the hours from `from` to home by that both reach. Empty where there
/// are none.
[[nodiscard]] std::string weather_beside(const sky::Series& own, const sky::Series& other,
                                         const works::Job& job, base::Instant from);

}  // namespace weatherstruck::render
