#include "csv_dialects.h"

#include <algorithm>

namespace weatherstruck::feed {
namespace {

constexpr Measure kTime = Measure::temperature;  // a time column measures nothing
constexpr UnitRule kAsIs{1, 0};
constexpr UnitRule kTenth{0.1, 0};
constexpr UnitRule kPercent{0.01, 0};
constexpr UnitRule kOkta{0.125, 0};
constexpr UnitRule kFahrenheit{5.0 / 9.0, -160.0 / 9.0};
constexpr UnitRule kMph{0.44704, 0};
constexpr UnitRule kKnots{1852.0 / 3600.0, 0};
constexpr UnitRule kInch{25.4, 0};

// Each by the remarks that its publisher puts above the rows or beside the file; read from memory, since
// none of them is a standard.
const std::vector<Dialect>& dialects() {
  static const std::vector<Dialect> table{
      // KNMI, hourly: everything in tenths, hours 1 to 24 that end at the stamp, UTC.
      {"KNMI",
       {"yyyymmdd", "hh"},
       {{"yyyymmdd", ColumnKind::date, kTime, kAsIs},
        {"hh", ColumnKind::clock, kTime, kAsIs},
        {"t", ColumnKind::weather, Measure::temperature, kTenth},
        {"td", ColumnKind::weather, Measure::dew_point, kTenth},
        {"u", ColumnKind::weather, Measure::humidity, kPercent},
        {"fh", ColumnKind::weather, Measure::wind, kTenth},
        {"fx", ColumnKind::weather, Measure::gust, kTenth},
        {"n", ColumnKind::weather, Measure::cloud, kOkta},
        {"rh", ColumnKind::weather, Measure::rain_in_an_hour, kTenth, MinusOne::trace}},
       true,
       true},
      // Deutscher Wetterdienst, climate data centre, hourly: UTC, sums end at the stamp.
      {"DWD",
       {"mess_datum"},
       {{"mess_datum", ColumnKind::date_and_time, kTime, kAsIs},
        {"tt_tu", ColumnKind::weather, Measure::temperature, kAsIs},
        {"td", ColumnKind::weather, Measure::dew_point, kAsIs},
        {"rf_tu", ColumnKind::weather, Measure::humidity, kPercent},
        {"f", ColumnKind::weather, Measure::wind, kAsIs},
        {"v_n", ColumnKind::weather, Measure::cloud, kOkta, MinusOne::missing},
        {"r1", ColumnKind::weather, Measure::rain_in_an_hour, kAsIs}},
       true,
       true},
      // Met Eireann, hourly: UTC, knots, sums end at the stamp.
      {"Met Eireann",
       {"date", "rain", "wetb", "rhum"},
       {{"date", ColumnKind::date_and_time, kTime, kAsIs},
        {"temp", ColumnKind::weather, Measure::temperature, kAsIs},
        {"dewpt", ColumnKind::weather, Measure::dew_point, kAsIs},
        {"rhum", ColumnKind::weather, Measure::humidity, kPercent},
        {"wdsp", ColumnKind::weather, Measure::wind, kKnots},
        {"clamt", ColumnKind::weather, Measure::cloud, kOkta},
        {"rain", ColumnKind::weather, Measure::rain_in_an_hour, kAsIs}},
       true,
       true},
      // The weather table of the New York flights data set: imperial units that no heading shows.
      {"flights",
       {"time_hour", "temp", "dewp", "humid", "precip"},
       {{"time_hour", ColumnKind::date_and_time, kTime, kAsIs},
        {"temp", ColumnKind::weather, Measure::temperature, kFahrenheit},
        {"dewp", ColumnKind::weather, Measure::dew_point, kFahrenheit},
        {"humid", ColumnKind::weather, Measure::humidity, kPercent},
        {"wind_speed", ColumnKind::weather, Measure::wind, kMph},
        {"wind_gust", ColumnKind::weather, Measure::gust, kMph},
        {"precip", ColumnKind::weather, Measure::rain_in_an_hour, kInch}},
       false,
       false},
  };
  return table;
}

}  // namespace

const Dialect* dialect_of(std::span<const std::string> names) {
  const auto has = [&](std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  for (const Dialect& dialect : dialects()) {
    if (std::all_of(dialect.told_by.begin(), dialect.told_by.end(), has)) return &dialect;
  }
  return nullptr;
}

}  // namespace weatherstruck::feed
