// The chapters of the list for flights of steps and for paths.
#include <algorithm>

#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/task_maker.h"

namespace weatherstruck::works {

using base::Metres;
using trade::Operation;

namespace {

FreshWork flat(FreshWork::Kind kind, Metres length, Metres width) {
  FreshWork fresh;
  fresh.kind = kind;
  fresh.cover = (length + cover_beyond * 2.0) * (width + cover_beyond * 2.0);
  fresh.top_width = width;
  // Flags lie on M12: BS 7533-9 (uses.cpp).
  fresh.mortar = trade::MortarClass::m12;
  return fresh;
}

}  // namespace

void TaskMaker::flight(const Steps& steps) {
  const FlightTake take = take_flight(steps, job_.practice);
  const Name& of = steps.name;
  const std::string title = "the " + spoken(of);
  Uses all = take.base_uses;
  all.add(take.step_uses);

  Task& dig = add(of + "-dig", Operation::dig, take.dug.value(), of,
                  "Dig out for " + title + " (" + cubic(take.dug) + ")",
                  "The base follows the slope under every step.");
  dig.length = take.run;
  dig_hours(dig, Metres(0));
  link("strip-turf", of + "-dig", "Turf comes off first.");

  const int mixes = mixes_of(take.concrete * (1 + job_.practice.concrete_waste), job_.kit);
  Task& pour =
      add(of + "-pour", Operation::pour, take.concrete.value(), of,
          "Pour the base of " + title + " (" + cubic(take.concrete) + ", " + counted(mixes, "mix") + ")",
          "One go from the bottom up.");
  pour.length = take.run;
  pour.fresh = flat(FreshWork::Kind::concrete, take.run, steps.width);
  pour.fresh->strip = matter::StripShape{take.thickness, steps.width, take.thickness};
  pour_by_hand(pour);
  materials(pour, take.base_uses);
  link(of + "-dig", of + "-pour", "Concrete goes on clean ground.");
  carry_in(of + "-wheel", all, of, "for " + title, "Everything for the flight in one go: it is little.",
           of + "-pour");

  Task& build = add(of + "-build", Operation::form_step, steps.count, of,
                    "Build " + title + " (" + counted(steps.count, "step") + ")", "From the bottom step up.");
  build.hours = build.hours * steps.width.value();  // the norm is for a tread a metre wide
  build.courses.assign(static_cast<std::size_t>(steps.count), 1.0);
  build.length = take.run;
  build.fresh = flat(FreshWork::Kind::mortar_facing, take.run, steps.width);
  build.fresh->course_height = steps.riser;
  build.fresh->mortar = job_.practice.mortar_below;
  materials(build, take.step_uses);
  link(of + "-pour", of + "-build", "The base must bear a boot heel without a mark.", Wait::concrete_to_lay);
}

void TaskMaker::path(const Path& path) {
  const PathTake take = take_path(path, job_.practice);
  const Name& of = path.name;
  const std::string title = "the " + spoken(of);
  const bool gravel = path.surface == trade::Surface::gravel;
  Uses all = take.subbase_uses;
  all.add(take.surface_uses);
  all.add(take.joint_uses);

  Task& dig = add(of + "-dig", Operation::dig, take.dug.value(), of,
                  "Reduce the level for " + title + " (" + cubic(take.dug) + ")",
                  "Sub-base, bed and surface finish level with the ground.");
  dig.length = path.length;
  dig_hours(dig, Metres(0));
  link("strip-turf", of + "-dig", "Turf comes off first.");

  Task& base = add(of + "-subbase", Operation::lay_subbase, take.subbase.value(), of,
                   "Lay and compact the sub-base of " + title + " (" + cubic(take.subbase) + ")",
                   "Without it the surface sinks.");
  base.length = path.length;
  materials(base, take.subbase_uses);
  link(of + "-dig", of + "-subbase", "It lies on firm, clean ground.");
  carry_in(of + "-wheel", all, of, "for " + title, "Sub-base and surface come in together.", of + "-subbase");

  if (gravel) {
    Task& spread = add(of + "-gravel", Operation::lay_subbase, take.gravel.value(), of,
                       "Lay fabric and gravel on " + title + " (" + square(take.area) + ")", "The surface.");
    spread.length = path.length;
    materials(spread, take.surface_uses);
    link(of + "-subbase", of + "-gravel", "It lies on the sub-base.");
    return;
  }
  Task& flags = add(of + "-flags", Operation::lay_flags, take.area.value(), of,
                    "Lay the flags of " + title + " (" + square(take.area) + ")",
                    "The surface, on a full bed of mortar.");
  flags.length = path.length;
  flags.fresh = flat(FreshWork::Kind::flags, path.length, path.width);
  materials(flags, take.surface_uses);
  link(of + "-subbase", of + "-flags", "The bed lies on the sub-base.");

  Task& grout = add(of + "-joints", Operation::grout_flags, take.area.value(), of,
                    "Fill the joints of " + title + " (" + square(take.area) + ")",
                    "Open joints let water under the flags.");
  grout.length = path.length;
  grout.fresh = flat(FreshWork::Kind::grout, path.length, path.width);
  materials(grout, take.joint_uses);
  link(of + "-flags", of + "-joints", "Flags must not move when the joints are pressed.", Wait::bed_to_grout);
}

}  // namespace weatherstruck::works
