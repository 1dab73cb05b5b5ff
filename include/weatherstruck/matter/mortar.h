#pragma once
// Stiffening of mortar joints, their safety from frost, and how long a mix can be used. No standard gives
// jointing times; what stands here is a stated model for planning, and the thumb has the last word. What
// class and binder change of it stands in trade/mortar_behaviour.h.
#include "weatherstruck/base/quantity.h"

namespace weatherstruck::matter {

enum class Suction {
  quick,  ///< facing and common bricks: draw water from the bed
  slow    ///< engineering bricks
};

struct HourRange {
  base::Hours low, usual, high;
};

/// Hours at 20 degrees, dry and still, until a joint is thumbprint hard: quick 1 to 2, slow 5 to 8
/// (assumption; that low-suction bricks laid first thing may not be ready till late afternoon is sourced,
/// zhclg.com timing of jointing).
[[nodiscard]] HourRange thumbprint_hours(Suction suction);

/// Rate of the stiffening clock: fhp_rate(T) times a factor for drying air. 1 at 20 degrees, up to 60 %
/// humidity and 1 m/s. Factors (assumption): humidity falls in a line from 1 at 60 % to 0.5 at 100 %; wind
/// rises in a line from 1 at 1 m/s to 1.5 at 6 m/s; outside those ends they are held. 0 below -10 degrees.
/// @param humidity 0..1, clamped  @param wind near the wall; see wind_at_height
[[nodiscard]] double stiffening_rate(base::Celsius air, base::Fraction humidity, base::MetresPerSecond wind);
/// The factor of drying air in it, 0.5..1.5.
[[nodiscard]] double drying_factor(base::Fraction humidity, base::MetresPerSecond wind);

/// Reference amount on the frost clock after which a joint survives one freeze: 8 h at 5 degrees (CRREL SR
/// 97-16: kept at 40 F, about 5 degrees, or more for 8 h; sourced) taken at fhp_rate(5) = 0.2925, so 2.34
/// (derived). Colder hours above freezing count less (derived, not in the source). With very absorbent bricks
/// 4 to 8 h dry it enough anyway (sourced).
/// @param at_five hours at 5 degrees or warmer that make this mortar safe; > 0
[[nodiscard]] base::Hours mortar_frost_safe_hours(base::Hours at_five = base::Hours(8));
/// Rate of the frost clock: fhp_rate, but never more than at 5 degrees, so that no warmth makes it less than
/// the source's 8 h; 0 at or below 0 degrees, where the water in the joint freezes (assumption).
[[nodiscard]] double mortar_frost_rate(base::Celsius air);

/// How long a mix can be used: the limit given (of cement mortar 2 h uk, 2.5 h us: limits table), at most 1 h
/// above 30 degrees (from memory).
[[nodiscard]] base::Hours workable_life(base::Celsius air, base::Hours limit);

}  // namespace weatherstruck::matter
