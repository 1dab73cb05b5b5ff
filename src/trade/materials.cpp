#include "weatherstruck/trade/materials.h"

#include <array>
#include <cmath>
#include <stdexcept>
#include <string>
#include <type_traits>

namespace weatherstruck::trade {
namespace {

using base::CubicMetres;
using base::Kilograms;
using base::Megapascals;
using base::Millimetres;

constexpr Source densities{
    Standing::sourced,
    "bulk density table (photohaus): dry coarse sand 1600, ballast 1760, sub-base and gravel "
    "1920, shingle 1620, topsoil 1440 kg/m3; bulk bag 850 kg (civilsir.com, low authority)"};
constexpr Source brick_mass{Standing::sourced,
                            "bricks 1.95-3.3 kg (buildingadvice.co.uk); pack size common practice"};
constexpr Source flag_mass{Standing::derived, "size by 2300 kg/m3 of pressed concrete (from memory)"};
constexpr Source sheet_stock{Standing::assumption, "mass of ordinary stock, for the load list"};

constexpr double brick_volume = 0.215 * 0.1025 * 0.065;

// A table reads by rows.
// clang-format off
constexpr std::array stock{
    Material{"facing-brick", "facing bricks", "bricks", 2.3, brick_volume, "pack", 500, "brick", 1,
     brick_mass},
    Material{"engineering-brick-a", "class A engineering bricks", "bricks", 3.2, brick_volume, "pack", 400,
     "brick", 1, brick_mass},
    Material{"engineering-brick", "class B engineering bricks", "bricks", 2.8, brick_volume, "pack", 400,
     "brick", 1, brick_mass},
    Material{"common-brick", "common bricks", "bricks", 2.2, brick_volume, "pack", 500, "brick", 1,
     brick_mass},
    Material{"cement", "cement", "kg", 1, 1.0 / 1440.0, "bag", 25, "", 0,
     {Standing::sourced, "cement 1400-1440 kg/m3 (photohaus); 25 kg bags"}},
    Material{"lime", "hydrated lime", "kg", 1, 1.0 / 600.0, "bag", 25, "", 0,
     {Standing::from_memory, "about 600 kg/m3"}},
    Material{"hydraulic-lime", "natural hydraulic lime", "kg", 1, 1.0 / 750.0, "bag", 25, "", 0,
     {Standing::from_memory, "about 750 kg/m3"}},
    Material{"building-sand", "building sand", "m3", 1333, 1, "bulk bag", 0.6, "bag", 25.0 / 1333.0,
     {Standing::sourced, "bulk bag about 800 kg, 0.6 m3 (civilsir.com, low authority)"}},
    Material{"sharp-sand", "sharp sand", "m3", 1600, 1, "bulk bag", 0.53, "bag", 25.0 / 1600.0, densities},
    Material{"coarse-aggregate", "20 mm aggregate", "m3", 1620, 1, "bulk bag", 0.52, "bag", 25.0 / 1620.0,
     densities},
    Material{"ballast", "ballast", "m3", 1760, 1, "bulk bag", 0.48, "bag", 25.0 / 1760.0, densities},
    Material{"sub-base", "sub-base, loose", "m3", 1920, 1, "bulk bag", 0.44, "bag", 25.0 / 1920.0, densities},
    Material{"gravel", "gravel", "m3", 1620, 1, "bulk bag", 0.52, "bag", 25.0 / 1620.0, densities},
    Material{"topsoil", "topsoil", "m3", 1440, 1, "bulk bag", 0.6, "bag", 40.0 / 1440.0, densities},
    Material{"ready-mix", "ready-mixed concrete", "m3", 2400, 1, "m3", 1, "", 0,
     {Standing::from_memory, "fresh concrete 2400 kg/m3"}},
    Material{"flag-450", "flags 450 x 450", "flags", 17.7, 0.45 * 0.45 * 0.038, "each", 1, "", 0, flag_mass},
    Material{"flag-600", "flags 600 x 600", "flags", 31.5, 0.6 * 0.6 * 0.038, "each", 1, "", 0, flag_mass},
    Material{"flag-600x450", "flags 600 x 450", "flags", 23.6, 0.6 * 0.45 * 0.038, "each", 1, "", 0,
     flag_mass},
    Material{"flag-900x600", "flags 900 x 600", "flags", 62.1, 0.9 * 0.6 * 0.05, "each", 1, "", 0, flag_mass},
    Material{"membrane", "damp-proof membrane", "m2", 0.28, 0.0003, "roll", 100, "m2", 1,
     {Standing::derived, "300 micrometres of polyethylene at 920 kg/m3; rolls 4 x 25 m common practice"}},
    Material{"dpc", "damp-proof course, 112 mm", "m", 0.06, 0.0001, "roll", 30, "", 0, sheet_stock},
    Material{"dpc-225", "damp-proof course, 225 mm", "m", 0.12, 0.0002, "roll", 30, "", 0, sheet_stock},
    Material{"dpc-338", "damp-proof course, 337.5 mm", "m", 0.18, 0.0003, "roll", 30, "", 0, sheet_stock},
    Material{"weed-fabric", "weed fabric", "m2", 0.1, 0.0005, "roll", 25, "", 0, sheet_stock},
    Material{"land-drain", "land drain, 80 mm", "m", 0.3, 0.008, "roll", 25, "m", 1, sheet_stock},
    Material{"plate-100x50", "wall plate 100 x 50", "m", 2.5, 0.005, "length", 3, "", 0,
     {Standing::derived, "500 kg/m3 softwood; plates at least 3 m long (designingbuildings.co.uk)"}},
    Material{"plate-strap", "plate straps, 1.2 m", "each", 0.8, 0.0005, "each", 1, "", 0,
     {Standing::sourced, "designingbuildings.co.uk: 1.2 m long, at most 2 m apart, 4 fixings; mass assumed"}},
    Material{"fixings", "screws and plugs", "each", 0.02, 0.00001, "box", 100, "", 0, sheet_stock},
    Material{"coping", "coping, half-brick wall", "m", 22, 0.0095, "length", 0.6, "", 0,
     {Standing::derived, "190 x 50 mm of concrete at 2300 kg/m3"}},
    Material{"coping-215", "coping, one-brick wall", "m", 35, 0.015, "length", 0.6, "", 0,
     {Standing::derived, "305 x 50 mm of concrete at 2300 kg/m3"}},
    Material{"coping-328", "coping, one-and-a-half-brick wall", "m", 48, 0.021, "length", 0.6, "", 0,
     {Standing::derived, "415 x 50 mm of concrete at 2300 kg/m3"}},
    Material{"hessian", "hessian", "m2", 0.3, 0.001, "roll", 46, "m2", 1, sheet_stock},
    Material{"sheet", "polyethylene sheet", "m2", 0.12, 0.0003, "roll", 100, "m2", 1, sheet_stock},
    Material{"frost-mat", "frost mats", "m2", 0.6, 0.01, "each", 4, "", 0, sheet_stock},
    Material{"batten", "battens 38 x 19", "m", 0.36, 0.00072, "length", 2.4, "", 0, sheet_stock},
    Material{"water", "mixing water", "litres", 1, 0.001, "can", 25, "", 0,
     {Standing::derived, "density of water"}},
    Material{"fuel", "fuel", "litres", 0.75, 0.001, "can", 5, "", 0,
     {Standing::from_memory, "petrol about 0.75 kg a litre"}},
};
// clang-format on

constexpr Source brick_source{
    Standing::sourced,
    "buildingadvice.co.uk: engineering A at most 4.5 % water, B at most 7 %; the rest from memory"};
// A table reads by rows.
// clang-format off
constexpr std::array<BrickRow, 4> brick_rows{{
    {BrickKind::facing, "facing-brick", "facing", Kilograms{2.3}, 20, true, brick_source},
    {BrickKind::engineering_a, "engineering-brick-a", "class A engineering", Kilograms{3.2}, 4.5, false,
     brick_source},
    {BrickKind::engineering_b, "engineering-brick", "class B engineering", Kilograms{2.8}, 7, false,
     brick_source},
    {BrickKind::common, "common-brick", "common", Kilograms{2.2}, 25, true, brick_source},
}};
// clang-format on

constexpr Source bond_source{
    Standing::sourced,
    "60 and 120 to the m2 (scribd 366389516, 372575198); allowance 0.025/0.050/0.075 m3/m2 "
    "(scribd 617796324); exact and net worked out from the brick's size"};
// A table reads by rows.
// clang-format off
constexpr std::array<BondRow, 4> bond_rows{{
    {Bond::half_stretcher, "half-stretcher", "half-brick, stretcher bond", Millimetres{102.5}, 60, 59.2593,
     0.0176, 0.025, "dpc", "coping", bond_source},
    {Bond::one_english, "one-english", "one-brick, English bond", Millimetres{215}, 120, 118.5185, 0.0452,
     0.050, "dpc-225", "coping-215", bond_source},
    {Bond::one_flemish, "one-flemish", "one-brick, Flemish bond", Millimetres{215}, 120, 118.5185, 0.0452,
     0.050, "dpc-225", "coping-215", bond_source},
    {Bond::one_and_half_english, "one-and-half-english", "one-and-a-half-brick, English bond",
     Millimetres{327.5}, 180, 177.7778, 0.0729, 0.075, "dpc-338", "coping-328", bond_source},
}};
// clang-format on

// Cement for one part in n of sand is 1440/n kg and the sand 1.05 m3 (AP Standard Data, vdocument.in); lime
// by its parts at 600 kg/m3.
constexpr Source mortar_source{
    Standing::sourced,
    "1440/n kg of cement and 1.05 m3 of sand (AP Standard Data, vdocument.in); parts by NA to BS EN "
    "1996-1-1 Table NA.2 as printed in the ICE Manual of Structural Design, Table 20.2; types of ASTM C270 "
    "by "
    "its parts, from memory"};
constexpr CubicMetres mortar_sand{1.05};
constexpr Kilograms cement_in(double n) {
  return Kilograms(1440.0 / n);
}
constexpr Kilograms lime_in(double parts, double n) {
  return Kilograms(600.0 * parts / n);
}
// A table reads by rows.
// clang-format off
constexpr std::array<MortarRow, 4> mortar_rows{{
    {MortarClass::m12, "m12", "M12, 1:3", "M12, 1:1/4:3", "M", 1, 0, 3, cement_in(3), mortar_sand, 0.25, 3,
     cement_in(3), lime_in(0.25, 3), mortar_source},
    {MortarClass::m6, "m6", "M6, 1:4", "M6, 1:1/2:4.5", "S", 1, 0, 4, cement_in(4), mortar_sand, 0.5, 4.5,
     cement_in(4.5), lime_in(0.5, 4.5), mortar_source},
    {MortarClass::m4, "m4", "M4, 1:5", "M4, 1:1:6", "N", 1, 0, 5, cement_in(5), mortar_sand, 1, 6, cement_in(6),
     lime_in(1, 6), mortar_source},
    {MortarClass::m2, "m2", "M2, 1:8", "M2, 1:2:9", "O", 1, 0, 8, cement_in(8), mortar_sand, 2, 9, cement_in(9),
     lime_in(2, 9), mortar_source},
}};
// clang-format on

constexpr Source nz{Standing::sourced,
                    "NZ BD 5017 (scribd 684107801) by mass, turned to bulk volume at 1600 and 1620 kg/m3"};
// A table reads by rows.
// clang-format off
constexpr std::array<ConcreteRow, 5> concrete_rows{{
    {ConcreteMix::c16_20, "c16-20", "C16/20", Megapascals{16}, Megapascals{20}, false, Kilograms{288},
     CubicMetres{854.0 / 1600.0}, CubicMetres{1000.0 / 1620.0}, 170,
     {Standing::derived, "between the 15 and 20 MPa rows of NZ BD 5017 (scribd 684107801)"}},
    {ConcreteMix::c20_25, "c20-25", "C20/25", Megapascals{20}, Megapascals{25}, false, Kilograms{320},
     CubicMetres{830.0 / 1600.0}, CubicMetres{1000.0 / 1620.0}, 170, nz},
    {ConcreteMix::c25_30, "c25-30", "C25/30", Megapascals{25}, Megapascals{30}, false, Kilograms{360},
     CubicMetres{790.0 / 1600.0}, CubicMetres{1000.0 / 1620.0}, 170, nz},
    {ConcreteMix::ballast_1_6, "ballast-1-6", "1:6 ballast", Megapascals{16}, Megapascals{20}, true,
     Kilograms{271}, CubicMetres{0}, CubicMetres{1.131}, 163,
     {Standing::derived, "general 1:6 ballast (huwsgray.co.uk) by absolute volume: cement 3150, stone 2650 "
     "kg/m3, water 0.6 of the cement; taken as C16/20 (assumption)"}},
    {ConcreteMix::gen1, "gen1", "GEN1", Megapascals{8}, Megapascals{10}, false, Kilograms{184},
     CubicMetres{0.368}, CubicMetres{0.736}, 110,
     {Standing::derived, "Approved Document A 2E2, 50 kg to 0.1 and 0.2 m3, by absolute volume; class C8/10 "
     "from memory"}},
}};
// clang-format on

bool near(Millimetres a, double b) {
  return std::abs(a.value() - b) <= 1.0;
}

template <class Rows, class Kind>
const auto& find_row(const Rows& rows, Kind kind, Kind std::remove_cvref_t<decltype(rows[0])>::*member) {
  for (const auto& row : rows) {
    if (row.*member == kind) return row;
  }
  throw std::logic_error("kind without a row in its table");
}

}  // namespace

std::span<const Material> materials() {
  return stock;
}

const Material* find_material(std::string_view key) {
  for (const Material& row : stock) {
    if (row.key == key) return &row;
  }
  return nullptr;
}

const Material& material(std::string_view key) {
  const Material* found = find_material(key);
  if (found == nullptr) throw std::invalid_argument("no material \"" + std::string(key) + "\" in the table");
  return *found;
}

std::span<const BrickRow> bricks() {
  return brick_rows;
}
const BrickRow& row_for(BrickKind kind) {
  return find_row(brick_rows, kind, &BrickRow::kind);
}
std::span<const BondRow> bonds() {
  return bond_rows;
}
const BondRow& row_for(Bond bond) {
  return find_row(bond_rows, bond, &BondRow::bond);
}
std::span<const MortarRow> mortars() {
  return mortar_rows;
}
const MortarRow& row_for(MortarClass mortar) {
  return find_row(mortar_rows, mortar, &MortarRow::mortar);
}
std::span<const ConcreteRow> concretes() {
  return concrete_rows;
}
const ConcreteRow& row_for(ConcreteMix mix) {
  return find_row(concrete_rows, mix, &ConcreteRow::mix);
}

std::optional<std::string_view> flag_material(Millimetres length, Millimetres width) {
  struct Size {
    double a, b;
    std::string_view key;
  };
  constexpr std::array<Size, 4> sizes{{{450, 450, "flag-450"},
                                       {600, 600, "flag-600"},
                                       {600, 450, "flag-600x450"},
                                       {900, 600, "flag-900x600"}}};
  for (const Size& size : sizes) {
    if ((near(length, size.a) && near(width, size.b)) || (near(length, size.b) && near(width, size.a)))
      return size.key;
  }
  return std::nullopt;
}

}  // namespace weatherstruck::trade
