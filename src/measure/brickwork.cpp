#include "weatherstruck/measure/brickwork.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Metres;
using base::SquareMetres;

namespace {

constexpr Metres pitch = base::to_metres(trade::brick_pitch);
constexpr Metres half_pitch = pitch / 2.0;
constexpr Metres joint = base::to_metres(trade::joint);

/// Length of [from, to] left when the openings that reach this course are cut out.
struct Cutter {
  struct Gap {
    double from;
    double to;
    int from_course;
  };
  std::vector<Gap> gaps;

  // Openings, like piers, are spread evenly along the run: their places are not asked for.
  explicit Cutter(const Run& run) {
    const auto count = static_cast<double>(run.openings.size());
    for (std::size_t i = 0; i < run.openings.size(); ++i) {
      const double middle = run.length.value() * (static_cast<double>(i) + 1) / (count + 1);
      const double half = run.openings[i].width.value() / 2;
      gaps.push_back({middle - half, middle + half, run.openings[i].from_course});
    }
  }

  [[nodiscard]] double left(double from, double to, int course) const {
    if (to <= from) return 0;
    double length = to - from;
    for (const Gap& gap : gaps) {
      if (course >= gap.from_course) length -= std::max(0.0, std::min(to, gap.to) - std::max(from, gap.from));
    }
    return std::max(0.0, length);
  }
};

double pier_bricks(const PierShape& pier) {
  return (pier.width + joint) / pitch * ((pier.projection + joint) / half_pitch);
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

RunCount count_run(const Run& run) {
  std::vector<Stretch> stretches = run.stretches;
  if (stretches.empty()) stretches.push_back({Metres(0), run.length, 0});
  const int extra = stretches.back().extra_courses;
  const int leaves = leaves_of(run.bond);
  const Metres corner = half_pitch * static_cast<double>(leaves);
  // One shared corner is taken off the high end, where there are fewest courses: rather a brick too many.
  const double start = run.shared_corners >= 1 ? corner.value() : 0;
  const double end = run.length.value() - (run.shared_corners >= 2 ? corner.value() : 0);
  const Cutter cutter(run);

  RunCount count;
  double length_below = 0;
  double length_facing = 0;
  for (int level = 0; level < run.courses + extra; ++level) {
    Course course{level, 0, 0};
    const int as_at_high_end = level - extra;
    const auto in_stretch = [&](const Stretch& s) { return as_at_high_end >= -s.extra_courses; };
    const auto is_below = [&](const Stretch& s) {
      return as_at_high_end + s.extra_courses < run.courses_below;
    };
    for (const Stretch& s : stretches) {
      if (!in_stretch(s)) continue;
      const double length =
          cutter.left(std::max(start, s.from.value()), std::min(end, s.to.value()), as_at_high_end);
      (is_below(s) ? course.below : course.facing) += length / pitch.value() * leaves;
      (is_below(s) ? length_below : length_facing) += length;
    }
    for (std::size_t i = 0; i < run.piers.size(); ++i) {
      const double at =
          run.length.value() * (static_cast<double>(i) + 1) / (static_cast<double>(run.piers.size()) + 1);
      for (const Stretch& s : stretches) {
        if (at < s.from.value() || at >= s.to.value() || !in_stretch(s)) continue;
        (is_below(s) ? course.below : course.facing) += pier_bricks(run.piers[i]);
      }
    }
    count.below += course.below;
    count.facing += course.facing;
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

double bricks_to_order(double exact, double waste) {
  const trade::BondRow& bond = trade::row_for(trade::Bond::half_stretcher);
  return std::ceil(exact * (bond.bricks_per_m2 / bond.bricks_per_m2_exact) * (1 + waste) - 1e-9);
}

}  // namespace weatherstruck::measure
