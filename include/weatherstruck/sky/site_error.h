#pragma once
// How far forecasts have missed at one site, from those kept and what was measured there since, and what that
// says of those to come. docs/chance.md states the rule.
#include <span>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/observed.h"
#include "weatherstruck/sky/possible.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

/// Of one quantity: as many times as usual the forecasts were wrong, and how much that is worth.
struct Miss {
  int readings = 0;     ///< each against the newest forecast made before it; one an hour at most
  int half_days = 0;    ///< 12 h stretches with any: readings close together tell one thing
  double bias = 0;      ///< mean of measured less forecast: kelvins, or of the logarithm of the wind
  double of_usual = 1;  ///< root mean square of the misses, each over the usual one for its lead
  double times = 1;     ///< `of_usual` shrunk towards 1; 1 where there are too few
  [[nodiscard]] bool counts() const;
};

struct SiteError {
  Miss temperature;
  Miss wind;
  // Hours with measured rain, by what was forecast for them.
  int told_dry = 0;
  int told_dry_came_wet = 0;
  int told_wet = 0;
  int told_wet_came_dry = 0;
};

/// Fewer tell nothing and change nothing. Own choice, no source.
struct LearningRule {
  static constexpr int least_readings = 12;
  static constexpr int least_half_days = 4;
  /// The usual error weighs as so many half days: squares are averaged by weight.
  static constexpr int usual_weighs = 8;
  static constexpr double least_times = 0.6, most_times = 2.0;
};

/// @param issues  forecasts and series of a station's readings, in any order; a forecast without an issue
/// time is
///                passed over
/// @param temperatures read on site
[[nodiscard]] SiteError learn_site(std::span<const Series> issues,
                                   std::span<const TemperatureReading> temperatures,
                                   const ForecastError& usual = {});

/// The same series, its hours from `now` on with the errors that this site has had (Hour::temperature_error,
/// wind_error): the usual ones, or those of the source, so many times. Unchanged where nothing counts.
[[nodiscard]] Series with_errors_of(Series series, const SiteError& site, base::Instant now,
                                    const ForecastError& usual = {});

}  // namespace weatherstruck::sky
