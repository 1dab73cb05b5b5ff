#pragma once
// How one row of the tables is said, on the terminal and on the page.
#include <string>

#include "weatherstruck/trade/limits_list.h"

namespace weatherstruck::render {

/// "3 °C", "0.5 mm/h", "yes", "month 10"; four figures of a number.
[[nodiscard]] std::string figure_text(double value, const std::string& unit);
/// The same with what it is in miles an hour or, where `fahrenheit`, in degrees Fahrenheit: "8.9 m/s (20
/// mph)".
[[nodiscard]] std::string figure_text_twice(double value, const std::string& unit, bool fahrenheit);
/// "-10 to 15 °C"; empty where the figure has no range, or one of a single value.
[[nodiscard]] std::string range_text(const trade::ListedFigure& figure);
/// Every figure but the first `from`: "mass 2.3 kg/brick; room 0.001432 m3/brick".
[[nodiscard]] std::string figures_text(const trade::ListedRow& row, std::size_t from);
/// The class of a limit, else what table the row is of.
[[nodiscard]] std::string kind_text(const trade::ListedRow& row);
/// "common practice, no source: 25 mph for a pop-up canopy".
[[nodiscard]] std::string source_text(const trade::Source& source);

}  // namespace weatherstruck::render
