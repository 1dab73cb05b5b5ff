#pragma once
// Why the promised hour cannot be kept, and what can be done by it instead.
#include <string>

#include "weatherstruck/programme/promise.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// @param promise nullptr where the plan keeps it
[[nodiscard]] std::string promise_sheet(const TripFacts& facts, const programme::Promise* promise, Ink ink);

}  // namespace weatherstruck::render
