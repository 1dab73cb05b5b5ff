#include "weatherstruck/works/uses.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/measure/paving.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Metres;
namespace key = trade::norm_key;

namespace {

constexpr Metres gravel_depth{0.05};           // common practice, no source
constexpr Metres flag_thickness{0.038};        // pressed concrete flags as in the materials table
constexpr Metres flight_base_thickness{0.15};  // as a light strip; assumption
constexpr int fixings_per_strap = 4;           // designingbuildings.co.uk: at least 4
constexpr double lime_sand_parts = 3;          // natural hydraulic lime 1:3, from memory

}  // namespace

void Uses::add(std::string_view material, double net, double waste) {
  add(Use{std::string(material), net, net * (1 + waste)});
}

void Uses::add(const Use& use) {
  if (use.total <= 0) return;
  for (Use& line : lines_) {
    if (line.material != use.material) continue;
    line.net += use.net;
    line.total += use.total;
    return;
  }
  lines_.push_back(use);
}

void Uses::add(const Uses& other) {
  for (const Use& line : other.lines_)
    add(line);
}

double Uses::total(std::string_view material) const {
  for (const Use& line : lines_) {
    if (line.material == material) return line.total;
  }
  return 0;
}

Uses concrete_uses(CubicMetres net, const Practice& practice) {
  const trade::ConcreteRow& row = trade::row_for(practice.concrete);
  const double v = net.value();
  Uses uses;
  uses.add("cement", v * row.cement_per_m3.value(), practice.concrete_waste);
  uses.add("sharp-sand", v * row.sand_per_m3.value(), practice.concrete_waste);
  uses.add(row.ballast ? "ballast" : "coarse-aggregate", v * row.coarse_per_m3.value(),
           practice.concrete_waste);
  return uses;
}

Uses mortar_uses(CubicMetres net, CubicMetres total, trade::MortarClass mortar, const Practice& practice) {
  const trade::MortarRow& row = trade::row_for(mortar);
  Uses uses;
  const auto both = [&](std::string_view material, double per_m3) {
    uses.add(Use{std::string(material), net.value() * per_m3, total.value() * per_m3});
  };
  switch (practice.binder) {
    case trade::Binder::cement:
      both("cement", row.cement_per_m3.value());
      break;
    case trade::Binder::cement_lime:
      both("cement", row.cement_per_m3_gauged.value());
      both("lime", row.lime_per_m3_gauged.value());
      break;
    case trade::Binder::hydraulic_lime:
      both("hydraulic-lime", 1 / trade::material("hydraulic-lime").m3_per_unit / lime_sand_parts);
      break;
  }
  both("building-sand", row.sand_per_m3.value());
  return uses;
}

WetMortar brick_mortar(double bricks, trade::Bond bond, trade::BrickKind kind, const Practice& practice) {
  const trade::BondRow& row = trade::row_for(bond);
  const double area = bricks / row.bricks_per_m2_exact;
  const bool frogged = kind == trade::BrickKind::facing || kind == trade::BrickKind::common;
  const double frogs =
      frogged && practice.frog == trade::Frog::up ? bricks * practice.norms.at(key::frog_mortar) : 0;
  return {CubicMetres(area * row.mortar_m3_per_m2 + frogs),
          CubicMetres(area * row.mortar_m3_per_m2_allowed * (1 + practice.mortar_waste) /
                          (1 + trade::norm(key::waste_mortar)) +
                      frogs * (1 + practice.mortar_waste))};
}

namespace {

/// @param laid to the brick; zero where it was not counted
Uses brick_uses(double bricks, double laid, trade::BrickKind kind, trade::Bond bond,
                trade::MortarClass mortar, const Practice& practice) {
  Uses uses;
  const double ruled = measure::bricks_by_rule(bricks, bond) * (1 + practice.brick_waste);
  uses.add(Use{std::string(trade::row_for(kind).material), bricks, std::max(ruled, laid)});
  const WetMortar wet = brick_mortar(bricks, bond, kind, practice);
  uses.add(mortar_uses(wet.net, wet.total, mortar, practice));
  return uses;
}

}  // namespace

Uses uses_below(const WallPart& wall, const Practice& practice) {
  return brick_uses(wall.count.below, wall.count.laid_below, wall.shape.brick_below, wall.shape.bond,
                    practice.mortar_below, practice);
}

Uses uses_facing(const WallPart& wall, const Practice& practice) {
  Uses uses = brick_uses(wall.count.facing, wall.count.laid_facing, wall.shape.brick, wall.shape.bond,
                         practice.mortar, practice);
  if (wall.shape.dpc) uses.add(dpc_of(wall, practice));
  return uses;
}

Use dpc_of(const WallPart& wall, const Practice& practice) {
  const trade::Material& roll = trade::material(trade::row_for(wall.shape.bond).dpc);
  double length = 0;
  for (const Metres piece : measure::pieces_on(wall.run, wall.shape.courses_below))
    length += piece.value();
  int laps = wall.run.shared_corners;
  for (std::size_t i = 1; i < wall.run.stretches.size(); ++i) {
    const int courses = wall.run.stretches[i].extra_courses - wall.run.stretches[i - 1].extra_courses;
    length += measure::course_height.value() * courses;
    ++laps;
  }
  laps += static_cast<int>(std::floor(length / roll.pack_size));
  return {std::string(roll.key), length, length + laps * practice.norms.at(key::dpc_lap)};
}

int straps_of(const Group& group, const Practice& practice) {
  if (group.plates.value() <= 0) return 0;
  const double gaps = group.plates.value() / practice.norms.at(key::strap_spacing);
  return std::max(2, static_cast<int>(std::ceil(gaps - 1e-9)));
}

Uses uses_on_top(const Group& group, const Practice& practice) {
  Uses uses;
  uses.add("plate-100x50", group.plates.value(), 0);
  uses.add("dpc", group.plates.value(), 0);
  const int straps = straps_of(group, practice);
  uses.add("plate-strap", straps, 0);
  uses.add("fixings", straps * fixings_per_strap, 0);
  uses.add(uses_of_copings(group, practice));
  CubicMetres bed(group.plates.value() * practice.norms.at(key::plate_bed_mortar));
  for (const Group::CopingRun& run : group.coping_runs)
    bed += run.length * measure::thickness_of(run.bond) * base::to_metres(trade::joint);
  uses.add(mortar_uses(bed, bed * (1 + practice.mortar_waste), practice.mortar, practice));
  return uses;
}

Uses uses_of_copings(const Group& group, const Practice& practice) {
  Uses uses;
  for (const Group::CopingRun& run : group.coping_runs) {
    const int units = measure::coping_units(run.length, practice.coping_length);
    uses.add(Use{std::string(trade::row_for(run.bond).coping), run.length.value(),
                 units * practice.coping_length.value()});
  }
  return uses;
}

Uses uses_in_bed(const Group& group, const Expansion& expansion, const Practice&) {
  Uses uses;
  if (group.fill.value() <= 0) return uses;
  double around = 0;
  double longest = 0;
  for (const std::size_t w : group.walls) {
    const double length = expansion.walls[w].shape.length.value();
    around += length;
    longest = std::max(longest, length);
  }
  uses.add("membrane", around * group.fill_height.value(), 0);
  uses.add("land-drain", longest, 0);
  return uses;
}

PathTake take_path(const Path& path, const Practice& practice) {
  PathTake take;
  take.area = path.length * path.width;
  take.subbase = take.area * path.subbase;
  take.subbase_uses.add(Use{"sub-base", take.subbase.value(),
                            take.subbase.value() * practice.norms.at(key::subbase_compaction)});
  Metres surface = gravel_depth;
  if (path.surface == trade::Surface::gravel) {
    take.gravel = take.area * gravel_depth;
    take.surface_uses.add("gravel", take.gravel.value(), practice.flag_waste);
    take.surface_uses.add("weed-fabric", take.area.value(), practice.flag_waste);
  } else {
    const measure::FlagCount count =
        measure::count_flags(path.length, path.width, path.flag_length, path.flag_width, practice.norms);
    take.flags = count.flags;
    take.bed = count.bed;
    take.joints = count.joints;
    const auto stock =
        trade::flag_material(base::to_millimetres(path.flag_length), base::to_millimetres(path.flag_width));
    if (stock) {
      take.flag_material = std::string(*stock);
      take.surface_uses.add(*stock, take.flags, practice.flag_waste);
    }
    // Flags lie on M12: BS 7533-9 as quoted in the rules of the project.
    take.surface_uses.add(
        mortar_uses(take.bed, take.bed * (1 + practice.mortar_waste), trade::MortarClass::m12, practice));
    take.joint_uses = mortar_uses(take.joints, take.joints * (1 + practice.mortar_waste),
                                  trade::MortarClass::m12, practice);
    surface = flag_thickness + Metres(practice.norms.at(key::flag_bed));
  }
  take.dug = take.area * (path.subbase + surface);
  return take;
}

FlightTake take_flight(const Steps& steps, const Practice& practice) {
  const measure::FlightCount count =
      measure::count_flight(steps.count, steps.width, steps.going, steps.riser, flight_base_thickness);
  FlightTake take;
  take.bricks = count.bricks;
  take.concrete = count.concrete;
  take.dug = count.dug;
  take.run = count.run;
  take.thickness = flight_base_thickness;
  take.base_uses = concrete_uses(count.concrete, practice);
  take.step_uses = brick_uses(count.bricks, std::ceil(count.bricks - 1e-9), trade::BrickKind::facing,
                              trade::Bond::one_english, practice.mortar_below, practice);
  return take;
}

CubicMetres backfill_of(const Group& group, const Expansion& expansion) {
  CubicMetres open(0);
  for (const std::size_t f : group.footings) {
    const FootingPart& footing = expansion.footings[f];
    const Metres above = footing.shape.depth - footing.shape.thickness;
    open += footing.plan.trench - footing.plan.concrete;
    open -= footing.shape.length * above * std::min(footing.wall_thickness, footing.shape.width);
  }
  return std::max(CubicMetres(0), open);
}

CubicMetres batch_of(const Kit& kit) {
  return kit.mixer.value() > 0 ? kit.mixer : kit.barrow;
}

int mixes_of(CubicMetres wet, const Kit& kit) {
  return static_cast<int>(std::ceil(wet / batch_of(kit) - 1e-9));
}

}  // namespace weatherstruck::works
