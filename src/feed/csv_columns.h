#pragma once
// What the columns of a weather table are, told from its header.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plausible.h"
#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {

enum class ColumnKind { date_and_time, date, clock, weather };

struct Column {
  std::size_t index = 0;
  ColumnKind kind = ColumnKind::weather;
  Measure measure = Measure::temperature;  ///< where kind is weather
  UnitRule rule;
  bool unit_said = false;
  bool unit_known = true;  ///< false: the fault is told once for the header, the values are passed over
  std::string heading;
};

struct Header {
  char separator = ',';
  std::size_t fields = 0;
  std::vector<Column> columns;     ///< at most one of each kind and measure
  bool utc = false;                ///< the time column's name says UTC
  bool epoch = false;              ///< the time column holds seconds since 1970
  bool rain_before_stamp = false;  ///< the column names are those of a service whose sums end at the stamp
};

/// The header in one line, if it is one: it has a time and at least one weather column under some separator.
[[nodiscard]] std::optional<Header> read_header(std::string_view line);

/// Faults of a header that was found: a unit not known, two columns for one thing.
[[nodiscard]] base::Faults header_faults(std::string_view line, std::size_t line_number);

/// Text of a stranger's file made fit for a message: bytes that are not plain ASCII become '?', cut at 40.
[[nodiscard]] std::string fit_to_show(std::string_view text);

}  // namespace weatherstruck::feed
