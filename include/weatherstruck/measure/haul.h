#pragma once
// Carrying material from the kerb to the work: trips and hours by route.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"

namespace weatherstruck::measure {

struct CarryRoute {
  std::string name;
  base::Metres length;
  base::Metres rise;           ///< climb with the load
  int steps = 0;               ///< stairs on the way
  base::Metres narrowest;
};

enum class CarryMethod {
  barrow,        ///< all the way
  relay,         ///< barrow to the stairs, buckets or arms over them
  bucket         ///< by hand all the way: too narrow for a barrow
};

/// One haul. Amounts are as used, loose; a barrow holds `barrow` of them struck level.
struct Haul {
  CarryMethod method = CarryMethod::barrow;
  int trips = 0;               ///< barrow loads, or bucket pairs where there is no barrow
  base::Hours hours;           ///< one person at the norm, loading and tipping counted
  base::Hours per_cubic_metre;
};

/// @param volume loose, >= 0  @param barrow heaped volume of his barrow, > 0
[[nodiscard]] Haul haul(const CarryRoute& route, base::CubicMetres volume, base::CubicMetres barrow);
/// Counted things (bricks, flags, bags) by `each` of room they take in the barrow and `per_load` at most in a load.
[[nodiscard]] Haul haul_count(const CarryRoute& route, double count, double per_load, base::CubicMetres barrow);
/// Place of the route with the least hours for one cubic metre, the first of equals; nullopt if there is none.
[[nodiscard]] std::optional<std::size_t> best_route(std::span<const CarryRoute> routes, base::CubicMetres barrow);

}  // namespace weatherstruck::measure
