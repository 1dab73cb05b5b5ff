#pragma once
// Years of observed hours, and the forecasts that a trip in them is made on: what a neighbouring station saw
// stands for what was foretold, fading by day four into another year, so that errors of timing and of amount
// are real ones and not those of our own model.
#include <cstdint>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::bench {

/// What held during one hour: temperatures are the mean of its two ends.
struct ObservedHour {
  double temperature = 0, dew_point = 0, humidity = 0;  ///< degrees, degrees, 0..1
  double rain = 0, wind = 0, gust = 0, cloud = 0;       ///< mm, m/s, m/s, 0..1
};

class History {
 public:
  /// Rows without a gap: start of the hour in UTC, temperature and dew point at its end, humidity in per
  /// cent, rain of the hour, hours of rain (not read), mean wind, greatest gust, cloud in eighths.
  /// @throws std::runtime_error naming file and line
  static History read(const std::string& gz_file);
  History(base::Instant first, std::vector<ObservedHour> hours) : first_(first), hours_(std::move(hours)) {}

  [[nodiscard]] base::Instant first() const { return first_; }
  [[nodiscard]] base::Instant end() const {
    return first_ + std::chrono::hours(static_cast<std::int64_t>(hours_.size()));
  }
  /// @throws std::out_of_range
  [[nodiscard]] const ObservedHour& at(base::Instant hour) const;

 private:
  base::Instant first_;
  std::vector<ObservedHour> hours_;
};

/// Half open, on whole hours.
struct Stretch {
  base::Instant from;
  base::Instant to;
};

struct PlaceDifference;  // backtest_place.h

/// What came, quantised as all weather that enters.
[[nodiscard]] sky::Series as_observed(const History& station, Stretch hours);
/// What each morning's forecast said of it: until `now` what came, then what the neighbour saw.
[[nodiscard]] sky::Series as_foreseen(const History& truth, const History& neighbour,
                                      const PlaceDifference& place, base::Instant now, Stretch hours);

struct ForecastMade {
  const History& truth;
  const History& neighbour;
  const PlaceDifference& place;
  base::Instant at;        ///< hours before are the truth
  int years_on = 0;        ///< to the other year of the neighbour, for what lies far ahead; may be negative
  std::uint64_t seed = 1;  ///< one for all forecasts of a trip: which six hours come from which year
};
[[nodiscard]] sky::Series forecast_of(const ForecastMade& made, Stretch hours);

/// How much of the other year is in an hour so far ahead: nothing on the first day, all after the fourth.
[[nodiscard]] double share_of_other_year(std::chrono::seconds ahead);
/// A year from which the tested one and its neighbours are left out; both ends may come.
[[nodiscard]] int another_year(int tested, int first, int last, std::uint64_t seed);
/// The same day and hour of another year; of 29 February the 28th.
[[nodiscard]] base::Instant in_year(base::Instant hour, int year);

}  // namespace weatherstruck::bench
