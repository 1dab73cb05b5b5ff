// The chapter of the list for strips and for what comes after the bricks: plates, copings, soil.
#include <algorithm>

#include "weatherstruck/trade/norms.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/task_maker.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Hours;
using base::Metres;
using trade::Operation;

namespace {

constexpr Metres plate_width{0.1};  // as the plate of the materials table

// Between steps the ground may be half a step lower than at the high end.
matter::StripShape lies_in_ground(const FootingPart& footing) {
  const Footing& strip = footing.shape;
  const Metres half_a_step = footing.plan.steps.empty() ? measure::course_height / 2 : footing.plan.step / 2;
  return {strip.thickness, strip.width, std::max(strip.thickness, strip.depth - half_a_step)};
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
  const double deep = task.amount * deep_share * job_.practice.norms.at(trade::norm_key::deep_dig);
  task.hours = (task.hours * (1 - deep_share) + Hours(deep)) * soil.dig_factor;
}

void TaskMaker::pour_by_hand(Task& task) const {
  if (job_.kit.mixer.value() > 0) return;
  task.noisy = false;
  task.hours = task.hours * job_.practice.norms.at(trade::norm_key::concrete_hand_factor);
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
    const matter::StripShape lies = lies_in_ground(footing);
    if (!fresh.strip) fresh.strip = lies;
    fresh.strip->thickness = std::min(fresh.strip->thickness, lies.thickness);
    fresh.strip->width = std::min(fresh.strip->width, lies.width);
    fresh.strip->trench_depth = std::min(fresh.strip->trench_depth, lies.trench_depth);
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
  for (const std::size_t f : group.footings)
    volume += expansion_.footings[f].plan.concrete;
  const Name carried = of + "-wheel-concrete";
  carry_in(carried, concrete_uses(volume, job_.practice), of, "for the concrete of " + group.title,
           "The mixer stands at the work; sand, stone and cement must be there before a pour begins.", "");

  const bool apart = group.kind == Group::Kind::base;
  const auto both = [&](const Name& stem, const Name& part, const std::string& title,
                        const std::vector<std::size_t>& footings) {
    dig(stem + "-dig", part, title, footings, of);
    pour(stem + "-pour", part, title, footings, of);
    link(stem + "-dig", stem + "-pour", "Concrete goes into a clean trench.");
    if (list_.find(carried) != nullptr)
      link(carried, stem + "-pour", "All of it must be there: a pour is never stopped.");
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

void TaskMaker::on_top(const Group& group, const Name& of, const Name& last_lay) {
  const auto bed_of = [this](Metres length) {
    FreshWork fresh;
    fresh.kind = FreshWork::Kind::plate_bed;
    fresh.mortar = job_.practice.mortar;
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
    link(last_lay, of + "-plates", "Plates lie on the top course.");
    const int straps = straps_of(group, job_.practice);
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
    materials(coping, uses_of_copings(group, job_.practice));
    link(last_lay, of + "-coping", "It lies on the top course.");
  }
}

void TaskMaker::fill(const Group& group, const Name& of, const Name& first_lay, const Name& last_lay) {
  // Soil against young brickwork may have to wait past the end of the trip; then it stands on the customer's
  // sheet.
  const auto may_wait = [](Task& task) { task.importance = std::max(task.importance, Importance::should); };
  const double grown = 1 + trade::row_for(job_.site.soil).bulking;
  const CubicMetres round = backfill_of(group, expansion_) * grown;
  if (round.value() > 0.02) {
    may_wait(add(of + "-backfill", Operation::backfill, round.value() / grown, of,
                 "Backfill round " + group.title + " (" + cubic(round) + " loose)",
                 "The trench is closed and the strip is out of the frost."));
    link(first_lay, of + "-backfill", "Loose soil, both sides level, no treading.",
         Wait::mortar_to_fill_half);
  }
  if (group.fill.value() <= 0) return;
  const CubicMetres half = group.fill / 2.0;
  may_wait(add(of + "-fill-half", Operation::fill_bed, half.value(), of,
               "Drain, membrane and soil to half height in " + group.title + " (" + cubic(half) + ")",
               "Half the weight first, while the mortar is young."));
  may_wait(add(of + "-fill", Operation::fill_bed, half.value(), of,
               "Fill " + group.title + " to the top (" + cubic(half) + ")",
               "The bed is handed over ready to plant."));
  link(last_lay, of + "-fill-half", "The wall must bear half the soil.", Wait::mortar_to_fill_half);
  link(last_lay, of + "-fill", "The wall must bear all of it.", Wait::mortar_to_fill);
  link(of + "-fill-half", of + "-fill", "Half height comes first.");
  CubicMetres all(0);
  for (const Group& other : expansion_.groups)
    all += other.fill;
  Uses soil;
  soil.add("topsoil", soil_.to_buy.value() * (group.fill / all), 0);
  carry_in(of + "-wheel-soil", soil, of, "topsoil for " + group.title,
           "The digging does not yield enough to fill it.", of + "-fill");
}

}  // namespace weatherstruck::works
