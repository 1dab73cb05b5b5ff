// The chapter of the list for brickwork: true lines, courses below ground, lifts of facing, joints.
#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/task_maker.h"

namespace weatherstruck::works {

using base::Hours;
using base::Metres;
using base::SquareMetres;
using trade::Operation;

namespace {

// A bigger run of facing is cut, so that a task is done in about half a day: assumption.
constexpr double most_bricks_in_a_lift = 280;

/// Faces that will be seen: outside of a ring, both of a wall that stands alone.
double faces_of(const Group& group) {
  return group.kind == Group::Kind::single ? 2 : 1;
}

std::string bricks_text(double bricks, std::string_view kind) {
  const long whole = std::lround(std::ceil(bricks - 1e-9));
  return std::to_string(whole) + " " + std::string(kind) + (whole == 1 ? " brick" : " bricks");
}

}  // namespace

FreshWork TaskMaker::fresh_wall(const Group& group, FreshWork::Kind kind, std::size_t courses) const {
  FreshWork fresh;
  fresh.kind = kind;
  fresh.course_height = measure::course_height;
  const bool below = kind == FreshWork::Kind::mortar_below;
  fresh.mortar = below ? job_.practice.mortar_below : job_.practice.mortar;
  const Metres hang(
      std::min((measure::course_height * static_cast<double>(courses)).value(), cover_hang.value()));
  for (const std::size_t w : group.walls) {
    const WallPart& wall = expansion_.walls[w];
    const Metres thick = measure::thickness_of(wall.shape.bond);
    fresh.top_width = std::max(fresh.top_width, thick);
    fresh.cover += wall.shape.length * (thick + hang * 2.0);
    // The slowest brick of the part decides.
    const trade::BrickKind brick = below ? wall.shape.brick_below : wall.shape.brick;
    fresh.quick_suction = fresh.quick_suction && trade::row_for(brick).quick_suction;
  }
  return fresh;
}

namespace {

/// Bricks of each course of a group, lowest first. All runs finish level, so courses are matched from the
/// top.
template <class Pick>
std::vector<double> by_course(const Group& group, const Expansion& expansion, Pick pick) {
  std::size_t most = 0;
  for (const std::size_t w : group.walls)
    most = std::max(most, expansion.walls[w].count.courses.size());
  std::vector<double> courses(most, 0);
  for (const std::size_t w : group.walls) {
    const auto& own = expansion.walls[w].count.courses;
    for (std::size_t i = 0; i < own.size(); ++i)
      courses[most - own.size() + i] += pick(own[i]);
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
    for (std::size_t i = from; i < to; ++i)
      all += courses[i];
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
  for (const Lift& lift : lifts)
    all += lift.bricks;
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
  for (std::size_t i = 1; i < lays.size(); ++i)
    link(lays[i - 1], lays[i], "It stands on the courses below.");
  on_top(group, of, lays.back());
  fill(group, of, lays.front(), lays.back());
}

void TaskMaker::lay_below(const Group& group, const Name& of, const Lift& lift) {
  Uses uses;
  for (const std::size_t w : group.walls)
    uses.add(uses_below(expansion_.walls[w], job_.practice));
  const trade::BrickKind kind = expansion_.walls[group.walls.front()].shape.brick_below;
  Task& task = add(
      of + "-below", Operation::lay_below, lift.bricks, of,
      "Lay " + group.title + " below ground (" + bricks_text(lift.bricks, trade::row_for(kind).title) + ")",
      "Courses out of sight, in brick and mortar that stand wet ground.");
  task.courses = lift.courses;
  task.fresh = fresh_wall(group, FreshWork::Kind::mortar_below, lift.courses.size());
  task.length = base::Metres(0);
  for (const std::size_t w : group.walls)
    task.length += expansion_.walls[w].shape.length;
  materials(task, uses);
}

void TaskMaker::lay_lift(const Group& group, const Name& of, const Lift& lift, const Name& name,
                         double share) {
  Uses uses;
  for (const std::size_t w : group.walls)
    uses.add(uses_facing(expansion_.walls[w], job_.practice));
  const bool common = std::all_of(group.walls.begin(), group.walls.end(), [&](std::size_t w) {
    return expansion_.walls[w].shape.brick == trade::BrickKind::common;
  });
  const trade::BrickKind kind = expansion_.walls[group.walls.front()].shape.brick;
  const std::string which =
      lift.first == lift.last ? "course " + std::to_string(lift.first)
                              : "courses " + std::to_string(lift.first) + " to " + std::to_string(lift.last);
  const std::string together = group.walls.size() > 1 ? ", all walls together" : "";
  Task& task = add(name, common ? Operation::lay_common : Operation::lay_facing, lift.bricks, of,
                   "Lay " + which + " of " + group.title + together + " (" +
                       bricks_text(lift.bricks, trade::row_for(kind).title) + ")",
                   group.walls.size() > 1 ? "Every run comes up to one level before the next course."
                                          : "The run comes up course by course.");
  task.courses = lift.courses;
  task.fresh = fresh_wall(group, FreshWork::Kind::mortar_facing, lift.courses.size());
  for (const std::size_t w : group.walls)
    task.length += expansion_.walls[w].shape.length;
  Uses part;
  for (const Use& use : uses.lines())
    part.add(Use{use.material, use.net * share, use.total * share});
  materials(task, part);
  joints(group, name, share);
}

void TaskMaker::joints(const Group& group, const Name& lay, double share) {
  Task& task =
      *std::find_if(list_.tasks.begin(), list_.tasks.end(), [&](const Task& t) { return t.name == lay; });
  SquareMetres face(0);
  for (const std::size_t w : group.walls)
    face += expansion_.walls[w].count.area_facing * (share * faces_of(group));
  const trade::JointFinish finish = expansion_.walls[group.walls.front()].shape.joints;
  const Hours strike = task.hours + job_.practice.norms.hours(Operation::strike, face.value());
  const Hours rake = task.hours + job_.practice.norms.hours(Operation::rake_back, face.value());
  switch (finish) {
    case trade::JointFinish::none:
      return;
    case trade::JointFinish::strike_now:
      task.hours = strike;
      return;
    case trade::JointFinish::point_later:
      task.hours = rake;
      break;
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
  Task& point =
      add(name, Operation::point, face.value(), of, "Point " + group.title + lift + " (" + square(face) + ")",
          "Joints that stay soft are raked and left for drier hours.");
  point.length = length;
  point.fresh = fresh;
  if (finish == trade::JointFinish::either) point.only_if = OnlyIf{lay, "rake"};
  link(lay, name, "Raked joints must be firm before they are filled.", Wait::mortar_to_point);
}

}  // namespace weatherstruck::works
