#include "weatherstruck/works/carry.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::works {

using base::CubicMetres;
using trade::NormValues;
namespace key = trade::norm_key;

namespace {

constexpr double flags_by_hand = 1;  // one flag in two hands; common practice, no source

/// Most in a barrow: by count, and by what a barrow may weigh.
double load_by_mass(double by_count, double kg_each, const NormValues& norms) {
  return std::max(1.0, std::floor(std::min(by_count, norms.at(key::barrow_mass) / kg_each)));
}

}  // namespace

measure::CarryRoute carry_route(const Route& route) {
  return {route.name, route.length, route.rise, route.steps, route.narrowest};
}

std::size_t chosen_route(const Job& job) {
  std::vector<measure::CarryRoute> routes;
  for (const Route& route : job.site.routes)
    routes.push_back(carry_route(route));
  return measure::best_route(routes, job.kit.barrow, job.practice.norms).value_or(0);
}

Carry carry(const Uses& uses, const Route& route, const Kit& kit, const NormValues& norms) {
  Carry sum;
  const measure::CarryRoute way = carry_route(route);
  for (const Use& use : uses.lines()) {
    const trade::Material& row = trade::material(use.material);
    if (row.unit == "bricks" || row.unit == "flags") {
      const bool bricks = row.unit == "bricks";
      const double most = load_by_mass(bricks ? norms.at(key::barrow_bricks) : 1e9, row.kg_per_unit, norms);
      const measure::Haul haul = measure::haul_count(
          way, use.total, most, bricks ? norms.at(key::hand_bricks) : flags_by_hand, norms);
      sum.hours += haul.hours;
      sum.trips += haul.trips;
      (bricks ? sum.bricks : sum.flags) += use.total;
    } else if (row.unit == "m3" || row.unit == "kg") {
      const double grown = is_sand(row.key) ? 1 + norms.at(key::sand_bulking) : 1;
      sum.volume += CubicMetres(use.total * row.m3_per_unit * grown);
    }
  }
  const Carry loose = carry_loose(sum.volume, route, kit, norms);
  sum.hours += loose.hours;
  sum.trips += loose.trips;
  return sum;
}

bool is_sand(std::string_view material) {
  return material == "building-sand" || material == "sharp-sand";
}

bool is_mixed(std::string_view material) {
  constexpr std::array<std::string_view, 5> others{"cement", "lime", "hydraulic-lime", "coarse-aggregate",
                                                   "ballast"};
  return is_sand(material) || std::find(others.begin(), others.end(), material) != others.end();
}

Carry carry_wet(CubicMetres volume, base::KilogramsPerCubicMetre density, const Route& route, const Kit& kit,
                const NormValues& norms) {
  Kit loaded = kit;
  loaded.barrow = std::min(kit.barrow, CubicMetres(norms.at(key::barrow_mass) / density.value()));
  return carry_loose(volume, route, loaded, norms);
}

Carry carry_loose(CubicMetres volume, const Route& route, const Kit& kit, const NormValues& norms) {
  Carry sum;
  const measure::Haul haul = measure::haul(carry_route(route), volume, kit.barrow, norms);
  sum.hours = haul.hours;
  sum.trips = haul.trips;
  sum.volume = volume;
  return sum;
}

}  // namespace weatherstruck::works
