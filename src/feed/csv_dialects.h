#pragma once
// Tables whose short headings mean something else than they say, told by the whole of their header.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "csv_columns.h"

namespace weatherstruck::feed {

struct DialectColumn {
  std::string_view name;  ///< lower case, everything but letters and digits one underscore
  ColumnKind kind;
  Measure measure;
  UnitRule rule;
  MinusOne minus_one = MinusOne::itself;
};

struct Dialect {
  std::string_view name;
  std::vector<std::string_view> told_by;  ///< a header that has all of these is one
  std::vector<DialectColumn> columns;
  bool utc;
  bool rain_before_stamp;
};

/// @param names of a header's fields, as DialectColumn::name; nullptr where it is an ordinary table
[[nodiscard]] const Dialect* dialect_of(std::span<const std::string> names);

}  // namespace weatherstruck::feed
