#pragma once
// Answers of several pieces with commas between: "450 mm wide, 150 thick, 450 deep". A piece that is not said
// keeps the usual value. Each function takes the whole answer or says what would be understood.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// Between commas, semicolons and "and", without spaces at the ends, small letters (ASCII); empty ones left
/// off. A comma between thousands parts nothing.
[[nodiscard]] std::vector<std::string> pieces_of(std::string_view text);

/// A strip of concrete in its trench.
struct StripSize {
  base::Metres width;
  base::Metres thickness;
  base::Metres depth;  ///< from the ground to its underside
};
/// "450 mm wide, 150 thick, 450 deep": width 0.2..1.5, thickness 0.1..1, depth to 2 and no less than
/// thickness.
[[nodiscard]] Answer<StripSize> strip_answer(std::string_view text, const StripSize& usual, Measure measure);
[[nodiscard]] std::string strip_text(const StripSize& strip, Measure measure);

/// How ground falls as seen from the front.
struct GroundFall {
  base::Metres to_right{0};  ///< negative: to the left
  base::Metres to_front{0};  ///< negative: to the back
};
/// "150 mm to the right, 100 mm to the back", "level"; at most 5 m each.
[[nodiscard]] Answer<GroundFall> ground_fall_answer(std::string_view text, Measure measure);

/// The way from the kerb to the work.
struct WayIn {
  base::Metres length;
  base::Metres rise;
  int steps = 0;
  base::Metres narrowest;
};
/// "38 m, 3 m up, 4 steps, 750 mm at its narrowest".
[[nodiscard]] Answer<WayIn> way_in_answer(std::string_view text, const WayIn& usual, Measure measure);
[[nodiscard]] std::string way_in_text(const WayIn& way, Measure measure);

/// What a bed is, beside its size.
struct BedShape {
  int courses = 3;
  int sides = 4;
  base::Metres fall{0};
};
/// "4 courses, 3 sides, falls 150 mm", "level".
[[nodiscard]] Answer<BedShape> bed_shape_answer(std::string_view text, const BedShape& usual,
                                                Measure measure);
[[nodiscard]] std::string bed_shape_text(const BedShape& bed, Measure measure);

/// A gap in one side of a base.
struct SideOpening {
  Side side = Side::south;
  std::optional<base::Metres> width;  ///< nullopt: not said, unless open
  bool open = false;                  ///< no wall above the ground on that side
};
/// "none", "front", "front 900 mm", "open front", "no wall at the back", "a wall on three sides, open at the
/// front".
/// @param widest of a door on a side that runs along the length, and on the others
[[nodiscard]] Answer<std::optional<SideOpening>> opening_answer(std::string_view text,
                                                                base::Metres widest_lengthwise,
                                                                base::Metres widest_crosswise,
                                                                Measure measure);

/// Work that no part implies: "hang the gate, 2 hours".
struct ExtraSaid {
  std::string title;
  base::Hours hours;
};
[[nodiscard]] Answer<std::optional<ExtraSaid>> extra_answer(std::string_view text);

}  // namespace weatherstruck::works
