// The frame of the list: arriving, leaving, work written by hand, and what every task has in common.
#include "weatherstruck/works/task_maker.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/mortar_batch.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/van_list.h"

namespace weatherstruck::works {

using base::Hours;
using trade::Operation;

namespace {

// Sweeping, washing the mixer, making the place good: assumption.
constexpr double clear_up_hours = 0.75;
constexpr double clear_up_hours_per_part = 0.15;
constexpr const char* soil_away = "wheel-away-soil";

template <class Row>
Hours in_hours(const Row& minutes) {
  return Hours(static_cast<double>(minutes.count()) / 60.0);
}

}  // namespace

TaskMaker::TaskMaker(const Job& job)
    : job_(job), expansion_(expand(job)), soil_(soil_of(job, expansion_)), route_(chosen_route(job)) {
  const trade::LimitValues limits = limits_of(job).values;
  early_courses_ = static_cast<int>(limits.at(trade::limit::strip_wait_courses));
  box_courses_ = static_cast<int>(limits.at(trade::limit::box_wait_courses));
}

Importance TaskMaker::importance_of(const Name& part) const {
  for (const PartImportance& row : job_.importance) {
    if (row.part == part) return row.importance;
  }
  return Importance::must;
}

Task& TaskMaker::add(Name name, Operation operation, double amount, const Name& of, std::string title,
                     std::string why) {
  const trade::OperationRow& row = trade::row_for(operation);
  Task task;
  task.name = std::move(name);
  task.title = std::move(title);
  task.part = of;
  task.of = of;
  task.operation = operation;
  task.amount = amount;
  task.unit = std::string(row.unit);
  task.hours = job_.practice.norms.hours(operation, amount);
  task.set_up = in_hours(row.set_up);
  task.people = row.people;
  task.importance = of.empty() ? Importance::must : importance_of(of);
  task.noisy = row.noisy();
  task.why = std::move(why);
  list_.tasks.push_back(std::move(task));
  return list_.tasks.back();
}

void TaskMaker::link(const Name& from, const Name& to, std::string why, Wait wait) {
  Link link;
  link.from = from;
  link.to = to;
  link.wait = wait;
  link.why = std::move(why);
  list_.links.push_back(std::move(link));
}

void TaskMaker::materials(Task& task, const Uses& uses) const {
  for (const Use& use : uses.lines()) {
    const auto same = std::find_if(task.materials.begin(), task.materials.end(),
                                   [&](const MaterialDraw& d) { return d.material == use.material; });
    if (same == task.materials.end()) {
      task.materials.push_back({use.material, use.total});
    } else {
      same->amount += use.total;
    }
  }
}

void TaskMaker::carry_in(const Name& name, const Uses& uses, const Name& of, const std::string& what,
                         std::string why, const Name& before) {
  Uses wheeled;
  for (const Use& use : uses.lines()) {
    const auto& there = job_.supplies.on_site;
    const bool stays = job_.site.mixer == trade::MixerPlace::kerb && is_mixed(use.material);
    if (!stays && std::find(there.begin(), there.end(), use.material) == there.end()) wheeled.add(use);
  }
  if (wheeled.empty()) return;
  const Carry load = carry(wheeled, route(), job_.kit, job_.practice.norms);
  if (load.trips == 0) return;  // in his hands, with whatever else he fetches
  const std::string loads = counted(load.trips, "load");
  Task& task = add(name, Operation::wheel_in, load.volume.value(), of,
                   "Wheel in " + what + " (" + loads + ")", std::move(why));
  // Bricks and flags have no place in the cubic metres, so the amount is told in loads.
  task.amount = load.trips;
  task.unit = "loads";
  task.hours = load.hours;
  materials(task, wheeled);
  link("unload", name, "The van must be empty and the store reachable.");
  if (!before.empty()) link(name, before, "What it uses must be there.");
}

void TaskMaker::arrive() {
  add("drive-out", Operation::drive, job_.trip.drive_out.value(), "", "Drive to the site",
      "The site is " + base::plain_number(job_.trip.drive_out.value(), 1) + " h from home.")
      .outdoors = false;

  const Bill bill = bill_of(job_);
  const measure::VanPlan van = van_plan(job_, bill);
  const double tonnes = std::min(van.mass, job_.kit.van_payload).value() / 1000;
  add("unload", Operation::unload, tonnes, "", "Unload the van (" + base::plain_number(tonnes, 1) + " t)",
      "Tools, covers and stock ride in the van.");
  link("drive-out", "unload", "He has to be there.");

  double lines = 0;
  for (const FootingPart& footing : expansion_.footings)
    lines += footing.shape.length.value();
  for (const Steps& steps : expansion_.flights)
    lines += take_flight(steps, job_.practice).run.value();
  for (const Path& path : expansion_.paths)
    lines += path.length.value();
  if (lines <= 0) return;
  add("set-out", Operation::set_out, lines, "",
      "Set out " + metres(base::Metres(lines)) + " of trenches and paths",
      "Rough lines show where to dig; diagonals are checked before the first spit.");
  link("unload", "set-out", "Lines, pegs and level come out of the van.");

  add("strip-turf", Operation::strip_turf, soil_.turf.value(), "", "Strip " + square(soil_.turf) + " of turf",
      "Turf over trenches and paths is kept apart from the soil.");
  link("set-out", "strip-turf", "The lines say what to strip.");
}

void TaskMaker::extras() {
  std::set<Name> parts;
  for (const Part& part : job_.parts)
    parts.insert(name_of(part));
  for (const ExtraTask& extra : job_.tasks) {
    Task& task = add(extra.name, extra.operation, 0, "", extra.title, "Written by hand in the job.");
    task.amount = extra.hours.value();
    task.unit = "h";
    task.hours = extra.hours;
    task.people = std::max(extra.people, task.people);
    task.importance = extra.importance;
    task.noisy = extra.noisy || task.noisy;
  }
  for (const ExtraTask& extra : job_.tasks) {
    link("unload", extra.name, "Tools come out of the van.");
    for (const Name& before : extra.after) {
      if (list_.find(before) != nullptr) {
        link(before, extra.name, "The job says so.");
        continue;
      }
      if (parts.count(before) == 0) continue;
      std::vector<Name> all;
      for (const Task& task : list_.tasks) {
        if (task.of == before) all.push_back(task.name);
      }
      for (const Name& name : all)
        link(name, extra.name, "The job says so: after all work on " + spoken(before) + ".");
    }
  }
}

bool TaskMaker::shuts(const Task& task, const Name& part) const {
  if (task.of != part) return false;
  // A trench lies open from its digging; a path is walked on until something fresh lies there.
  const bool trench =
      task.operation == Operation::dig &&
      std::any_of(expansion_.groups.begin(), expansion_.groups.end(),
                  [&](const Group& group) { return group.of == part && !group.footings.empty(); });
  return trench || task.fresh.has_value();
}

std::set<Name> TaskMaker::all_after(const Name& task) const {
  std::set<Name> after{task};
  for (bool grew = true; grew;) {
    grew = false;
    for (const Link& l : list_.links) {
      if (after.count(l.from) != 0 && after.insert(l.to).second) grew = true;
    }
  }
  return after;
}

void TaskMaker::keep_route_open() {
  std::map<Name, std::set<Name>> too_late;  // carrying that cannot come before these parts
  for (const Name& part : route().shut_by) {
    // Its trenches may be dug in any order, so each of them; what follows on one of these needs no link.
    std::vector<Name> shut_it;
    std::set<Name> after;
    for (const Task& task : list_.tasks) {
      if (!shuts(task, part) || after.count(task.name) != 0) continue;
      shut_it.push_back(task.name);
      after.merge(all_after(task.name));
    }
    if (shut_it.empty()) continue;
    std::vector<Name> carried;
    for (const Task& task : list_.tasks) {
      if (task.operation != Operation::wheel_in) continue;
      if (after.count(task.name) == 0) {
        carried.push_back(task.name);
      } else {
        too_late[task.name].insert(part);
      }
    }
    for (const Name& name : carried) {
      for (const Name& first : shut_it)
        link(name, first, "From then on " + spoken(part) + " shuts the way in.");
    }
  }
  for (const auto& [name, parts] : too_late)
    go_round(name, parts);
}

void TaskMaker::go_round(const Name& name, const std::set<Name>& shut_by) {
  std::vector<measure::CarryRoute> open;
  std::vector<const Route*> routes;
  for (const Route& rival : job_.site.routes) {
    const bool shut = std::any_of(rival.shut_by.begin(), rival.shut_by.end(),
                                  [&](const Name& part) { return shut_by.count(part) != 0; });
    if (shut) continue;
    open.push_back(carry_route(rival));
    routes.push_back(&rival);
  }
  const auto best = measure::best_route(open, job_.kit.barrow, job_.practice.norms);
  const auto task =
      std::find_if(list_.tasks.begin(), list_.tasks.end(), [&](const Task& t) { return t.name == name; });
  // Hours that the job gives by hand are left alone, and where no other way is open there is nothing to
  // choose.
  const bool by_hand = std::any_of(job_.tasks.begin(), job_.tasks.end(),
                                   [&](const ExtraTask& extra) { return extra.name == name; });
  if (!best || by_hand || task == list_.tasks.end()) return;
  Route way = *routes[*best];
  Carry load;
  if (name == soil_away) {
    way.rise = -way.rise;
    load = carry_loose(soil_.away, way, job_.kit, job_.practice.norms);
  } else {
    Uses uses;
    for (const MaterialDraw& draw : task->materials)
      uses.add(draw.material, draw.amount, 0);
    load = carry(uses, way, job_.kit, job_.practice.norms);
  }
  task->amount = load.trips;
  task->hours = load.hours;
  task->title = task->title.substr(0, task->title.rfind(" (")) + " (" + counted(load.trips, "load") +
                ", by " + spoken(way.name) + ")";
}

void TaskMaker::wheel_mixes() {
  if (job_.site.mixer == trade::MixerPlace::work) return;
  for (Task& task : list_.tasks) {
    const bool pours = task.operation == Operation::pour;
    const base::CubicMetres wet = pours ? base::CubicMetres(task.amount * (1 + job_.practice.concrete_waste))
                                        : mortar_in(task, job_.practice);
    if (task.operation == Operation::wheel_in || wet.value() <= 0) continue;
    const Carry mixes = carry_wet(wet, pours ? trade::fresh_concrete_density : trade::fresh_mortar_density,
                                  route(), job_.kit, job_.practice.norms);
    task.hours += mixes.hours;
    for (TaskWay& way : task.ways)
      way.hours += mixes.hours;
    task.why += " The mixer stands at the kerb: " + counted(mixes.trips, "load") + " wheeled wet.";
  }
}

void TaskMaker::leave() {
  wheel_mixes();
  if (soil_.away.value() > 0.01) {
    Route back = route();
    back.rise = -back.rise;
    const Carry out = carry_loose(soil_.away, back, job_.kit, job_.practice.norms);
    std::vector<Name> yields;
    for (const Task& task : list_.tasks) {
      if (task.operation == Operation::dig) yields.push_back(task.name);
    }
    Task& task = add(soil_away, Operation::wheel_in, out.trips, "",
                     "Wheel away " + cubic(soil_.away) + " of soil (" + counted(out.trips, "load") + ")",
                     "More comes out of the ground than goes back.");
    task.unit = "loads";
    task.hours = out.hours;
    for (const Name& name : yields)
      link(name, soil_away, "Only then is it known what is left over.");
  }
  keep_route_open();

  // A task counts as followed only if what follows is there in every plan.
  std::set<Name> followed;
  for (const Link& l : list_.links) {
    const Task* later = list_.find(l.to);
    if (later != nullptr && !later->only_if && later->importance == Importance::must) followed.insert(l.from);
  }
  std::vector<Name> ends;
  for (const Task& task : list_.tasks) {
    if (followed.count(task.name) == 0) ends.push_back(task.name);
  }
  const double parts = static_cast<double>(job_.parts.size());
  const double hours = clear_up_hours + clear_up_hours_per_part * parts;
  add("clear-up", Operation::clear_up, hours, "", "Clear up and wash down",
      "The customer gets the garden back; mud and mortar are off before they set.");
  for (const Name& name : ends)
    link(name, "clear-up", "Clearing up comes after the last mess.");
  const double tonnes = kit_mass(job_).value() / 1000;
  add("load-out", Operation::load_out, tonnes, "", "Load the van (" + base::plain_number(tonnes, 2) + " t)",
      "Kit goes home.");
  link("clear-up", "load-out", "Tools are in use until then.");
  add("drive-back", Operation::drive, job_.trip.drive_back.value(), "", "Drive home",
      "Home is promised by a fixed hour.")
      .outdoors = false;
  link("load-out", "drive-back", "The van must be loaded.");
}

}  // namespace weatherstruck::works
