#include "weatherstruck/works/quantities.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/soil.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Kilograms;

namespace {

class Biller {
 public:
  explicit Biller(const Job& job) : job_(job), expansion_(expand(job)) {}

  Bill run() {
    for (const Group& group : expansion_.groups)
      add_group(group);
    for (const Steps& steps : expansion_.flights)
      add_flight(steps);
    for (const Path& path : expansion_.paths)
      add_path(path);
    add_soil();
    add_totals();
    return std::move(bill_);
  }

 private:
  void part(const Name& of, const Uses& uses) {
    for (const Use& use : uses.lines()) {
      all_.add(use);
      const auto line = std::find_if(bill_.parts.begin(), bill_.parts.end(), [&](const PartLine& l) {
        return l.part == of && l.material == use.material;
      });
      if (line == bill_.parts.end()) {
        bill_.parts.push_back({of, use.material, use.net, use.total});
      } else {
        line->net += use.net;
        line->total += use.total;
      }
    }
  }

  void batch(const Name& of, std::string what, CubicMetres wet, const Uses& uses, bool concrete) {
    if (wet.value() <= 0) return;
    bill_.batches.push_back({of, std::move(what), wet, mixes_of(wet, job_.kit),
                             uses.total("cement") / trade::cement_bag.value(), concrete});
  }

  void concrete(const Name& of, CubicMetres net) {
    const Uses uses = concrete_uses(net, job_.practice);
    bill_.concrete += net;
    part(of, uses);
    batch(of, "concrete " + std::string(trade::row_for(job_.practice.concrete).title),
          net * (1 + job_.practice.concrete_waste), uses, true);
  }

  void mortar(const Name& of, trade::MortarClass kind, WetMortar wet) {
    batch(of, "mortar " + std::string(trade::row_for(kind).title), wet.total,
          mortar_uses(wet.net, wet.total, kind, job_.practice), false);
  }

  void add_group(const Group& group) {
    CubicMetres strips(0);
    for (const std::size_t f : group.footings)
      strips += expansion_.footings[f].plan.concrete;
    concrete(group.of, strips);
    WetMortar below;
    WetMortar facing;
    for (const std::size_t w : group.walls) {
      const WallPart& wall = expansion_.walls[w];
      part(wall.of, uses_below(wall, job_.practice));
      part(wall.of, uses_facing(wall, job_.practice));
      const WetMortar b = brick_mortar(wall.count.below, wall.shape.bond, job_.practice);
      const WetMortar f = brick_mortar(wall.count.facing, wall.shape.bond, job_.practice);
      below = {below.net + b.net, below.total + b.total};
      facing = {facing.net + f.net, facing.total + f.total};
      bill_.bricks += wall.count.bricks();
    }
    mortar(group.of, job_.practice.mortar_below, below);
    mortar(group.of, job_.practice.mortar, facing);
    part(group.of, uses_on_top(group, job_.practice));
    part(group.of, uses_in_bed(group, expansion_, job_.practice));
  }

  void add_flight(const Steps& steps) {
    const FlightTake take = take_flight(steps, job_.practice);
    concrete(steps.name, take.concrete);
    part(steps.name, take.step_uses);
    mortar(steps.name, job_.practice.mortar_below,
           brick_mortar(take.bricks, trade::Bond::one_english, job_.practice));
    bill_.bricks += take.bricks;
  }

  void add_path(const Path& path) {
    const PathTake take = take_path(path, job_.practice);
    part(path.name, take.subbase_uses);
    part(path.name, take.surface_uses);
    part(path.name, take.joint_uses);
    const CubicMetres net = take.bed + take.joints;
    mortar(path.name, trade::MortarClass::m12, {net, net * (1 + job_.practice.mortar_waste)});
  }

  void add_soil() {
    const SoilAccount soil = soil_of(job_, expansion_);
    bill_.dug = soil.dug;
    bill_.dug_loose = soil.dug_loose;
    bill_.soil_kept = soil.backfilled + soil.into_beds;
    bill_.soil_away = soil.away;
    // Bought soil is shared among the beds by what they hold.
    CubicMetres fill(0);
    for (const Group& group : expansion_.groups)
      fill += group.fill;
    for (const Group& group : expansion_.groups) {
      if (group.fill.value() <= 0) continue;
      Uses uses;
      uses.add("topsoil", soil.to_buy.value() * (group.fill / fill), 0);
      part(group.of, uses);
    }
  }

  void add_totals() {
    const auto named = [](const std::vector<std::string>& list, std::string_view material) {
      return std::find(list.begin(), list.end(), material) != list.end();
    };
    for (const trade::Material& row : trade::materials()) {
      const double total = all_.total(row.key);
      if (total <= 0) continue;
      TotalLine line;
      line.material = std::string(row.key);
      line.name = std::string(row.title);
      line.unit = std::string(row.unit);
      line.total = total;
      for (const Use& use : all_.lines()) {
        if (use.material == row.key) line.net = use.net;
      }
      line.waste = line.total - line.net;
      line.on_site = named(job_.supplies.on_site, row.key);
      const bool delivered = std::any_of(job_.supplies.deliveries.begin(), job_.supplies.deliveries.end(),
                                         [&](const Delivery& d) { return d.material == row.key; });
      // A lorry drops packs and bulk bags; a van run buys the smaller unit where there is one.
      const bool small = !delivered && !row.small_pack.empty();
      const double size = small ? row.small_pack_size : row.pack_size;
      line.purchase = std::string(small ? row.small_pack : row.pack);
      if (!line.on_site) {
        line.to_buy = std::ceil(total / size - 1e-9);
        line.bought = line.to_buy * size;
        line.left_over = std::max(0.0, line.bought - total);
      }
      const double handled = line.on_site ? total : line.bought;
      line.mass = Kilograms(handled * row.kg_per_unit);
      line.volume = CubicMetres(handled * row.m3_per_unit);
      if (!line.on_site) bill_.mass += line.mass;
      bill_.totals.push_back(std::move(line));
    }
  }

  const Job& job_;
  Expansion expansion_;
  Bill bill_;
  Uses all_;
};

}  // namespace

double Bill::total_of(const std::string& material) const {
  for (const TotalLine& line : totals) {
    if (line.material == material) return line.total;
  }
  return 0;
}

Bill bill_of(const Job& job) {
  return Biller(job).run();
}

}  // namespace weatherstruck::works
