#pragma once
// Why a task is where it is, why it takes so long, and what it would gain without what held it.
#include <string>

#include "weatherstruck/programme/why.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// @param task in the list
/// @param why of that task in the plan of the facts
[[nodiscard]] std::string why_sheet(const TripFacts& facts, std::size_t task, const programme::Why& why,
                                    Ink ink);

}  // namespace weatherstruck::render
