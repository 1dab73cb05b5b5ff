#include "weatherstruck/render/part_sizes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/measure/setting_out.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {
namespace {

using base::Metres;

std::string by(Metres a, Metres b) {
  return base::plain_number(a.value(), 3) + " x " + base::plain_number(b.value(), 3) + " m";
}
std::string millimetres(Metres length) {
  return fmt::format("{} mm", std::lround(length.value() * 1000));
}

/// A rectangle of walls, whatever it was written as.
struct Ring {
  Metres length, width;
  Metres footing_width, footing_thickness;
  trade::Bond bond = trade::Bond::half_stretcher;
  bool west_high = true;  ///< along the length; only asked where it falls
  bool north_high = true;
};

class Sizer {
 public:
  Sizer(const works::Job& job, const works::Expansion& expansion) : job_(job), expansion_(expansion) {}

  std::vector<PartSizes> all() {
    for (const works::Part& part : job_.parts)
      std::visit([this](const auto& written) { add(written); }, part);
    for (PartSizes& one : out_) {
      if (one.plain.empty()) one.plain = one.sizes;
    }
    return std::move(out_);
  }

 private:
  PartSizes& begin(const works::Name& of) {
    out_.push_back({of, "the " + spoken(of), {}, {}, {}});
    return out_.back();
  }
  [[nodiscard]] const works::WallPart* wall(const works::Name& name) const {
    const auto found = std::find_if(expansion_.walls.begin(), expansion_.walls.end(),
                                    [&](const works::WallPart& w) { return w.shape.name == name; });
    return found == expansion_.walls.end() ? nullptr : &*found;
  }

  void ring(const works::Name& name, const Ring& ring) {
    PartSizes& out = begin(name);
    const Metres t = measure::thickness_of(ring.bond);
    const measure::RingLines lines = measure::ring_lines(ring.length, ring.width, t, ring.footing_width);
    const std::array sides{wall(name + "-north"), wall(name + "-east"), wall(name + "-south"),
                           wall(name + "-west")};
    const bool closed =
        std::all_of(sides.begin(), sides.end(), [](const auto* side) { return side != nullptr; });
    out.plain.push_back("outside " + by(ring.length, ring.width));
    out.sizes.push_back("outside " + by(ring.length, ring.width) + ", diagonal " +
                        metres(lines.wall_outer.diagonal));
    if (closed && lines.wall_inner.length.value() > 0 && lines.wall_inner.width.value() > 0) {
      out.plain.push_back("inside " + by(lines.wall_inner.length, lines.wall_inner.width));
      out.sizes.push_back("inside " + by(lines.wall_inner.length, lines.wall_inner.width) + ", diagonal " +
                          metres(lines.wall_inner.diagonal));
    }
    out.sizes.push_back("wall " + millimetres(t) + " thick, concrete " + millimetres(ring.footing_width) +
                        " wide and " + millimetres(ring.footing_thickness) + " thick");
    out.plain.push_back(out.sizes.back());
    if (closed) {
      out.sizes.push_back("trench, outer edge " + by(lines.trench_outer.length, lines.trench_outer.width) +
                          ", diagonal " + metres(lines.trench_outer.diagonal));
    }
    // Clockwise, with the two sides that meet there; the side along the length says the courses, where built.
    struct Meeting {
      const char* which;
      std::size_t lengthwise, across;
      bool west, north;
    };
    constexpr std::array<Meeting, 4> meetings{{{"north-west", 0, 3, true, true},
                                               {"north-east", 0, 1, false, true},
                                               {"south-east", 2, 1, false, false},
                                               {"south-west", 2, 3, true, false}}};
    for (const Meeting& corner : meetings) {
      const works::WallPart* along = sides[corner.lengthwise];
      if (along == nullptr || sides[corner.across] == nullptr) continue;
      const bool at_high_end = corner.west == ring.west_high;
      out.corners.push_back({corner.which, courses_at(*along, at_high_end)});
    }
    const std::array names{"north", "east", "south", "west"};
    for (std::size_t i = 0; i < sides.size(); ++i) {
      if (sides[i] != nullptr) openings_of(out, *sides[i], std::string(names[i]) + " side: ");
    }
  }

  static int courses_at(const works::WallPart& wall, bool high_end) {
    const int extra = wall.run.stretches.empty() ? 0 : wall.run.stretches.back().extra_courses;
    return wall.shape.courses + (high_end ? 0 : extra);
  }
  static void openings_of(PartSizes& out, const works::WallPart& wall, const std::string& where) {
    for (const works::Opening& opening : wall.shape.openings) {
      out.openings.push_back(fmt::format(
          "{}{} wide, the brickwork below it {}", where, metres(opening.width),
          opening.from_course == 0
              ? std::string("none")
              : fmt::format("{} course{} high", opening.from_course, opening.from_course == 1 ? "" : "s")));
    }
  }

  void add(const works::Base& base) {
    ring(base.name, {base.length, base.width, base.footing_width, base.footing_thickness, base.bond,
                     base.drop_along_length.value() >= 0, base.drop_along_width.value() >= 0});
  }
  void add(const works::Bed& bed) {
    ring(bed.name, {bed.length, bed.width, bed.footing_width, bed.footing_thickness, bed.bond});
  }
  void add(const works::Box& box) {
    const auto footing = std::find_if(expansion_.footings.begin(), expansion_.footings.end(),
                                      [&](const works::FootingPart& part) { return part.of == box.name; });
    if (footing == expansion_.footings.end()) return;
    ring(box.name, {box.length, box.width, footing->shape.width, footing->shape.thickness});
  }
  void add(const works::Footing& footing) {
    PartSizes& out = begin(footing.name);
    out.sizes.push_back("concrete " + by(footing.length, footing.width) + ", " +
                        millimetres(footing.thickness) + " thick, its bottom " + millimetres(footing.depth) +
                        " below the ground at the high end");
  }
  void add(const works::Wall& written) {
    PartSizes& out = begin(written.name);
    out.sizes.push_back(metres(written.length) + " long, " +
                        millimetres(measure::thickness_of(written.bond)) + " thick");
    const works::WallPart* part = wall(written.name);
    if (part == nullptr) return;
    out.corners = {{"high end", courses_at(*part, true)}, {"low end", courses_at(*part, false)}};
    openings_of(out, *part, "");
  }
  void add(const works::Path& path) {
    PartSizes& out = begin(path.name);
    out.sizes.push_back(by(path.length, path.width) + ", sub-base " + millimetres(path.subbase));
  }
  void add(const works::Steps& steps) {
    PartSizes& out = begin(steps.name);
    out.sizes.push_back(fmt::format("{} risers of {}, going {}, width {}", steps.count,
                                    millimetres(steps.riser), millimetres(steps.going), metres(steps.width)));
  }

  const works::Job& job_;
  const works::Expansion& expansion_;
  std::vector<PartSizes> out_;
};

}  // namespace

int PartSizes::most_courses() const {
  int most = 0;
  for (const CornerCourses& corner : corners)
    most = std::max(most, corner.courses);
  return most;
}

std::vector<PartSizes> part_sizes(const works::Job& job, const works::Expansion& expansion) {
  return Sizer(job, expansion).all();
}

std::string metres(base::Metres length) {
  return base::plain_number(length.value(), 3) + " m";
}

int course_top(int courses) {
  return static_cast<int>(std::lround(measure::course_height.value() * 1000 * courses));
}

}  // namespace weatherstruck::render
