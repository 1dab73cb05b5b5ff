#pragma once
// What many trips come to: how often it went as well as was told, how wide the luck of so many months makes
// that, and what the told chance is worth beside the mean of the season.
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "backtest_trip.h"

namespace weatherstruck::bench {

/// Middle of what was seen, and 19 in 20 of the resamplings.
struct Interval {
  double seen = 0;
  double low = 0;
  double high = 0;
};

/// Weather hangs together: a bad month is bad for all its trips. So whole calendar months are drawn, with
/// replacement, as many as there are (block bootstrap; Kuensch 1989, Efron & Tibshirani 1993).
/// @param value of some trips; those for which it is not a number are left out of the interval
[[nodiscard]] Interval by_months(const std::vector<TripSeen>& trips,
                                 const std::function<double(const std::vector<const TripSeen*>&)>& value,
                                 int draws = 2000, std::uint64_t seed = 1);

/// Mean of the squares of told less seen (Brier 1950).
[[nodiscard]] double brier(const std::vector<const TripSeen*>& trips);
/// For each trip what somebody would say who only knows how it went in its season (December to February,
/// ...) in other years than the one of its departure; with `each_job` of trips of that job alone.
[[nodiscard]] std::vector<double> season_means(const std::vector<TripSeen>& trips, bool each_job);
/// 1 less the told chance's Brier score over that of the season's mean.
[[nodiscard]] Interval skill(const std::vector<TripSeen>& trips, bool each_job);

struct Band {
  double from = 0, to = 0;  ///< told chance in [from, to); the last holds 1
  std::size_t trips = 0;
  double told = 0;  ///< on average
  Interval well;
};
/// Ten bands of ten points; those without trips are left out.
[[nodiscard]] std::vector<Band> bands(const std::vector<TripSeen>& trips);

/// The whole report, as the table of docs/backtest.md.
[[nodiscard]] std::string report(const std::vector<TripSeen>& trips, const std::vector<std::string>& jobs);
/// Told against seen, drawn in black on white.
[[nodiscard]] std::string picture(const std::vector<TripSeen>& trips);

/// What is wrong with the sums on numbers worked out by hand, a line each; empty: nothing.
[[nodiscard]] std::vector<std::string> faults_of_sums();

}  // namespace weatherstruck::bench
