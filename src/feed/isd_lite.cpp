#include "weatherstruck/feed/isd_lite.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "capped_faults.h"
#include "csv_columns.h"
#include "csv_lines.h"
#include "plausible.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr std::size_t kFields = 12;
constexpr int kMissing = -9999;
constexpr int kTrace = -1;
using Fields = std::array<int, kFields>;
enum Which : std::size_t { year, month, day, hour, air, dew, pressure, direction, wind, cover, rain1, rain6 };

std::optional<Fields> fields_of(std::string_view line) {
  Fields out{};
  std::size_t count = 0;
  line = trimmed(line);
  while (!line.empty()) {
    if (count == kFields) return std::nullopt;
    const auto [end, error] = std::from_chars(line.data(), line.data() + line.size(), out.at(count));
    if (error != std::errc{}) return std::nullopt;
    line.remove_prefix(static_cast<std::size_t>(end - line.data()));
    if (!line.empty() && line.front() != ' ' && line.front() != '-') return std::nullopt;
    line = trimmed(line);
    ++count;
  }
  return count == kFields ? std::optional(out) : std::nullopt;
}

std::optional<Instant> time_of(const Fields& fields) {
  const std::chrono::year_month_day date{std::chrono::year(fields[year]),
                                         std::chrono::month(static_cast<unsigned>(fields[month])),
                                         std::chrono::day(static_cast<unsigned>(fields[day]))};
  const bool good = fields[year] >= 1900 && fields[year] < 2200 && fields[month] >= 1 &&
                    fields[month] <= 12 && fields[day] >= 1 && fields[day] <= 31 && fields[hour] >= 0 &&
                    fields[hour] <= 23;
  if (!good || !date.ok()) return std::nullopt;
  return Instant(std::chrono::sys_days(date)) + hours(fields[hour]);
}

class Reader {
 public:
  Reader(std::string_view name, const ReadOptions& options, base::Faults& faults)
      : name_(name), options_(options), faults_(faults) {}

  sky::Series read(std::string_view text) {
    const std::size_t before = faults_.size();
    std::string_view line;
    std::size_t number = 0;
    while (next_line(text, line)) {
      ++number;
      if (!trimmed(line).empty()) read_line(line, fmt::format("line {}", number));
    }
    if (last_ && *last_ - *first_ > options_.longest) {
      faults_.add({"too-long", "rows", fmt::format("rows over more than {} days", options_.longest.count()),
                   fmt::format("at most {} days", options_.longest.count()), "Save a shorter part."});
    }
    faults_.say_rest();
    return faults_.size() == before && last_ ? assembled() : sky::Series{};
  }

 private:
  void read_line(std::string_view line, const std::string& place) {
    const auto fields = fields_of(line);
    if (!fields) {
      faults_.add(
          {"wrong-field-count", place, fit_to_show(line), "twelve whole numbers", "Fetch the file again."});
      return;
    }
    const auto at = time_of(*fields);
    if (!at) {
      faults_.add({"bad-time", place, fit_to_show(line.substr(0, 13)), "a year, month, day and hour",
                   "Fetch the file again."});
      return;
    }
    if (last_ && *at <= *last_) {
      const bool same = *at == *last_;
      faults_.add({same ? "time-repeated" : "time-backwards", place, base::iso_utc(*at),
                   "a time after the line before, " + base::iso_utc(*last_),
                   "Put the lines in order of time."});
      return;
    }
    if (!first_) first_ = at;
    last_ = at;
    const auto take = [&](Which which, Measure measure, double scale, std::vector<sky::Moment>& to) {
      const int value = (*fields)[which];
      if (value == kMissing) return;
      if (auto fault = impossible(measure, value * scale, place)) return faults_.add(*std::move(fault));
      to.push_back({*at, tamed(measure, value * scale)});
    };
    take(air, Measure::temperature, 0.1, air_);
    take(dew, Measure::dew_point, 0.1, dew_);
    take(wind, Measure::wind, 0.1, wind_);
    if ((*fields)[cover] >= 0 && (*fields)[cover] <= 8) take(cover, Measure::cloud, 0.125, cloud_);
    const auto fallen = [&](Which which, int length, std::vector<sky::Stretch>& to) {
      const int value = (*fields)[which] == kTrace ? 0 : (*fields)[which];
      if (value == kMissing) return;
      if (auto fault = impossible(Measure::rain_in_an_hour, value * 0.1, place, length))
        return faults_.add(*std::move(fault));
      to.push_back({*at - hours(length), *at, value * 0.1});
    };
    fallen(rain1, 1, hourly_);
    fallen(rain6, 6, six_);
  }

  // Six-hour totals only where none of the six hours has its own, and none of them overlaps another.
  [[nodiscard]] std::vector<sky::Stretch> rain() const {
    std::vector<sky::Stretch> out;
    auto own = hourly_.begin();
    for (const sky::Stretch& total : six_) {
      while (own != hourly_.end() && own->from < total.from) {
        out.push_back(*own);
        ++own;
      }
      const bool free =
          (own == hourly_.end() || own->from >= total.to) && (out.empty() || out.back().to <= total.from);
      if (free) out.push_back(total);
    }
    out.insert(out.end(), own, hourly_.end());
    return out;
  }

  [[nodiscard]] sky::Series assembled() const {
    sky::SeriesBuilder builder(*first_ - hours(6), *last_ + std::chrono::seconds(1));
    // Many stations report every three hours; what lies between is carried.
    constexpr hours longest{3};
    builder.moments(sky::Layer::temperature, air_, longest);
    builder.moments(sky::Layer::dew_point, dew_, longest);
    builder.moments(sky::Layer::wind, wind_, longest);
    builder.moments(sky::Layer::cloud, cloud_, longest);
    builder.rain_totals(rain());
    builder.derive_gusts(options_.gust_factor);
    builder.derive_humidity();
    sky::Series heading;
    heading.source = name_;
    heading.attribution = "Observations from NOAA, National Centers for Environmental Information (ISD-Lite)";
    heading.latitude = options_.latitude;
    heading.longitude = options_.longitude;
    sky::Series series = builder.finish(heading);
    for (sky::Hour& hour : series.hours) {
      // What is carried or shared out stays marked so.
      const auto measured = [](auto& value) {
        if (value && value->origin == sky::Origin::given) value->origin = sky::Origin::measured;
      };
      measured(hour.temperature);
      measured(hour.dew_point);
      measured(hour.wind);
      measured(hour.cloud);
      measured(hour.rain);
    }
    return series;
  }

  std::string name_;
  const ReadOptions& options_;
  CappedFaults faults_;
  std::optional<Instant> first_;
  std::optional<Instant> last_;
  std::vector<sky::Moment> air_, dew_, wind_, cloud_;
  std::vector<sky::Stretch> hourly_, six_;
};

}  // namespace

sky::Series read_isd_lite(std::string_view name, std::string_view text, const ReadOptions& options,
                          base::Faults& faults) {
  return Reader(name, options, faults).read(text);
}

bool looks_like_isd_lite(std::string_view text) {
  std::string_view line;
  if (!next_line(text, line)) return false;
  const auto fields = fields_of(line);
  return fields && time_of(*fields);
}

}  // namespace weatherstruck::feed
