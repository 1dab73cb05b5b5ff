#include "backtest_weather.h"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>

#include <fmt/format.h>

#include "backtest_place.h"
#include "weatherstruck/base/random.h"

namespace weatherstruck::bench {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr std::uint64_t block_stream = 211;
constexpr std::uint64_t year_stream = 223;
constexpr std::chrono::hours foretold{24};   // by the neighbour alone
constexpr std::chrono::hours no_longer{96};  // by the other year alone
constexpr std::int64_t block = 6 * 3600;     // rain comes from one or the other for so long
constexpr std::size_t fields_read = 9;

struct Row {
  Instant start;
  std::array<double, fields_read> value{};
};

Row row_of(const std::string& line, const std::string& where) {
  Row row;
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int hour = 0;
  // The file is of one shape; anything else is a fault of the file.
  if (std::sscanf(line.c_str(), "%d-%u-%uT%d:00:00Z,", &year, &month, &day, &hour) != 4)
    throw std::runtime_error(fmt::format("{}: no time such as 2011-01-01T00:00:00Z in \"{}\"", where, line));
  row.start =
      std::chrono::sys_days(std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day)) +
      hours(hour);
  std::size_t at = line.find(',');
  for (std::size_t k = 1; k < fields_read; ++k) {
    if (at == std::string::npos)
      throw std::runtime_error(fmt::format("{}: {} fields, needs {}", where, k, fields_read));
    const char* begin = line.c_str() + at + 1;
    char* end = nullptr;
    row.value[k] = std::strtod(begin, &end);
    const bool cloud = k + 1 == fields_read;
    if (end == begin && !cloud)
      throw std::runtime_error(fmt::format("{}: no number in field {}", where, k + 1));
    if (end == begin) row.value[k] = 8;  // overcast, the commonest
    at = line.find(',', at + 1);
  }
  return row;
}

sky::Hour record(Instant start, const ObservedHour& seen) {
  sky::Hour hour;
  hour.start = start;
  hour.temperature = {sky::quantised(base::Celsius(seen.temperature)), sky::Origin::given};
  hour.dew_point = {sky::quantised(base::Celsius(seen.dew_point)), sky::Origin::given};
  hour.humidity = {sky::quantised(base::Fraction(seen.humidity)), sky::Origin::given};
  hour.wind = {sky::quantised(base::MetresPerSecond(seen.wind)), sky::Origin::given};
  hour.gust = {sky::quantised(base::MetresPerSecond(seen.gust)), sky::Origin::given};
  hour.cloud = {sky::quantised(base::Fraction(seen.cloud)), sky::Origin::given};
  hour.rain = {sky::quantised(base::Millimetres(seen.rain)), sky::Origin::given};
  return hour;
}

template <class Seen>
sky::Series series_of(const std::string& source, Stretch stretch, Seen&& seen) {
  sky::Series series;
  series.source = source;
  for (Instant hour = stretch.from; hour < stretch.to; hour += hours(1))
    series.hours.push_back(record(hour, seen(hour)));
  return series;
}

}  // namespace

History History::read(const std::string& gz_file) {
  const std::unique_ptr<gzFile_s, int (*)(gzFile)> file(gzopen(gz_file.c_str(), "rb"), gzclose);
  if (!file) throw std::runtime_error(fmt::format("{}: cannot be opened", gz_file));
  std::array<char, 512> buffer{};
  std::vector<Row> rows;
  for (std::size_t number = 1; gzgets(file.get(), buffer.data(), static_cast<int>(buffer.size())) != nullptr;
       ++number) {
    if (number == 1) continue;  // names of the columns
    const std::string where = fmt::format("{}, line {}", gz_file, number);
    rows.push_back(row_of(buffer.data(), where));
    if (rows.size() > 1 && rows.back().start != rows[rows.size() - 2].start + hours(1))
      throw std::runtime_error(where + ": is not the hour after the one before");
  }
  if (rows.empty()) throw std::runtime_error(gz_file + ": holds no hours");
  std::vector<ObservedHour> list;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& before = rows[i > 0 ? i - 1 : 0].value;
    const auto& now = rows[i].value;
    list.push_back({(before[1] + now[1]) / 2, (before[2] + now[2]) / 2, (before[3] + now[3]) / 200, now[4],
                    now[6], now[7], now[8] / 8});
    // Nine eighths: the sky could not be seen.
    list.back().cloud = std::min(1.0, list.back().cloud);
  }
  return {rows.front().start, std::move(list)};
}

const ObservedHour& History::at(Instant hour) const {
  return hours_.at(static_cast<std::size_t>(std::chrono::floor<hours>(hour - first_).count()));
}

sky::Series as_observed(const History& station, Stretch stretch) {
  return series_of("observed", stretch, [&](Instant hour) { return station.at(hour); });
}

sky::Series as_foreseen(const History& truth, const History& neighbour, const PlaceDifference& place,
                        Instant now, Stretch stretch) {
  return series_of("the neighbour", stretch, [&](Instant hour) {
    return hour < now ? truth.at(hour) : place.put(neighbour.at(hour), hour);
  });
}

double share_of_other_year(std::chrono::seconds ahead) {
  const std::chrono::duration<double> beyond = ahead - foretold;
  const std::chrono::duration<double> fades = no_longer - foretold;
  return std::clamp(beyond / fades, 0.0, 1.0);
}

Instant in_year(Instant hour, int year) {
  const auto day = std::chrono::floor<std::chrono::days>(hour);
  const std::chrono::year_month_day date(day);
  const std::chrono::year_month_day there(std::chrono::year(year), date.month(), date.day());
  const auto other = there.ok() ? std::chrono::sys_days(there)
                                : std::chrono::sys_days(there.year() / there.month() / std::chrono::last);
  return other + (hour - day);
}

int another_year(int tested, int first, int last, std::uint64_t seed) {
  std::vector<int> years;
  for (int year = first; year <= last; ++year) {
    if (std::abs(year - tested) > 1) years.push_back(year);
  }
  if (years.empty()) throw std::invalid_argument("no year is left beside the tested one and its neighbours");
  base::Random random(seed, year_stream);
  return years[random.below(years.size())];
}

sky::Series forecast_of(const ForecastMade& made, Stretch stretch) {
  sky::Series series = series_of("a forecast", stretch, [&](Instant hour) {
    if (hour < made.at) return made.truth.at(hour);
    const ObservedHour near = made.place.put(made.neighbour.at(hour), hour);
    const double share = share_of_other_year(hour - made.at);
    if (share <= 0) return near;
    const int year =
        static_cast<int>(std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(hour)).year());
    const ObservedHour far = made.place.put(made.neighbour.at(in_year(hour, year + made.years_on)), hour);
    const auto both = [&](double ObservedHour::*of) { return near.*of + share * (far.*of - near.*of); };
    ObservedHour mixed{
        both(&ObservedHour::temperature), both(&ObservedHour::dew_point), both(&ObservedHour::humidity), 0,
        both(&ObservedHour::wind),        both(&ObservedHour::gust),      both(&ObservedHour::cloud)};
    // Six hours are of one year or the other: mixed amounts would make a drizzle of every shower.
    const std::int64_t number = hour.time_since_epoch().count() / block;
    base::Random random(made.seed, block_stream + (static_cast<std::uint64_t>(number) << 16U));
    mixed.rain = random.unit() < share_of_other_year(Instant(std::chrono::seconds(number * block)) - made.at)
                     ? far.rain
                     : near.rain;
    return mixed;
  });
  series.issued = made.at;
  return series;
}

}  // namespace weatherstruck::bench
