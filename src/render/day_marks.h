#pragma once
// The shapes that the days are drawn of: black on white, in CSS pixels. Private to the drawing.
#include <string>
#include <string_view>

#include "weatherstruck/render/html.h"

namespace weatherstruck::render::mark {

using html::Html;

// In CSS pixels where a page of 360 has its margins: what is legible there grows with the page.
constexpr double width = 328;
constexpr double edge = 3;
constexpr double hour_row = 14;
constexpr double light_row = 7;
constexpr double weather_row = 13;
constexpr double letter_row = 14;
constexpr double roof = 6;
constexpr double brick = 22;
constexpr double joint = 9;
constexpr double letter_width = 10;  // with air at both sides
constexpr double ink = 1.3;
constexpr const char* black = "#111";

/// To the tenth, so that every machine writes the same: "3", "12.5".
[[nodiscard]] std::string number(double value);
/// An element of SVG without content.
[[nodiscard]] Html shape(std::string_view tag, const html::Attributes& attributes);
[[nodiscard]] Html path(const std::string& d, double thick);
/// @param thick of its outline; 0: none
[[nodiscard]] Html rectangle(double x, double y, double w, double h, const std::string& fill, double thick);
/// @param anchor "start", "middle" or "end"
[[nodiscard]] Html words_at(double x, double y, const std::string& words, const std::string& anchor,
                            double size, bool bold = false);

/// Of weather_mark, round a middle, in a row that begins at y.
[[nodiscard]] Html weather_shape(char mark, double middle, double y);
/// Of light_mark, as wide as w.
[[nodiscard]] Html light_shape(char mark, double x, double y, double w);
/// Something fresh is left alone.
[[nodiscard]] Html hatched(double x, double y, double w, double h);
/// A roof over a brick whose top is y: under the canopy.
[[nodiscard]] Html roofed(double x, double y, double w);
/// A row of studs: under lights.
[[nodiscard]] Html studded(double x, double y, double w);

}  // namespace weatherstruck::render::mark
