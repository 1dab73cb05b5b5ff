#pragma once
// Norms of carrying, digging and waste: named numbers with range and source, for the measure floor.
#include <span>
#include <string_view>

#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

/// How far a figure ranges, as factors of it: low <= 1 <= high. What a chance is drawn from.
struct Spread {
  double low = 1;
  double high = 1;
};

struct Norm {
  std::string_view key;    ///< unique
  std::string_view title;  ///< plain words
  double value;
  std::string_view unit;
  double low, high;  ///< range seen or taken; low <= value <= high
  Source source;
  [[nodiscard]] constexpr Spread spread() const {
    return value == 0 ? Spread{} : Spread{low / value, high / value};
  }
};

namespace norm_key {
inline constexpr std::string_view barrow_base = "barrow-base";  ///< h/m3, within barrow_base_reach
inline constexpr std::string_view barrow_base_reach = "barrow-base-reach";  ///< m
inline constexpr std::string_view barrow_extra = "barrow-extra";            ///< h/m3 for each further m
inline constexpr std::string_view barrow_load = "barrow-load";              ///< m3
inline constexpr std::string_view barrow_bricks = "barrow-bricks";          ///< bricks a load
inline constexpr std::string_view barrow_mass = "barrow-mass";              ///< kg a load, the most
inline constexpr std::string_view barrow_walk = "barrow-walk";    ///< m/min, there and back taken together
inline constexpr std::string_view barrow_turn = "barrow-turn";    ///< min to load and tip one barrow
inline constexpr std::string_view barrow_width = "barrow-width";  ///< m, narrowest way it passes
inline constexpr std::string_view barrow_grade = "barrow-grade";  ///< steepest rise/length it is pushed up
inline constexpr std::string_view barrow_grade_factor =
    "barrow-grade-factor";  ///< time factor for each 0.1 of grade: 1 + this
inline constexpr std::string_view barrow_steps = "barrow-steps";  ///< most steps on planks; more: buckets
inline constexpr std::string_view barrow_step_time = "barrow-step-time";  ///< min a step and trip
inline constexpr std::string_view bucket_load = "bucket-load";            ///< m3, one bucket; two are carried
inline constexpr std::string_view bucket_walk = "bucket-walk";            ///< m/min with two buckets
inline constexpr std::string_view bucket_turn = "bucket-turn";            ///< min to fill and empty two
inline constexpr std::string_view bucket_step_time = "bucket-step-time";  ///< min a step and trip
inline constexpr std::string_view hand_bricks = "hand-bricks";  ///< bricks a trip in tongs, both hands
inline constexpr std::string_view wet_ground_factor =
    "wet-ground-factor";  ///< carrying time on sodden ground
inline constexpr std::string_view dwarf_wall_factor =
    "dwarf-wall-factor";                                            ///< time, short lengths and corners
inline constexpr std::string_view mortar_mixing = "mortar-mixing";  ///< h/m3 by machine
inline constexpr std::string_view mortar_mixing_hand = "mortar-mixing-hand";  ///< h/m3
inline constexpr std::string_view concrete_hand_factor =
    "concrete-hand-factor";                               ///< time of a pour mixed by hand
inline constexpr std::string_view deep_dig = "deep-dig";  ///< h/m3 below 1 m
inline constexpr std::string_view waste_bricks = "waste-bricks";
inline constexpr std::string_view waste_mortar = "waste-mortar";
inline constexpr std::string_view waste_concrete = "waste-concrete";
inline constexpr std::string_view waste_flags = "waste-flags";
inline constexpr std::string_view sand_bulking = "sand-bulking";  ///< damp sand, fraction
inline constexpr std::string_view subbase_compaction =
    "subbase-compaction";                                 ///< loose volume for one compacted
inline constexpr std::string_view flag_bed = "flag-bed";  ///< m, mortar bed under flags
inline constexpr std::string_view flag_joint_mortar = "flag-joint-mortar";  ///< m3/m2
inline constexpr std::string_view plate_bed_mortar = "plate-bed-mortar";    ///< m3/m
inline constexpr std::string_view strap_spacing = "strap-spacing";          ///< m
inline constexpr std::string_view mixing_water = "mixing-water";            ///< litres per m3 of mortar
inline constexpr std::string_view frog_mortar = "frog-mortar";      ///< m3 a brick, frog up and filled
inline constexpr std::string_view dpc_lap = "dpc-lap";              ///< m, at each joint and corner
inline constexpr std::string_view weep_spacing = "weep-spacing";    ///< m
inline constexpr std::string_view joint_give = "joint-give";        ///< m of length taken up by half a brick
inline constexpr std::string_view merchant_stop = "merchant-stop";  ///< min to be served and to load
inline constexpr std::string_view mate_serves = "mate-serves";      ///< share of the hours of laying
}  // namespace norm_key

[[nodiscard]] std::span<const Norm> norms();
/// nullptr where there is none.
[[nodiscard]] const Norm* find_norm(std::string_view key);
/// The value. @throws std::invalid_argument for a key that is not in the table
[[nodiscard]] double norm(std::string_view key);

/// Soil by kind: digging time against ordinary ground, and how much it swells when dug.
struct SoilRow {
  Soil soil;
  std::string_view key;    ///< "firm-clay"
  std::string_view title;  ///< "firm clay"
  double dig_factor;       ///< hours against the dig norm
  double bulking;          ///< fraction by which the volume grows when dug
  double kg_per_m3;        ///< in the ground
  Source source;
};
[[nodiscard]] std::span<const SoilRow> soils();
[[nodiscard]] const SoilRow& row_for(Soil soil);

}  // namespace weatherstruck::trade
