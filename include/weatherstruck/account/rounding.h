#pragma once
// Whole numbers times a ratio, rounded once. Everything that is billed passes through here, so that there is
// one rule of rounding: half a minor unit goes away from zero, 0.5 to 1 and -0.5 to -1.
#include <cstdint>

namespace weatherstruck::account {

/// value * factor / divisor, rounded half away from zero; exact up to the rounding, without a wider type.
/// @param divisor 1..1'000'000
/// @throws std::invalid_argument for another divisor, std::overflow_error where the result or a step to it
/// does not fit
[[nodiscard]] std::int64_t scaled(std::int64_t value, std::int64_t factor, std::int64_t divisor);

/// whole * part / sum, rounded half away from zero: how much of a whole falls to a part of a sum.
/// @param whole 0..1e13
/// @param part 0..sum
/// @param sum 1..1e13
/// @throws std::invalid_argument outside these
[[nodiscard]] std::int64_t share_of(std::int64_t whole, std::int64_t part, std::int64_t sum);

/// What stands for one unit where quantities are whole thousandths, and for 100 % where rates are whole
/// hundredths of a percent.
inline constexpr std::int64_t one_unit = 1000;
inline constexpr std::int64_t whole_of_it = 10000;

}  // namespace weatherstruck::account
