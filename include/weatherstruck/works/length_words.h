#pragma once
// Lengths, areas, volumes and masses as he speaks of them: metric, or feet, inches and pounds.
#include <string>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// The international foot, inch and pound: exact by definition (1959).
inline constexpr double foot = 0.3048;
inline constexpr double inch = 0.0254;
inline constexpr double pound = 0.45359237;
inline constexpr double cubic_foot = foot * foot * foot;
inline constexpr double cubic_yard = 27 * cubic_foot;

/// What a bare number stands for under these limits.
[[nodiscard]] Measure measure_of(trade::LimitSet set);
[[nodiscard]] Measure other_than(Measure measure);

/// "450 mm", "2.4 m"; "18 in" under two feet, "30 in" and "3 ft" under four, else "10 ft 6 in", to half an
/// inch.
[[nodiscard]] std::string length_text(base::Metres length, Measure measure);
/// "3 x 1.8 m"; "10 ft 6 in x 3 ft".
[[nodiscard]] std::string size_text(const Size& size, Measure measure);
/// In his units and, in brackets, in the others: "10 ft x 6 ft (3.048 x 1.829 m)".
[[nodiscard]] std::string size_in_both(const Size& size, Measure measure);
[[nodiscard]] std::string length_in_both(base::Metres length, Measure measure);

/// "20 m2"; "215 sq ft".
[[nodiscard]] std::string area_text(base::SquareMetres area, Measure measure);
/// Of room and mixers: "6 m3", "90 litres" under half a cubic metre; "210 cu ft".
[[nodiscard]] std::string volume_text(base::CubicMetres volume, Measure measure);
/// Of concrete: "1.24 m3"; "1.6 cu yd".
[[nodiscard]] std::string concrete_text(base::CubicMetres volume, Measure measure);
/// "640 kg", "1.25 t" from a tonne up; "2,400 lb".
[[nodiscard]] std::string mass_text(base::Kilograms mass, Measure measure);

}  // namespace weatherstruck::works
