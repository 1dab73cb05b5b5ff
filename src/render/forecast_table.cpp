#include "weatherstruck/render/forecast_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"

namespace weatherstruck::render {
namespace {

using std::chrono::hours;

constexpr hours kStep{3};

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
  say('m', "measured on site");
  say('p', "past years");
  return text;
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
  const base::Instant first = std::max(now > leave && now < job.trip.home_by ? now : leave, series.begin_time());
  const base::Instant last = std::min(job.trip.home_by, series.end_time());
  if (first >= last) {
    page.gap();
    page.text(fmt::format("It says nothing about the trip: it runs from {} to {}.",
                          base::day_and_time(zone.to_local(series.begin_time())),
                          base::day_and_time(zone.to_local(series.end_time()))));
    return page.str();
  }
  const std::vector<Table::Column> columns{{"", Table::Kind::left},      {"air", Table::Kind::right},
                                           {"rain", Table::Kind::right}, {"chance", Table::Kind::right},
                                           {"wind", Table::Kind::right}, {"gust", Table::Kind::right},
                                           {"cloud", Table::Kind::right}, {"", Table::Kind::left},
                                           {"stops", Table::Kind::wrapped}};
  Table table(columns);
  std::string met;
  base::LocalDay shown{};
  for (base::Instant at = zone.start_of(zone.day_of(first)); at < last; at += kStep) {
    const programme::Span span{at, at + kStep};
    if (span.to <= first) continue;
    const base::LocalTime local = zone.to_local(at);
    const base::LocalDay day = zone.day_of(at);
    const WeatherSum sum = sum_up(series, span);
    const std::string mark = marks(sum);
    met += mark;
    const std::string when = day == shown ? "" : base::day_name(day);
    shown = day;
    table.add({base::pad(when, 10) + ' ' + base::clock_time(local).substr(0, 2) + '-' +
                   base::clock_time(local + kStep).substr(0, 2),
               sum.low ? temperatures(*sum.low, *sum.high, units) : "-", sum.rain ? rain(*sum.rain, units) : "-",
               fraction(sum.chance), sum.wind ? wind_number(*sum.wind) : "-",
               sum.gust ? wind_number(*sum.gust) : "-", fraction(sum.cloud), mark, stopped_work(sum, limits)});
  }
  page.gap();
  page.table(table, 0);
  page.gap();
  page.text("Wind and gust in miles an hour, the greatest of the three hours. A dash: not given.");
  if (const std::string words = explained(met); !words.empty()) page.text(capital(words) + ".");
  if (series.end_time() < job.trip.home_by) {
    page.text("It ends " + base::day_and_time(zone.to_local(series.end_time())) + ", before the trip does.");
  }
  for (const sky::SeriesNote& note : series.notes)
    page.text(note.text + (note.text.empty() || note.text.back() == '.' ? "" : "."));
  if (!series.attribution.empty()) page.text(series.attribution);
  return page.str();
}

}  // namespace weatherstruck::render
