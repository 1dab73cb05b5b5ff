#pragma once
// The trip as a wall, drawn: each day a course. Under a row of hours stand the light (a thick bar while it is
// dark, a thin one in half light, a line by day) and the weather (strokes, stars, chevrons); then the tasks
// as bricks with their letters, a roof over those under the canopy, studs in those under lights; and in the
// joint below, hatched, when something fresh is left alone. Black and white only. Whatever it shows stands in
// words beside it: in the tables of the page, and in the description that goes with a drawing by itself.
#include <string>

#include "weatherstruck/programme/late.h"
#include "weatherstruck/render/html.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// One day's course for a page, as wide as there is room, drawn to be read from 320 CSS pixels on. `days` is
/// trip_days(facts). To be put once into a document, since it is described by an id of the day.
[[nodiscard]] html::Html day_course(const TripFacts& facts, const std::vector<TripDay>& days,
                                    std::size_t day);

/// What the marks of these days mean, as a list with the marks drawn; only those that occur.
[[nodiscard]] html::Html course_legend(const TripFacts& facts, const std::vector<TripDay>& days);

/// Style that the two above need in a page.
[[nodiscard]] std::string_view course_style();

/// The tasks of a day as a table: letter, hours, work.
[[nodiscard]] html::Html day_table(const TripFacts& facts, const TripDay& day, const std::string& title);

/// The whole wall as an SVG 1.1 file with a legend and, in words, what it shows.
[[nodiscard]] std::string days_svg(const TripFacts& facts);

/// A page with every day's course, its tasks as a table, what to leave and to cover, and how it ends.
/// @param late as in days_sheet
[[nodiscard]] std::string days_html(const TripFacts& facts, const programme::Late* late = nullptr);

}  // namespace weatherstruck::render
