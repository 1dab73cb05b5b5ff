#pragma once
// Setting out with a tape: diagonals, the 3-4-5 corner, gauge marks, rough lines of trenches.
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/measure/brickwork.h"

namespace weatherstruck::measure {

/// sqrt(a2 + b2); both diagonals of a square-cornered rectangle are equal to it.
[[nodiscard]] base::Metres diagonal(base::Metres a, base::Metres b);

/// A 3-4-5 triangle to square one corner: sides in that proportion, the largest in steps of 0.3 m : 0.4 m :
/// 0.5 m that fits on the two lines.
struct CornerTriangle {
  base::Metres along_first;  ///< 3 parts or 4, the longer on the longer line
  base::Metres along_second;
  base::Metres across;  ///< 5 parts
};
/// Zero sides where the lines are too short (under 0.3 m by 0.4 m).
[[nodiscard]] CornerTriangle corner_triangle(base::Metres first, base::Metres second);

/// Tops of courses above the concrete, 75 mm each, `courses` of them.
[[nodiscard]] std::vector<base::Metres> gauge_marks(int courses);

/// A rectangle by its sides with its diagonal.
struct Rectangle {
  base::Metres length;
  base::Metres width;
  base::Metres diagonal;
};

/// The lines of a rectangular ring of walls, outermost first: trench outer edge, brickwork outside and
/// inside, trench inner edge. A rectangle that closes up has zero sides.
struct RingLines {
  Rectangle trench_outer;
  Rectangle wall_outer;
  Rectangle wall_inner;
  Rectangle trench_inner;
};
[[nodiscard]] RingLines ring_lines(base::Metres length, base::Metres width, base::Metres wall_thickness,
                                   base::Metres footing_width);

}  // namespace weatherstruck::measure
