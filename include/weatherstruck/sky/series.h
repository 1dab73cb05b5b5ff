#pragma once
// Weather as the rest of the program sees it: one record for each hour, UTC, half open. Values are
// quantised when they enter (0.1 units) so that thresholds behave alike everywhere. A value that the
// source did not give is absent, never zero.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::sky {

/// How an hour's value came to be.
enum class Origin {
  given,     ///< the source has this hour itself
  split,     ///< an equal or shaped share of a longer interval's total
  held,      ///< an instantaneous value between two of the source's steps, interpolated
  derived,   ///< computed from other values of the hour (gust from mean wind, ...)
  measured,  ///< a reading on site
  climate    ///< past years stand in, beyond the forecast
};

template <class T>
struct Value {
  T value{};
  Origin origin = Origin::given;
  friend bool operator==(const Value&, const Value&) = default;
};
template <class T>
using Maybe = std::optional<Value<T>>;

/// One hour [start, start + 1 h). Rain is what falls in it; the rest is what holds during it.
struct Hour {
  base::Instant start;
  Maybe<base::Celsius> temperature;
  Maybe<base::Celsius> dew_point;
  Maybe<base::Fraction> humidity;     ///< 0..1
  Maybe<base::MetresPerSecond> wind;  ///< mean at 10 m
  Maybe<base::MetresPerSecond> gust;  ///< greatest in the hour
  Maybe<base::Fraction> cloud;        ///< 0..1
  Maybe<base::Millimetres> rain;      ///< water equivalent, sum over the hour, not negative
  Maybe<base::Fraction> rain_chance;  ///< 0..1, that anything falls; of a longer interval where split
  /// How far the source itself expects to miss: standard deviations.
  Maybe<base::Kelvins> temperature_error;
  Maybe<base::MetresPerSecond> wind_error;
  /// Of a joined series: which of its parts the hour is from, and which has the values that one lacked.
  std::uint16_t part = 0;
  std::optional<std::uint16_t> filled_from;
};

/// One of the series that a joined one was made of.
struct Part {
  std::string source;
  std::string attribution;
  std::optional<base::Instant> issued;
  friend bool operator==(const Part&, const Part&) = default;
};

/// A fact about the series that a person should know, e.g. a layer that ends early.
struct SeriesNote {
  std::string code;  ///< "gap", "ends-early", "split", "derived-gust", ...
  std::string text;
};

/// What a thermometer on site last said of the forecast of its hour.
struct SeenError {
  base::Instant at;
  base::Kelvins off;  ///< read less forecast
  friend bool operator==(const SeenError&, const SeenError&) = default;
};

struct Series {
  std::string source;       ///< "MET Norway", "NWS", file name
  std::string attribution;  ///< what the licence asks to print; may be empty
  std::optional<base::Instant> issued;
  double latitude = 0;
  double longitude = 0;
  std::vector<Hour> hours;  ///< rising starts, contiguous: a missing hour is a record without values
  std::vector<SeriesNote> notes;
  std::vector<Part> parts;        ///< of a joined series; empty: all of one piece
  std::optional<SeenError> seen;  ///< where readings stand in it

  [[nodiscard]] bool empty() const { return hours.empty(); }
  [[nodiscard]] base::Instant begin_time() const { return hours.front().start; }
  [[nodiscard]] base::Instant end_time() const { return hours.back().start + std::chrono::hours(1); }
  /// The record of the hour that holds t, or nullptr outside.
  [[nodiscard]] const Hour* at(base::Instant t) const;
};

/// Rounds to 0.1 of the unit (fractions to 0.01), halves away from zero.
[[nodiscard]] base::Celsius quantised(base::Celsius v);
[[nodiscard]] base::Millimetres quantised(base::Millimetres v);
[[nodiscard]] base::MetresPerSecond quantised(base::MetresPerSecond v);
[[nodiscard]] base::Fraction quantised(base::Fraction v);

}  // namespace weatherstruck::sky
