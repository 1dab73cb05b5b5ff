#pragma once
// Hardening and setting of concrete by temperature: how fast it ages, how strong it is at an age, when it
// sets. Pure functions of plain quantities. "Rate" is always the speed relative to 20 degrees C: an hour at
// rate 0.5 counts as half an hour at 20. Equivalent age is the sum of rate times hours.
//
// These are estimates for planning, not proof for loading.
#include <optional>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/constants.h"

namespace weatherstruck::matter {

/// Hydration stops below -10 degrees C (sourced: sikaconcrete.co.uk): every rate is 0 there. Above 80 the
/// rates stay at their value at 80 (EN 1992-1-1 B.10 is given for 0 to 80; down to -10 it is carried on).
inline constexpr base::Celsius hydration_stops{number::hydration_stops};
inline constexpr base::Celsius hottest_rated{80};

/// Nurse-Saul maturity of `time` at `temperature`: max(T - datum, 0) times hours. ASTM C1074 (form sourced,
/// scribd 478531652). Datum -10 (Saul; sourced as 14 F) or 0 (C1074 Type I, from memory).
/// @throws std::invalid_argument if time is negative
[[nodiscard]] base::KelvinHours nurse_saul(base::Celsius temperature, base::Hours time, base::Celsius datum);

/// ASTM C1074: exp(-Ea/R (1/T - 1/Ts)), kelvin, R = 8.314 (form sourced, studylib 25210779). `activation` in
/// J/mol, 40,000 to 45,000, usually 41,500 (from memory).
[[nodiscard]] double arrhenius_rate(base::Celsius temperature, double activation = number::arrhenius_usual,
                                    base::Celsius reference = base::Celsius(20));

/// The same with Freiesleben Hansen and Pedersen's activation: 33,500 J/mol from 20 degrees up, 33,500 +
/// 1,470 (20 - T) below (constants from memory). Steeper in the cold than the other two. Reference 20
/// degrees.
[[nodiscard]] double fhp_rate(base::Celsius temperature);

/// EN 1992-1-1 (B.10): exp(13.65 - 4000 / (273 + T)) (sourced, structuralcodes t_T). 0.998 at 20, not 1.
[[nodiscard]] double eurocode_rate(base::Celsius temperature);

enum class RateLaw { fhp, eurocode, arrhenius };
[[nodiscard]] double rate(RateLaw law, base::Celsius temperature);

/// Coefficients of EN 1992-1-1 3.1.2(6) by cement class (sourced, concrete.org.uk fingertips 1058).
inline constexpr double s_rapid = number::s_rapid;
inline constexpr double s_normal = number::s_normal;
inline constexpr double s_slow = number::s_slow;
/// The coefficient that, with fhp_rate and the mean cube strength, meets published early cold strengths. It
/// is a fitted constant (derived: four figures of one supplier's text), no claim about a cement class.
inline constexpr double s_early = number::s_early;

/// EN 1992-1-1 3.1.2(6): exp(s (1 - sqrt(28 d / age))) (sourced). 0 at age 0. The standard wants ages up to 3
/// days to rest on tests (from memory). @throws std::invalid_argument if age is negative or s is not positive
[[nodiscard]] double beta_cc(base::Hours equivalent_age, double s);

/// EN 1992-1-1 table 3.1: mean strength is the characteristic one and 8 N/mm2 (sourced).
[[nodiscard]] constexpr base::Megapascals mean_strength(base::Megapascals characteristic) {
  return characteristic + base::Megapascals(number::mean_over_characteristic);
}

/// How strength grows: mean strength at 28 days at 20 degrees, coefficient s, and the law of its clock.
struct StrengthLaw {
  base::Megapascals mean28;
  double s = s_early;
  RateLaw law = RateLaw::fhp;
};

/// The law for planning early and cold work: s_early with fhp_rate, from the mean cube strength. Gives 75 h
/// to 5 N/mm2 for C16/20 at 5 degrees (published: 3 days) and 57 h for C25/30 (published: 2 days); about 20 %
/// slow for C25/30, slightly quick at 7 days and 5 degrees. Rapid cement: the equivalent hours shrink by the
/// ratio of the classes (s_rapid / s_normal), slow cement: they grow likewise (assumption).
/// @param cube characteristic cube strength; `class_s` one of s_rapid, s_normal, s_slow
[[nodiscard]] StrengthLaw early_age_law(base::Megapascals cube, double class_s = s_normal);

/// EN 1992-1-1 throughout: (B.10) and 3.1.2(6), from the mean cylinder strength. Unsafe early and cold: 27 h
/// to 5 N/mm2 for C16/20 at 5 degrees against a published 72. Printed beside the other, never planned on.
[[nodiscard]] StrengthLaw eurocode_law(base::Megapascals cylinder, double class_s = s_normal);

/// Strength after an equivalent age. @throws std::invalid_argument if age is negative
[[nodiscard]] base::Megapascals strength_at(const StrengthLaw& law, base::Hours equivalent_age);

/// Equivalent age at which a strength is reached; nullopt if it never is (beyond mean28 times e^s).
/// 0 for a target of 0. @throws std::invalid_argument if target is negative
[[nodiscard]] std::optional<base::Hours> equivalent_hours_to(const StrengthLaw& law,
                                                             base::Megapascals target);

/// Initial set (ASTM C403, 500 psi penetration) of concrete kept at a temperature: 100 F 1 2/3 h, 90 2 2/3,
/// 80 4, 70 6, 60 8, 50 10 2/3, 40 14 2/3, 30 19 (ACI/PCA handbook, from memory; about doubling for 20 F,
/// NRMCA CIP 27, sourced). Between them the logarithm is interpolated; outside, the nearest row holds.
[[nodiscard]] base::Hours initial_set(base::Celsius concrete);
/// Final set (4,000 psi penetration): initial set times 1.35 (assumption; usual C403 curves give 1.3 to 1.5).
[[nodiscard]] base::Hours final_set(base::Celsius concrete);
/// initial_set(20) / initial_set(T): the rate of the setting clock. 0 below -4 degrees, where plastic
/// concrete freezes (25 F, NRMCA CIP 27, sourced).
[[nodiscard]] double setting_rate(base::Celsius concrete);

}  // namespace weatherstruck::matter
