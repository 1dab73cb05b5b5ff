#pragma once
// From what a source says (readings at moments, values and totals over intervals) to the one hourly
// Series. Every reader of a service or file goes through here, so that splitting, interpolating, gaps
// and rounding are the same for all.
#include <array>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

/// What can be read at a moment or hold over an interval. Units below: degrees Celsius, fraction 0..1, m/s.
enum class Layer { temperature, dew_point, humidity, wind, gust, cloud };
inline constexpr std::size_t kLayers = 6;

/// A reading at a moment.
struct Moment {
  base::Instant at;
  double value = 0;
};

/// A value that holds over, or the total of, the half-open interval [from, to).
struct Stretch {
  base::Instant from;
  base::Instant to;
  double value = 0;
};

/// Whether a stamp names the beginning or the end of the hour whose rain stands beside it.
/// MET Norway and NWS: the hour that follows. Open-Meteo, MOSMIX, most stations: the hour before.
enum class StampMeans { start_of_hour, end_of_hour };

/// Greatest gust of an hour over the hour's mean wind, 90th percentile of 14 years of hourly readings at
/// KNMI stations with a mean of 3 m/s or more: open coast 1.75, exposed 2.00, inland 2.33 (measured for
/// this project). Inland is the standard: the work stands in gardens, and the larger factor is the safe side.
struct GustFactor {
  static constexpr double coast = 1.75;
  static constexpr double exposed = 2.00;
  static constexpr double inland = 2.33;
};

/// The chance that an hour is wet, from what a forecast without chances says falls in it and how many days it
/// is ahead: 0.03 for nothing, 0.6 to 0.92 by the amount, fading with exp(-days / 4) to the share of all
/// hours (docs/chance.md; assumed but for that share).
[[nodiscard]] double usual_chance(base::Millimetres falls, double days_ahead, base::Fraction wet_hours);
/// Of all hours of the year; 14 years of KNMI stations: 0.11 to 0.12.
inline constexpr base::Fraction kWetHours{0.115};

/// Splits a total over parts in proportion to `weights` (not negative, at least one positive) so that
/// every part is a whole number of 0.1 mm and the parts add to the total rounded to 0.1 mm. Largest
/// remainder; equal remainders go to the earlier part.
/// @throws std::invalid_argument for weights as above, or a total that is negative or not finite
[[nodiscard]] std::vector<base::Millimetres> split_total(base::Millimetres total,
                                                         std::span<const double> weights);

/// 50 years and some days, a hundred megabytes.
inline constexpr std::chrono::days kLongestSeries{18'300};

/// Collects what a source says and hands back the series. Call order does not matter.
class SeriesBuilder {
 public:
  /// Records for every hour that touches [begin, end).
  /// @throws std::invalid_argument unless begin < end and the span is at most kLongestSeries
  SeriesBuilder(base::Instant begin, base::Instant end);

  /// Readings at moments, in any order; of two at one moment the later given wins. The hour that begins
  /// with a reading has it (given). Between two readings at most `longest_step` apart hours are
  /// interpolated (held); across a longer gap they stay without a value. After the last reading nothing.
  void moments(Layer layer, const std::vector<Moment>& readings, std::chrono::seconds longest_step);
  /// The same for what the source says of its own errors: temperature or wind, standard deviations, not
  /// negative. @throws std::invalid_argument for another layer
  void errors(Layer layer, const std::vector<Moment>& readings, std::chrono::seconds longest_step);
  /// Values that hold over intervals. An hour takes the value of the interval that covers most of it, the
  /// earlier of equals: given where the interval is one hour, held otherwise.
  void holding(Layer layer, const std::vector<Stretch>& stretches);
  /// Rain totals, millimetres, over intervals that do not overlap. Each is split evenly over its time by
  /// split_total; pieces shorter than an hour are first added up. An hour of which a part is not covered
  /// has no rain value.
  /// @throws std::invalid_argument where two overlap (see first_overlap) or a value is negative
  void rain_totals(std::vector<Stretch> stretches);
  /// The chance that anything falls over each interval, 0..1. It stays the chance of the whole interval.
  void rain_chances(const std::vector<Stretch>& stretches);
  /// A fact to be told with the series.
  void note(std::string code, std::string text);
  /// Where an hour has a mean wind and no gust: gust = factor x wind, marked derived, and one note.
  void derive_gusts(double factor);
  /// Gusts of hours that have none, from bounds by the hour's start: nothing stronger comes; marked derived.
  void bound_gusts(const std::map<base::Instant, double>& bounds);
  /// Where an hour has rain and no chance of any: by usual_chance, marked derived, and one note. Nothing
  /// where the issue is not known, since then neither is how far ahead the hour was.
  void derive_rain_chances(const std::optional<base::Instant>& issued);
  /// Where an hour has temperature and dew point and no humidity: by the Magnus form, marked derived.
  void derive_humidity();

  /// The series with source, attribution, place and issue taken from `heading`, hours from here. Adds notes:
  /// "gap" (hours without any value, or without one layer, inside the series), "ends-early" (a layer that
  /// stops before the others), "absent" (no temperature, wind or rain anywhere), "split" (rain of longer
  /// intervals shared out), "held" (values between the source's steps). Hours without any value at both ends
  /// are dropped.
  [[nodiscard]] Series finish(Series heading) const;

 private:
  [[nodiscard]] std::size_t index_of(base::Instant hour_start) const;
  void at_hours(const std::vector<Moment>& readings, std::chrono::seconds longest_step,
                const std::function<void(Hour&, double, Origin)>& take);
  void put(Layer layer, Hour& hour, double value, Origin origin) const;
  base::Instant begin_;
  std::vector<Hour> hours_;
  std::vector<SeriesNote> notes_;
};

/// The first pair, in order of time, of which the later begins before the earlier ends: the later one.
[[nodiscard]] std::optional<Stretch> first_overlap(std::vector<Stretch> stretches);

/// Two series as one: hour by hour and value by value the one issued later (the second argument where
/// either does not say) wins, and what it does not have comes from the other, and so does what was measured.
/// A gust always comes
/// from the same series as its wind, and so do errors from that of their values. Hours between the two are
/// records without values, with a "gap" note. Source, place and issue are the winner's; `parts` tells of each
/// hour where it is from, and the attribution is that of all parts of which something is left.
[[nodiscard]] Series join(const Series& a, const Series& b);

/// The hours that touch [from, to); may be empty.
[[nodiscard]] Series cut(const Series& series, base::Instant from, base::Instant to);

}  // namespace weatherstruck::sky
