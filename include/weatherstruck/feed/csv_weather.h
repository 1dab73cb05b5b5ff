#pragma once
// Weather as a table: what stations, spreadsheets and services export. One header line, one row a step.
//
// Separator comma, semicolon or tab, found from the header; decimal comma where the separator is not one;
// quotes as in RFC 4180; a byte order mark is skipped; lines that begin with # are remarks. Missing: an empty
// field, NA, NaN, null, None, -, --, ---, ..., ?, or -9999 and -999. "T" for rain is a trace, taken as none.
// Units stand in the header, in brackets or after the name: degC, F, K; m/s, km/h, mph, kn; %, 0-1, okta; mm,
// cm, in. Without one: degC, m/s, %, mm. Tables of KNMI, the Deutscher Wetterdienst and Met Eireann, and one
// in imperial units that no heading shows, are told by the whole of their header (src/feed/csv_dialects.cpp).
// Times: ISO 8601 with or without an offset, dd.mm.yyyy hh:mm, dd-mon-yyyy hh:mm, yyyymmddhh, seconds since
// 1970, in one column, or date and time in two, or year, month, day and hour in four; hours 0 to 24. A local
// hour that the clocks give twice has a row for each.
// Rain falls in the time after the stamp unless the names are of a service that sums before it, or the
// heading says so: "rain last hour (mm)", "rain next hour (mm)".
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// @param name   becomes the series' source
/// @param faults gets every fault, places "line 12"; at most 50, then one that says how many more
/// @return an empty series where there are faults
[[nodiscard]] sky::Series read_csv_weather(std::string_view name, std::string_view text,
                                           const ReadOptions& options, base::Faults& faults);

/// True where the first line that is not a remark has a time column and at least one weather column.
[[nodiscard]] bool looks_like_csv_weather(std::string_view text);

/// Fields of one line; nullopt where a quote is not closed or stands inside a bare field.
[[nodiscard]] std::optional<std::vector<std::string>> split_csv_line(std::string_view line, char separator);

}  // namespace weatherstruck::feed
