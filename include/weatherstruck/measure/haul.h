#pragma once
// Carrying material from the kerb to the work: trips and hours by route.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/own_figures.h"

namespace weatherstruck::measure {

struct CarryRoute {
  std::string name;
  base::Metres length;
  base::Metres rise;  ///< climb with the load
  int steps = 0;      ///< stairs on the way
  base::Metres narrowest;
};

enum class CarryMethod {
  barrow,  ///< all the way
  relay,   ///< barrow to the stairs, buckets or arms over them
  bucket   ///< by hand all the way: too narrow for a barrow
};

/// One haul.
struct Haul {
  CarryMethod method = CarryMethod::barrow;
  int trips = 0;      ///< barrow loads, or trips with both hands full where a barrow cannot pass
  base::Hours hours;  ///< one person at the norm, loading and tipping counted
};

/// Barrow all the way, or over the stairs by hand, or all by hand: from the narrowest place, the stairs and
/// the grade, by the norms table.
[[nodiscard]] CarryMethod method_for(const CarryRoute& route, const trade::NormValues& norms = {});

/// Loose material: sand, ballast, soil, concrete.
/// @param volume as used, >= 0  @param barrow what his barrow holds, > 0
[[nodiscard]] Haul haul(const CarryRoute& route, base::CubicMetres volume, base::CubicMetres barrow,
                        const trade::NormValues& norms = {});

/// Counted things.
/// @param count >= 0  @param per_barrow and @param per_hand_trip: most in one load, > 0
[[nodiscard]] Haul haul_count(const CarryRoute& route, double count, double per_barrow, double per_hand_trip,
                              const trade::NormValues& norms = {});

/// Place of the route with the least hours for one cubic metre, the first of equals; nullopt if there is
/// none.
[[nodiscard]] std::optional<std::size_t> best_route(std::span<const CarryRoute> routes,
                                                    base::CubicMetres barrow,
                                                    const trade::NormValues& norms = {});

}  // namespace weatherstruck::measure
