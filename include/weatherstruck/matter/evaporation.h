#pragma once
// Evaporation from the surface of fresh concrete while it is plastic. Accuracy of the nomograph behind these
// is +-40 % (Hover; sourced). Results are never below 0 (warm damp air over cold concrete would condense).
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {

struct SurfaceAir {
  base::Celsius concrete;
  base::Celsius air;
  base::Fraction humidity;     ///< 0..1, clamped
  base::MetresPerSecond wind;  ///< mean wind half a metre above the surface, no gusts; see wind_at_height
};

/// Uno (ACI Materials Journal, 1998) with unrounded metric constants 5.275, 17.778, 4.02336, which reproduce
/// the US form (sourced). The one to use. Below -17.778 degrees the term is 0.
[[nodiscard]] base::KilogramsPerSquareMetreHour evaporation(const SurfaceAir& at);
/// Uno's rounded metric form: 5 ((Tc+18)^2.5 - r (Ta+18)^2.5) (V+4) 1e-6 (sourced, scribd 336806344); 4-5 %
/// low.
[[nodiscard]] base::KilogramsPerSquareMetreHour evaporation_rounded(const SurfaceAir& at);
/// Menzel: 0.315 (e0 - r ea) (0.253 + 0.060 V), kPa and km/h (constants from memory); vapour pressure by
/// Tetens.
[[nodiscard]] base::KilogramsPerSquareMetreHour evaporation_menzel(const SurfaceAir& at);

/// Pounds per square foot and hour, for reading US limits (1 lb/ft2/h is 4.8824 kg/m2/h).
[[nodiscard]] double pounds_per_square_foot_hour(base::KilogramsPerSquareMetreHour rate);

/// ACI 305R: precautions from here (sourced, UFGS 03300). The limits table takes its default from this.
inline constexpr base::KilogramsPerSquareMetreHour evaporation_precaution{1.0};
/// The same for blended or little-bleeding cement, and with silica fume (from memory).
inline constexpr base::KilogramsPerSquareMetreHour evaporation_precaution_blended{0.5};
inline constexpr base::KilogramsPerSquareMetreHour evaporation_precaution_silica_fume{0.25};

/// Mean wind at a height from a forecast for 10 m, by the logarithmic law over roughness 0.03 m (short grass;
/// assumption for a garden): factor ln(h/z0)/ln(10/z0), 0.484 at 0.5 m. A height at or below the roughness
/// gives 0.
/// @throws std::invalid_argument if wind is negative
[[nodiscard]] base::MetresPerSecond wind_at_height(base::MetresPerSecond wind_10m, base::Metres height,
                                                   base::Metres roughness = base::Metres(number::roughness));

/// Saturation vapour pressure over water, kPa, Tetens: 0.6108 exp(17.27 T / (T + 237.3)) (from memory).
[[nodiscard]] double saturation_pressure(base::Celsius temperature);

}  // namespace weatherstruck::matter
