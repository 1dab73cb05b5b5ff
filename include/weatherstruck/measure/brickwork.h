#pragma once
// Bricks and mortar of straight runs, from the brick size and the bond table. Counts are exact fractions of a
// brick, so that cutting a run in two never changes them; whole bricks appear only when something is bought.
#include <span>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/trade/kinds.h"

namespace weatherstruck::measure {

/// Half bricks across the wall: 1, 2 or 3.
[[nodiscard]] int leaves_of(trade::Bond bond);
/// 102.5, 215 or 327.5 mm.
[[nodiscard]] base::Metres thickness_of(trade::Bond bond);

struct PierShape {
  base::Metres width;
  base::Metres projection;
};

/// Clear width; cut out of every course from `from_course` up, counted as at the high end (0: the first).
struct OpeningShape {
  base::Metres width;
  int from_course = 0;
};

/// A straight run in plain geometry.
struct Run {
  base::Metres length;    ///< over the outside of its own corners
  int courses = 0;        ///< at the high end
  int courses_below = 0;  ///< of those, out of sight; they follow the footing down its steps
  trade::Bond bond = trade::Bond::half_stretcher;
  int shared_corners = 0;        ///< ends that stop against a run which counts the corner itself
  std::vector<PierShape> piers;  ///< full height
  std::vector<OpeningShape> openings;
  std::vector<Stretch> stretches;  ///< of its footing; empty: one, level
};

/// One course of a run, from the lowest. Below and facing are counted apart where the footing steps.
struct Course {
  int level = 0;      ///< 0: the lowest of the run, at its low end
  double below = 0;   ///< bricks out of sight
  double facing = 0;  ///< bricks above
};

struct RunCount {
  std::vector<Course> courses;
  double below = 0;
  double facing = 0;
  base::SquareMetres area_below{0};  ///< of wall, one face, openings out
  base::SquareMetres area_facing{0};
  base::CubicMetres mortar_below{0};  ///< net
  base::CubicMetres mortar_facing{0};
  base::Metres height{0};  ///< at the low end
  [[nodiscard]] double bricks() const { return below + facing; }
};

[[nodiscard]] RunCount count_run(const Run& run);

/// Bricks to order for `exact` bricks of the bond: by the trade's rounded rate, with waste, whole.
[[nodiscard]] double bricks_to_order(double exact, double waste);

}  // namespace weatherstruck::measure
