#include "weatherstruck/trade/norms.h"

#include <array>
#include <stdexcept>
#include <string>

namespace weatherstruck::trade {
namespace {

namespace k = norm_key;

constexpr Source notes{Standing::sourced,
                       "wheel and deposit up to 50 m, 1.0 h/m3 (estimation notes, scribd 579052623)"};
constexpr Source waste{
    Standing::sourced,
    "trade allowances: bricks 5, mortar and sand 5-15, concrete 5-10, flags 5-10 %; partly from memory"};
constexpr Source carrying{Standing::assumption, "a steady walk with a load, the empty way back taken in"};

// A table reads by rows.
// clang-format off
constexpr std::array table{
    Norm{k::barrow_base, "wheeling in by barrow, short way", 1.0, "h/m3", 0.7, 2.0, notes},
    Norm{k::barrow_base_reach, "length of way that this includes", 50, "m", 50, 50, notes},
    Norm{k::barrow_extra, "each further metre of way", 0.96 / 25.0, "h/m3 per m", 0.02, 0.05,
     {Standing::sourced, "extra lead 0.12 day/m3 each 25 m, 0.96 h/m3 (IS 7272-type norm, scribd "
     "364286736)"}},
    Norm{k::barrow_load, "barrow load", 0.08, "m3", 0.06, 0.11,
     {Standing::sourced, "barrow about 80 L heaped; 9 builder's barrows to the m3 (bcsands.com.au)"}},
    Norm{k::barrow_bricks, "bricks in a barrow", 50, "bricks", 40, 60, {Standing::from_memory, "40-60"}},
    Norm{k::barrow_mass, "most in a barrow", 140, "kg", 100, 180,
     {Standing::assumption, "80 L of wet concrete is 190 kg: two thirds of it on soft ground"}},
    Norm{k::barrow_walk, "walking with a barrow", 45, "m/min", 30, 60, carrying},
    Norm{k::barrow_turn, "loading and tipping a barrow", 2.6, "min", 2, 5,
     {Standing::derived, "12.5 loads to the m3 in 1.0 h (scribd 579052623) leave 4.8 min a load; 50 m there "
     "and back takes 2.2"}},
    Norm{k::barrow_width, "narrowest way that a barrow passes", 0.7, "m", 0.6, 0.8,
     {Standing::common_practice, "barrow 0.6 m and knuckles"}},
    Norm{k::barrow_grade, "steepest way that a loaded barrow is pushed up", 0.17, "rise/length", 0.1, 0.25,
     {Standing::assumption, "about 1 in 6"}},
    Norm{k::barrow_grade_factor, "more time for each tenth of slope", 0.5, "factor per 0.1", 0.2, 1.0,
     {Standing::assumption, "half as long again at 1 in 10"}},
    Norm{k::barrow_steps, "most steps taken on a plank with a barrow", 3, "steps", 0, 5,
     {Standing::common_practice, "more than three: bucket it"}},
    Norm{k::barrow_step_time, "each step by plank, each load", 0.2, "min", 0.1, 0.5, carrying},
    Norm{k::bucket_load, "bucket load", 0.012, "m3", 0.008, 0.014,
     {Standing::assumption, "14 L builder's bucket, not brimming; about 25 kg of concrete"}},
    Norm{k::bucket_walk, "walking with two buckets", 40, "m/min", 25, 50, carrying},
    Norm{k::bucket_turn, "filling and emptying two buckets", 1.0, "min", 0.6, 1.5, carrying},
    Norm{k::bucket_step_time, "each step with two buckets, up and back", 0.05, "min", 0.03, 0.1, carrying},
    Norm{k::hand_bricks, "bricks carried in two hands with tongs", 16, "bricks", 8, 20,
     {Standing::assumption, "eight in each tong, 2 x 18 kg"}},
    Norm{k::wet_ground_factor, "carrying on sodden ground", 1.3, "factor", 1.1, 1.6,
     {Standing::assumption, "boards laid, smaller loads"}},
    Norm{k::dwarf_wall_factor, "short lengths, corners and steps against a straight wall", 1.2, "factor",
     1.15, 1.3, {Standing::from_memory, "15-30 % more"}},
    Norm{k::mate_serves, "share of the hours of laying that a mate who serves takes over", 0.2, "fraction",
     0.15, 0.35, {Standing::derived, "half-brick facing: 2.0 h/m2 of a mason, 0.5 of a labourer (scribd "
     "617796324); alone he does both"}},
    Norm{k::mortar_mixing, "mixing mortar by machine", 2.0, "h/m3", 1.5, 3.0,
     {Standing::sourced, "2 h/m3 (scribd 617796324)"}},
    Norm{k::mortar_mixing_hand, "mixing mortar by hand", 6.0, "h/m3", 4.0, 8.0,
     {Standing::sourced, "IS 7272 0.75 day/m3 of 8 h (scribd 391056131)"}},
    Norm{k::concrete_hand_factor, "pour mixed by hand against by machine", 2.0, "factor", 1.5, 2.5,
     {Standing::assumption, "mortar by hand takes three times the mixing; placing is the same"}},
    Norm{k::deep_dig, "digging by hand below 1 m", 5.2, "h/m3", 4.0, 6.6,
     {Standing::sourced, "BL501 1-2 m (scribd 638580882)"}},
    Norm{k::waste_bricks, "waste of bricks", 0.05, "fraction", 0.03, 0.1, waste},
    Norm{k::waste_mortar, "waste of mortar and sand", 0.10, "fraction", 0.05, 0.15, waste},
    Norm{k::waste_concrete, "waste of concrete", 0.10, "fraction", 0.05, 0.1, waste},
    Norm{k::waste_flags, "waste of flags", 0.05, "fraction", 0.05, 0.1, waste},
    Norm{k::sand_bulking, "swelling of damp sand", 0.2, "fraction", 0.15, 0.3,
     {Standing::sourced, "15-30 % at 2-5 % moisture (civilatwork)"}},
    Norm{k::subbase_compaction, "loose sub-base for one of compacted", 1.25, "factor", 1.2, 1.3,
     {Standing::from_memory, "order 1.25-1.3 times the compacted volume"}},
    Norm{k::flag_bed, "mortar bed under flags", 0.03, "m", 0.02, 0.05,
     {Standing::sourced, "BS 7533-9 extract: at least 20 mm compacted; 30 mm taken on garden sub-base"}},
    Norm{k::flag_joint_mortar, "mortar in the joints of flags", 0.0015, "m3/m2", 0.001, 0.003,
     {Standing::derived, "8 mm joints, 38 mm deep, about 4.4 m of joint to the m2 of 450 flags"}},
    Norm{k::plate_bed_mortar, "mortar bed under a wall plate", 0.001, "m3/m", 0.0005, 0.002,
     {Standing::derived, "100 mm wide and 10 mm thick"}},
    Norm{k::strap_spacing, "greatest distance between plate straps", 2.0, "m", 1.0, 2.0,
     {Standing::sourced, "designingbuildings.co.uk: straps at most 2 m apart"}},
    Norm{k::mixing_water, "water for mortar", 250, "litres/m3", 200, 300,
     {Standing::from_memory, "about 250 L/m3"}},
    Norm{k::frog_mortar, "mortar in a frog, laid up and filled", 0.000083, "m3 a brick", 0.00005, 0.00012,
     {Standing::from_memory, "estimators' tables: one frog adds 0.005 m3 to the m2 of half-brick wall, 60 "
     "bricks; laid frog down it is not filled and adds nothing"}},
    Norm{k::dpc_lap, "lap of a damp-proof course", 0.1, "m", 0.1, 0.15,
     {Standing::sourced, "at least 100 mm at any joint or corner (labcwarranty.co.uk, hints for horizontal "
     "damp-proof courses)"}},
    Norm{k::weep_spacing, "greatest distance between weep holes", 1.0, "m", 0.4, 1.2,
     {Standing::sourced, "about 1 m apart, a course above the lower ground (ask.com on brick retaining walls, "
     "low authority)"}},
    Norm{k::joint_give, "length that upright joints take up, each half brick", 0.001, "m", 0, 0.0015,
     {Standing::common_practice, "joints of 10 mm may be 2 mm wider, one to a brick, before one is cut"}},
    Norm{k::merchant_stop, "being served and loading at the merchant", 30, "min", 15, 60,
     {Standing::assumption, "a counter, a forklift and straps"}},
};
// clang-format on

// A table reads by rows.
// clang-format off
constexpr std::array<SoilRow, 6> soil_rows{{
    {Soil::garden, "garden", "garden soil", 0.78, 0.20, 1440,
     {Standing::sourced, "vegetable soil 0.75-0.9 of ordinary ground (BL501, multipliers read as output); "
     "bulking 1library; topsoil 1440 kg/m3"}},
    {Soil::sand, "sand", "sand", 0.73, 0.15, 1600,
     {Standing::sourced, "sand 0.66-0.8 of ordinary ground (BL501, multipliers read as output); bulking "
     "1library"}},
    {Soil::gravel, "gravel", "gravel", 1.2, 0.33, 1900,
     {Standing::assumption, "a fifth harder than ordinary ground; bulking 33 % (1library)"}},
    {Soil::firm_clay, "firm-clay", "firm clay", 1.0, 0.40, 1800,
     {Standing::assumption, "ordinary ground is taken as firm clay; bulking 40 % (1library)"}},
    {Soil::stiff_clay, "stiff-clay", "stiff clay", 1.24, 0.45, 1900,
     {Standing::derived, "hard against soft trench 4.96/4.0 h/m3 (IS 7272); bulking as boulder clay 45 % "
     "(1library)"}},
    {Soil::rock, "rock", "rock", 3.0, 0.60, 2300,
     {Standing::assumption, "breaker work, three times ordinary ground; bulking 60 % (1library)"}},
}};
// clang-format on

}  // namespace

std::span<const Norm> norms() {
  return table;
}

const Norm* find_norm(std::string_view key) {
  for (const Norm& row : table) {
    if (row.key == key) return &row;
  }
  return nullptr;
}

double norm(std::string_view key) {
  const Norm* found = find_norm(key);
  if (found == nullptr) throw std::invalid_argument("no norm \"" + std::string(key) + "\" in the table");
  return found->value;
}

std::span<const SoilRow> soils() {
  return soil_rows;
}

const SoilRow& row_for(Soil soil) {
  for (const SoilRow& row : soil_rows) {
    if (row.soil == soil) return row;
  }
  throw std::logic_error("soil without a row in the soil table");
}

}  // namespace weatherstruck::trade
