#pragma once
// The trip as a wall: each day a course of tasks, the sky above it and what is left alone below it, then the
// tasks with their times.
#include <string>

#include "weatherstruck/programme/late.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// @param late of a plan that does not keep the promise: stands under the hour of being home
[[nodiscard]] std::string days_sheet(const TripFacts& facts, Ink ink, const programme::Late* late = nullptr);

/// The rows of one day's course, hours first. Every cell is a quarter of an hour (half where the span from
/// the earliest to the latest hour of the trip is longer than sixteen hours).
[[nodiscard]] std::vector<std::string> course_of(const TripFacts& facts, const std::vector<TripDay>& days,
                                                 std::size_t day);

}  // namespace weatherstruck::render
