#pragma once
// What a person types when he is asked something, in the units he uses: "3 m", "10 ft 6 in", "450 mm",
// "2h30", "51.9N 3.4W", "3 x 1.8", "yes". Each function takes the whole answer or says what would be
// understood.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// Not taken, and what is: "a length from 0.8 to 60 m, such as 3 m, 450 mm or 10 ft".
struct Refused {
  std::string allowed;
  std::string why{};  ///< a sentence where it was understood and cannot be
};

/// What an answer stands for, or why not.
template <class T>
using Answer = std::variant<T, Refused>;

/// What a number without a unit is: metres, or feet where the limits are those of the us set.
enum class Measure { metric, feet };

/// Ends included.
struct LengthRange {
  double low = 0;  ///< metres
  double high = 0;
};

/// One line of text, 1 to `longest` characters, valid UTF-8 without control characters; spaces at the ends
/// go.
[[nodiscard]] Answer<std::string> text_answer(std::string_view text, std::size_t longest);
/// Likewise; "none", "no", "nobody" and "-" are the empty text.
[[nodiscard]] Answer<std::string> optional_text_answer(std::string_view text, std::size_t longest);
/// "yes", "y", "no", "n", "none".
[[nodiscard]] Answer<bool> yes_no_answer(std::string_view text);
/// A whole number in figures or words up to twelve, "none" for 0, and perhaps `word` or its plural behind it:
/// "3", "three courses".
[[nodiscard]] Answer<int> count_answer(std::string_view text, int low, int high, std::string_view word);

/// A unit and what one of it is worth.
struct UnitWord {
  std::string_view word;
  double worth = 1;
};
/// A number, with one of the units or none: "90 litres", "1.1 t". "none" is 0 where that is in range.
/// @param said how the range is spoken of: "kilograms from 50 to 20000, such as 1100 or 1.1 t"
[[nodiscard]] Answer<double> amount_answer(std::string_view text, double low, double high,
                                           std::span<const UnitWord> units, std::string_view said);

/// "3 m", "1.2", "450 mm", "45cm", "10 ft", "10' 6\"", "1 m 50". Without a unit: `measure`, or millimetres
/// (inches) where only those are in range.
[[nodiscard]] Answer<base::Metres> length_answer(std::string_view text, LengthRange range, Measure measure);

/// Two lengths: "3 x 1.8", "3 m by 900 mm", "10 ft x 6". A unit said once, at the end, holds for both where
/// the first has none.
struct Size {
  base::Metres length;
  base::Metres width;
};
[[nodiscard]] Answer<Size> size_answer(std::string_view text, LengthRange length, LengthRange width,
                                       Measure measure);
/// Likewise; "none" and "no" are nothing.
[[nodiscard]] Answer<std::optional<Size>> optional_size_answer(std::string_view text, LengthRange length,
                                                               LengthRange width, Measure measure);

/// "2 h", "2:30", "2h30", "2.5", "90 min", "1 hour 15".
[[nodiscard]] Answer<base::Hours> hours_answer(std::string_view text, double low, double high);

/// Degrees, north and east positive.
struct Place {
  double latitude = 0;
  double longitude = 0;
};
/// "51.9 -3.4", "51.9, -3.4", "51.9N 3.4W", "N51.9 W3.4", "51 54 12 N 3 24 0 W" with or without the signs of
/// degree, minute and second.
[[nodiscard]] Answer<Place> place_answer(std::string_view text);
/// "51.9 N 3.4 W", to four decimals (some ten metres).
[[nodiscard]] std::string place_text(const Place& place);

/// "front", "back", "left", "right".
[[nodiscard]] std::string_view seen_from_front(Side side);

/// "120", "120.50", "120 GBP", "45p", a pound, euro or dollar sign before it; of `usual` where none is said,
/// and no other. 0 to a million.
[[nodiscard]] Answer<base::Money> money_answer(std::string_view text, const base::Currency& usual);

/// Whether the whole answer says that there is nothing: "none", "no", "nothing", "nobody", "-".
[[nodiscard]] bool says_none(std::string_view text);
/// Nothing more than that there is one: "", "yes", "a", "one", "some", in small letters.
[[nodiscard]] bool says_some(std::string_view text);

/// Small letters, digits and dashes from a title: "Potting shelter, steps" -> "potting-shelter-steps". At
/// most 40 characters, begins with a letter; "job" where nothing is left.
[[nodiscard]] Name name_from(std::string_view title);

}  // namespace weatherstruck::works
