#pragma once
// The weathers that may come of a forecast: each as likely as the next, each the forecast with the errors
// that forecasts make. Errors grow with lead and hang together in time, since that is what hurts: not one wet
// hour but a wet afternoon. docs/chance.md has the model with its sources.
#include <cstdint>

#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

/// How wrong forecasts are, where an hour does not say so itself (Hour::temperature_error, wind_error).
/// docs/chance.md says which of the defaults are published and which assumed.
struct ForecastError {
  /// Standard deviation of the temperature at no lead, at half a day, and what each further day adds.
  base::Kelvins at_once{0.66};
  base::Kelvins at_half_a_day{1.44};
  base::Kelvins each_day{0.28};
  base::Kelvins most{3.2};
  double temperature_memory = 0.94;  ///< correlation of two hours that follow each other
  double wind = 0.25;                ///< standard deviation of the logarithm, at no lead
  double wind_each_day = 0.05;
  double wind_most = 0.5;
  double wind_memory = 0.90;
  double rain_memory = 0.80;  ///< of what makes an hour wet
  double rain_amount = 0.6;   ///< standard deviation of the logarithm of a wet hour's amount
  base::Hours rain_early_or_late{1.0};
  base::Hours rain_early_or_late_each_day{0.8};
  base::Fraction wet_hours{0.115};            ///< of all hours of the year, beyond the reach of forecasts
  base::Millimetres rain_of_a_wet_hour{0.9};  ///< on average
};

/// One weather, and what the forecast of each morning will have said of it: nearer to it than today's, and
/// still wrong.
struct PossibleWeather {
  Series comes;
  Series foreseen;
};

/// @param forecast values that it lacks are lacking in what is drawn too
/// @param now      hours before it are given back as they are; lead counts from the issue, or from now
/// @param number   from 0: the same seed and number give the same weather, whatever else is drawn
/// Where a thermometer has shown the forecast to be off (Series::seen), its error begins there and is
/// forgotten hour by hour. Values are quantised as all that enters, and rain keeps to multiples of 0.1 mm.
[[nodiscard]] PossibleWeather draw_weather(const Series& forecast, base::Instant now, std::uint64_t seed,
                                           int number, const ForecastError& error = {});

}  // namespace weatherstruck::sky
