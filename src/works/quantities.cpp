#include "weatherstruck/works/quantities.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"
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
    Batch out{of,
              std::move(what),
              wet,
              mixes_of(wet, job_.kit),
              uses.total("cement") / trade::cement_bag.value(),
              concrete};
    const double full = batch_of(job_.kit) / wet;  // of all of it, in one full mix
    out.last_mix = wet / batch_of(job_.kit) - (out.mixes - 1);
    out.bags_a_mix = out.cement_bags * full;
    for (const Use& use : uses.lines()) {
      const trade::Material& row = trade::material(use.material);
      out.mix.push_back({use.material, use.total * full * row.m3_per_unit / job_.kit.gauge_box.value(),
                         Kilograms(use.total * full * row.kg_per_unit)});
    }
    bill_.batches.push_back(std::move(out));
  }

  void concrete(const Name& of, CubicMetres net) {
    const Uses uses = concrete_uses(net, job_.practice);
    bill_.concrete += net;
    part(of, uses);
    batch(of, "concrete " + std::string(trade::row_for(job_.practice.concrete).title),
          net * (1 + job_.practice.concrete_waste), uses, true);
  }

  void mortar(const Name& of, trade::MortarClass kind, WetMortar wet) {
    batch(of, "mortar " + trade::mortar_title(kind, job_.practice.binder, job_.limits.set), wet.total,
          mortar_uses(wet.net, wet.total, kind, job_.practice), false);
  }

  void laid(trade::BrickKind kind, double bricks) {
    laid_[std::string(trade::row_for(kind).material)] += bricks;
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
      const WetMortar b =
          brick_mortar(wall.count.below, wall.shape.bond, wall.shape.brick_below, job_.practice);
      const WetMortar f = brick_mortar(wall.count.facing, wall.shape.bond, wall.shape.brick, job_.practice);
      laid(wall.shape.brick_below, wall.count.laid_below);
      laid(wall.shape.brick, wall.count.laid_facing);
      WallBricks bricks{wall.of,          wall.shape.name,        wall.title, wall.shape.bond,
                        wall.shape.brick, wall.shape.brick_below, wall.count};
      if (wall.shape.weep_spacing.value() > 0)
        bricks.weep_holes = measure::weep_holes(wall.shape.length, wall.shape.weep_spacing);
      bill_.walls.push_back(std::move(bricks));
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
           brick_mortar(take.bricks, trade::Bond::one_english, trade::BrickKind::facing, job_.practice));
    laid(trade::BrickKind::facing, std::ceil(take.bricks - 1e-9));
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
      const bool coping = row.key.substr(0, 6) == "coping";
      const double pack = coping ? job_.practice.coping_length.value() : row.pack_size;
      const double size = small ? row.small_pack_size : pack;
      line.purchase = std::string(small ? row.small_pack : row.pack);
      const auto counted = laid_.find(line.material);
      if (counted != laid_.end()) line.laid = std::ceil(counted->second - 1e-9);
      for (const StockAtWork& stock : job_.supplies.stock) {
        if (stock.material == row.key) line.at_work += stock.amount;
      }
      if (!line.on_site) {
        line.to_buy = std::max(0.0, std::ceil((total - line.at_work) / size - 1e-9));
        line.bought = line.to_buy * size;
        line.left_over = std::max(0.0, line.at_work + line.bought - total);
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
  std::map<std::string, double> laid_;  // to the brick, in halves
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
