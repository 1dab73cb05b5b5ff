#pragma once
// A small invented trip, made by hand: two days, a footing and a wall, with a plan that no planner made.
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render::sample {

/// 2026-02-09 in a place on UTC.
base::Instant at(int day, int hour, int minute = 0);

struct Trip {
  works::Job job;
  works::TaskList list;
  sky::Series series;
  trade::LimitValues limits;
  programme::Plan plan;
  [[nodiscard]] TripFacts facts() const { return {job, list, series, limits, plan, at(9, 4), {}, true}; }
};

Trip trip();

/// Lines of a text, and the widest of them in columns.
std::vector<std::string> lines_of(const std::string& text);
std::size_t widest(const std::string& text);

}  // namespace weatherstruck::render::sample
