#pragma once
// How long concrete is cured or protected by the published tables. The functions read the tables, and a list
// of limits shows the same rows.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "weatherstruck/base/quantity.h"

namespace weatherstruck::matter {

enum class CuringTable {
  din_1045_3,        ///< to half the strength
  en_13670_class_2,  ///< to 35 % of the strength at the surface
  en_13670_class_3,  ///< to 50 %
  en_13670_class_4,  ///< to 70 %
  aci_306_normal,
  aci_306_accelerated,
  nhbc_before_load
};

/// One row of a published table.
struct CuringRow {
  CuringTable table;
  double from_celsius;     ///< of the surface; the row holds up to the next warmer one; 0 where it has none
  std::string_view key;    ///< "din-1045-3-at-15"; unique
  std::string_view title;  ///< plain words
  std::array<double, 4> days;  ///< by column; 0 where the table has none
  std::size_t columns;         ///< how many of them it has
  std::string_view standing;   ///< one of the words of trade/source.h
  std::string_view source;     ///< the publication; never empty
};
/// Every row, the tables in the order of the enumeration, the warmest row of each first.
[[nodiscard]] std::span<const CuringRow> curing_rows();
/// What the columns of a table are, as many as its rows have: "rapid" (0.5 or more by strength_ratio),
/// "unloaded, sheltered".
[[nodiscard]] std::span<const std::string_view> curing_columns(CuringTable table);

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

/// EN 13670:2009 annex F, tables F.1 to F.3, from memory: the days by curing class. As din_1045_curing but
/// for the exposure; below 5 degrees the time is added, as there.
/// @param table one of the three classes
/// @returns nullopt for a strength ratio below 0.15, which those tables leave out
/// @throws std::invalid_argument for another table, and as din_1045_curing
[[nodiscard]] std::optional<base::Hours> en_13670_curing(CuringTable table, base::Celsius surface,
                                                         double strength_ratio,
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
