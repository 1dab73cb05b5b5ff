#include "weatherstruck/feed/csv_weather.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "capped_faults.h"
#include "csv_columns.h"
#include "csv_lines.h"
#include "csv_row_times.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::seconds;

constexpr std::size_t kMostPreambleLines = 40;  // titles, station and column descriptions above the header

struct Row {
  std::size_t line = 0;
  Instant at{};
  std::vector<std::optional<double>> values;  // as the header's columns; nothing for the time columns
};

// A header, also behind the mark of a remark where it is one of a service that writes it so.
std::optional<Header> read_heading_line(std::string_view line) {
  if (!is_remark(line)) return read_header(line);
  line = trimmed(line);
  if (line.empty()) return std::nullopt;
  auto header = read_header(line);
  return header && header->in_remark ? header : std::nullopt;
}

class Table {
 public:
  Table(std::string_view name, const ReadOptions& options, base::Faults& faults)
      : name_(name), options_(options), faults_(faults) {}

  sky::Series read(std::string_view text) {
    const std::size_t before = faults_.size();
    text = without_mark(text);
    std::string_view line;
    std::size_t number = 0;
    while (next_line(text, line)) {
      ++number;
      if (header_) {
        if (!is_remark(line)) read_row(line, number);
        continue;
      }
      header_ = read_heading_line(line);
      if (header_) {
        for (auto& fault : header_faults(line, number))
          faults_.add(std::move(fault));
      } else if (number > kMostPreambleLines) {
        break;
      }
    }
    if (times_) times_->finish();
    if (!header_) {
      faults_.add({"no-header", "line 1", "no line with column names", "a time column and a weather column",
                   "Put a header such as \"time,temperature,wind,rain\" above the rows."});
    } else if (rows_.empty() && faults_.size() == before) {
      faults_.add({"empty-forecast", fmt::format("line {}", number), "a header and no rows",
                   "at least one row", "Save the table again."});
    }
    check_humidity();
    const auto step = faults_.size() == before ? find_step() : std::nullopt;
    faults_.say_rest();
    if (!step || !rain_can_be(*step)) return {};
    return assembled(*step);
  }

 private:
  void read_row(std::string_view line, std::size_t number) {
    const std::string place = fmt::format("line {}", number);
    auto fields = split_csv_line(line, header_->separator);
    if (!fields) {
      faults_.add({"open-quote", place, fit_to_show(line), "quotes in pairs, around whole fields",
                   "Close the quote, or write a quote inside a field twice."});
      return;
    }
    while (fields->size() > header_->fields && trimmed(fields->back()).empty())
      fields->pop_back();
    if (fields->size() != header_->fields) {
      faults_.add({"wrong-field-count", place, fmt::format("{} fields", fields->size()),
                   fmt::format("{} fields, as in the header", header_->fields),
                   "Check the separator; a decimal comma needs semicolons between the fields."});
      return;
    }
    Row row;
    row.line = number;
    if (!times_)
      times_.emplace(*header_, options_.zone, [this](base::Fault fault) { faults_.add(std::move(fault)); });
    const auto at = times_->read(*fields, place);
    for (const Column& column : header_->columns) {
      row.values.push_back(column.kind == ColumnKind::weather
                               ? read_value(column, trimmed((*fields)[column.index]), place)
                               : std::nullopt);
    }
    if (!at) return;
    row.at = *at;
    if (!rows_.empty() && row.at <= rows_.back().at) {
      const bool same = row.at == rows_.back().at;
      faults_.add(
          {same ? "time-repeated" : "time-backwards", place, base::iso_utc(row.at),
           fmt::format("a time after that of line {}, {}", rows_.back().line, base::iso_utc(rows_.back().at)),
           "Sort the rows by time, each time once; across the change of clocks give times in UTC."});
      return;
    }
    rows_.push_back(std::move(row));
  }

  std::optional<double> read_value(const Column& column, std::string_view text, const std::string& place) {
    if (!column.unit_known || is_missing(text)) return std::nullopt;
    if (column.measure == Measure::rain_in_an_hour && is_trace(text)) return 0.0;
    std::string plain(text);
    // A comma that is still inside a field is a decimal comma: the separator has been taken out.
    if (std::count(plain.begin(), plain.end(), ',') == 1 && plain.find('.') == std::string::npos) {
      plain[plain.find(',')] = '.';
    }
    const auto number = base::parse_number(plain);
    const std::string where = place + ", " + fit_to_show(column.heading);
    if (!number) {
      faults_.add({"not-a-number", where, fit_to_show(text),
                   "a number, or an empty field where there is no value",
                   "Leave the field empty where there is no reading."});
      return std::nullopt;
    }
    if (column.eighths && std::fabs(*number - 9) < 1e-9) return std::nullopt;
    if (column.minus_one != MinusOne::itself && std::fabs(*number + 1) < 1e-9) {
      return column.minus_one == MinusOne::trace ? std::optional(0.0) : std::nullopt;
    }
    const double in_ours = *number * column.rule.scale + column.rule.offset;
    // The longest step taken is twelve hours; a shorter one cannot be known before all rows are read.
    const double over = column.measure == Measure::rain_in_an_hour ? 12 : 1;
    if (auto fault = impossible(column.measure, in_ours, where, over)) {
      faults_.add(std::move(*fault));
      return std::nullopt;
    }
    if (column.measure == Measure::humidity) most_humid_ = std::max(most_humid_.value_or(0.0), in_ours);
    return tamed(column.measure, in_ours);
  }

  // "0.86" in a column without a unit is 86 % to one exporter and 0.86 % to nobody.
  void check_humidity() {
    if (!header_ || !most_humid_ || *most_humid_ > 0.01 || *most_humid_ <= 0) return;
    for (const Column& column : header_->columns) {
      if (column.kind == ColumnKind::weather && column.measure == Measure::humidity && !column.unit_said) {
        faults_.add({"unclear-unit", fit_to_show(column.heading), "humidity never above 1",
                     "percent, or a header that says 0-1", "Write the unit in the header: (%) or (0-1)."});
      }
    }
  }

  // The commonest distance between rows; a single longer one is a gap, a run of others is another table.
  std::optional<seconds> find_step() {
    if (rows_.size() < 2) return hours(1);
    std::map<seconds, std::size_t> counts;
    for (std::size_t i = 1; i < rows_.size(); ++i)
      ++counts[rows_[i].at - rows_[i - 1].at];
    seconds step = counts.begin()->first;
    for (const auto& [length, count] : counts) {
      if (count > counts[step]) step = length;
    }
    if (step > hours(12)) {
      faults_.add({"step-too-long", "rows", fmt::format("rows {} hours apart", step / hours(1)),
                   "at most 12 hours", "Export hourly values: a day's figure does not say when it rained."});
      return std::nullopt;
    }
    seconds other{0};
    std::size_t run = 0;
    for (std::size_t i = 1; i < rows_.size(); ++i) {
      const seconds length = rows_[i].at - rows_[i - 1].at;
      run = length == step ? 0 : length == other ? run + 1 : 1;
      other = length;
      if (run >= 3 || length < step) {
        faults_.add({"uneven-steps", fmt::format("line {}", rows_[i].line),
                     fmt::format("rows {} minutes apart", length / std::chrono::minutes(1)),
                     fmt::format("rows {} minutes apart, as most are", step / std::chrono::minutes(1)),
                     "Save parts with different steps as separate files."});
        return std::nullopt;
      }
    }
    if (rows_.back().at - rows_.front().at > options_.longest) {
      faults_.add({"too-long", "rows", fmt::format("rows over more than {} days", options_.longest.count()),
                   fmt::format("at most {} days", options_.longest.count()), "Save a shorter part."});
      return std::nullopt;
    }
    return step;
  }

  // How much rain is too much depends on how long it had to fall.
  bool rain_can_be(seconds step) {
    const std::size_t before = faults_.size();
    for (std::size_t c = 0; c < header_->columns.size(); ++c) {
      const Column& column = header_->columns[c];
      if (column.kind != ColumnKind::weather || column.measure != Measure::rain_in_an_hour) continue;
      for (const Row& row : rows_) {
        if (!row.values[c]) continue;
        auto fault = impossible(column.measure, *row.values[c],
                                fmt::format("line {}, {}", row.line, fit_to_show(column.heading)),
                                std::chrono::duration<double, std::ratio<3600>>(step).count());
        if (fault) faults_.add(std::move(*fault));
      }
    }
    return faults_.size() == before;
  }

  sky::Series assembled(seconds step) {
    const auto said = options_.stamp ? options_.stamp : header_->stamp_said;
    const bool before_stamp = said ? *said == sky::StampMeans::end_of_hour : header_->rain_before_stamp;
    const auto stretch = [&](const Row& row, double value) {
      return before_stamp ? sky::Stretch{row.at - step, row.at, value}
                          : sky::Stretch{row.at, row.at + step, value};
    };
    sky::SeriesBuilder builder(rows_.front().at - (before_stamp ? step : seconds(0)),
                               rows_.back().at + (before_stamp ? seconds(1) : step));
    bool has_rain = false;
    for (std::size_t c = 0; c < header_->columns.size(); ++c) {
      if (header_->columns[c].kind != ColumnKind::weather) continue;
      const Measure measure = header_->columns[c].measure;
      std::vector<sky::Moment> moments;
      std::vector<sky::Stretch> stretches;
      for (const Row& row : rows_) {
        if (!row.values[c]) continue;
        moments.push_back({row.at, *row.values[c]});
        stretches.push_back(stretch(row, *row.values[c]));
      }
      switch (measure) {
        case Measure::temperature:
          builder.moments(sky::Layer::temperature, moments, step);
          break;
        case Measure::dew_point:
          builder.moments(sky::Layer::dew_point, moments, step);
          break;
        case Measure::humidity:
          builder.moments(sky::Layer::humidity, moments, step);
          break;
        case Measure::wind:
          builder.moments(sky::Layer::wind, moments, step);
          break;
        case Measure::cloud:
          builder.moments(sky::Layer::cloud, moments, step);
          break;
        case Measure::gust:
          builder.holding(sky::Layer::gust, greatest_by_hour(std::move(stretches), step));
          break;
        case Measure::rain_chance:
          builder.rain_chances(greatest_by_hour(std::move(stretches), step));
          break;
        case Measure::rain_in_an_hour:
          builder.rain_totals(std::move(stretches));
          has_rain = true;
          break;
      }
    }
    if (has_rain && !said) {
      builder.note(
          "rain-hour",
          before_stamp
              ? "rain is taken to have fallen in the time before each row's stamp, as the service "
                "with these column names sums it"
              : "rain is taken to fall in the time after each row's stamp; where it is the time before, "
                "write \"rain last hour\" over its column");
    }
    builder.derive_gusts(options_.gust_factor);
    builder.derive_humidity();
    sky::Series heading;
    heading.source = name_;
    heading.latitude = options_.latitude;
    heading.longitude = options_.longitude;
    return builder.finish(heading);
  }

  // Rows closer than an hour: the greatest of the hour's.
  static std::vector<sky::Stretch> greatest_by_hour(std::vector<sky::Stretch> stretches, seconds step) {
    if (step >= hours(1)) return stretches;
    std::map<Instant, double> greatest;
    for (const sky::Stretch& s : stretches) {
      const Instant hour = std::chrono::floor<hours>(s.from);
      const auto [place, fresh] = greatest.emplace(hour, s.value);
      if (!fresh) place->second = std::max(place->second, s.value);
    }
    std::vector<sky::Stretch> out;
    for (const auto& [hour, value] : greatest)
      out.push_back({hour, hour + hours(1), value});
    return out;
  }

  std::string name_;
  const ReadOptions& options_;
  CappedFaults faults_;
  std::optional<Header> header_;
  std::vector<Row> rows_;
  std::optional<double> most_humid_;
  std::optional<RowTimes> times_;
};

}  // namespace

sky::Series read_csv_weather(std::string_view name, std::string_view text, const ReadOptions& options,
                             base::Faults& faults) {
  return Table(name, options, faults).read(text);
}

bool looks_like_csv_weather(std::string_view text) {
  text = without_mark(text);
  std::string_view line;
  for (std::size_t number = 1; number <= kMostPreambleLines && next_line(text, line); ++number) {
    if (read_heading_line(line)) return true;
  }
  return false;
}

}  // namespace weatherstruck::feed
