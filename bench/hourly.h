#pragma once
// Weather by the hour as a mason sees it, drawn by a small model from a seed: warm days and cold nights with
// spells between, showers that come in bands, wind that keeps up for hours. Invented, for benchmarks only.
#include <cstdint>
#include <string>
#include <vector>

#include "weatherstruck/engine/network.h"

namespace weatherstruck::bench {

struct Hour {
  int temperature = 0;  ///< tenths of a degree Celsius
  int rain = 0;         ///< tenths of a millimetre in the hour
  int wind = 0;         ///< tenths of a metre a second
};

/// A cool spring: 6 C in the mean, an hour in nine wet. Quantised to tenths, so that it is the same anywhere.
[[nodiscard]] std::vector<Hour> draw_hours(int days, std::uint64_t seed);

/// Quarters of an hour of that weather, and the clocks that a job runs on, in this order. Work and time go by
/// in hundredths of a minute, rain in micrometres, frost in hundredths of a degree times minutes.
enum ClockName : engine::ClockId {
  digging,        ///< by day, but not in hard rain
  concreting,     ///< by day, from 3 C, dry or nearly
  bricklaying,    ///< likewise, slower in half light
  under_canopy,   ///< bricklaying where rain does not reach
  pointing,       ///< by day, from 4 C, dry
  any_weather,    ///< by day
  time_clock,     ///< always
  hardening,      ///< as if at 20 C (Saul 1951: by degrees above -10 C)
  hardening_mat,  ///< ... under a mat, 4 K warmer
  rain_clock,
  driven_rain,  ///< what of it drives in under a canopy
  frost,
  frost_mat,
  dark,
  wet_minutes,
  late_minutes,  ///< before eight and after half past four
  clock_count
};
[[nodiscard]] std::vector<engine::Clock> clocks_of(const std::vector<Hour>& hours, int ticks_per_slot);

}  // namespace weatherstruck::bench
