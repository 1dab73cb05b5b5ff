#pragma once
// Why a task is where it is.
#include <string>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// @param task in the list
[[nodiscard]] std::string why_sheet(const TripFacts& facts, std::size_t task, Ink ink);

}  // namespace weatherstruck::render
