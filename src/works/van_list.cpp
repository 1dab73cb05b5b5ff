#include "weatherstruck/works/van_list.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {

using base::CubicMetres;
using base::Kilograms;

namespace {

constexpr trade::Source weighed{trade::Standing::assumption,
                                "ordinary tool of a lone mason, for the load list"};
constexpr std::array<KitRow, 9> rows{{
    {"mixer", "mixer", 60, 0.5, weighed},
    {"barrow", "barrow", 15, 0.25, weighed},
    {"digging-tools", "spades, shovel, pick, rammer, buckets", 25, 0.1, weighed},
    {"mason-tools", "trowels, level, lines, profiles, gauge rod, hammers", 25, 0.1, weighed},
    {"cutter", "disc cutter, blades, water bottle", 15, 0.06, weighed},
    {"water-cans", "water cans, empty", 5, 0.1, weighed},
    {"canopy", "canopy with weights", 100, 0.4, weighed},
    {"floodlights", "floodlights, leads, residual-current device", 15, 0.08, weighed},
    {"clothes", "clothes, gloves, masks, first-aid box, food", 30, 0.15, weighed},
}};

const KitRow& kit_row(std::string_view key) {
  for (const KitRow& row : rows) {
    if (row.key == key) return row;
  }
  throw std::logic_error("no such row in the kit table");
}

measure::VanItem whole(std::string_view key) {
  const KitRow& row = kit_row(key);
  return {std::string(row.title), Kilograms(row.kg), CubicMetres(row.m3), 1, 0};
}

std::vector<measure::VanItem> kit_items(const Job& job) {
  std::vector<measure::VanItem> items;
  for (const std::string_view key :
       {"barrow", "digging-tools", "mason-tools", "cutter", "water-cans", "clothes"}) {
    items.push_back(whole(key));
  }
  if (job.kit.mixer.value() > 0) items.push_back(whole("mixer"));
  if (job.kit.canopy) items.push_back(whole("canopy"));
  if (job.kit.floodlights) items.push_back(whole("floodlights"));
  const auto cover = [&](std::string_view key, base::SquareMetres area) {
    if (area.value() <= 0) return;
    const trade::Material& row = trade::material(key);
    items.push_back({std::string(row.title), Kilograms(area.value() * row.kg_per_unit),
                     CubicMetres(area.value() * row.m3_per_unit), 1, 0});
  };
  cover("hessian", job.kit.hessian);
  cover("sheet", job.kit.sheet);
  cover("frost-mat", job.kit.mats);
  return items;
}

}  // namespace

std::span<const KitRow> kit_table() {
  return rows;
}

std::vector<measure::VanItem> van_items(const Job& job, const Bill& bill) {
  std::vector<measure::VanItem> items = kit_items(job);
  for (const TotalLine& line : bill.totals) {
    if (line.on_site || line.to_buy <= 0) continue;
    double left = line.bought;
    for (const Delivery& delivery : job.supplies.deliveries) {
      if (delivery.material == line.material) left -= delivery.amount;
    }
    const double share = std::clamp(left / line.bought, 0.0, 1.0);
    if (share <= 1e-9) continue;
    const bool bulk = line.unit == "m3" || line.unit == "bricks" || line.unit == "flags";
    const int units = std::max(1, static_cast<int>(std::lround(line.to_buy * share)));
    items.push_back({line.name, line.mass * share, line.volume * share, units, bulk ? 2 : 1});
  }
  return items;
}

Kilograms kit_mass(const Job& job) {
  Kilograms sum(0);
  for (const measure::VanItem& item : kit_items(job))
    sum += item.mass;
  return sum;
}

measure::VanPlan van_plan(const Job& job, const Bill& bill) {
  return measure::plan_van(van_items(job, bill), job.kit.van_payload, job.kit.van_volume);
}

}  // namespace weatherstruck::works
