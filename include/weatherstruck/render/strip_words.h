#pragma once
// Will the tops of new strips freeze tonight? A sentence for each, those that fare alike together.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// "All four footings of the shelter: top 2.1 C at 06:00 under sheet (air -3.0 C, bare -0.9 C)";
/// "little to spare" below 1.5 C. Coldest first; strips of one cover whose tops differ by less than half a
/// degree are one. Empty where no strip is in danger that night (programme/strip_frost.h).
[[nodiscard]] std::vector<std::string> strip_lines(const TripFacts& facts, const programme::Span& night);

}  // namespace weatherstruck::render
