#pragma once
// Every number that ages, setting, evaporation, drying and the wetness of ground stand on, each once. The
// table lists the same for print; those of the heat balance are in heat_constants.h.
#include <array>
#include <span>

#include "weatherstruck/matter/heat_constants.h"

namespace weatherstruck::matter {

namespace number {

// Ages of concrete
inline constexpr double gas = 8.314;                ///< J/(mol K)
inline constexpr double fhp_warm = 33500;           ///< J/mol from 20 degrees up
inline constexpr double fhp_per_degree = 1470;      ///< J/(mol K) below
inline constexpr double arrhenius_usual = 41500;    ///< J/mol
inline constexpr double eurocode_constant = 13.65;  ///< of B.10
inline constexpr double eurocode_kelvin = 4000;
inline constexpr double hydration_stops = -10;  ///< degrees C
inline constexpr double s_rapid = 0.20, s_normal = 0.25, s_slow = 0.38, s_early = 0.38;
inline constexpr double mean_over_characteristic = 8;  ///< N/mm2
inline constexpr double final_over_initial = 1.35;
inline constexpr double plastic_freezes = -4;  ///< degrees C
// Evaporation
inline constexpr double uno_scale = 5.275, uno_shift = 17.778, uno_still = 4.02336;
inline constexpr double menzel_scale = 0.315, menzel_still = 0.253, menzel_wind = 0.060;
inline constexpr double tetens_scale = 0.6108, tetens_factor = 17.27, tetens_shift = 237.3;
inline constexpr double roughness = 0.03;  ///< m
// Mortar
inline constexpr double quick_low = 1, quick_usual = 1.5, quick_high = 2;  ///< h
inline constexpr double slow_low = 5, slow_usual = 6.5, slow_high = 8;
inline constexpr double damp_from = 0.6, damp_factor = 0.5;
inline constexpr double windy_from = 1, windy_to = 6, windy_factor = 1.5;  ///< m/s
inline constexpr double frost_reference = 5;                               ///< degrees C
inline constexpr double hot_mix = 30;                                      ///< degrees C
inline constexpr double hot_life = 1;                                      ///< h
// Ground, mm of water and hours
inline constexpr std::array<double, 5> sandy{30, 5, 4, 15, 28};
inline constexpr std::array<double, 5> loamy{40, 10, 12, 15, 30};
inline constexpr std::array<double, 5> clayey{45, 15, 36, 18, 28};
inline constexpr double penman_scale = 2.6, penman_wind = 0.54;

}  // namespace number

using Constant = HeatConstant;

/// All constants above but the rows of setting times and what another table holds; rows of a kind of ground
/// one by one.
[[nodiscard]] std::span<const Constant> concrete_constants();
[[nodiscard]] std::span<const Constant> mortar_constants();
[[nodiscard]] std::span<const Constant> ground_constants();

/// Setting times of fresh concrete by its temperature (ACI/PCA handbook, from memory).
struct SetTime {
  double fahrenheit;
  double hours;  ///< to initial set
};
[[nodiscard]] std::span<const SetTime> set_times();

}  // namespace weatherstruck::matter
