#pragma once
// Times and parts as they are said to people who come later. Private to the sheets left behind.
#include <string>
#include <vector>

#include "weatherstruck/programme/after_trip.h"
#include "weatherstruck/render/html.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render::care {

/// When he leaves the site, or the last work ends.
[[nodiscard]] base::Instant leaves_at(const TripFacts& facts);
/// "Fri 13 Feb, about 17:00", to the half hour up; in the night the morning after: "Sat 14 Feb, morning".
[[nodiscard]] std::string day_time(const works::Job& job, base::Instant t);
/// The same, or that it is weeks away; marked where no forecast reaches.
[[nodiscard]] std::string day_time(const works::Job& job, const programme::MayBear& may);
/// Work called for and not done: "Point the bed"; where nothing of a part was done, "All of the path".
[[nodiscard]] std::vector<std::string> left_undone(const TripFacts& facts);
/// Whether soil is still to be put in or round it.
[[nodiscard]] bool to_fill(const TripFacts& facts, const works::Name& of);
/// Whether it is done by the book where there is one, else by the plan.
[[nodiscard]] bool is_done(const TripFacts& facts, std::size_t task);
/// "Made Thu 12 Feb 17:40. Forecast: ..., issued ...".
[[nodiscard]] std::string known(const TripFacts& facts);

/// A heading with what belongs under it; nothing where that is empty.
[[nodiscard]] html::Html section(const std::string& id, const std::string& title, const html::Html& inside);
[[nodiscard]] html::Html bullets(const std::vector<std::string>& words);

}  // namespace weatherstruck::render::care
