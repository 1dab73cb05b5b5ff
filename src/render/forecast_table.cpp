#include "weatherstruck/render/forecast_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/basis_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"

namespace weatherstruck::render {
namespace {

using std::chrono::hours;

constexpr hours step{3};
constexpr std::size_t stands_on_width = 13;

// How the values of a line came to be, where the source did not give them itself.
std::string marks(const WeatherSum& sum) {
  std::string text;
  for (const sky::Origin origin : sum.origins) {
    switch (origin) {
      case sky::Origin::given:
        break;
      case sky::Origin::split:
        text += 's';
        break;
      case sky::Origin::held:
        text += 'h';
        break;
      case sky::Origin::derived:
        text += 'g';
        break;
      case sky::Origin::measured:
        text += 'm';
        break;
      case sky::Origin::climate:
        text += 'p';
        break;
    }
  }
  if (sum.chance_reckoned) text += 'c';
  return text;
}

std::string explained(const std::string& met) {
  std::string text;
  const auto say = [&](char mark, std::string_view words) {
    if (met.find(mark) == std::string::npos) return;
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", mark, words);
  };
  say('s', "share of a longer total");
  say('h', "between two readings");
  say('g', "gust reckoned from the mean wind");
  say('c', "chance of rain reckoned from what falls and how far ahead it is");
  say('m', "measured");
  say('p', "past years");
  return text;
}

std::string rain_cell(const WeatherSum& sum, Units units) {
  if (!sum.rain) return "-";
  return sum.rain->value() > 0 ? rain(*sum.rain, units) : "dry";
}

std::string fraction(const std::optional<base::Fraction>& value) {
  return value ? fmt::format("{:.0f}%", value->value() * 100.0) : "-";
}

}  // namespace

std::string forecast_table(const works::Job& job, const trade::LimitValues& limits, const sky::Series& series,
                           base::Instant now, Ink ink) {
  const base::Zone& zone = job.site.zone;
  const Units units = units_of(job.limits.set);
  Page page(ink);
  page.title("Forecast", job.title);
  std::string heading = series.source;
  if (series.issued) heading += ", issued " + base::day_and_time(zone.to_local(*series.issued));
  page.text(heading);

  // Whole local steps of three hours, from the later of leaving and now to the promise.
  const base::Instant leave = job.trip.leave_home;
  const base::Instant first =
      std::max(now > leave && now < job.trip.home_by ? now : leave, series.begin_time());
  const base::Instant last = std::min(job.trip.home_by, series.end_time());
  if (first >= last) {
    page.gap();
    page.text(fmt::format("It says nothing about the trip: it runs from {} to {}.",
                          base::day_and_time(zone.to_local(series.begin_time())),
                          base::day_and_time(zone.to_local(series.end_time()))));
    return page.str();
  }
  if (!series.parts.empty() || first > leave || last < job.trip.home_by) {
    page.item("Stands on", basis_line(series, zone, {leave, now, job.trip.home_by}), stands_on_width);
  }
  const bool chances = std::any_of(series.hours.begin(), series.hours.end(),
                                   [](const sky::Hour& hour) { return hour.rain_chance.has_value(); });
  std::vector<Table::Column> columns{
      {"", Table::Kind::left}, {"air", Table::Kind::right}, {"rain", Table::Kind::right}};
  if (chances) columns.push_back({"chance", Table::Kind::right});
  for (const char* title : {"wind", "gust", "cloud"})
    columns.push_back({title, Table::Kind::right});
  columns.push_back({"", Table::Kind::left});
  columns.push_back({"stops", Table::Kind::wrapped});
  Table table(columns);
  std::string met;
  base::LocalDay shown{};
  for (base::Instant at = zone.start_of(zone.day_of(first)); at < last; at += step) {
    const programme::Span span{at, at + step};
    if (span.to <= first) continue;
    const base::LocalTime local = zone.to_local(at);
    const base::LocalDay day = zone.day_of(at);
    const WeatherSum sum = sum_up(series, span);
    const std::string mark = marks(sum);
    met += mark;
    if (day != shown) table.section(base::day_name(day));
    shown = day;
    const std::string end = base::clock_time(local + step).substr(0, 2);
    std::vector<std::string> cells{
        "  " + base::clock_time(local).substr(0, 2) + '-' + (end == "00" ? "24" : end),
        sum.low ? temperatures(*sum.low, *sum.high, units) : "-", rain_cell(sum, units)};
    if (chances) cells.push_back(fraction(sum.chance));
    cells.insert(cells.end(),
                 {sum.wind ? wind_number(*sum.wind) : "-", sum.gust ? wind_number(*sum.gust) : "-",
                  fraction(sum.cloud), mark, stopped_work(sum, limits)});
    table.add(std::move(cells));
  }
  page.gap();
  page.table(table, 0);
  page.gap();
  page.text("Wind and gust in miles an hour, the greatest of the three hours. A dash: not given.");
  if (const std::string words = explained(met); !words.empty()) page.text("Marks: " + words + ".");
  for (const sky::SeriesNote& note : series.notes)
    page.text(capital(note.text) + (note.text.empty() || note.text.back() == '.' ? "" : "."));
  if (!series.attribution.empty()) page.text(series.attribution);
  return page.str();
}

}  // namespace weatherstruck::render
