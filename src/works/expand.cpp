#include "weatherstruck/works/expand.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Metres;

namespace {

// A box stands on a stiff mix in a shallow trench: common practice, no source for the sizes.
constexpr Metres box_footing_width{0.3};
constexpr Metres box_footing_thickness{0.1};
constexpr Metres box_footing_depth{0.15};
// Soil settles and is kept below the top course: assumption.
constexpr Metres bed_freeboard{0.05};

constexpr std::array<std::string_view, 4> side_words{"north", "east", "south", "west"};

std::string_view word(Side side) {
  return side_words[static_cast<std::size_t>(side)];
}

/// What all four sides of a rectangle have in common.
struct RingShape {
  Name name;
  Metres length;  // west to east, outside of brickwork
  Metres width;
  Metres drop_along_length;  // west less east
  Metres drop_along_width;   // north less south
  Metres footing_width, footing_thickness, footing_depth;
  int courses = 0;
  int courses_below = 0;
  trade::Bond bond = trade::Bond::half_stretcher;
  trade::BrickKind brick = trade::BrickKind::facing;
  trade::BrickKind brick_below = trade::BrickKind::engineering_b;
  trade::JointFinish joints = trade::JointFinish::either;
  std::vector<Side> sides;
  std::optional<Side> door;
  Metres door_width{0};
  std::optional<Metres> door_at;
  Metres weep_spacing{0};
};

class Expander {
 public:
  explicit Expander(const Job& job) : job_(job), rules_(measure::FootingRules::from(limits_of(job).values)) {}

  Expansion run() {
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      place_ = "/parts/" + std::to_string(i);
      drop_key_ = "drop";
      std::visit([this](const auto& part) { add(part); }, job_.parts[i]);
    }
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      place_ = "/parts/" + std::to_string(i);
      if (const Wall* wall = std::get_if<Wall>(&job_.parts[i])) add_single_wall(*wall);
    }
    for (std::size_t i = 0; i < out_.footings.size(); ++i)
      check_projection(i);
    return std::move(out_);
  }

 private:
  Group& new_group(const Name& of, Group::Kind kind) {
    Group group;
    group.of = of;
    group.title = "the " + spoken(of);
    group.kind = kind;
    out_.groups.push_back(std::move(group));
    return out_.groups.back();
  }

  /// Faults of a strip come with places of their own; `prefix` makes "/thickness" a key of the written part.
  std::size_t add_footing(const Footing& shape, const Name& of, std::string title,
                          const std::string& prefix) {
    FootingPart part;
    part.shape = shape;
    part.of = of;
    part.title = std::move(title);
    const measure::Strip strip{shape.length, shape.width, shape.thickness, shape.depth};
    const auto read = std::find_if(job_.ground.begin(), job_.ground.end(),
                                   [&](const GroundRead& ground) { return ground.footing == shape.name; });
    part.plan = read == job_.ground.end() ? measure::plan_footing(strip, shape.drop, rules_)
                                          : measure::plan_footing(strip, read->levels, rules_);
    report(part.plan.faults, out_.faults, prefix);
    report(part.plan.advice, out_.advice, prefix);
    out_.footings.push_back(std::move(part));
    places_.push_back(place_);
    prefixes_.push_back(prefix);
    return out_.footings.size() - 1;
  }

  void report(const base::Faults& from, base::Faults& to, const std::string& prefix) const {
    for (base::Fault fault : from) {
      const std::string key = fault.place.substr(1);
      fault.place = place_ + "/" + (key == "drop" ? drop_key_ : prefix + key);
      // Four strips of one part say the same thing once.
      if (std::find(to.begin(), to.end(), fault) == to.end()) to.push_back(std::move(fault));
    }
  }

  [[nodiscard]] const Wall* written_wall(const Name& name) const {
    for (const Part& part : job_.parts) {
      const Wall* wall = std::get_if<Wall>(&part);
      if (wall != nullptr && wall->name == name) return wall;
    }
    return nullptr;
  }
  /// Ends of a wall at which another stops.
  [[nodiscard]] int turned_at(const Name& name) const {
    int turned = 0;
    for (const Part& part : job_.parts) {
      const Wall* wall = std::get_if<Wall>(&part);
      if (wall == nullptr) continue;
      for (const Meeting& meeting : wall->meets)
        turned += meeting.wall == name ? 1 : 0;
    }
    return std::min(turned, 2);
  }

  /// @param turned ends at which another run stops
  std::size_t add_wall(const Wall& shape, const Name& of, std::string title, std::size_t footing,
                       int turned) {
    FootingPart& below = out_.footings[footing];
    WallPart part;
    part.shape = shape;
    part.of = of;
    part.title = std::move(title);
    part.run.length = shape.length;
    part.run.courses = shape.courses;
    part.run.courses_below = shape.courses_below;
    part.run.bond = shape.bond;
    part.run.shared_corners = std::max(shape.shared_corners, static_cast<int>(shape.meets.size()));
    part.run.turned_corners = turned;
    for (const Meeting& meeting : shape.meets) {
      if (const Wall* through = written_wall(meeting.wall)) {
        (meeting.end == WallEnd::high ? part.run.met_high : part.run.met_low) =
            measure::thickness_of(through->bond);
      }
    }
    for (const Pier& pier : shape.piers)
      part.run.piers.push_back({pier.width, pier.projection, pier.at});
    for (const Opening& opening : shape.openings)
      part.run.openings.push_back({opening.width, opening.from_course, opening.at});
    part.run.stretches = along_wall(below.plan, below.shape.length, shape.length);
    part.count = measure::count_run(part.run);
    below.wall_thickness = std::max(below.wall_thickness, measure::thickness_of(shape.bond));
    below.courses_on_it = std::max(below.courses_on_it, static_cast<int>(part.count.courses.size()));
    out_.walls.push_back(std::move(part));
    return out_.walls.size() - 1;
  }

  /// Stretches of the footing as the wall sees them: the wall stands centred on it, its ends reach the outer
  /// ones.
  static std::vector<measure::Stretch> along_wall(const measure::FootingPlan& plan, Metres footing,
                                                  Metres wall) {
    const Metres shift = (footing - wall) / 2.0;
    std::vector<measure::Stretch> stretches;
    for (measure::Stretch s : plan.stretches) {
      s.from = std::clamp(s.from - shift, Metres(0), wall);
      s.to = std::clamp(s.to - shift, Metres(0), wall);
      stretches.push_back(s);
    }
    if (!stretches.empty()) {
      stretches.front().from = Metres(0);
      stretches.back().to = wall;
    }
    return stretches;
  }

  void add(const Footing& footing) {
    const std::string said = spoken(footing.name);
    const std::string title = said.find("footing") == std::string::npos ? said + " footing" : said;
    const std::size_t at = add_footing(footing, footing.name, title, "");
    Group& group = new_group(footing.name, Group::Kind::single);
    group.title = "the " + title;
    group.footings.push_back(at);
  }
  void add(const Wall&) {}  // after all footings
  void add(const Path& path) { out_.paths.push_back(path); }
  void add(const Steps& steps) { out_.flights.push_back(steps); }

  void add_single_wall(const Wall& wall) {
    const auto found = std::find_if(out_.footings.begin(), out_.footings.end(),
                                    [&](const FootingPart& f) { return f.shape.name == wall.footing; });
    if (found == out_.footings.end()) return;
    const auto footing = static_cast<std::size_t>(found - out_.footings.begin());
    const std::string said = spoken(wall.name);
    const std::string title = said.find("wall") == std::string::npos ? said + " wall" : said;
    const std::size_t at = add_wall(wall, wall.name, title, footing, turned_at(wall.name));
    for (Group& group : out_.groups) {
      if (std::find(group.footings.begin(), group.footings.end(), footing) == group.footings.end()) continue;
      group.walls.push_back(at);
      // A strip named for its wall is work on that wall.
      if (wall.footing == wall.name + "-footing") group.title = "the " + title;
      if (wall.plate) group.plates += top_length(out_.walls[at]);
      if (!wall.coping) continue;
      for (const Metres length : measure::pieces_on(out_.walls[at].run, top_of(out_.walls[at]))) {
        group.coping_runs.push_back({wall.bond, length});
        group.copings += length;
      }
    }
  }

  void add(const Base& base) {
    RingShape ring;
    ring.name = base.name;
    ring.length = base.length;
    ring.width = base.width;
    ring.drop_along_length = base.drop_along_length;
    ring.drop_along_width = base.drop_along_width;
    ring.footing_width = base.footing_width;
    ring.footing_thickness = base.footing_thickness;
    ring.footing_depth = base.footing_depth;
    ring.courses = base.courses;
    ring.courses_below = base.courses_below;
    ring.bond = base.bond;
    ring.brick = base.brick;
    ring.brick_below = base.brick_below;
    ring.joints = base.joints;
    ring.sides = {Side::north, Side::east, Side::south, Side::west};
    ring.door = base.door_side;
    ring.door_width = base.door_width;
    ring.door_at = base.door_at;
    Group& group = add_ring(ring, Group::Kind::base, "footing_", base.plates);
    if (base.plates) {
      for (const std::size_t wall : group.walls)
        group.plates += top_length(out_.walls[wall]);
    }
  }

  void add(const Bed& bed) {
    RingShape ring;
    ring.name = bed.name;
    ring.length = bed.length;
    ring.width = bed.width;
    ring.drop_along_length = bed.drop;
    ring.footing_width = bed.footing_width;
    ring.footing_thickness = bed.footing_thickness;
    ring.footing_depth = bed.footing_depth;
    ring.courses = bed.courses;
    ring.courses_below = bed.courses_below;
    ring.brick_below = bed.brick_below;
    ring.weep_spacing = bed.weep_spacing;
    ring.bond = bed.bond;
    ring.brick = bed.brick;
    ring.joints = bed.joints;
    // What is not built first is the back, which leans on a fence or wall; in a corner one end as well.
    constexpr std::array order{Side::south, Side::west, Side::east, Side::north};
    const int sides = std::clamp(bed.sides, 1, 4);
    ring.sides.assign(order.begin(), order.begin() + sides);
    Group& group = add_ring(ring, Group::Kind::bed, "footing_", false);
    if (!bed.filled) return;
    const Metres t = measure::thickness_of(bed.bond);
    // A side that is not built is taken by the wall that the bed leans on.
    const Metres inside_length = bed.length - t * static_cast<double>(std::min(2, sides - 1));
    const Metres inside_width = bed.width - t * (sides == 4 ? 2.0 : 1.0);
    group.fill_height =
        std::max(Metres(0), measure::course_height * static_cast<double>(bed.courses) - bed_freeboard);
    group.fill = std::max(Metres(0), inside_length) * std::max(Metres(0), inside_width) * group.fill_height;
  }

  void add(const Box& box) {
    RingShape ring;
    ring.name = box.name;
    ring.length = box.length;
    ring.width = box.width;
    ring.footing_width = box_footing_width;
    ring.footing_thickness = box_footing_thickness;
    ring.footing_depth = box_footing_depth;
    ring.courses = box.courses;
    ring.brick = box.brick;
    ring.joints = box.joints;
    ring.sides = {Side::south, Side::north, Side::west, Side::east};
    add_ring(ring, Group::Kind::box, "", false);
  }

  /// The course that a coping or plate lies on is under it, so an opening in the top course cuts it.
  static int top_of(const WallPart& wall) { return std::max(0, wall.shape.courses - 1); }
  static Metres top_length(const WallPart& wall) {
    Metres length(0);
    for (const Metres piece : measure::pieces_on(wall.run, top_of(wall)))
      length += piece;
    return length;
  }

  /// Lengths run through at the corners and count them; widths stop between.
  Group& add_ring(const RingShape& ring, Group::Kind kind, const std::string& prefix, bool plates) {
    const Metres t = measure::thickness_of(ring.bond);
    const Metres fall_length(std::abs(ring.drop_along_length.value()));
    const Metres fall_width(std::abs(ring.drop_along_width.value()));
    const auto built = [&](Side side) {
      return std::find(ring.sides.begin(), ring.sides.end(), side) != ring.sides.end();
    };
    const int lengths_built = (built(Side::north) ? 1 : 0) + (built(Side::south) ? 1 : 0);

    const std::size_t group_at = out_.groups.size();
    new_group(ring.name, kind);
    const std::string whose = " of " + out_.groups[group_at].title;
    std::array<std::size_t, 4> footing_of{};
    for (const Side side : ring.sides) {
      const bool lengthwise = side == Side::north || side == Side::south;
      Footing footing;
      footing.name = ring.name + "-" + std::string(word(side)) + "-footing";
      footing.length =
          lengthwise ? ring.length - t + ring.footing_width : ring.width - t - ring.footing_width;
      footing.length = std::max(footing.length, Metres(0.05));
      footing.width = ring.footing_width;
      footing.thickness = ring.footing_thickness;
      footing.depth = ring.footing_depth;
      footing.drop = lengthwise ? fall_length : fall_width;
      if (kind == Group::Kind::base) drop_key_ = lengthwise ? "drop_along_length" : "drop_along_width";
      footing_of[static_cast<std::size_t>(side)] =
          add_footing(footing, ring.name, std::string(word(side)) + " footing" + whose, prefix);
      out_.groups[group_at].footings.push_back(footing_of[static_cast<std::size_t>(side)]);
    }
    // Extra courses of the side that lies low, as the strips running down to it step. Where one of them is
    // not built the nearest whole courses stand in.
    const auto steps_of = [&](Side side, Metres fall) {
      return built(side) ? out_.footings[footing_of[static_cast<std::size_t>(side)]].plan.extra_courses()
                         : courses_for_drop(fall);
    };
    const int down_length = steps_of(built(Side::north) ? Side::north : Side::south, fall_length);
    const int down_width = steps_of(built(Side::west) ? Side::west : Side::east, fall_width);
    for (const Side side : ring.sides) {
      const bool lengthwise = side == Side::north || side == Side::south;
      const bool low = (side == Side::east && ring.drop_along_length.value() > 0) ||
                       (side == Side::west && ring.drop_along_length.value() < 0) ||
                       (side == Side::south && ring.drop_along_width.value() > 0) ||
                       (side == Side::north && ring.drop_along_width.value() < 0);
      const int extra = !low ? 0 : (lengthwise ? down_width : down_length);
      Wall wall;
      wall.name = ring.name + "-" + std::string(word(side));
      wall.footing = ring.name + "-" + std::string(word(side)) + "-footing";
      wall.length = lengthwise ? ring.length : ring.width;
      wall.courses = ring.courses + extra;
      wall.courses_below = ring.courses_below;
      wall.bond = ring.bond;
      wall.brick = ring.brick;
      wall.brick_below = ring.brick_below;
      wall.joints = ring.joints;
      wall.shared_corners = lengthwise ? 0 : lengths_built;
      wall.plate = plates;
      wall.weep_spacing = ring.weep_spacing;
      // All runs finish level, and so does the threshold: at the ground of the highest corner.
      if (ring.door == side) {
        const bool from_high =
            lengthwise ? ring.drop_along_length.value() >= 0 : ring.drop_along_width.value() >= 0;
        std::optional<Metres> at = ring.door_at;
        if (at && !from_high) at = wall.length - *at - ring.door_width;
        wall.openings.push_back({ring.door_width, ring.courses_below + extra, at});
      }
      const int turned = !lengthwise ? 0 : (built(Side::west) ? 1 : 0) + (built(Side::east) ? 1 : 0);
      const std::size_t at = add_wall(wall, ring.name, std::string(word(side)) + " wall" + whose,
                                      footing_of[static_cast<std::size_t>(side)], turned);
      out_.groups[group_at].walls.push_back(at);
    }
    return out_.groups[group_at];
  }

  /// T >= P can be judged only when it is known what stands on the strip.
  void check_projection(std::size_t at) {
    const FootingPart& footing = out_.footings[at];
    if (footing.wall_thickness.value() <= 0) return;
    const Metres least = measure::least_thickness(footing.shape.width, footing.wall_thickness, rules_);
    if (footing.shape.thickness.value() >= least.value() - 1e-9) return;
    if (footing.shape.thickness < rules_.least_thickness) return;  // said already
    place_ = places_[at];
    report({{"footing-projects-far", "/thickness", millimetres(footing.shape.thickness),
             millimetres(least) +
                 ", its projection beyond the wall (Approved Document A 2E2, written for houses)",
             "Make the concrete thicker or the strip narrower."}},
           out_.advice, prefixes_[at]);
  }

  const Job& job_;
  measure::FootingRules rules_;
  Expansion out_;
  std::string place_;
  std::string drop_key_ = "drop";
  std::vector<std::string> places_;    // of each footing
  std::vector<std::string> prefixes_;  // of its keys
};

}  // namespace

void settle_own_figures(Job& job) {
  job.practice.norms = {};
  job.covers = {};
  for (const LimitOverride& own : job.limits.overrides) {
    job.practice.norms.set(own.key, own.value);
    job.covers.set(own.key, own.value);
  }
}

trade::ResolvedLimits limits_of(const Job& job) {
  std::vector<trade::LimitSetting> settings;
  for (const LimitOverride& o : job.limits.overrides)
    settings.push_back({o.key, o.value});
  return trade::limits_for(job.limits.set, job.limits.cold_rule, settings);
}

int courses_for_drop(Metres drop) {
  return std::max(0, static_cast<int>(std::floor(drop / measure::course_height + 0.5 + 1e-9)));
}

Expansion expand(const Job& job) {
  return Expander(job).run();
}

}  // namespace weatherstruck::works
