#pragma once
// The weather as it was: what was read on site laid over what was forecast for those hours.
#include <span>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

/// Air in the shade at a moment.
struct TemperatureReading {
  base::Instant at;
  base::Celsius air;
  friend bool operator==(const TemperatureReading&, const TemperatureReading&) = default;
};

/// What a gauge caught in [from, to), emptied at `from`; not negative.
struct RainReading {
  base::Instant from;
  base::Instant to;
  base::Millimetres rain;
  friend bool operator==(const RainReading&, const RainReading&) = default;
};

/// How much of a reading's difference from the forecast an hour is shifted by that is so far from it: all of
/// it nearer than one hour, less in a line to nothing at six hours (our choice, no source: a forecast that is
/// wrong now is wrong the same way for a few hours).
[[nodiscard]] double share_of_reading(std::chrono::seconds off);

struct Observed {
  Series series;
  /// Readings that could not be used: of two of the gauge that cannot both be true the one that ends later;
  /// one that ends before it begins or is negative; one more than 31 days off the series.
  std::vector<RainReading> rain_left_out;
  std::vector<TemperatureReading> temperatures_left_out;
};

/// Readings in any order. The series grows where one lies outside it; between, hours without values.
///
/// Temperature. A reading differs from the value of its hour by so many kelvins. The hours about it are
/// shifted by its share. Between two readings the shifts of both count by these weights; where the weights
/// come to more than 1, by their mean. The hour that holds a reading has it exactly, of several in an hour
/// their mean. An hour without a temperature gets one only from a reading in it. Origins: `measured` where
/// all of the shift counts, `derived` where part of it does (an hour of past years stays `climate`).
///
/// Rain. The total read is shared over its hours in the proportions of the forecast, evenly where the
/// forecast has none at all; an hour that the forecast does not know weighs as the mean of those it knows. In
/// whole 0.1 mm by split_total, so that the parts add to the reading rounded to 0.1 mm. Of an hour that it
/// covers in part the rest stays as forecast, or dry where there is none. A later total over the same gauge
/// not emptied between ("4 mm since six", then "6 mm since six") puts the difference into the hours after
/// the earlier one. All those hours are `measured`.
///
/// Nothing else of an hour changes; the last difference is kept as `seen`, for the weathers that may come.
/// Where anything was used the series has a note "measured".
[[nodiscard]] Observed observe(const Series& forecast, std::span<const TemperatureReading> temperatures,
                               std::span<const RainReading> rain);

}  // namespace weatherstruck::sky
