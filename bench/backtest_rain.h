#pragma once
// Whether the outlook takes forecasts to err as much in rain as the neighbour does.
#include <string>
#include <vector>

#include "backtest_weather.h"

namespace weatherstruck::bench {

struct RainErrors {
  double wet_after_dry = 0;      ///< share of the hours told dry that came wet (0.1 mm or more)
  double wet_after_wet = 0;      ///< of those told wet
  double hours_off = 0;          ///< root mean square of wet hours come less told, of twelve in the day
  double dry_day_wet_hours = 0;  ///< share of the days told dry that had two wet hours or more
};

/// From three to fifteen hours ahead of five in the morning UTC, each third day from 2012 on.
[[nodiscard]] RainErrors errors_of_neighbour(const History& truth, const History& neighbour);
/// The same of the weathers that the outlook draws around what the neighbour saw, ten a day.
[[nodiscard]] RainErrors errors_of_outlook(const History& neighbour);

/// One row of the table in docs/backtest.md.
[[nodiscard]] std::string rain_row(const std::string& title, const RainErrors& errors);

}  // namespace weatherstruck::bench
