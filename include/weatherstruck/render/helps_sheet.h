#pragma once
// What would help, as text: each change by itself, the most useful first.
#include <string>

#include "weatherstruck/programme/helps.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

[[nodiscard]] std::string helps_sheet(const TripFacts& facts, const programme::Helps& helps, Ink ink);

}  // namespace weatherstruck::render
