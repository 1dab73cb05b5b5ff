#pragma once
// A job as it was asked for, in a few lines, and what nobody was asked.
#include <string>
#include <vector>

#include "weatherstruck/works/answer_words.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/turn.h"

namespace weatherstruck::render {

/// The job in the trade's words: one entry each for customer and place, trip, parts, way in, supplies.
[[nodiscard]] std::string job_recap(const works::Job& job, const works::Bill& bill);
/// What stands in it unasked: the site's clock, altitude, soil, bricks, cement, waste, how sides are called.
[[nodiscard]] std::vector<std::string> assumed_in(const works::Job& job);

/// "Base 3 x 1.8 m, ..."; without its name.
[[nodiscard]] std::string part_words(const works::Part& part,
                                     works::Measure measure = works::Measure::metric);
/// Sizes, courses, bricks, steps and concrete before and after a turn.
[[nodiscard]] std::string turn_sheet(const works::Turned& turned, const works::Job& before,
                                     const works::Name& part);

/// What goes into the work, waste included; what is bought weighs more, being in whole packs.
[[nodiscard]] base::Kilograms mass_used(const works::Bill& bill);

/// Which brick is reckoned, for readers whose bricks are another size.
[[nodiscard]] std::string modular_brick_note();

}  // namespace weatherstruck::render
