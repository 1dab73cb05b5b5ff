#include "weatherstruck/feed/nws_observations.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plausible.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using files::Json;
using files::pointer_to;
using std::chrono::hours;

struct Field {
  std::string_view name;
  Measure measure;
  int hours_before;  // none: the moment
};
enum Which : std::size_t { air, dew, damp, mean_wind, gusts, rain_1, rain_3 };
constexpr std::size_t kFields = rain_3 + 1;
constexpr std::array<Field, kFields> kRead{{
    {"temperature", Measure::temperature, 0},
    {"dewpoint", Measure::dew_point, 0},
    {"relativeHumidity", Measure::humidity, 0},
    {"windSpeed", Measure::wind, 0},
    {"windGust", Measure::gust, 0},
    {"precipitationLastHour", Measure::rain_in_an_hour, 1},
    {"precipitationLast3Hours", Measure::rain_in_an_hour, 3},
}};

const Json* member(const Json* object, std::string_view key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(std::string(key));
  return found == object->end() || found->is_null() ? nullptr : &*found;
}

struct Report {
  Instant at;
  std::array<std::optional<double>, kFields> values;
};

class Reader {
 public:
  Reader(const Json& document, const ReadOptions& options, base::Faults& faults)
      : document_(document), options_(options), faults_(faults) {}

  sky::Series read() {
    const std::size_t before = faults_.size();
    const Json* features = member(&document_, "features");
    if (features == nullptr || !features->is_array() || features->empty()) {
      faults_.push_back({"empty-forecast", "/features",
                         features == nullptr ? "nothing" : files::shown(*features),
                         "a list of at least one report", "Ask for a longer time."});
      return {};
    }
    for (std::size_t i = 0; i < features->size(); ++i)
      read_report((*features)[i], pointer_to("/features", i));
    if (faults_.size() != before) return {};
    std::stable_sort(reports_.begin(), reports_.end(),
                     [](const Report& a, const Report& b) { return a.at < b.at; });
    if (reports_.back().at - reports_.front().at > options_.longest) {
      faults_.push_back({"too-long", "/features", "reports over more than a year", "some days at most",
                         "Ask for a shorter time."});
      return {};
    }
    return assembled();
  }

 private:
  void read_report(const Json& feature, const std::string& place) {
    const Json* properties = member(&feature, "properties");
    const Json* stamp = member(properties, "timestamp");
    const auto at = stamp != nullptr && stamp->is_string()
                        ? base::parse_iso_instant(stamp->get<std::string>())
                        : std::nullopt;
    if (!at) {
      faults_.push_back({"bad-time", place + "/properties/timestamp",
                         stamp == nullptr ? "nothing" : files::shown(*stamp),
                         "a time such as 2026-02-09T05:53:00+00:00", "Fetch the observations again."});
      return;
    }
    Report report{*at, {}};
    for (std::size_t f = 0; f < kFields; ++f) {
      const std::string where = pointer_to(place + "/properties", kRead[f].name);
      const Json* given = member(properties, kRead[f].name);
      const Json* value = member(given, "value");
      if (value == nullptr) continue;
      if (!value->is_number()) {
        faults_.push_back(
            {"wrong-type", where, files::shown(*value), "a number or null", "Fetch the observations again."});
        continue;
      }
      const Json* unit = member(given, "unitCode");
      std::string name = unit != nullptr && unit->is_string() ? unit->get<std::string>() : std::string();
      name = name.substr(name.rfind(':') + 1);
      const auto rule = unit_rule(kRead[f].measure, name);
      if (!rule) {
        faults_.push_back({"unknown-unit", where, unit == nullptr ? "nothing" : files::shown(*unit),
                           units_allowed(kRead[f].measure), "Fetch the observations again."});
        continue;
      }
      const double in_ours = value->get<double>() * rule->scale + rule->offset;
      if (auto fault = impossible(kRead[f].measure, in_ours, where, std::max(1, kRead[f].hours_before))) {
        faults_.push_back(*std::move(fault));
        continue;
      }
      report.values[f] = tamed(kRead[f].measure, in_ours);
    }
    reports_.push_back(report);
    const Json* coordinates = member(member(&feature, "geometry"), "coordinates");
    if (coordinates != nullptr && coordinates->is_array() && coordinates->size() >= 2 &&
        (*coordinates)[0].is_number() && (*coordinates)[1].is_number()) {
      longitude_ = (*coordinates)[0].get<double>();
      latitude_ = (*coordinates)[1].get<double>();
    }
  }

  // Routine reports come at one minute of the hour; those between repeat what has fallen since.
  [[nodiscard]] std::vector<sky::Stretch> rain(Which which) const {
    const auto minute = [](Instant t) {
      return std::chrono::floor<std::chrono::minutes>(t - std::chrono::floor<hours>(t)).count();
    };
    std::map<long long, int> counts;
    for (const Report& report : reports_) {
      if (report.values[which]) ++counts[minute(report.at)];
    }
    const auto routine = std::max_element(counts.begin(), counts.end(),
                                          [](const auto& a, const auto& b) { return a.second < b.second; });
    std::vector<sky::Stretch> out;
    for (const Report& report : reports_) {
      if (!report.values[which] || minute(report.at) != routine->first) continue;
      const Instant at = std::chrono::floor<std::chrono::minutes>(report.at);
      const Instant from = at - hours(kRead[which].hours_before);
      if (out.empty() || out.back().to <= from) out.push_back({from, at, *report.values[which]});
    }
    return out;
  }

  [[nodiscard]] sky::Series assembled() const {
    std::vector<sky::Stretch> fallen = rain(rain_1);
    for (const sky::Stretch& total : rain(rain_3)) {
      const bool free = std::none_of(fallen.begin(), fallen.end(), [&](const sky::Stretch& known) {
        return known.from < total.to && total.from < known.to;
      });
      if (free) fallen.push_back(total);
    }
    const auto moments = [&](Which which) {
      std::vector<sky::Moment> out;
      for (const Report& report : reports_) {
        if (report.values[which]) out.push_back({report.at, *report.values[which]});
      }
      return out;
    };
    std::map<Instant, double> gust;  // the greatest that was reported in the hour
    for (const sky::Moment& moment : moments(gusts)) {
      const auto [place, fresh] = gust.emplace(std::chrono::floor<hours>(moment.at), moment.value);
      if (!fresh) place->second = std::max(place->second, moment.value);
    }
    std::vector<sky::Stretch> blows;
    for (const auto& [hour, value] : gust)
      blows.push_back({hour, hour + hours(1), value});

    sky::SeriesBuilder builder(reports_.front().at - hours(3), reports_.back().at + std::chrono::seconds(1));
    constexpr std::chrono::minutes longest{130};  // one report may be lost
    builder.moments(sky::Layer::temperature, moments(air), longest);
    builder.moments(sky::Layer::dew_point, moments(dew), longest);
    builder.moments(sky::Layer::humidity, moments(damp), longest);
    builder.moments(sky::Layer::wind, moments(mean_wind), longest);
    builder.holding(sky::Layer::gust, blows);
    builder.rain_totals(fallen);
    sky::Series heading;
    heading.source = "NWS observations";
    heading.attribution =
        "Weather data from the US National Weather Service (api.weather.gov), public domain";
    heading.issued = reports_.back().at;
    heading.latitude = latitude_.value_or(options_.latitude);
    heading.longitude = longitude_.value_or(options_.longitude);
    sky::Series series = builder.finish(heading);
    for (sky::Hour& hour : series.hours) {
      const auto measured = [](auto& value) {
        if (value) value->origin = sky::Origin::measured;
      };
      measured(hour.temperature);
      measured(hour.dew_point);
      measured(hour.humidity);
      measured(hour.wind);
      measured(hour.gust);
      measured(hour.rain);
    }
    return series;
  }

  const Json& document_;
  const ReadOptions& options_;
  base::Faults& faults_;
  std::vector<Report> reports_;
  std::optional<double> latitude_, longitude_;
};

}  // namespace

sky::Series read_nws_observations(const Json& document, const ReadOptions& options, base::Faults& faults) {
  return Reader(document, options, faults).read();
}

}  // namespace weatherstruck::feed
