#pragma once
// Every number that the heat balance stands on, each once, with where it comes from. The table lists the same
// constants for print; docs/heat.md shows it, and a test holds the page to it.
#include <span>
#include <string_view>

namespace weatherstruck::matter {

namespace heat {

inline constexpr double concrete_conductivity = 2.0;    ///< W/(m K)
inline constexpr double concrete_density = 2400;        ///< kg/m3
inline constexpr double concrete_specific_heat = 1000;  ///< J/(kg K)

inline constexpr double clay_conductivity = 1.5;  ///< W/(m K)
inline constexpr double clay_capacity = 3.0e6;    ///< J/(m3 K)
inline constexpr double sand_conductivity = 2.0;
inline constexpr double sand_capacity = 2.0e6;

inline constexpr double ground_mean = 10;         ///< degrees C
inline constexpr double ground_amplitude = 7;     ///< K, at the surface
inline constexpr double ground_coldest_day = 30;  ///< day of the year, at the surface

inline constexpr double convection_still = 4;     ///< W/(m2 K)
inline constexpr double convection_per_wind = 4;  ///< W/(m2 K) for each m/s at the surface
inline constexpr double wind_height = 0.5;        ///< m
inline constexpr double stefan_boltzmann = 5.670374e-8;
inline constexpr double emissivity = 0.9;  ///< of concrete and of every cover
inline constexpr double sky_clear_at_0 = 0.72;
inline constexpr double sky_clear_per_degree = 0.005;
inline constexpr double sky_cloud = 0.84;
inline constexpr double sun_absorbed = 0.65;

inline constexpr double latent_heat_at_0 = 2.501e6;      ///< J/kg
inline constexpr double latent_heat_per_degree = -2361;  ///< J/(kg K)
inline constexpr double humidity_if_unknown = 0.8;

inline constexpr double cement_heat = 470e3;  ///< J/kg, if all of it hydrated
inline constexpr double hydration_time = 16;  ///< h of equivalent age, tau
inline constexpr double hydration_shape = 0.68;
inline constexpr double ultimate_scale = 1.031;
inline constexpr double ultimate_shift = 0.194;

inline constexpr double young_share = 0.0015;  ///< of the cement's heat, each hour, in the first nights

inline constexpr double hessian_resistance = 0.03;  ///< m2 K/W
inline constexpr double sheet_resistance = 0.08;
inline constexpr double mat_resistance = 0.30;
inline constexpr double hessian_evaporation = 0.6;  ///< share of the evaporation of a bare face

inline constexpr double largest_step = 30;        ///< min, of hydration and evaporation
inline constexpr double ground_depth = 3;         ///< m, below the strip and beside it
inline constexpr double open_arc = 0.7854;        ///< way to the trench's wall for each m from the strip
inline constexpr double open_ground_share = 0.5;  ///< share of the ground on that way that goes with a cell

}  // namespace heat

struct HeatConstant {
  std::string_view key;  ///< "concrete conductivity"
  double value;
  std::string_view unit;  ///< "W/(m K)"; "" for a pure number
  std::string_view
      standing;             ///< one of the words of trade/source.h: "sourced", "derived", "from memory", ...
  std::string_view source;  ///< the publication, or the reason; never empty
};

/// All constants above, in the order of docs/heat.md.
[[nodiscard]] std::span<const HeatConstant> heat_constants();

}  // namespace weatherstruck::matter
