#include "weatherstruck/measure/brickwork.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Metres;
using base::SquareMetres;

namespace {

constexpr Metres pitch = base::to_metres(trade::brick_pitch);
constexpr Metres half_pitch = pitch / 2.0;
constexpr Metres joint = base::to_metres(trade::joint);

constexpr double slack = 1e-9;  // lengths that agree to a nanometre are equal

struct Piece {
  double from;
  double to;
};

// Where a thing is that was given no place: spread evenly along the run.
double middle_of(const std::optional<Metres>& at, Metres width, Metres length, std::size_t i,
                 std::size_t count) {
  if (at) return at->value() + width.value() / 2;
  return length.value() * (static_cast<double>(i) + 1) / (static_cast<double>(count) + 1);
}

/// What is left of [from, to] when the openings that reach a course are cut out.
class Cutter {
 public:
  explicit Cutter(const Run& run) {
    for (std::size_t i = 0; i < run.openings.size(); ++i) {
      const OpeningShape& opening = run.openings[i];
      const double middle = middle_of(opening.at, opening.width, run.length, i, run.openings.size());
      const double half = opening.width.value() / 2;
      gaps_.push_back({middle - half, middle + half, opening.from_course});
    }
    std::stable_sort(gaps_.begin(), gaps_.end(), [](const Gap& a, const Gap& b) { return a.from < b.from; });
  }

  [[nodiscard]] std::vector<Piece> left(double from, double to, int course) const {
    std::vector<Piece> pieces;
    double at = from;
    for (const Gap& gap : gaps_) {
      if (course < gap.from_course || gap.to <= at || gap.from >= to) continue;
      if (gap.from > at + slack) pieces.push_back({at, gap.from});
      at = std::max(at, gap.to);
    }
    if (to > at + slack) pieces.push_back({at, to});
    return pieces;
  }

 private:
  struct Gap {
    double from;
    double to;
    int from_course;
  };
  std::vector<Gap> gaps_;
};

double overlap(const Piece& piece, const Stretch& s) {
  return std::max(0.0, std::min(piece.to, s.to.value()) - std::max(piece.from, s.from.value()));
}

double pier_bricks(const PierShape& pier) {
  return (pier.width + joint) / pitch * ((pier.projection + joint) / half_pitch);
}
double pier_laid(const PierShape& pier) {
  return half_bricks_along(pier.width + joint) * half_bricks_along(pier.projection + joint) / 2.0;
}

/// Whether a length is off the gauge of half bricks by more than its joints take up.
bool wants_cut(double length) {
  return half_bricks_along(Metres(length)) > std::floor(length / half_pitch.value() + slack);
}

}  // namespace

int leaves_of(trade::Bond bond) {
  switch (bond) {
    case trade::Bond::half_stretcher:
      return 1;
    case trade::Bond::one_english:
    case trade::Bond::one_flemish:
      return 2;
    case trade::Bond::one_and_half_english:
      return 3;
  }
  return 1;
}

Metres thickness_of(trade::Bond bond) {
  return base::to_metres(trade::row_for(bond).thickness);
}

int half_bricks_along(Metres length) {
  if (length.value() <= slack) return 0;
  const double halves = length / half_pitch;
  const double whole = std::floor(halves + slack);
  const double give = trade::norm(trade::norm_key::joint_give) / half_pitch.value() * halves;
  return static_cast<int>(halves - whole <= give + slack ? whole : whole + 1);
}

CornerLengths corners_of(const Run& run) {
  const Metres own = thickness_of(run.bond) + joint;
  int unnamed = run.shared_corners - (run.met_high ? 1 : 0) - (run.met_low ? 1 : 0);
  // One shared corner is taken off the high end, where there are fewest courses: rather a brick too many.
  const auto taken = [&](const std::optional<Metres>& met) {
    if (met) return *met + joint;
    return unnamed-- > 0 ? own : Metres(0);
  };
  CornerLengths corners;
  corners.high = taken(run.met_high);
  corners.low = taken(run.met_low);
  return corners;
}

std::vector<Metres> pieces_on(const Run& run, int below) {
  const CornerLengths corners = corners_of(run);
  // A coping or a damp-proof course reaches the face of the run met, where bricks leave a joint.
  const auto to_face = [](Metres taken) { return std::max(0.0, (taken - joint).value()); };
  std::vector<Metres> lengths;
  for (const Piece& piece :
       Cutter(run).left(to_face(corners.high), run.length.value() - to_face(corners.low), below)) {
    lengths.emplace_back(piece.to - piece.from);
  }
  return lengths;
}

RunCount count_run(const Run& run) {
  std::vector<Stretch> stretches = run.stretches;
  if (stretches.empty()) stretches.push_back({Metres(0), run.length, 0});
  const int extra = stretches.back().extra_courses;
  const int leaves = leaves_of(run.bond);
  const CornerLengths corners = corners_of(run);
  const double start = corners.high.value();
  const double end = run.length.value() - corners.low.value();
  const Cutter cutter(run);
  const int bonded = run.shared_corners + run.turned_corners;  // ends at which a corner makes the bond
  const int free_ends = std::max(0, 2 - bonded);

  RunCount count;
  double length_below = 0;
  double length_facing = 0;
  for (int level = 0; level < run.courses + extra; ++level) {
    Course course;
    course.level = level;
    const int as_at_high_end = level - extra;
    const auto in_stretch = [&](const Stretch& s) { return as_at_high_end >= -s.extra_courses; };
    const auto is_below = [&](const Stretch& s) {
      return as_at_high_end + s.extra_courses < run.courses_below;
    };
    // The footing steps down: a course begins at the first stretch that is low enough and runs to the end.
    const auto first = std::find_if(stretches.begin(), stretches.end(), in_stretch);
    const double begins = std::max(start, first == stretches.end() ? end : first->from.value());
    const bool from_a_step = first != stretches.end() && first != stretches.begin();
    const std::vector<Piece> pieces = cutter.left(begins, end, as_at_high_end);
    for (const Piece& piece : pieces) {
      double seen = 0;
      for (const Stretch& s : stretches) {
        if (!in_stretch(s)) continue;
        const double length = overlap(piece, s);
        (is_below(s) ? course.below : course.facing) += length / pitch.value() * leaves;
        (is_below(s) ? length_below : length_facing) += length;
        if (!is_below(s)) seen += length;
      }
      const double long_enough = piece.to - piece.from;
      const int halves = half_bricks_along(Metres(long_enough));
      const int halves_seen = std::min(halves, half_bricks_along(Metres(seen)));
      course.laid_facing += halves_seen * leaves / 2.0;
      course.laid_below += (halves - halves_seen) * leaves / 2.0;
      if (wants_cut(long_enough)) course.cut += leaves;
    }
    if (!pieces.empty()) {
      const auto reveals = static_cast<double>(2 * (pieces.size() - 1));
      course.cut += (reveals + free_ends + (from_a_step && free_ends < 2 ? 1 : 0)) / 2;
    }
    for (std::size_t i = 0; i < run.piers.size(); ++i) {
      const PierShape& pier = run.piers[i];
      const double at = middle_of(pier.at, pier.width, run.length, i, run.piers.size());
      for (const Stretch& s : stretches) {
        if (at < s.from.value() || at >= s.to.value() || !in_stretch(s)) continue;
        (is_below(s) ? course.below : course.facing) += pier_bricks(pier);
        (is_below(s) ? course.laid_below : course.laid_facing) += pier_laid(pier);
      }
    }
    count.below += course.below;
    count.facing += course.facing;
    count.laid_below += course.laid_below;
    count.laid_facing += course.laid_facing;
    count.cut += course.cut;
    count.courses.push_back(course);
  }
  count.area_below = Metres(length_below) * course_height;
  count.area_facing = Metres(length_facing) * course_height;
  const trade::BondRow& bond = trade::row_for(run.bond);
  const double mortar_per_brick = bond.mortar_m3_per_m2 / bond.bricks_per_m2_exact;
  count.mortar_below = CubicMetres(count.below * mortar_per_brick);
  count.mortar_facing = CubicMetres(count.facing * mortar_per_brick);
  count.height = course_height * static_cast<double>(run.courses + extra);
  return count;
}

double bricks_by_rule(double exact, trade::Bond bond) {
  const trade::BondRow& row = trade::row_for(bond);
  return exact * row.bricks_per_m2 / row.bricks_per_m2_exact;
}

int coping_units(Metres length, Metres unit) {
  if (length.value() <= 0) return 0;
  return static_cast<int>(std::ceil((length + joint) / (unit + joint) - slack));
}

int weep_holes(Metres length, Metres spacing) {
  if (length.value() <= 0) return 0;
  return static_cast<int>(std::ceil(length / spacing - slack));
}

}  // namespace weatherstruck::measure
