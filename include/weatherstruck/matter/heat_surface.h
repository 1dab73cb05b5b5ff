#pragma once
// What the weather does to the top of a strip in its trench: convection, long-wave to the sky, sun, and
// covers as resistances, brought into one temperature that draws the face and one resistance in between.
#include <optional>

#include "weatherstruck/base/quantity.h"

namespace weatherstruck::matter {

/// What lies on the concrete. Under a canopy: bare, with cloud 1 (it hides the sky and lets the wind
/// through).
enum class HeatCover { bare, hessian, sheet, hessian_and_sheet, mat };

/// Weather of one step and the cover that lies on through it. Rain is left out: it is warmer than a frost.
struct Outside {
  base::Celsius air;
  base::MetresPerSecond wind_10m;                         ///< mean, no gusts; 0 or more
  std::optional<base::Fraction> cloud = std::nullopt;     ///< 0..1, clamped; absent: clear, the coldest
  std::optional<base::Fraction> humidity = std::nullopt;  ///< 0..1, clamped; absent: the constants' 0.8
  double sun = 0;  ///< W/m2 on level ground, 0 or more; left at 0 the sun is not counted on
  HeatCover cover = HeatCover::bare;
};

/// The face is drawn towards a temperature through a resistance.
struct Exchange {
  base::Celsius towards;
  double resistance = 0;  ///< m2 K/W, cover and air film; 0 holds the face at `towards`
};

/// m2 K/W from the constants; 0 for bare.
[[nodiscard]] double cover_resistance(HeatCover cover);
/// Share of a bare face's evaporation that a cover lets through: 1, 0.6 (hessian), 0.
[[nodiscard]] double cover_evaporation(HeatCover cover);

/// Share of the sky that the bottom of a long trench sees: sqrt(1 + (d/w)^2) - d/w (crossed strings;
/// textbooks of radiation). 1 for d = 0. @throws std::invalid_argument unless width is positive and depth 0
/// or more
[[nodiscard]] double sky_share(base::Metres depth, base::Metres width);

/// Long-wave emissivity of the sky against black at air temperature, Campbell & Norman: 0.72 + 0.005 T clear,
/// with cloud c (1 - 0.84 c) of that plus 0.84 c. Kept within 0..1.
[[nodiscard]] double sky_emissivity(base::Celsius air, base::Fraction cloud);

/// What the open air does, whatever lies in it.
struct OpenAir {
  double air = 0;         ///< degrees C
  double resistance = 0;  ///< m2 K/W of the film
  double sky = 0;  ///< K that a face which sees all of the sky is drawn below the air; the sun draws it up
};

/// Convection (EN ISO 6946: 4 + 4 v, v half a metre up), long-wave linearised at the air's temperature (a
/// face 10 K warmer radiates 5 % more than that).
/// @throws std::invalid_argument on a negative wind or sun
[[nodiscard]] OpenAir open_air(const Outside& outside);

/// The same with the cover, the sky through `sky`, the rest of the view at air temperature. @throws likewise
[[nodiscard]] Exchange surface_exchange(const Outside& outside, double sky);

/// The same for what lies open beside a strip, whatever covers the strip itself.
[[nodiscard]] Exchange open_exchange(Outside outside, double sky);

/// Heat that a face loses by evaporation, W/m2, by Uno (see evaporation.h), and how it grows for each degree
/// of the face. `wet` is the share of it that is wet.
struct Evaporating {
  double flux = 0;
  double slope = 0;  ///< W/(m2 K), 0 or more
};
[[nodiscard]] Evaporating evaporating(const Outside& outside, base::Celsius face, double wet = 1);

/// The exchange of a face that also evaporates, in a line about the temperature that `wet` was reckoned for.
/// @throws std::invalid_argument if it evaporates and the resistance is 0
[[nodiscard]] Exchange with_evaporation(const Exchange& dry, const Evaporating& wet, base::Celsius face);

/// How wet the face is by its age on the setting clock (hours at 20 degrees): 1 until initial set, bleed
/// water standing on it, then in a line to 0 at final set (assumption).
[[nodiscard]] double wet_share(base::Hours set);

}  // namespace weatherstruck::matter
