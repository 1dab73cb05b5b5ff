// The chapter of the list that every strip with its walls goes through, from carrying sand to filling the bed.
#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/task_maker.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Hours;
using base::Metres;
using base::SquareMetres;
using trade::Operation;

namespace {

// A bigger run of facing is cut, so that a task is done in about half a day: assumption.
constexpr double most_bricks_in_a_lift = 280;
// Covers hang down this far on each side: at least 2 ft in "Masonry and Concrete" p. 177 (read on the page).
constexpr Metres cover_hang{0.6};
// and lie this far beyond the edge of flat work: assumption.
constexpr Metres cover_beyond{0.15};
constexpr Metres plate_width{0.1};

double lesser(double a, double b) { return std::min(a, b); }

/// Faces that will be seen: outside of a ring, both of a wall that stands alone.
double faces_of(const Group& group) { return group.kind == Group::Kind::single ? 2 : 1; }

std::string bricks_text(double bricks, std::string_view kind) {
  const long whole = std::lround(std::ceil(bricks - 1e-9));
  return std::to_string(whole) + " " + std::string(kind) + (whole == 1 ? " brick" : " bricks");
}

}  // namespace

void TaskMaker::brickwork(const Group& group) {
  const bool walled = !group.walls.empty();
  // A strip and a wall written apart are two parts; what is laid belongs to the wall.
  const Name of = walled ? expansion_.walls[group.walls.front()].of : group.of;
  pours_.clear();
  foundations(group, group.of);
  if (walled) walls(group, of);
}

void TaskMaker::dig_hours(Task& task, Metres deepest) const {
  const trade::SoilRow& soil = trade::row_for(job_.site.soil);
  const double deep_share = deepest.value() <= 1 ? 0 : (deepest.value() - 1) / deepest.value();
  const double deep = task.amount * deep_share * trade::norm(trade::norm_key::deep_dig);
  task.hours = (task.hours * (1 - deep_share) + Hours(deep)) * soil.dig_factor;
}

void TaskMaker::pour_by_hand(Task& task) const {
  if (job_.kit.mixer.value() > 0) return;
  task.noisy = false;
  task.hours = task.hours * trade::norm(trade::norm_key::concrete_hand_factor);
}

void TaskMaker::dig(const Name& name, const Name& part, const std::string& title,
                    const std::vector<std::size_t>& footings, const Name& of) {
  CubicMetres volume(0);
  Metres deepest(0);
  Metres length(0);
  std::size_t steps = 0;
  for (const std::size_t f : footings) {
    const FootingPart& footing = expansion_.footings[f];
    volume += footing.plan.trench;
    deepest = std::max(deepest, footing.plan.deepest);
    length += footing.shape.length;
    steps += footing.plan.steps.size();
  }
  const std::string stepped = steps == 0 ? "" : ", " + counted(static_cast<long>(steps), "step");
  Task& task = add(name, Operation::dig, volume.value(), of,
                   "Dig the trench of " + title + " (" + cubic(volume) + stepped + ")",
                   "The concrete lies " + millimetres(expansion_.footings[footings.front()].shape.depth) +
                       " down at the high end.");
  task.part = part;
  task.length = length;
  dig_hours(task, deepest);
  link("strip-turf", name, "Turf comes off first.");
}

void TaskMaker::pour(const Name& name, const Name& part, const std::string& title,
                     const std::vector<std::size_t>& footings, const Name& of) {
  CubicMetres volume(0);
  Metres length(0);
  FreshWork fresh;
  fresh.kind = FreshWork::Kind::concrete;
  for (const std::size_t f : footings) {
    const FootingPart& footing = expansion_.footings[f];
    volume += footing.plan.concrete;
    length += footing.shape.length;
    fresh.cover += footing.shape.length * (footing.shape.width + cover_beyond * 2.0);
    fresh.top_width = std::max(fresh.top_width, footing.shape.width);
  }
  const int mixes = mixes_of(volume * (1 + job_.practice.concrete_waste), job_.kit);
  Task& task = add(name, Operation::pour, volume.value(), of,
                   "Pour " + title + " (" + cubic(volume) + ", " + counted(mixes, "mix") + ")",
                   "One go, steps and all: a footing has no joints.");
  task.part = part;
  task.length = length;
  task.fresh = fresh;
  pour_by_hand(task);
  materials(task, concrete_uses(volume, job_.practice));
  pours_.push_back(name);
}

void TaskMaker::foundations(const Group& group, const Name& of) {
  if (group.footings.empty()) return;
  CubicMetres volume(0);
  for (const std::size_t f : group.footings) volume += expansion_.footings[f].plan.concrete;
  const Name carried = of + "-wheel-concrete";
  carry_in(carried, concrete_uses(volume, job_.practice), of, "for the concrete of " + group.title,
           "The mixer stands at the work; sand, stone and cement must be there before a pour begins.", "");

  const bool apart = group.kind == Group::Kind::base;
  const auto both = [&](const Name& stem, const Name& part, const std::string& title,
                        const std::vector<std::size_t>& footings) {
    dig(stem + "-dig", part, title, footings, of);
    pour(stem + "-pour", part, title, footings, of);
    link(stem + "-dig", stem + "-pour", "Concrete goes into a clean trench.");
    if (list_.find(carried) != nullptr) link(carried, stem + "-pour", "All of it must be there: a pour is never stopped.");
  };
  if (!apart) {
    const bool ring = group.footings.size() > 1;
    const FootingPart& first = expansion_.footings[group.footings.front()];
    both(of, ring ? of : first.shape.name, ring ? "the footing of " + group.title : "the " + first.title,
         group.footings);
    return;
  }
  for (const std::size_t f : group.footings) {
    const FootingPart& footing = expansion_.footings[f];
    const Name stem = footing.shape.name.substr(0, footing.shape.name.rfind("-footing"));
    both(stem, footing.shape.name, "the " + footing.title, {f});
  }
}

FreshWork TaskMaker::fresh_wall(const Group& group, FreshWork::Kind kind, std::size_t courses) const {
  FreshWork fresh;
  fresh.kind = kind;
  fresh.course_height = measure::course_height;
  const Metres hang(lesser((measure::course_height * static_cast<double>(courses)).value(), cover_hang.value()));
  for (const std::size_t w : group.walls) {
    const WallPart& wall = expansion_.walls[w];
    const Metres thick = measure::thickness_of(wall.shape.bond);
    fresh.top_width = std::max(fresh.top_width, thick);
    fresh.cover += wall.shape.length * (thick + hang * 2.0);
  }
  return fresh;
}

namespace {

/// Bricks of each course of a group, lowest first. All runs finish level, so courses are matched from the top.
template <class Pick>
std::vector<double> by_course(const Group& group, const Expansion& expansion, Pick pick) {
  std::size_t most = 0;
  for (const std::size_t w : group.walls) most = std::max(most, expansion.walls[w].count.courses.size());
  std::vector<double> courses(most, 0);
  for (const std::size_t w : group.walls) {
    const auto& own = expansion.walls[w].count.courses;
    for (std::size_t i = 0; i < own.size(); ++i) courses[most - own.size() + i] += pick(own[i]);
  }
  return courses;
}

}  // namespace

TaskMaker::Lift TaskMaker::below_of(const Group& group) const {
  Lift lift;
  const auto courses = by_course(group, expansion_, [](const measure::Course& c) { return c.below; });
  for (std::size_t i = 0; i < courses.size(); ++i) {
    if (courses[i] <= 0) continue;
    if (lift.courses.empty()) lift.first = static_cast<int>(i) + 1;
    lift.last = static_cast<int>(i) + 1;
    lift.courses.push_back(courses[i]);
    lift.bricks += courses[i];
  }
  return lift;
}

std::vector<TaskMaker::Lift> TaskMaker::lifts_of(const Group& group) const {
  const auto courses = by_course(group, expansion_, [](const measure::Course& c) { return c.facing; });
  // A young strip bears only so many courses; what is above them waits longer and is cut off there.
  const std::size_t young = std::min(courses.size(), static_cast<std::size_t>(early_courses_));
  std::vector<Lift> lifts;
  const auto cut_evenly = [&](std::size_t from, std::size_t to) {
    double all = 0;
    for (std::size_t i = from; i < to; ++i) all += courses[i];
    const double even = all / std::max(1.0, std::ceil(all / most_bricks_in_a_lift));
    const std::size_t before = lifts.size();
    for (std::size_t i = from; i < to; ++i) {
      if (courses[i] <= 0) continue;
      const int number = static_cast<int>(i) + 1;
      if (lifts.size() == before || lifts.back().bricks + courses[i] / 2 > even) {
        lifts.emplace_back();
        lifts.back().first = number;
      }
      lifts.back().last = number;
      lifts.back().courses.push_back(courses[i]);
      lifts.back().bricks += courses[i];
    }
  };
  cut_evenly(0, young);
  cut_evenly(young, courses.size());
  return lifts;
}

void TaskMaker::walls(const Group& group, const Name& of) {
  Uses below_uses;
  Uses facing_uses;
  double along = 0;
  for (const std::size_t w : group.walls) {
    below_uses.add(uses_below(expansion_.walls[w], job_.practice));
    facing_uses.add(uses_facing(expansion_.walls[w], job_.practice));
    along += expansion_.walls[w].shape.length.value();
  }
  const Name lines = of + "-lines";
  Task& task = add(lines, Operation::true_lines, along, of,
                   "True lines and dry bond for " + group.title + " (" + metres(Metres(along)) + ")",
                   "The wall is set out again on the hard concrete, exact and square.");
  task.length = Metres(along);
  const bool box = group.kind == Group::Kind::box &&
                   std::all_of(group.footings.begin(), group.footings.end(), [&](std::size_t f) {
                     return expansion_.footings[f].courses_on_it <= box_courses_;
                   });
  for (const Name& pour : pours_) {
    link(pour, lines, "The strip must bear a boot heel without a mark.",
         box ? Wait::concrete_to_lay_box : Wait::concrete_to_lay);
  }

  std::vector<Name> lays;
  const Lift below = below_of(group);
  if (below.bricks > 0) {
    lay_below(group, of, below);
    lays.push_back(of + "-below");
    carry_in(of + "-wheel-below", below_uses, of, "bricks and mortar for below ground, " + group.title,
             "Engineering bricks are laid first and stand nearest.", of + "-below");
  }
  facing_uses.add(uses_on_top(group, job_.practice));
  facing_uses.add(uses_in_bed(group, expansion_, job_.practice));
  const std::vector<Lift> lifts = lifts_of(group);
  double all = 0;
  for (const Lift& lift : lifts) all += lift.bricks;
  for (std::size_t i = 0; i < lifts.size(); ++i) {
    const Name name = lifts.size() == 1 ? of + "-lay" : of + "-lay-" + std::to_string(i + 1);
    lay_lift(group, of, lifts[i], name, lifts[i].bricks / all);
    lays.push_back(name);
    if (lifts[i].last > early_courses_) {
      for (const Name& pour : pours_) {
        link(pour, name, "So young a strip bears " + counted(early_courses_, "course") + ", not more.",
             Wait::concrete_to_lay_high);
      }
    }
  }
  if (!lifts.empty()) {
    carry_in(of + "-wheel-bricks", facing_uses, of, "bricks and mortar for " + group.title,
             "Bricks must stand stacked and covered beside the run before it is begun.",
             lifts.size() == 1 ? of + "-lay" : of + "-lay-1");
  }
  if (lays.empty()) return;
  link(lines, lays.front(), "Bricks follow the true lines.");
  for (std::size_t i = 1; i < lays.size(); ++i) link(lays[i - 1], lays[i], "It stands on the courses below.");
  on_top(group, of, lays.back());
  fill(group, of, lays.front(), lays.back());
}

void TaskMaker::lay_below(const Group& group, const Name& of, const Lift& lift) {
  Uses uses;
  for (const std::size_t w : group.walls) uses.add(uses_below(expansion_.walls[w], job_.practice));
  const trade::BrickKind kind = expansion_.walls[group.walls.front()].shape.brick_below;
  Task& task = add(of + "-below", Operation::lay_below, lift.bricks, of,
                   "Lay " + group.title + " below ground (" + bricks_text(lift.bricks, trade::row_for(kind).title) + ")",
                   "Courses out of sight, in brick and mortar that stand wet ground.");
  task.courses = lift.courses;
  task.fresh = fresh_wall(group, FreshWork::Kind::mortar_below, lift.courses.size());
  task.length = base::Metres(0);
  for (const std::size_t w : group.walls) task.length += expansion_.walls[w].shape.length;
  materials(task, uses);
}

void TaskMaker::lay_lift(const Group& group, const Name& of, const Lift& lift, const Name& name, double share) {
  Uses uses;
  for (const std::size_t w : group.walls) uses.add(uses_facing(expansion_.walls[w], job_.practice));
  const bool common = std::all_of(group.walls.begin(), group.walls.end(), [&](std::size_t w) {
    return expansion_.walls[w].shape.brick == trade::BrickKind::common;
  });
  const trade::BrickKind kind = expansion_.walls[group.walls.front()].shape.brick;
  const std::string which = lift.first == lift.last
                                ? "course " + std::to_string(lift.first)
                                : "courses " + std::to_string(lift.first) + " to " + std::to_string(lift.last);
  const std::string together = group.walls.size() > 1 ? ", all walls together" : "";
  Task& task = add(name, common ? Operation::lay_common : Operation::lay_facing, lift.bricks, of,
                   "Lay " + which + " of " + group.title + together + " (" +
                       bricks_text(lift.bricks, trade::row_for(kind).title) + ")",
                   group.walls.size() > 1 ? "Every run comes up to one level before the next course."
                                          : "The run comes up course by course.");
  task.courses = lift.courses;
  task.fresh = fresh_wall(group, FreshWork::Kind::mortar_facing, lift.courses.size());
  for (const std::size_t w : group.walls) task.length += expansion_.walls[w].shape.length;
  Uses part;
  for (const Use& use : uses.lines()) part.add(Use{use.material, use.net * share, use.total * share});
  materials(task, part);
  joints(group, name, share);
}

void TaskMaker::joints(const Group& group, const Name& lay, double share) {
  Task& task = *std::find_if(list_.tasks.begin(), list_.tasks.end(), [&](const Task& t) { return t.name == lay; });
  SquareMetres face(0);
  for (const std::size_t w : group.walls) face += expansion_.walls[w].count.area_facing * (share * faces_of(group));
  const trade::JointFinish finish = expansion_.walls[group.walls.front()].shape.joints;
  const Hours strike = task.hours + trade::norm_hours(Operation::strike, face.value());
  const Hours rake = task.hours + trade::norm_hours(Operation::rake_back, face.value());
  switch (finish) {
    case trade::JointFinish::none: return;
    case trade::JointFinish::strike_now: task.hours = strike; return;
    case trade::JointFinish::point_later: task.hours = rake; break;
    case trade::JointFinish::either:
      task.hours = strike;
      task.ways = {{"strike", "joints struck as the work goes on", strike},
                   {"rake", "joints raked now, pointed later", rake}};
      break;
  }
  const Name name = lay + "-point";
  FreshWork fresh = *task.fresh;
  fresh.kind = FreshWork::Kind::pointing;
  const Metres length = task.length;
  const Name of = task.of;
  const std::string number = lay.substr(lay.rfind("-lay") + 4);
  const std::string lift = number.empty() ? "" : ", lift " + number.substr(1);
  Task& point = add(name, Operation::point, face.value(), of,
                    "Point " + group.title + lift + " (" + square(face) + ")",
                    "Joints that stay soft are raked and left for drier hours.");
  point.length = length;
  point.fresh = fresh;
  if (finish == trade::JointFinish::either) point.only_if = OnlyIf{lay, "rake"};
  link(lay, name, "Raked joints must be firm before they are filled.", Wait::mortar_to_point);
}

void TaskMaker::on_top(const Group& group, const Name& of, const Name& last_lay) {
  const auto bed_of = [](Metres length) {
    FreshWork fresh;
    fresh.kind = FreshWork::Kind::plate_bed;
    fresh.cover = length * (plate_width + cover_beyond * 2.0);
    fresh.top_width = plate_width;
    return fresh;
  };
  if (group.plates.value() > 0) {
    Task& plates = add(of + "-plates", Operation::bed_plate, group.plates.value(), of,
                       "Bed the plates of " + group.title + " (" + metres(group.plates) + ")",
                       "The timber above starts from level plates.");
    plates.length = group.plates;
    plates.fresh = bed_of(group.plates);
    const Uses top = uses_on_top(group, job_.practice);
    Uses timber;
    for (const Use& use : top.lines()) {
      if (use.material == "plate-100x50" || use.material == "dpc") timber.add(use);
    }
    materials(plates, timber);
    link(last_lay, of + "-plates", "Plates lie on the top course.", Wait::mortar_to_plate);
    const int straps = straps_of(group);
    Task& strap = add(of + "-straps", Operation::strap_plate, straps, of,
                      "Strap the plates of " + group.title + " (" + counted(straps, "strap") + ")",
                      "A mortar bed does not hold a plate down.");
    Uses iron;
    iron.add("plate-strap", straps, 0);
    materials(strap, iron);
    link(of + "-plates", of + "-straps", "Screws must not break the bed.", Wait::plate_to_strap);
  }
  if (group.copings.value() > 0) {
    Task& coping = add(of + "-coping", Operation::lay_coping, group.copings.value(), of,
                       "Lay the coping of " + group.title + " (" + metres(group.copings) + ")",
                       "It keeps the rain out of the wall.");
    coping.length = group.copings;
    coping.fresh = bed_of(group.copings);
    Uses slabs;
    slabs.add("coping", group.copings.value(), 0);
    materials(coping, slabs);
    link(last_lay, of + "-coping", "It lies on the top course.", Wait::mortar_to_plate);
  }
}

void TaskMaker::fill(const Group& group, const Name& of, const Name& first_lay, const Name& last_lay) {
  // Soil against young brickwork may have to wait past the end of the trip; then it stands on the customer's sheet.
  const auto may_wait = [](Task& task) { task.importance = std::max(task.importance, Importance::should); };
  const double grown = 1 + trade::row_for(job_.site.soil).bulking;
  const CubicMetres round = backfill_of(group, expansion_) * grown;
  if (round.value() > 0.02) {
    may_wait(add(of + "-backfill", Operation::backfill, round.value() / grown, of,
                 "Backfill round " + group.title + " (" + cubic(round) + " loose)",
                 "The trench is closed and the strip is out of the frost."));
    link(first_lay, of + "-backfill", "Loose soil, both sides level, no treading.", Wait::mortar_to_fill_half);
  }
  if (group.fill.value() <= 0) return;
  const CubicMetres half = group.fill / 2.0;
  may_wait(add(of + "-fill-half", Operation::fill_bed, half.value(), of,
               "Drain, membrane and soil to half height in " + group.title + " (" + cubic(half) + ")",
               "Half the weight first, while the mortar is young."));
  may_wait(add(of + "-fill", Operation::fill_bed, half.value(), of,
               "Fill " + group.title + " to the top (" + cubic(half) + ")", "The bed is handed over ready to plant."));
  link(last_lay, of + "-fill-half", "The wall must bear half the soil.", Wait::mortar_to_fill_half);
  link(last_lay, of + "-fill", "The wall must bear all of it.", Wait::mortar_to_fill);
  link(of + "-fill-half", of + "-fill", "Half height comes first.");
  CubicMetres all(0);
  for (const Group& other : expansion_.groups) all += other.fill;
  Uses soil;
  soil.add("topsoil", soil_.to_buy.value() * (group.fill / all), 0);
  carry_in(of + "-wheel-soil", soil, of, "topsoil for " + group.title,
           "The digging does not yield enough to fill it.", of + "-fill");
}

}  // namespace weatherstruck::works
