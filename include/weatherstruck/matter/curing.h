#pragma once
// How long concrete is cured or protected by the published tables.
#include "weatherstruck/base/quantity.h"

namespace weatherstruck::matter {

enum class Exposure {
  dry,      ///< X0, XC1
  usual,    ///< every other class
  abrasion  ///< XM
};

/// DIN 1045-3 (national application of EN 13670, to half the strength), sourced:
/// betontechnische-daten.de 10.7.3.
/// @param surface mean temperature of the surface over the hours at 5 degrees or more; below 5 it reads as 5
/// @param strength_ratio mean strength at 2 days over that at 28 at 20 degrees, 0..1 (the row is taken, not
/// interpolated)
/// @param hours_below_5 time the surface spent below 5 degrees: it is added
/// dry: 12 h; abrasion: twice the table.
/// @throws std::invalid_argument if strength_ratio is outside 0..1 or hours_below_5 is negative
[[nodiscard]] base::Hours din_1045_curing(base::Celsius surface, double strength_ratio,
                                          Exposure exposure = Exposure::usual,
                                          base::Hours hours_below_5 = base::Hours(0));

/// Mean strength at 2 days over that at 28 by EN 1992-1-1 3.1.2(6), for din_1045_curing (derived).
[[nodiscard]] double strength_ratio(double class_s);

enum class Service { unloaded_sheltered, unloaded_exposed, part_loaded_exposed };
/// ACI 306R protection in cold weather: 2, 3, 6 days (sourced, doczz 726492); with accelerated set 1, 2, 4
/// (from memory).
[[nodiscard]] base::Hours aci_306_protection(Service service, bool accelerated = false);

/// NHBC 3.1.15: 4 days before load for plain concrete of Portland cement, 7 with reinforcement or cement
/// replacement (sourced). Masonry above an unreinforced strip may start earlier if the surface is protected:
/// see the limits.
[[nodiscard]] base::Hours nhbc_days_before_load(bool reinforced_or_blended);

}  // namespace weatherstruck::matter
