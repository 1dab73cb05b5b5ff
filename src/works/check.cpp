#include "weatherstruck/works/check.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/fault_list.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {

namespace {

constexpr int longest_trip_days = 31;
constexpr std::size_t most_people = 6;

class Checker {
 public:
  explicit Checker(const Job& job) : job_(job) {}

  CheckResult run() {
    out_.name(job_.name, "/name");
    site();
    trip();
    crew();
    kit();
    practice();
    collect_names();
    check_parts(job_, out_);
    for (std::size_t i = 0; i < job_.importance.size(); ++i) {
      part_reference(job_.importance[i].part, "/importance/" + std::to_string(i) + "/part");
    }
    tasks();
    supplies();
    fixed();
    fallbacks();
    out_.add(limits_of(job_).faults);
    return out_.take();
  }

 private:
  void part_reference(const Name& word, const std::string& place) {
    if (std::find(part_names_.begin(), part_names_.end(), word) == part_names_.end()) {
      out_.unknown(word, place, "part", part_names_);
    }
  }

  void site() {
    out_.range(job_.site.latitude, -90, 90, "/site/latitude", "degrees");
    out_.range(job_.site.longitude, -180, 180, "/site/longitude", "degrees");
    if (job_.site.routes.empty()) {
      out_.fault("no-route", "/site/routes", "none", "at least one way from the kerb to the work",
                 "Give its length, rise, steps and narrowest width.");
    }
    std::set<Name> seen;
    for (std::size_t i = 0; i < job_.site.routes.size(); ++i) {
      const Route& route = job_.site.routes[i];
      place_ = "/site/routes/" + std::to_string(i);
      out_.name(route.name, place_ + "/name");
      out_.unique(seen, route.name, place_ + "/name");
      out_.range(route.length, 1, 2000, place_ + "/length");
      out_.range(route.rise, -30, 30, place_ + "/rise");
      out_.range(route.steps, 0, 200, place_ + "/steps");
      out_.range(route.narrowest, 0.3, 10, place_ + "/narrowest");
    }
    out_.spans(job_.site.noisy.monday_to_friday, "/site/noisy/monday_to_friday");
    out_.spans(job_.site.noisy.saturday, "/site/noisy/saturday");
    out_.spans(job_.site.noisy.sunday, "/site/noisy/sunday");
  }

  void trip() {
    const Trip& trip = job_.trip;
    out_.range(trip.drive_out.value(), 0, 24, "/trip/drive_out", "h");
    out_.range(trip.drive_back.value(), 0, 24, "/trip/drive_back", "h");
    out_.range(trip.longest_day.value(), 1, 16, "/trip/longest_day", "h");
    out_.span(trip.working_day, "/trip/working_day");
    const std::chrono::duration<double, std::ratio<3600>> away = trip.home_by - trip.leave_home;
    if (away.count() <= 0) {
      out_.fault("trip-ends-before-it-starts", "/trip/home_by", base::iso_utc(trip.home_by),
                 "after " + base::iso_utc(trip.leave_home) + ", when he leaves home",
                 "Put the later time in home_by.");
    } else if (away > std::chrono::hours(24 * longest_trip_days)) {
      out_.fault("trip-too-long", "/trip/home_by", shown(away.count() / 24) + " days away",
                 "at most " + std::to_string(longest_trip_days) + " days", "Split the job into trips.");
    } else if (away.count() <= (trip.drive_out + trip.drive_back).value()) {
      out_.fault("trip-all-driving", "/trip/home_by", shown(away.count()) + " h away",
                 "more than the " + shown((trip.drive_out + trip.drive_back).value()) + " h at the wheel",
                 "Come home later, or correct the drives.");
    }
  }

  void crew() {
    if (job_.crew.empty() || job_.crew.size() > most_people) {
      out_.fault("crew-size", "/crew", counted(static_cast<long>(job_.crew.size()), "name"), "1 to 6 people",
                 "Name everybody who works on the job.");
    }
    std::set<Name> seen;
    bool lays = false;
    for (std::size_t i = 0; i < job_.crew.size(); ++i) {
      const std::string place = "/crew/" + std::to_string(i);
      out_.name(job_.crew[i].name, place + "/name");
      out_.unique(seen, job_.crew[i].name, place + "/name");
      out_.range(job_.crew[i].pace, 0.2, 3, place + "/pace", "");
      lays = lays || job_.crew[i].lays_bricks;
    }
    if (!lays && !job_.crew.empty() && !job_.parts.empty()) {
      out_.fault("nobody-lays", "/crew", "nobody lays bricks", "at least one who does",
                 "Set lays_bricks for the mason.");
    }
  }

  void kit() {
    const Kit& kit = job_.kit;
    out_.range(kit.mixer.value(), 0, 1, "/kit/mixer", "m3");
    out_.range(kit.barrow.value(), 0.01, 0.5, "/kit/barrow", "m3");
    out_.range(kit.hessian.value(), 0, 1000, "/kit/hessian", "m2");
    out_.range(kit.sheet.value(), 0, 1000, "/kit/sheet", "m2");
    out_.range(kit.mats.value(), 0, 1000, "/kit/mats", "m2");
    out_.range(kit.van_payload.value(), 50, 20000, "/kit/van_payload", "kg");
    out_.range(kit.van_volume.value(), 0.2, 60, "/kit/van_volume", "m3");
    if (!kit.canopy) return;
    place_ = "/kit/canopy";
    out_.range(kit.canopy->length, 1, 12, place_ + "/length");
    out_.range(kit.canopy->width, 1, 12, place_ + "/width");
    out_.range(kit.canopy->gust_limit.value(), 2, 30, "/kit/canopy/gust_limit", "m/s");
  }

  void practice() {
    out_.range(job_.practice.brick_waste, 0, 0.5, "/practice/brick_waste", "");
    out_.range(job_.practice.mortar_waste, 0, 0.5, "/practice/mortar_waste", "");
    out_.range(job_.practice.concrete_waste, 0, 0.5, "/practice/concrete_waste", "");
    out_.range(job_.practice.flag_waste, 0, 0.5, "/practice/flag_waste", "");
    out_.range(job_.practice.coping_length, 0.2, 2, "/practice/coping_length");
    out_.range(job_.kit.gauge_box.value() * 1000, 5, 100, "/kit/gauge_box_litres", "litres");
  }

  /// Footings that walls may stand on, those of bases, beds and boxes included.
  void collect_names() {
    std::set<Name> seen;
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      const Name& word = name_of(job_.parts[i]);
      const std::string place = "/parts/" + std::to_string(i) + "/name";
      out_.name(word, place);
      out_.unique(seen, word, place);
      part_names_.push_back(word);
    }
    for (std::size_t i = 0; i < job_.tasks.size(); ++i) {
      const std::string place = "/tasks/" + std::to_string(i) + "/name";
      out_.name(job_.tasks[i].name, place);
      out_.unique(seen, job_.tasks[i].name, place);
      task_names_.push_back(job_.tasks[i].name);
    }
    const auto derived = [&](const Name& of, std::initializer_list<const char*> ends) {
      for (const char* end : ends)
        derived_names_.push_back(of + "-" + end);
    };
    derived_names_ = {"drive-out",       "unload",   "set-out",  "strip-turf",
                      "wheel-away-soil", "clear-up", "load-out", "drive-back"};
    for (const Name& part : part_names_) {
      derived(part, {"wheel",  "wheel-concrete", "wheel-below", "wheel-bricks", "wheel-soil", "dig",
                     "pour",   "lines",          "below",       "lay",          "plates",     "straps",
                     "coping", "backfill",       "fill-half",   "fill",         "build",      "subbase",
                     "gravel", "flags",          "joints",      "lay-point"});
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
      out_.fault("name-taken", place, "\"" + word + "\"", "a name that the list of work does not make itself",
                 "Choose another name.");
    };
    for (std::size_t i = 0; i < part_names_.size(); ++i)
      not_taken(part_names_[i], "/parts/" + std::to_string(i) + "/name");
    for (std::size_t i = 0; i < task_names_.size(); ++i)
      not_taken(task_names_[i], "/tasks/" + std::to_string(i) + "/name");
    for (std::size_t i = 0; i < job_.site.routes.size(); ++i) {
      const auto& shut_by = job_.site.routes[i].shut_by;
      for (std::size_t k = 0; k < shut_by.size(); ++k) {
        part_reference(shut_by[k], "/site/routes/" + std::to_string(i) + "/shut_by/" + std::to_string(k));
      }
    }
  }

  void tasks() {
    std::map<Name, std::vector<Name>> after;
    for (std::size_t i = 0; i < job_.tasks.size(); ++i) {
      const ExtraTask& task = job_.tasks[i];
      place_ = "/tasks/" + std::to_string(i);
      if (!(task.hours.value() > 0 && task.hours.value() <= 200)) {
        out_.fault("out-of-range", place_ + "/hours", shown(task.hours.value()) + " h",
                   "more than 0, at most 200 h", "Give the hours of one person, or split the task.");
      }
      out_.range(task.people, 1, static_cast<int>(most_people), place_ + "/people");
      if (task.people > static_cast<int>(job_.crew.size())) {
        out_.fault("too-few-people", place_ + "/people", std::to_string(task.people),
                   "at most the " + std::to_string(job_.crew.size()) + " of the crew",
                   "Add the mate to the crew.");
      }
      for (std::size_t k = 0; k < task.after.size(); ++k) {
        const Name& before = task.after[k];
        if (!known_work(before)) {
          std::vector<std::string> known = part_names_;
          known.insert(known.end(), task_names_.begin(), task_names_.end());
          out_.unknown(before, place_ + "/after/" + std::to_string(k), "task", known);
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
      for (const Name& step : way)
        text += step + " after ";
      out_.fault("circle", "/tasks/" + std::to_string(i) + "/after", text + start,
                 "links that never come round", "Take one of these links out.");
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
    for (const trade::Material& row : trade::materials())
      known.emplace_back(row.key);
    const auto near = base::nearest_name(key, known);
    out_.fault(
        "unknown-material", place, "\"" + key + "\"", "a key of the materials table",
        near ? "Write \"" + *near + "\", if that is meant." : "Look the key up in the list of materials.");
  }

  void supplies() {
    const Supplies& supplies = job_.supplies;
    for (std::size_t i = 0; i < supplies.deliveries.size(); ++i) {
      const Delivery& delivery = supplies.deliveries[i];
      const std::string place = "/supplies/deliveries/" + std::to_string(i);
      material(delivery.material, place + "/material");
      out_.range(delivery.amount, 1e-6, 1e6, place + "/amount", "");
      if (delivery.at > job_.trip.home_by) {
        out_.fault("delivery-too-late", place + "/at", base::iso_utc(delivery.at),
                   "before " + base::iso_utc(job_.trip.home_by) + ", when he is home", "Order it earlier.");
      }
    }
    for (std::size_t i = 0; i < supplies.on_site.size(); ++i) {
      material(supplies.on_site[i], "/supplies/on_site/" + std::to_string(i));
    }
    for (std::size_t i = 0; i < supplies.stock.size(); ++i) {
      const std::string place = "/supplies/stock/" + std::to_string(i);
      material(supplies.stock[i].material, place + "/material");
      out_.range(supplies.stock[i].amount, 0, 1e6, place + "/amount", "");
    }
    if (!supplies.merchant) return;
    out_.range(supplies.merchant->drive_each_way.value(), 0, 12, "/supplies/merchant/drive_each_way", "h");
    out_.spans(supplies.merchant->monday_to_friday, "/supplies/merchant/monday_to_friday");
    out_.spans(supplies.merchant->saturday, "/supplies/merchant/saturday");
  }

  void fixed() {
    for (std::size_t i = 0; i < job_.fixed.size(); ++i) {
      if (job_.fixed[i].from < job_.fixed[i].to) continue;
      out_.fault("span-backwards", "/fixed/" + std::to_string(i) + "/to", base::iso_utc(job_.fixed[i].to),
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
        // Once made use of the path is of gravel, and the price that it takes off is still to be billed.
        if (fallback.kind == Fallback::Kind::gravel_for_flags && !std::holds_alternative<Path>(part)) {
          out_.fault("fallback-does-not-fit", place + "/kind",
                     "gravel for flags on \"" + fallback.part + "\"", "a path with flags",
                     "Name a flagged path, or choose another fallback.");
        }
        const auto courses = courses_of(part);
        if (fallback.kind == Fallback::Kind::one_course_lower && courses.value_or(0) < 2) {
          out_.fault("fallback-does-not-fit", place + "/kind",
                     "one course lower on \"" + fallback.part + "\"", "brickwork of two courses or more",
                     "Name a wall, base, bed or box, or choose another fallback.");
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
  FaultList out_;
  std::string place_;
  std::vector<Name> part_names_;
  std::vector<Name> task_names_;
  std::vector<Name> derived_names_;
};

}  // namespace

CheckResult check(const Job& job) {
  return Checker(job).run();
}

}  // namespace weatherstruck::works
