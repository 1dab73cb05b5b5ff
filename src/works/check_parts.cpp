// Sizes of parts, what stands on what, and the rules for footings and for beds that hold soil.
#include <algorithm>

#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/fault_list.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {

using base::Metres;

namespace {

constexpr double slack = 1e-9;

class PartChecker {
 public:
  PartChecker(const Job& job, FaultList& out) : job_(job), out_(out) {}

  void run() {
    const std::size_t before = out_.count();
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      place_ = "/parts/" + std::to_string(i);
      std::visit([this](const auto& part) { sizes(part); }, job_.parts[i]);
    }
    // Steps of a footing can be worked out only for sizes that make sense.
    if (out_.count() == before) footings();
  }

 private:
  void sizes(const Footing& footing) {
    out_.range(footing.length, 0.3, 60, place_ + "/length");
    strip(footing.width, footing.thickness, footing.depth, "");
    out_.range(footing.drop, 0, 5, place_ + "/drop");
  }

  void strip(Metres width, Metres thickness, Metres depth, const std::string& prefix) {
    out_.range(width, 0.2, 1.5, place_ + "/" + prefix + "width");
    out_.range(thickness, 0.1, 1, place_ + "/" + prefix + "thickness");
    if (depth.value() < thickness.value() - slack) {
      out_.fault("footing-above-ground", place_ + "/" + prefix + "depth", millimetres(depth),
                 "at least the thickness of the concrete, " + millimetres(thickness),
                 "Depth is from the ground to the bottom of the concrete: dig deeper.");
    } else {
      out_.range(depth, 0.1, 2, place_ + "/" + prefix + "depth");
    }
  }

  void sizes(const Wall& wall) {
    out_.range(wall.length, 0.2, 60, place_ + "/length");
    out_.range(wall.courses, 1, 40, place_ + "/courses");
    out_.range(wall.courses_below, 0, std::max(0, wall.courses), place_ + "/courses_below");
    out_.range(wall.shared_corners, 0, 2, place_ + "/shared_corners");
    double open = 0;
    for (std::size_t i = 0; i < wall.openings.size(); ++i) {
      const std::string key = "openings/" + std::to_string(i) + "/";
      out_.range(wall.openings[i].width, 0.1, 10, place_ + "/" + key + "width");
      out_.range(wall.openings[i].from_course, 0, std::max(0, wall.courses),
                 place_ + "/" + key + "from_course");
      open += wall.openings[i].width.value();
      on_the_wall(wall.openings[i].at, wall.openings[i].width, wall.length, place_ + "/" + key + "at");
    }
    if (open >= wall.length.value() && wall.length.value() > 0) {
      out_.fault("openings-too-wide", place_ + "/openings", shown(open) + " m of openings",
                 "less than the wall, " + metres(wall.length),
                 "Make the openings narrower or the wall longer.");
    }
    for (std::size_t i = 0; i < wall.piers.size(); ++i) {
      const std::string key = "piers/" + std::to_string(i) + "/";
      out_.range(wall.piers[i].width, 0.1, 1, place_ + "/" + key + "width");
      out_.range(wall.piers[i].projection, 0.05, 1, place_ + "/" + key + "projection");
      on_the_wall(wall.piers[i].at, wall.piers[i].width, wall.length, place_ + "/" + key + "at");
    }
    out_.range(wall.weep_spacing, 0, 3, place_ + "/weep_spacing");
    meets(wall);
    stands_on(wall);
  }

  void on_the_wall(const std::optional<Metres>& at, Metres width, Metres length, const std::string& place) {
    if (!at) return;
    if (at->value() >= 0 && (*at + width).value() <= length.value() + slack) return;
    out_.fault("off-the-wall", place, metres(*at) + ", " + metres(width) + " wide",
               "a near side from 0 to " + metres(std::max(Metres(0), length - width)) +
                   ", so that it ends on the wall",
               "Measure from the high end to its near side.");
  }

  void meets(const Wall& wall) {
    std::vector<std::string> others;
    for (const Part& part : job_.parts) {
      if (std::holds_alternative<Wall>(part) && name_of(part) != wall.name) others.push_back(name_of(part));
    }
    for (std::size_t i = 0; i < wall.meets.size(); ++i) {
      const std::string place = place_ + "/meets/" + std::to_string(i);
      if (i > 0 && wall.meets[i].end == wall.meets[0].end) {
        out_.fault("end-twice", place + "/end", "the same end again", "each end of the wall once",
                   "Name the other end, or take this out.");
      }
      if (std::find(others.begin(), others.end(), wall.meets[i].wall) == others.end())
        out_.unknown(wall.meets[i].wall, place + "/wall", "wall", others);
    }
  }

  void stands_on(const Wall& wall) {
    std::vector<std::string> known;
    for (const Part& part : job_.parts) {
      const auto* footing = std::get_if<Footing>(&part);
      if (footing == nullptr) continue;
      known.push_back(footing->name);
      if (footing->name != wall.footing) continue;
      // A run may reach over the strips that cross its ends, no farther.
      const Metres longest = footing->length + footing->width * 2.0;
      if (wall.length.value() > longest.value() + slack) {
        out_.fault("wall-longer-than-footing", place_ + "/length", metres(wall.length),
                   "at most " + metres(longest) + ", the footing \"" + footing->name +
                       "\" and the strips across its ends",
                   "Lengthen the footing or shorten the wall.");
      }
    }
    for (const Part& part : job_.parts) {
      if (std::holds_alternative<Base>(part) || std::holds_alternative<Bed>(part) ||
          std::holds_alternative<Box>(part)) {
        for (const char* side : {"north", "east", "south", "west"}) {
          known.push_back(name_of(part) + "-" + side + "-footing");
        }
      }
    }
    if (std::find(known.begin(), known.end(), wall.footing) != known.end()) return;
    if (wall.footing.empty()) {
      out_.fault("wall-on-no-footing", place_ + "/footing", "nothing", "the name of a footing of this job",
                 "Add a footing part and name it here.");
    } else {
      out_.unknown(wall.footing, place_ + "/footing", "footing", known);
    }
  }

  void sizes(const Base& base) {
    out_.range(base.length, 0.8, 60, place_ + "/length");
    out_.range(base.width, 0.8, 60, place_ + "/width");
    out_.range(base.drop_along_length, -5, 5, place_ + "/drop_along_length");
    out_.range(base.drop_along_width, -5, 5, place_ + "/drop_along_width");
    out_.range(base.courses, 1, 40, place_ + "/courses");
    out_.range(base.courses_below, 0, std::max(0, base.courses), place_ + "/courses_below");
    strip(base.footing_width, base.footing_thickness, base.footing_depth, "footing_");
    if (!base.door_side) return;
    const Metres widest = open_width(base, *base.door_side);
    // A side out of range has been named; what is left of it beside a door says nothing more.
    if (widest.value() >= 0.4)
      out_.range(base.door_width, 0.3, widest.value() + 1e-6, place_ + "/door_width");
    const Metres side =
        *base.door_side == Side::north || *base.door_side == Side::south ? base.length : base.width;
    on_the_wall(base.door_at, base.door_width, side, place_ + "/door_at");
  }

  void sizes(const Bed& bed) {
    out_.range(bed.length, 0.5, 60, place_ + "/length");
    out_.range(bed.width, 0.4, 20, place_ + "/width");
    out_.range(bed.courses, 1, 20, place_ + "/courses");
    out_.range(bed.courses_below, 0, std::max(0, bed.courses), place_ + "/courses_below");
    out_.range(bed.weep_spacing, 0, 3, place_ + "/weep_spacing");
    out_.range(bed.sides, 1, 4, place_ + "/sides");
    out_.range(bed.drop, 0, 5, place_ + "/drop");
    strip(bed.footing_width, bed.footing_thickness, bed.footing_depth, "footing_");
    retaining(bed);
  }

  void retaining(const Bed& bed) {
    if (!bed.filled) return;
    const trade::LimitValues limits = limits_of(job_).values;
    const double height = bed.courses * measure::course_height.value() * 1000 + bed.drop.value() * 1000;
    const auto at = [&](std::string_view key) {
      const auto* entry = limits.find(key);
      return entry == nullptr ? 1e9 : entry->value;
    };
    if (height > at(trade::limit::retaining_engineer_height)) {
      out_.advice({"bed-for-an-engineer", place_ + "/courses", shown(height) + " mm of soil behind brick",
                   "up to " + shown(at(trade::limit::retaining_engineer_height)) + " mm without an engineer",
                   "Have the wall designed, or build it lower."});
    } else if (bed.bond == trade::Bond::half_stretcher &&
               height > at(trade::limit::retaining_caution_height) &&
               bed.length.value() * 1000 > at(trade::limit::retaining_caution_span)) {
      out_.advice({"bed-wants-piers", place_ + "/courses",
                   shown(height) + " mm of soil behind half a brick, " + metres(bed.length) + " long",
                   shown(at(trade::limit::retaining_caution_height)) + " mm, or piers and drains every " +
                       shown(at(trade::limit::retaining_caution_span)) + " mm",
                   "Build one brick thick, or add piers and drains."});
    }
  }

  void sizes(const Path& path) {
    out_.range(path.length, 0.3, 200, place_ + "/length");
    out_.range(path.width, 0.3, 10, place_ + "/width");
    out_.range(path.flag_length, 0.1, 1.5, place_ + "/flag_length");
    out_.range(path.flag_width, 0.1, 1.5, place_ + "/flag_width");
    out_.range(path.subbase, 0.03, 0.5, place_ + "/subbase");
  }

  void sizes(const Steps& steps) {
    out_.range(steps.count, 1, 20, place_ + "/count");
    out_.range(steps.width, 0.3, 10, place_ + "/width");
    out_.range(steps.going, 0.2, 2, place_ + "/going");
    out_.range(steps.riser, 0.075, 0.22, place_ + "/riser");
  }

  void sizes(const Box& box) {
    out_.range(box.length, 0.5, 10, place_ + "/length");
    out_.range(box.width, 0.5, 10, place_ + "/width");
    out_.range(box.courses, 1, 4, place_ + "/courses");
  }

  void footings() {
    Expansion expansion = expand(job_);
    out_.add(std::move(expansion.faults));
    for (base::Fault& advice : expansion.advice) {
      if (!of_a_box(advice.place)) out_.advice(std::move(advice));
    }
  }

  /// The strip of a box is the table's, not his: there is nothing in the document that he could change.
  [[nodiscard]] bool of_a_box(const std::string& place) const {
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      if (std::holds_alternative<Box>(job_.parts[i]) &&
          place.rfind("/parts/" + std::to_string(i) + "/", 0) == 0)
        return true;
    }
    return false;
  }

  const Job& job_;
  FaultList& out_;
  std::string place_;
};

}  // namespace

void check_parts(const Job& job, FaultList& list) {
  PartChecker(job, list).run();
}

}  // namespace weatherstruck::works
