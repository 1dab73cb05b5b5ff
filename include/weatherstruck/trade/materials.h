#pragma once
// What is built with: materials as bought and carried, bricks, bonds, mortars, concretes. Masses and
// recipes with their sources; no prices.
#include <optional>
#include <span>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

/// A thing that is counted, bought and carried. Amounts everywhere are in `unit`.
struct Material {
  std::string_view key;         ///< "facing-brick"; unique
  std::string_view title;       ///< "facing bricks"
  std::string_view unit;        ///< "bricks", "kg", "m3", "m2", "m", "flags", "litres", "each"
  double kg_per_unit;           ///< as carried
  double m3_per_unit;           ///< room taken in the van; bulk volume
  std::string_view pack;        ///< purchase unit: "bag", "bulk bag", "pack", "length", "roll", "each"
  double pack_size;             ///< of `unit` in a pack, > 0
  std::string_view small_pack;  ///< what a van run buys instead ("bag" for a bulk bag); empty: none
  double small_pack_size;       ///< 0 where there is none
  Source source;
};

[[nodiscard]] std::span<const Material> materials();
/// nullptr where no material has that key.
[[nodiscard]] const Material* find_material(std::string_view key);
/// @throws std::invalid_argument for a key that is not in the table
[[nodiscard]] const Material& material(std::string_view key);

struct BrickRow {
  BrickKind kind;
  std::string_view material;  ///< key of the materials table
  std::string_view title;     ///< "facing"
  base::Kilograms mass;
  double water_absorption;  ///< greatest, percent of mass; 0..100
  bool quick_suction;       ///< draws water from the bed: joints stiffen soon
  Source source;
};
[[nodiscard]] std::span<const BrickRow> bricks();
[[nodiscard]] const BrickRow& row_for(BrickKind kind);

/// One size of brick: work size 215 x 102.5 x 65, joints 10, so a course is 75 and a brick with its
/// joint 225 (millimetres). Sourced: UK metric brick, scribd 366389516.
inline constexpr base::Millimetres brick_length{215};
inline constexpr base::Millimetres brick_width{102.5};
inline constexpr base::Millimetres brick_height{65};
inline constexpr base::Millimetres joint{10};
inline constexpr base::Millimetres course_height{75};
inline constexpr base::Millimetres brick_pitch{225};

struct BondRow {
  Bond bond;
  std::string_view key;    ///< "half-stretcher"
  std::string_view title;  ///< "half-brick, stretcher bond"
  base::Millimetres thickness;
  double bricks_per_m2;             ///< rule of the trade, joints counted: 60, 120, 180
  double bricks_per_m2_exact;       ///< from the brick's size: 59.259...
  double mortar_m3_per_m2;          ///< net, solid bricks
  double mortar_m3_per_m2_allowed;  ///< what estimators allow, waste included
  std::string_view dpc;             ///< key of the damp-proof course as wide as the wall
  std::string_view coping;          ///< key of the coping that overhangs it on both sides
  Source source;
};
[[nodiscard]] std::span<const BondRow> bonds();
[[nodiscard]] const BondRow& row_for(Bond bond);

struct MortarRow {
  MortarClass mortar;
  std::string_view key;                         ///< "m4"
  std::string_view title;                       ///< "M4, 1:5": cement and sand
  std::string_view title_gauged;                ///< "M4, 1:1:6": cement, lime and sand
  std::string_view us_type;                     ///< of ASTM C270, same parts of cement, lime and sand: "N"
  double cement_parts, lime_parts, sand_parts;  ///< by volume, with Binder::cement
  base::Kilograms cement_per_m3;
  base::CubicMetres sand_per_m3;
  double lime_parts_gauged, sand_parts_gauged;  ///< with Binder::cement_lime, one part cement
  base::Kilograms cement_per_m3_gauged;
  base::Kilograms lime_per_m3_gauged;
  Source source;
};
[[nodiscard]] std::span<const MortarRow> mortars();
[[nodiscard]] const MortarRow& row_for(MortarClass mortar);

struct ConcreteRow {
  ConcreteMix mix;
  std::string_view key;        ///< "c20-25"
  std::string_view title;      ///< "C20/25, 1:2:4"
  base::Megapascals cylinder;  ///< characteristic, 28 days
  base::Megapascals cube;
  bool ballast;  ///< batched from all-in ballast; then sand is zero and coarse is the ballast
  base::Kilograms cement_per_m3;
  base::CubicMetres sand_per_m3;    ///< bulk volume
  base::CubicMetres coarse_per_m3;  ///< bulk volume
  double water_litres_per_m3;
  Source source;
};
[[nodiscard]] std::span<const ConcreteRow> concretes();
[[nodiscard]] const ConcreteRow& row_for(ConcreteMix mix);

inline constexpr base::KilogramsPerCubicMetre fresh_concrete_density{2400};  ///< from memory
inline constexpr base::KilogramsPerCubicMetre fresh_mortar_density{2100};    ///< from memory: 1900-2200
inline constexpr base::Kilograms cement_bag{25};                             ///< common practice, UK bag

/// Key of the material table for a flag of this size, if a stock size: "flag-450", "flag-600",
/// "flag-600x450", "flag-900x600", either way round, to a millimetre.
[[nodiscard]] std::optional<std::string_view> flag_material(base::Millimetres length,
                                                            base::Millimetres width);

}  // namespace weatherstruck::trade
