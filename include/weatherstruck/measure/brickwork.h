#pragma once
// Bricks and mortar of straight runs, from the brick size and the bond table. Each run is counted twice over.
// By area: exact fractions of a brick, so that cutting a run in two never changes them; mortar, hours and
// orders follow these. To the brick: course by course, as laid, cut ones counted by what they use up.
//
// To the brick: a length is so many half bricks of 112.5 mm, joint counted. What is over is taken up by the
// upright joints as far as they give (norm "joint-give"); if it is more, one half brick more is used, cut to
// size. Two halves come out of one brick (common practice, no source), so a course takes half as many bricks
// as it has half bricks, times the half bricks across the wall; half bats at the ends of stretcher bond and
// queen closers in English and Flemish are within that count, since they only stand for what they replace.
// Cutting a run in two changes it only at the cut: each course gains at most one cut half brick across the
// wall, and none where both lengths are on the gauge of half bricks. It never takes fewer up to 12.6 m; in a
// longer run the joints of two parts may take up a whole half brick between them.
#include <optional>
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
/// Half bricks used along a length of brickwork, joints counted: rounded up, less what the joints take up.
/// Zero for a length of zero or less.
[[nodiscard]] int half_bricks_along(base::Metres length);

struct PierShape {
  base::Metres width;
  base::Metres projection;
  std::optional<base::Metres> at{};  ///< near side, from the high end; nullopt: spread evenly
};

/// Clear width; cut out of every course from `from_course` up, counted as at the high end (0: the first).
struct OpeningShape {
  base::Metres width;
  int from_course = 0;
  std::optional<base::Metres> at{};  ///< near side, from the high end; nullopt: spread evenly
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
  /// Thickness of the run met at that end, which counts the corner; nullopt: `shared_corners` says whether
  /// there is one, and it is as thick as this run. One that is given is among `shared_corners`.
  std::optional<base::Metres> met_high{};
  std::optional<base::Metres> met_low{};
  int turned_corners = 0;  ///< ends at which another run stops: no half bats there
};

/// What is taken off the two ends of a run because another counts it: thickness met and a joint, or zero.
struct CornerLengths {
  base::Metres high{0};
  base::Metres low{0};
};
[[nodiscard]] CornerLengths corners_of(const Run& run);

/// Lengths of brickwork side by side in the course that lies on `below` others at the high end, openings out:
/// from the faces of the runs met. What a coping or a damp-proof course at that height lies on.
[[nodiscard]] std::vector<base::Metres> pieces_on(const Run& run, int below);

/// One course of a run, from the lowest. Below and facing are counted apart where the footing steps.
struct Course {
  int level = 0;      ///< 0: the lowest of the run, at its low end
  double below = 0;   ///< bricks out of sight, by area
  double facing = 0;  ///< bricks above, by area
  /// To the brick, in halves; where both kinds meet in a course the seen one has the half brick between.
  double laid_below = 0;
  double laid_facing = 0;
  double cut = 0;  ///< pieces to cut: a half bat or closer at every other course of each free end, and one
                   ///< across the wall for each length off the gauge
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
  double laid_below = 0;   ///< to the brick, in halves
  double laid_facing = 0;
  double cut = 0;
  [[nodiscard]] double bricks() const { return below + facing; }
  [[nodiscard]] double laid() const { return laid_below + laid_facing; }
};

[[nodiscard]] RunCount count_run(const Run& run);

/// `exact` bricks of the bond as the trade's rounded rate counts them (60 a square metre for 59.26).
[[nodiscard]] double bricks_by_rule(double exact, trade::Bond bond);

/// Units of coping on one straight length, a joint between each, the last one cut.
/// @pre unit > 0
[[nodiscard]] int coping_units(base::Metres length, base::Metres unit);

/// Weep holes in one course of a length, no farther apart than `spacing`, half of that from the ends.
/// @pre spacing > 0
[[nodiscard]] int weep_holes(base::Metres length, base::Metres spacing);

}  // namespace weatherstruck::measure
