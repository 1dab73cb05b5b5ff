#pragma once
// One screen for the day.
#include <string>

#include "weatherstruck/render/morning_lines.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::render {

/// @throws std::out_of_range where the trip has no such day
[[nodiscard]] std::string morning_sheet(const TripFacts& facts, const MorningFacts& morning, Ink ink);

}  // namespace weatherstruck::render
