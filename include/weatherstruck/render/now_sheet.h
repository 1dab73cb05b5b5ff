#pragma once
// What a man asks in the middle of the day: what is under way, what comes next, what if it turns, and how
// much light and dry weather is left. At most fifteen lines.
#include <string>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

inline constexpr std::size_t now_lines = 15;

/// From the moment of the facts.
[[nodiscard]] std::string now_sheet(const TripFacts& facts, Ink ink);

}  // namespace weatherstruck::render
