#include "csv_columns.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "csv_dialects.h"
#include "weatherstruck/feed/csv_weather.h"

namespace weatherstruck::feed {
namespace {

struct Synonym {
  std::string_view name;
  ColumnKind kind;
  Measure measure;
  int rank;               // of two columns for one thing the lower rank is taken
  std::string_view unit;  // what the column holds where the header does not say; empty: our own unit
};

constexpr Measure kNone = Measure::temperature;  // a time column measures nothing

// Column names as services and stations write them: CF and MET Norway names, Open-Meteo variables, Met
// Eireann's short names (its wdsp is in knots), and plain English. Short names that mean something else than
// they say stand in csv_dialects.cpp, each with the header that tells it.
constexpr std::array<Synonym, 63> kSynonyms{{
    {"time", ColumnKind::date_and_time, kNone, 0, ""},
    {"datetime", ColumnKind::date_and_time, kNone, 0, ""},
    {"date_time", ColumnKind::date_and_time, kNone, 0, ""},
    {"timestamp", ColumnKind::date_and_time, kNone, 0, ""},
    {"valid_time", ColumnKind::date_and_time, kNone, 0, ""},
    {"time_start", ColumnKind::date_and_time, kNone, 0, ""},
    {"epoch", ColumnKind::date_and_time, kNone, 0, ""},
    {"unix_time", ColumnKind::date_and_time, kNone, 0, ""},
    {"date", ColumnKind::date, kNone, 0, ""},
    {"day", ColumnKind::date, kNone, 1, ""},
    {"year", ColumnKind::year, kNone, 0, ""},
    {"month", ColumnKind::month, kNone, 0, ""},
    {"clock", ColumnKind::clock, kNone, 0, ""},
    {"time_of_day", ColumnKind::clock, kNone, 0, ""},
    {"hour", ColumnKind::clock, kNone, 1, ""},
    {"temperature", ColumnKind::weather, Measure::temperature, 0, ""},
    {"air_temperature", ColumnKind::weather, Measure::temperature, 0, ""},
    {"temperature_2m", ColumnKind::weather, Measure::temperature, 0, ""},
    {"outdoor_temperature", ColumnKind::weather, Measure::temperature, 0, ""},
    {"air_temp", ColumnKind::weather, Measure::temperature, 0, ""},
    {"temp", ColumnKind::weather, Measure::temperature, 0, ""},
    {"dew_point", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"dewpoint", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"dew_point_2m", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"dewpoint_2m", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"dew_point_temperature", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"dewpt", ColumnKind::weather, Measure::dew_point, 0, ""},
    {"humidity", ColumnKind::weather, Measure::humidity, 0, ""},
    {"relative_humidity", ColumnKind::weather, Measure::humidity, 0, ""},
    {"relative_humidity_2m", ColumnKind::weather, Measure::humidity, 0, ""},
    {"relativehumidity_2m", ColumnKind::weather, Measure::humidity, 0, ""},
    {"rh", ColumnKind::weather, Measure::humidity, 0, ""},
    {"rhum", ColumnKind::weather, Measure::humidity, 0, ""},
    {"outdoor_humidity", ColumnKind::weather, Measure::humidity, 0, ""},
    {"wind", ColumnKind::weather, Measure::wind, 0, ""},
    {"wind_speed", ColumnKind::weather, Measure::wind, 0, ""},
    {"windspeed", ColumnKind::weather, Measure::wind, 0, ""},
    {"wind_speed_10m", ColumnKind::weather, Measure::wind, 0, ""},
    {"windspeed_10m", ColumnKind::weather, Measure::wind, 0, ""},
    {"mean_wind_speed", ColumnKind::weather, Measure::wind, 0, ""},
    {"wdsp", ColumnKind::weather, Measure::wind, 0, "kn"},
    {"gust", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_gust", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_gusts", ColumnKind::weather, Measure::gust, 0, ""},
    {"gust_speed", ColumnKind::weather, Measure::gust, 0, ""},
    {"windgust", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_gusts_10m", ColumnKind::weather, Measure::gust, 0, ""},
    {"windgusts_10m", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_speed_of_gust", ColumnKind::weather, Measure::gust, 0, ""},
    {"cloud", ColumnKind::weather, Measure::cloud, 0, ""},
    {"cloud_cover", ColumnKind::weather, Measure::cloud, 0, ""},
    {"cloudcover", ColumnKind::weather, Measure::cloud, 0, ""},
    {"cloud_area_fraction", ColumnKind::weather, Measure::cloud, 0, ""},
    {"precipitation", ColumnKind::weather, Measure::rain_in_an_hour, 0, ""},
    {"precipitation_amount", ColumnKind::weather, Measure::rain_in_an_hour, 0, ""},
    {"precip", ColumnKind::weather, Measure::rain_in_an_hour, 0, ""},
    {"hourly_rain", ColumnKind::weather, Measure::rain_in_an_hour, 1, ""},
    {"rainfall", ColumnKind::weather, Measure::rain_in_an_hour, 1, ""},
    {"rain", ColumnKind::weather, Measure::rain_in_an_hour, 1,
     ""},  // beside precipitation: rain without snow
    {"precipitation_probability", ColumnKind::weather, Measure::rain_chance, 0, ""},
    {"probability_of_precipitation", ColumnKind::weather, Measure::rain_chance, 0, ""},
    {"chance_of_rain", ColumnKind::weather, Measure::rain_chance, 0, ""},
    {"pop", ColumnKind::weather, Measure::rain_chance, 0, ""},
}};

// Lower case, everything but letters and digits one underscore, none at the ends.
std::string plain_name(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (letter)
      out += c;
    else if (capital)
      out += static_cast<char>(c - 'A' + 'a');
    else if (!out.empty() && out.back() != '_')
      out += '_';
  }
  while (!out.empty() && out.back() == '_')
    out.pop_back();
  return out;
}

const Synonym* find_name(std::string_view name) {
  const auto* found =
      std::find_if(kSynonyms.begin(), kSynonyms.end(), [&](const Synonym& s) { return s.name == name; });
  return found == kSynonyms.end() ? nullptr : &*found;
}

struct Heading {
  const Synonym* known = nullptr;
  std::string unit;
  bool utc = false;
  std::optional<sky::StampMeans> stamp;
};

// "rain last hour", "precip previous 1h": takes the words off the name.
std::optional<sky::StampMeans> take_stamp(std::string& plain) {
  struct Word {
    std::string_view word;
    sky::StampMeans means;
  };
  constexpr std::array<Word, 8> words{{{"_last", sky::StampMeans::end_of_hour},
                                       {"_past", sky::StampMeans::end_of_hour},
                                       {"_previous", sky::StampMeans::end_of_hour},
                                       {"_preceding", sky::StampMeans::end_of_hour},
                                       {"_hour_before", sky::StampMeans::end_of_hour},
                                       {"_next", sky::StampMeans::start_of_hour},
                                       {"_following", sky::StampMeans::start_of_hour},
                                       {"_hour_after", sky::StampMeans::start_of_hour}}};
  for (const Word& word : words) {
    const auto at = plain.find(word.word);
    if (at == std::string::npos || at == 0) continue;
    plain.resize(at);
    return word.means;
  }
  return std::nullopt;
}

Heading read_heading(std::string_view text) {
  Heading out;
  std::string_view name = text;
  const auto open = text.find_first_of("([");
  if (open != std::string_view::npos && open > 0) {
    const auto close = text.find_first_of(")]", open);
    out.unit = plain_unit(text.substr(open + 1, close == std::string_view::npos ? close : close - open - 1));
    name = text.substr(0, open);
  }
  std::string plain = plain_name(name);
  if (out.unit == "UTC" || out.unit == "GMT") {
    out.utc = true;
    out.unit.clear();
  }
  if (plain == "utc") plain = "time_utc";
  if (plain.size() > 4 && plain.ends_with("_utc")) {
    out.utc = true;
    plain.resize(plain.size() - 4);
  }
  out.known = find_name(plain);
  if (out.known == nullptr) {
    std::string name_alone = plain;
    out.stamp = take_stamp(name_alone);
    if (out.stamp) out.known = find_name(name_alone);
  }
  if (out.known == nullptr && out.unit.empty()) {  // "temp_c", "wind_kmh", "rh_pct"
    const auto last = plain.rfind('_');
    if (last != std::string::npos) {
      const Synonym* shorter = find_name(std::string_view(plain).substr(0, last));
      const std::string unit = plain.substr(last + 1);
      if (shorter != nullptr && shorter->kind == ColumnKind::weather && unit_rule(shorter->measure, unit)) {
        out.known = shorter;
        out.unit = unit;
      }
    }
  }
  return out;
}

UnitRule own_unit(Measure measure) {
  const bool share =
      measure == Measure::humidity || measure == Measure::cloud || measure == Measure::rain_chance;
  return share ? UnitRule{0.01, 0} : UnitRule{};
}

struct Reading {
  Header header;
  base::Faults faults;
};

// The place of a column of the same thing among those taken, or the end.
auto same_thing(std::vector<Column>& columns, const Column& wanted) {
  return std::find_if(columns.begin(), columns.end(), [&](const Column& c) {
    return c.kind == wanted.kind && (c.kind != ColumnKind::weather || c.measure == wanted.measure);
  });
}

// One column as the dialect has it, or as its heading says.
struct Found {
  Column column;
  int rank = 0;
  bool epoch = false;
  bool utc = false;
  bool rain_before_stamp = false;
  std::optional<sky::StampMeans> stamp;
};

std::optional<Found> in_dialect(const Dialect& dialect, const std::string& name) {
  const auto known = std::find_if(dialect.columns.begin(), dialect.columns.end(),
                                  [&](const DialectColumn& c) { return c.name == name; });
  if (known == dialect.columns.end()) return std::nullopt;
  Found out;
  out.column.kind = known->kind;
  out.column.measure = known->measure;
  out.column.rule = known->rule;
  out.column.unit_said = true;
  out.column.minus_one = known->minus_one;
  return out;
}

std::optional<Found> by_heading(const std::string& text, const std::string& place, base::Faults& faults) {
  const Heading heading = read_heading(text);
  if (heading.known == nullptr) return std::nullopt;
  Found out;
  out.rank = heading.known->rank;
  out.column.kind = heading.known->kind;
  out.column.measure = heading.known->measure;
  if (out.column.kind != ColumnKind::weather) {
    out.utc = heading.utc;
    out.epoch = heading.known->name == "epoch" || heading.known->name == "unix_time";
    return out;
  }
  const std::string unit = heading.unit.empty() ? std::string(heading.known->unit) : heading.unit;
  out.column.unit_said = !unit.empty();
  const auto rule = unit.empty() ? own_unit(out.column.measure) : unit_rule(out.column.measure, unit);
  if (!rule) {
    faults.push_back({"unknown-unit", place, fit_to_show(text), units_allowed(out.column.measure),
                      "Write one of these units in the header, in brackets."});
  }
  out.column.unit_known = rule.has_value();
  out.column.rule = rule.value_or(UnitRule{});
  out.rain_before_stamp = heading.known->name == "temperature_2m";
  if (out.column.measure == Measure::rain_in_an_hour) out.stamp = heading.stamp;
  return out;
}

bool has(const Header& header, ColumnKind kind) {
  return std::any_of(header.columns.begin(), header.columns.end(),
                     [&](const Column& c) { return c.kind == kind; });
}

// "time" beside a date is the clock only, and "day" beside year and month the day of the month.
void settle_times(Header& header) {
  const bool parted = has(header, ColumnKind::year) && has(header, ColumnKind::month);
  for (Column& c : header.columns) {
    if (c.kind == ColumnKind::date && parted) c.kind = ColumnKind::day_of_month;
  }
  const bool dated = has(header, ColumnKind::date) || has(header, ColumnKind::day_of_month);
  if (dated && has(header, ColumnKind::date_and_time) && !has(header, ColumnKind::clock)) {
    for (Column& c : header.columns) {
      if (c.kind == ColumnKind::date_and_time) c.kind = ColumnKind::clock;
    }
  }
}

std::optional<Reading> read_with(std::string_view line, char separator, const std::string& place) {
  const auto fields = split_csv_line(line, separator);
  if (!fields || fields->size() < 2) return std::nullopt;
  std::vector<std::string> names;
  for (const std::string& field : *fields)
    names.push_back(plain_name(field));
  const Dialect* dialect = dialect_of(names);
  Reading out;
  out.header.separator = separator;
  out.header.fields = fields->size();
  out.header.in_remark = dialect != nullptr;
  out.header.utc = dialect != nullptr && dialect->utc;
  out.header.rain_before_stamp = dialect != nullptr && dialect->rain_before_stamp;
  std::vector<int> ranks;
  for (std::size_t i = 0; i < fields->size(); ++i) {
    auto found =
        dialect != nullptr ? in_dialect(*dialect, names[i]) : by_heading((*fields)[i], place, out.faults);
    if (!found) continue;
    Column& column = found->column;
    column.index = i;
    column.heading = (*fields)[i];
    column.eighths = column.measure == Measure::cloud && std::fabs(column.rule.scale - 0.125) < 1e-12;
    out.header.utc |= found->utc;
    out.header.epoch |= found->epoch;
    out.header.rain_before_stamp |= found->rain_before_stamp;
    if (found->stamp) out.header.stamp_said = found->stamp;
    const auto taken = same_thing(out.header.columns, column);
    if (taken == out.header.columns.end()) {
      out.header.columns.push_back(column);
      ranks.push_back(found->rank);
      continue;
    }
    const auto at = static_cast<std::size_t>(taken - out.header.columns.begin());
    if (ranks[at] == found->rank) {
      out.faults.push_back({"duplicate-column", place,
                            fit_to_show(taken->heading) + " and " + fit_to_show(column.heading),
                            "one column for each thing", "Take one of the two out."});
    } else if (found->rank < ranks[at]) {
      *taken = column;
      ranks[at] = found->rank;
    }
  }
  settle_times(out.header);
  const bool timed = has(out.header, ColumnKind::date_and_time) || has(out.header, ColumnKind::date) ||
                     has(out.header, ColumnKind::day_of_month);
  if (!timed || !has(out.header, ColumnKind::weather)) return std::nullopt;
  return out;
}

std::optional<Reading> read_any(std::string_view line, const std::string& place) {
  for (const char separator : {'\t', ';', ','}) {
    if (auto found = read_with(line, separator, place)) return found;
  }
  return std::nullopt;
}

}  // namespace

std::string plain_unit(std::string_view text) {
  // The degree sign comes in two encodings.
  std::string out;
  for (const char c : text) {
    if (c > ' ' && c < 0x7f) out += c;
  }
  return out;
}

std::optional<Measure> measure_named(std::string_view name) {
  const Synonym* known = find_name(name);
  if (known == nullptr || known->kind != ColumnKind::weather) return std::nullopt;
  return known->measure;
}

std::optional<Header> read_header(std::string_view line) {
  auto found = read_any(line, "");
  return found ? std::optional(std::move(found->header)) : std::nullopt;
}

base::Faults header_faults(std::string_view line, std::size_t line_number) {
  auto found = read_any(line, fmt::format("line {}", line_number));
  return found ? std::move(found->faults) : base::Faults{};
}

std::string fit_to_show(std::string_view text) {
  std::string out;
  for (const char c : text.substr(0, 40))
    out += c >= ' ' && c < 0x7f ? c : '?';
  if (text.size() > 40) out += "...";
  return out;
}

}  // namespace weatherstruck::feed
