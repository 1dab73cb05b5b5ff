#pragma once
// Areas, room, loads, mixers and rates as a person types them. Each takes the whole answer or says what would
// be understood; bare numbers are metric, or of feet and pounds, as `measure` says.
#include <string_view>

#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// "20 m2", "200 sq ft", "10 x 2 m"; "none" is 0. To 1,000 m2. A roll is asked for its size, for they differ.
[[nodiscard]] Answer<base::SquareMetres> area_answer(std::string_view text, Measure measure);
/// "1100 kg", "a tonne", "half a tonne", "2000 lb". 50 to 20,000 kg.
[[nodiscard]] Answer<base::Kilograms> load_answer(std::string_view text, Measure measure);
/// "6 m3", "200 cu ft", "2.5 x 1.7 x 1.4". 0.2 to 60 m3.
[[nodiscard]] Answer<base::CubicMetres> room_answer(std::string_view text, Measure measure);
/// "90 litres", "6 cubic feet", "half bag"; "none" or "by hand" is 0. Else 20 to 500 litres. A bare number up
/// to 18 is cubic feet where `measure` is feet, and any other litres.
[[nodiscard]] Answer<base::CubicMetres> mixer_answer(std::string_view text, Measure measure);

/// Hours of the day that "a day" stands for in bricks and in money: common practice, no source.
inline constexpr double hours_of_a_days_rate = 8;

/// Bricks in an hour: "50", "50 an hour", "400 a day".
[[nodiscard]] Answer<double> bricks_answer(std::string_view text, double low, double high);
/// An hour's money: "38", "38 an hour", "220 a day" (to the penny); "none" is nothing.
[[nodiscard]] Answer<std::optional<base::Money>> hourly_answer(std::string_view text,
                                                               const base::Currency& usual);
/// "0.45", "45p", "45p a mile"; "none" is nothing.
[[nodiscard]] Answer<std::optional<base::Money>> mileage_answer(std::string_view text,
                                                                const base::Currency& usual);

}  // namespace weatherstruck::works
