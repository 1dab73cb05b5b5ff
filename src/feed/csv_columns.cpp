#include "csv_columns.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

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
// Eireann's short names (its wdsp is in knots), and plain English. DWD's and KNMI's own short names are left
// out on purpose: KNMI writes tenths under them, which no header shows.
constexpr std::array<Synonym, 56> kSynonyms{{
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
    {"clock", ColumnKind::clock, kNone, 0, ""},
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
    {"wind", ColumnKind::weather, Measure::wind, 0, ""},
    {"wind_speed", ColumnKind::weather, Measure::wind, 0, ""},
    {"windspeed", ColumnKind::weather, Measure::wind, 0, ""},
    {"wind_speed_10m", ColumnKind::weather, Measure::wind, 0, ""},
    {"windspeed_10m", ColumnKind::weather, Measure::wind, 0, ""},
    {"wdsp", ColumnKind::weather, Measure::wind, 0, "kn"},
    {"gust", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_gust", ColumnKind::weather, Measure::gust, 0, ""},
    {"wind_gusts", ColumnKind::weather, Measure::gust, 0, ""},
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

// A unit as written in a header, without blanks and the degree sign (which comes in two encodings).
std::string plain_unit(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c > ' ' && c < 0x7f) out += c;
  }
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
};

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
auto same_thing(std::vector<Column>& columns, const Synonym& wanted) {
  return std::find_if(columns.begin(), columns.end(), [&](const Column& c) {
    return c.kind == wanted.kind && (c.kind != ColumnKind::weather || c.measure == wanted.measure);
  });
}

std::optional<Reading> read_with(std::string_view line, char separator, const std::string& place) {
  const auto fields = split_csv_line(line, separator);
  if (!fields || fields->size() < 2) return std::nullopt;
  Reading out;
  out.header.separator = separator;
  out.header.fields = fields->size();
  std::vector<int> ranks;
  for (std::size_t i = 0; i < fields->size(); ++i) {
    const Heading heading = read_heading((*fields)[i]);
    if (heading.known == nullptr) continue;
    Column column;
    column.index = i;
    column.kind = heading.known->kind;
    column.measure = heading.known->measure;
    column.heading = (*fields)[i];
    if (column.kind == ColumnKind::weather) {
      const std::string unit = heading.unit.empty() ? std::string(heading.known->unit) : heading.unit;
      column.unit_said = !unit.empty();
      const auto rule = unit.empty() ? own_unit(column.measure) : unit_rule(column.measure, unit);
      if (!rule) {
        out.faults.push_back({"unknown-unit", place, fit_to_show(column.heading),
                              units_allowed(column.measure),
                              "Write one of these units in the header, in brackets."});
      }
      column.unit_known = rule.has_value();
      column.rule = rule.value_or(UnitRule{});
      out.header.rain_before_stamp |= heading.known->name == "temperature_2m";
    } else {
      out.header.utc |= heading.utc;
      out.header.epoch |= heading.known->name == "epoch" || heading.known->name == "unix_time";
    }
    const auto taken = same_thing(out.header.columns, *heading.known);
    if (taken == out.header.columns.end()) {
      out.header.columns.push_back(column);
      ranks.push_back(heading.known->rank);
      continue;
    }
    const auto at = static_cast<std::size_t>(taken - out.header.columns.begin());
    if (ranks[at] == heading.known->rank) {
      out.faults.push_back({"duplicate-column", place,
                            fit_to_show(taken->heading) + " and " + fit_to_show(column.heading),
                            "one column for each thing", "Take one of the two out."});
    } else if (heading.known->rank < ranks[at]) {
      *taken = column;
      ranks[at] = heading.known->rank;
    }
  }
  // A "time" beside a "date" is the clock only.
  const auto has = [&](ColumnKind kind) {
    return std::any_of(out.header.columns.begin(), out.header.columns.end(),
                       [&](const Column& c) { return c.kind == kind; });
  };
  if (has(ColumnKind::date) && has(ColumnKind::date_and_time) && !has(ColumnKind::clock)) {
    for (Column& c : out.header.columns) {
      if (c.kind == ColumnKind::date_and_time) c.kind = ColumnKind::clock;
    }
  }
  const bool timed = has(ColumnKind::date_and_time) || has(ColumnKind::date);
  if (!timed || !has(ColumnKind::weather)) return std::nullopt;
  return out;
}

std::optional<Reading> read_any(std::string_view line, const std::string& place) {
  for (const char separator : {'\t', ';', ','}) {
    if (auto found = read_with(line, separator, place)) return found;
  }
  return std::nullopt;
}

}  // namespace

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
