#pragma once
// What the columns of a weather table are, told from its header.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plausible.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {

/// A time stands in one column, in date and clock, or in year, month, day of the month and clock.
enum class ColumnKind { date_and_time, date, year, month, day_of_month, clock, weather };

/// What -1 stands for where it is not itself.
enum class MinusOne { itself, trace, missing };

struct Column {
  std::size_t index = 0;
  ColumnKind kind = ColumnKind::weather;
  Measure measure = Measure::temperature;  ///< where kind is weather
  UnitRule rule;
  bool unit_said = false;
  bool unit_known = true;  ///< false: the fault is told once for the header, the values are passed over
  bool eighths = false;    ///< cloud in eighths: 9 says that the sky was not to be seen
  MinusOne minus_one = MinusOne::itself;
  std::string heading;
};

struct Header {
  char separator = ',';
  std::size_t fields = 0;
  std::vector<Column> columns;     ///< at most one of each kind and measure
  bool in_remark = false;          ///< it may stand behind a #
  bool utc = false;                ///< the time column's name says UTC
  bool epoch = false;              ///< the time column holds seconds since 1970
  bool rain_before_stamp = false;  ///< the column names are those of a service whose sums end at the stamp
  /// The rain's own heading says it: "rain last hour (mm)", "rain next hour (mm)".
  std::optional<sky::StampMeans> stamp_said;
};

/// The measure that a service's name stands for ("temperature_2m", "precipitation"); nullopt where it is
/// none.
[[nodiscard]] std::optional<Measure> measure_named(std::string_view name);
/// A unit as written in a header or an answer, without blanks, brackets and the degree sign.
[[nodiscard]] std::string plain_unit(std::string_view text);

/// The header in one line, if it is one: it has a time and at least one weather column under some separator.
[[nodiscard]] std::optional<Header> read_header(std::string_view line);

/// Faults of a header that was found: a unit not known, two columns for one thing.
[[nodiscard]] base::Faults header_faults(std::string_view line, std::size_t line_number);

/// Text of a stranger's file made fit for a message: bytes that are not plain ASCII become '?', cut at 40.
[[nodiscard]] std::string fit_to_show(std::string_view text);

}  // namespace weatherstruck::feed
