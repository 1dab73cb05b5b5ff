#include "weatherstruck/works/check.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {

using base::Fault;
using base::Metres;

namespace {

constexpr int longest_trip_days = 31;
constexpr std::size_t most_people = 6;
constexpr double slack = 1e-9;

bool is_name(const Name& name) {
  if (name.empty() || name.size() > 40 || name[0] < 'a' || name[0] > 'z') return false;
  return std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

std::string number(double value) { return std::isfinite(value) ? base::plain_number(value, 4) : "not a number"; }

class Checker {
 public:
  explicit Checker(const Job& job) : job_(job) {}

  CheckResult run() {
    name(job_.name, "/name");
    site();
    trip();
    crew();
    kit();
    practice();
    collect_names();
    const std::size_t before = out_.faults.size();
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      place_ = "/parts/" + std::to_string(i);
      std::visit([this](const auto& part) { sizes(part); }, job_.parts[i]);
    }
    // Steps of a footing can be worked out only for sizes that make sense.
    if (out_.faults.size() == before) footings();
    for (std::size_t i = 0; i < job_.importance.size(); ++i) {
      part_reference(job_.importance[i].part, "/importance/" + std::to_string(i) + "/part");
    }
    tasks();
    supplies();
    fixed();
    fallbacks();
    for (Fault& fault : limits_of(job_).faults) out_.faults.push_back(std::move(fault));
    return std::move(out_);
  }

 private:
  void fault(std::string code, std::string place, std::string found, std::string expected, std::string remedy) {
    out_.faults.push_back({std::move(code), std::move(place), std::move(found), std::move(expected), std::move(remedy)});
  }

  void range(double value, double low, double high, const std::string& place, const std::string& unit) {
    if (value >= low && value <= high) return;
    const std::string after = unit.empty() ? "" : " " + unit;
    fault("out-of-range", place, number(value) + after, number(low) + " to " + number(high) + after,
          value > high ? "Make it smaller, or split the work." : "Give a size in the range.");
  }
  void range(Metres value, double low, double high, const std::string& key) {
    range(value.value(), low, high, place_ + "/" + key, "m");
  }
  void range(int value, int low, int high, const std::string& key) {
    range(static_cast<double>(value), low, high, place_ + "/" + key, "");
  }

  void name(const Name& name, const std::string& place) {
    if (is_name(name)) return;
    fault("bad-name", place, "\"" + name + "\"", "a small letter, then up to 39 small letters, digits or dashes",
          "Give a short name such as north-wall.");
  }

  void span(const DaySpan& span, const std::string& place) {
    using namespace std::chrono_literals;
    if (span.from >= 0min && span.from < span.to && span.to <= 24h) return;
    fault("span-backwards", place, std::to_string(span.from.count()) + " to " + std::to_string(span.to.count()) +
          " min after midnight", "an end after its start, both within one day", "Put the earlier time first.");
  }
  void spans(const std::vector<DaySpan>& list, const std::string& place) {
    for (std::size_t i = 0; i < list.size(); ++i) span(list[i], place + "/" + std::to_string(i));
  }

  void unknown(const Name& word, const std::string& place, const std::string& what,
               const std::vector<std::string>& known) {
    const auto near = base::nearest_name(word, known);
    const std::string all = known.empty() ? "none is there" : base::join_and(known);
    fault("unknown-" + what, place, "\"" + word + "\"", what + " of this job: " + all,
          near ? "Write \"" + *near + "\", if that is meant." : "Name one that the job has, or take this out.");
  }

  void part_reference(const Name& word, const std::string& place) {
    if (std::find(part_names_.begin(), part_names_.end(), word) == part_names_.end()) {
      unknown(word, place, "part", part_names_);
    }
  }

  void site() {
    range(job_.site.latitude, -90, 90, "/site/latitude", "degrees");
    range(job_.site.longitude, -180, 180, "/site/longitude", "degrees");
    if (job_.site.routes.empty()) {
      fault("no-route", "/site/routes", "none", "at least one way from the kerb to the work",
            "Give its length, rise, steps and narrowest width.");
    }
    std::set<Name> seen;
    for (std::size_t i = 0; i < job_.site.routes.size(); ++i) {
      const Route& route = job_.site.routes[i];
      place_ = "/site/routes/" + std::to_string(i);
      name(route.name, place_ + "/name");
      unique(seen, route.name, place_ + "/name");
      range(route.length, 1, 2000, "length");
      range(route.rise, -30, 30, "rise");
      range(route.steps, 0, 200, "steps");
      range(route.narrowest, 0.3, 10, "narrowest");
    }
    spans(job_.site.noisy.monday_to_friday, "/site/noisy/monday_to_friday");
    spans(job_.site.noisy.saturday, "/site/noisy/saturday");
    spans(job_.site.noisy.sunday, "/site/noisy/sunday");
  }

  void unique(std::set<Name>& seen, const Name& word, const std::string& place) {
    if (seen.insert(word).second) return;
    fault("name-twice", place, "\"" + word + "\"", "a name that nothing else in the job has", "Rename one of the two.");
  }

  void trip() {
    const Trip& trip = job_.trip;
    range(trip.drive_out.value(), 0, 24, "/trip/drive_out", "h");
    range(trip.drive_back.value(), 0, 24, "/trip/drive_back", "h");
    range(trip.longest_day.value(), 1, 16, "/trip/longest_day", "h");
    span(trip.working_day, "/trip/working_day");
    const std::chrono::duration<double, std::ratio<3600>> away = trip.home_by - trip.leave_home;
    if (away.count() <= 0) {
      fault("trip-ends-before-it-starts", "/trip/home_by", base::iso_utc(trip.home_by),
            "after " + base::iso_utc(trip.leave_home) + ", when he leaves home", "Put the later time in home_by.");
    } else if (away > std::chrono::hours(24 * longest_trip_days)) {
      fault("trip-too-long", "/trip/home_by", number(away.count() / 24) + " days away",
            "at most " + std::to_string(longest_trip_days) + " days", "Split the job into trips.");
    } else if (away.count() <= (trip.drive_out + trip.drive_back).value()) {
      fault("trip-all-driving", "/trip/home_by", number(away.count()) + " h away",
            "more than the " + number((trip.drive_out + trip.drive_back).value()) + " h at the wheel",
            "Come home later, or correct the drives.");
    }
  }

  void crew() {
    if (job_.crew.empty() || job_.crew.size() > most_people) {
      fault("crew-size", "/crew", counted(static_cast<long>(job_.crew.size()), "name"), "1 to 6 people",
            "Name everybody who works on the job.");
    }
    std::set<Name> seen;
    bool lays = false;
    for (std::size_t i = 0; i < job_.crew.size(); ++i) {
      const std::string place = "/crew/" + std::to_string(i);
      name(job_.crew[i].name, place + "/name");
      unique(seen, job_.crew[i].name, place + "/name");
      range(job_.crew[i].pace, 0.2, 3, place + "/pace", "");
      lays = lays || job_.crew[i].lays_bricks;
    }
    if (!lays && !job_.crew.empty() && !job_.parts.empty()) {
      fault("nobody-lays", "/crew", "nobody lays bricks", "at least one who does", "Set lays_bricks for the mason.");
    }
  }

  void kit() {
    const Kit& kit = job_.kit;
    range(kit.mixer.value(), 0, 1, "/kit/mixer", "m3");
    range(kit.barrow.value(), 0.01, 0.5, "/kit/barrow", "m3");
    range(kit.hessian.value(), 0, 1000, "/kit/hessian", "m2");
    range(kit.sheet.value(), 0, 1000, "/kit/sheet", "m2");
    range(kit.mats.value(), 0, 1000, "/kit/mats", "m2");
    range(kit.van_payload.value(), 50, 20000, "/kit/van_payload", "kg");
    range(kit.van_volume.value(), 0.2, 60, "/kit/van_volume", "m3");
    if (!kit.canopy) return;
    place_ = "/kit/canopy";
    range(kit.canopy->length, 1, 12, "length");
    range(kit.canopy->width, 1, 12, "width");
    range(kit.canopy->gust_limit.value(), 2, 30, "/kit/canopy/gust_limit", "m/s");
  }

  void practice() {
    range(job_.practice.brick_waste, 0, 0.5, "/practice/brick_waste", "");
    range(job_.practice.mortar_waste, 0, 0.5, "/practice/mortar_waste", "");
    range(job_.practice.concrete_waste, 0, 0.5, "/practice/concrete_waste", "");
    range(job_.practice.flag_waste, 0, 0.5, "/practice/flag_waste", "");
  }

  /// Footings that walls may stand on, those of bases, beds and boxes included.
  void collect_names() {
    std::set<Name> seen;
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      const Name& word = name_of(job_.parts[i]);
      const std::string place = "/parts/" + std::to_string(i) + "/name";
      name(word, place);
      unique(seen, word, place);
      part_names_.push_back(word);
    }
    for (std::size_t i = 0; i < job_.tasks.size(); ++i) {
      const std::string place = "/tasks/" + std::to_string(i) + "/name";
      name(job_.tasks[i].name, place);
      unique(seen, job_.tasks[i].name, place);
      task_names_.push_back(job_.tasks[i].name);
    }
    const auto derived = [&](const Name& of, std::initializer_list<const char*> ends) {
      for (const char* end : ends) derived_names_.push_back(of + "-" + end);
    };
    derived_names_ = {"drive-out", "unload", "set-out", "strip-turf", "wheel-away-soil",
                      "clear-up",  "load-out", "drive-back"};
    for (const Name& part : part_names_) {
      derived(part, {"wheel", "wheel-concrete", "wheel-below", "wheel-bricks", "wheel-soil", "dig", "pour", "lines",
                     "below", "lay", "plates", "straps", "coping", "backfill", "fill-half", "fill", "build",
                     "subbase", "gravel", "flags", "joints", "lay-point"});
      for (const char* side : {"north", "east", "south", "west"}) {
        derived(part + "-" + side, {"dig", "pour", "footing"});
        derived_names_.push_back(part + "-" + side);
      }
      for (int lift = 1; lift <= 40; ++lift) {
        derived_names_.push_back(part + "-lay-" + std::to_string(lift));
        derived_names_.push_back(part + "-lay-" + std::to_string(lift) + "-point");
      }
    }
    const std::set<Name> taken(derived_names_.begin(), derived_names_.end());
    const auto not_taken = [&](const Name& word, const std::string& place) {
      if (taken.count(word) == 0) return;
      fault("name-taken", place, "\"" + word + "\"", "a name that the list of work does not make itself",
            "Choose another name.");
    };
    for (std::size_t i = 0; i < part_names_.size(); ++i) not_taken(part_names_[i], "/parts/" + std::to_string(i) + "/name");
    for (std::size_t i = 0; i < task_names_.size(); ++i) not_taken(task_names_[i], "/tasks/" + std::to_string(i) + "/name");
    for (std::size_t i = 0; i < job_.site.routes.size(); ++i) {
      const auto& shut_by = job_.site.routes[i].shut_by;
      for (std::size_t k = 0; k < shut_by.size(); ++k) {
        part_reference(shut_by[k], "/site/routes/" + std::to_string(i) + "/shut_by/" + std::to_string(k));
      }
    }
  }

  void sizes(const Footing& footing) {
    range(footing.length, 0.3, 60, "length");
    strip(footing.width, footing.thickness, footing.depth, "");
    range(footing.drop, 0, 5, "drop");
  }

  void strip(Metres width, Metres thickness, Metres depth, const std::string& prefix) {
    range(width, 0.2, 1.5, prefix + "width");
    range(thickness, 0.1, 1, prefix + "thickness");
    if (depth.value() < thickness.value() - slack) {
      fault("footing-above-ground", place_ + "/" + prefix + "depth", millimetres(depth),
            "at least the thickness of the concrete, " + millimetres(thickness),
            "Depth is from the ground to the bottom of the concrete: dig deeper.");
    } else {
      range(depth, 0.1, 2, prefix + "depth");
    }
  }

  void sizes(const Wall& wall) {
    range(wall.length, 0.2, 60, "length");
    range(wall.courses, 1, 40, "courses");
    range(wall.courses_below, 0, std::max(0, wall.courses), "courses_below");
    range(wall.shared_corners, 0, 2, "shared_corners");
    double open = 0;
    for (std::size_t i = 0; i < wall.openings.size(); ++i) {
      const std::string key = "openings/" + std::to_string(i) + "/";
      range(wall.openings[i].width, 0.1, 10, key + "width");
      range(wall.openings[i].from_course, 0, std::max(0, wall.courses), key + "from_course");
      open += wall.openings[i].width.value();
    }
    if (open >= wall.length.value() && wall.length.value() > 0) {
      fault("openings-too-wide", place_ + "/openings", number(open) + " m of openings",
            "less than the wall, " + metres(wall.length), "Make the openings narrower or the wall longer.");
    }
    for (std::size_t i = 0; i < wall.piers.size(); ++i) {
      const std::string key = "piers/" + std::to_string(i) + "/";
      range(wall.piers[i].width, 0.1, 1, key + "width");
      range(wall.piers[i].projection, 0.05, 1, key + "projection");
    }
    stands_on(wall);
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
        fault("wall-longer-than-footing", place_ + "/length", metres(wall.length),
              "at most " + metres(longest) + ", the footing \"" + footing->name + "\" and the strips across its ends",
              "Lengthen the footing or shorten the wall.");
      }
    }
    for (const Part& part : job_.parts) {
      if (std::holds_alternative<Base>(part) || std::holds_alternative<Bed>(part) || std::holds_alternative<Box>(part)) {
        for (const char* side : {"north", "east", "south", "west"}) {
          known.push_back(name_of(part) + "-" + side + "-footing");
        }
      }
    }
    if (std::find(known.begin(), known.end(), wall.footing) != known.end()) return;
    if (wall.footing.empty()) {
      fault("wall-on-no-footing", place_ + "/footing", "nothing", "the name of a footing of this job",
            "Add a footing part and name it here.");
    } else {
      unknown(wall.footing, place_ + "/footing", "footing", known);
    }
  }

  void sizes(const Base& base) {
    range(base.length, 0.8, 60, "length");
    range(base.width, 0.8, 60, "width");
    range(base.drop_along_length, -5, 5, "drop_along_length");
    range(base.drop_along_width, -5, 5, "drop_along_width");
    range(base.courses, 1, 40, "courses");
    range(base.courses_below, 0, std::max(0, base.courses), "courses_below");
    strip(base.footing_width, base.footing_thickness, base.footing_depth, "footing_");
    if (!base.door_side) return;
    const Metres side = *base.door_side == Side::north || *base.door_side == Side::south ? base.length : base.width;
    range(base.door_width, 0.4, std::max(0.4, side.value() - 0.45), "door_width");
  }

  void sizes(const Bed& bed) {
    range(bed.length, 0.5, 60, "length");
    range(bed.width, 0.4, 20, "width");
    range(bed.courses, 1, 20, "courses");
    range(bed.sides, 1, 4, "sides");
    range(bed.drop, 0, 5, "drop");
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
      out_.advice.push_back({"bed-for-an-engineer", place_ + "/courses", number(height) + " mm of soil behind brick",
                             "up to " + number(at(trade::limit::retaining_engineer_height)) + " mm without an engineer",
                             "Have the wall designed, or build it lower."});
    } else if (bed.bond == trade::Bond::half_stretcher && height > at(trade::limit::retaining_caution_height) &&
               bed.length.value() * 1000 > at(trade::limit::retaining_caution_span)) {
      out_.advice.push_back({"bed-wants-piers", place_ + "/courses",
                             number(height) + " mm of soil behind half a brick, " + metres(bed.length) + " long",
                             number(at(trade::limit::retaining_caution_height)) + " mm, or piers and drains every " +
                                 number(at(trade::limit::retaining_caution_span)) + " mm",
                             "Build one brick thick, or add piers and drains."});
    }
  }

  void sizes(const Path& path) {
    range(path.length, 0.3, 200, "length");
    range(path.width, 0.3, 10, "width");
    range(path.flag_length, 0.1, 1.5, "flag_length");
    range(path.flag_width, 0.1, 1.5, "flag_width");
    range(path.subbase, 0.03, 0.5, "subbase");
  }

  void sizes(const Steps& steps) {
    range(steps.count, 1, 20, "count");
    range(steps.width, 0.3, 10, "width");
    range(steps.going, 0.2, 2, "going");
    range(steps.riser, 0.075, 0.22, "riser");
  }

  void sizes(const Box& box) {
    range(box.length, 0.5, 10, "length");
    range(box.width, 0.5, 10, "width");
    range(box.courses, 1, 4, "courses");
  }

  void footings() {
    Expansion expansion = expand(job_);
    for (Fault& f : expansion.faults) out_.faults.push_back(std::move(f));
    for (Fault& f : expansion.advice) out_.advice.push_back(std::move(f));
  }

  void tasks() {
    std::map<Name, std::vector<Name>> after;
    for (std::size_t i = 0; i < job_.tasks.size(); ++i) {
      const ExtraTask& task = job_.tasks[i];
      place_ = "/tasks/" + std::to_string(i);
      if (!(task.hours.value() > 0 && task.hours.value() <= 200)) {
        fault("out-of-range", place_ + "/hours", number(task.hours.value()) + " h", "more than 0, at most 200 h",
              "Give the hours of one person, or split the task.");
      }
      range(task.people, 1, static_cast<int>(most_people), "people");
      if (task.people > static_cast<int>(job_.crew.size())) {
        fault("too-few-people", place_ + "/people", std::to_string(task.people),
              "at most the " + std::to_string(job_.crew.size()) + " of the crew", "Add the mate to the crew.");
      }
      for (std::size_t k = 0; k < task.after.size(); ++k) {
        const Name& before = task.after[k];
        if (!known_work(before)) {
          std::vector<std::string> known = part_names_;
          known.insert(known.end(), task_names_.begin(), task_names_.end());
          unknown(before, place_ + "/after/" + std::to_string(k), "task", known);
        }
        after[task.name].push_back(before);
      }
    }
    circles(after);
  }

  [[nodiscard]] bool known_work(const Name& word) const {
    for (const auto* list : {&part_names_, &task_names_, &derived_names_}) {
      if (std::find(list->begin(), list->end(), word) != list->end()) return true;
    }
    return false;
  }

  /// Follows each task's first way back to itself and names everything on it, once for each circle.
  void circles(const std::map<Name, std::vector<Name>>& after) {
    std::set<Name> told;
    for (std::size_t i = 0; i < job_.tasks.size(); ++i) {
      const Name& start = job_.tasks[i].name;
      if (told.count(start) != 0) continue;
      std::vector<Name> way{start};
      std::set<Name> seen{start};
      if (!leads_back(start, start, after, way, seen)) continue;
      told.insert(way.begin(), way.end());
      std::string text;
      for (const Name& step : way) text += step + " after ";
      fault("circle", "/tasks/" + std::to_string(i) + "/after", text + start, "links that never come round",
            "Take one of these links out.");
    }
  }

  static bool leads_back(const Name& at, const Name& start, const std::map<Name, std::vector<Name>>& after,
                         std::vector<Name>& way, std::set<Name>& seen) {
    const auto links = after.find(at);
    if (links == after.end()) return false;
    for (const Name& before : links->second) {
      if (before == start) return true;
      if (!seen.insert(before).second) continue;
      way.push_back(before);
      if (leads_back(before, start, after, way, seen)) return true;
      way.pop_back();
    }
    return false;
  }

  void material(const std::string& key, const std::string& place) {
    if (trade::find_material(key) != nullptr) return;
    std::vector<std::string> known;
    for (const trade::Material& row : trade::materials()) known.emplace_back(row.key);
    const auto near = base::nearest_name(key, known);
    fault("unknown-material", place, "\"" + key + "\"", "a key of the materials table",
          near ? "Write \"" + *near + "\", if that is meant." : "Look the key up in the list of materials.");
  }

  void supplies() {
    const Supplies& supplies = job_.supplies;
    for (std::size_t i = 0; i < supplies.deliveries.size(); ++i) {
      const Delivery& delivery = supplies.deliveries[i];
      const std::string place = "/supplies/deliveries/" + std::to_string(i);
      material(delivery.material, place + "/material");
      range(delivery.amount, 1e-6, 1e6, place + "/amount", "");
      if (delivery.at > job_.trip.home_by) {
        fault("delivery-too-late", place + "/at", base::iso_utc(delivery.at),
              "before " + base::iso_utc(job_.trip.home_by) + ", when he is home", "Order it earlier.");
      }
    }
    for (std::size_t i = 0; i < supplies.on_site.size(); ++i) {
      material(supplies.on_site[i], "/supplies/on_site/" + std::to_string(i));
    }
    if (!supplies.merchant) return;
    range(supplies.merchant->drive_each_way.value(), 0, 12, "/supplies/merchant/drive_each_way", "h");
    spans(supplies.merchant->monday_to_friday, "/supplies/merchant/monday_to_friday");
    spans(supplies.merchant->saturday, "/supplies/merchant/saturday");
  }

  void fixed() {
    for (std::size_t i = 0; i < job_.fixed.size(); ++i) {
      if (job_.fixed[i].from < job_.fixed[i].to) continue;
      fault("span-backwards", "/fixed/" + std::to_string(i) + "/to", base::iso_utc(job_.fixed[i].to),
            "after " + base::iso_utc(job_.fixed[i].from), "Put the earlier time first.");
    }
  }

  void fallbacks() {
    for (std::size_t i = 0; i < job_.fallbacks.size(); ++i) {
      const Fallback& fallback = job_.fallbacks[i];
      const std::string place = "/fallbacks/" + std::to_string(i);
      part_reference(fallback.part, place + "/part");
      for (const Part& part : job_.parts) {
        if (name_of(part) != fallback.part) continue;
        const Path* path = std::get_if<Path>(&part);
        if (fallback.kind == Fallback::Kind::gravel_for_flags &&
            (path == nullptr || path->surface != trade::Surface::flags)) {
          fault("fallback-does-not-fit", place + "/kind", "gravel for flags on \"" + fallback.part + "\"",
                "a path with flags", "Name a flagged path, or choose another fallback.");
        }
        const auto courses = courses_of(part);
        if (fallback.kind == Fallback::Kind::one_course_lower && courses.value_or(0) < 2) {
          fault("fallback-does-not-fit", place + "/kind", "one course lower on \"" + fallback.part + "\"",
                "brickwork of two courses or more", "Name a wall, base, bed or box, or choose another fallback.");
        }
      }
    }
  }

  static std::optional<int> courses_of(const Part& part) {
    if (const auto* wall = std::get_if<Wall>(&part)) return wall->courses;
    if (const auto* base = std::get_if<Base>(&part)) return base->courses;
    if (const auto* bed = std::get_if<Bed>(&part)) return bed->courses;
    if (const auto* box = std::get_if<Box>(&part)) return box->courses;
    return std::nullopt;
  }

  const Job& job_;
  CheckResult out_;
  std::string place_;
  std::vector<Name> part_names_;
  std::vector<Name> task_names_;
  std::vector<Name> derived_names_;
};

}  // namespace

CheckResult check(const Job& job) { return Checker(job).run(); }

}  // namespace weatherstruck::works
