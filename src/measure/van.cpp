#include "weatherstruck/measure/van.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Kilograms;

namespace {

constexpr double slack = 1e-9;

/// Whole units that still fit into `left` of something of which each takes `each`.
int fitting(double left, double each, int most) {
  if (each <= 0) return most;
  return static_cast<int>(std::min(static_cast<double>(most), std::floor(left / each + slack)));
}

}  // namespace

VanPlan plan_van(std::span<const VanItem> items, Kilograms payload, CubicMetres room) {
  if (payload.value() <= 0 || room.value() <= 0)
    throw std::invalid_argument("plan_van: no payload or no room");
  VanPlan plan;
  std::vector<std::size_t> order;
  std::vector<int> left(items.size(), 0);
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].units < 1) throw std::invalid_argument("plan_van: an item of no units");
    plan.mass += items[i].mass;
    plan.volume += items[i].volume;
    const double units = items[i].units;
    if (items[i].mass.value() / units > payload.value() + slack ||
        items[i].volume.value() / units > room.value() + slack) {
      plan.too_big.push_back(i);
      continue;
    }
    left[i] = items[i].units;
    order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return items[a].rank < items[b].rank; });

  const auto anything_left = [&] {
    return std::any_of(left.begin(), left.end(), [](int n) { return n > 0; });
  };
  while (anything_left()) {
    VanLoad load;
    for (const std::size_t i : order) {
      const double units = items[i].units;
      const Kilograms unit_mass = items[i].mass / units;
      const CubicMetres unit_volume = items[i].volume / units;
      const int n = std::min(fitting((payload - load.mass).value(), unit_mass.value(), left[i]),
                             fitting((room - load.volume).value(), unit_volume.value(), left[i]));
      if (n <= 0) continue;
      load.pieces.push_back({i, n});
      load.mass += unit_mass * static_cast<double>(n);
      load.volume += unit_volume * static_cast<double>(n);
      left[i] -= n;
    }
    plan.loads.push_back(std::move(load));
  }
  plan.fits = plan.loads.size() <= 1 && plan.too_big.empty();
  plan.over_mass = std::max(Kilograms(0), plan.mass - payload);
  plan.over_volume = std::max(CubicMetres(0), plan.volume - room);
  return plan;
}

}  // namespace weatherstruck::measure
