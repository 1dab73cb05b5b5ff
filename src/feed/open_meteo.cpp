#include "weatherstruck/feed/open_meteo.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "capped_faults.h"
#include "csv_columns.h"
#include "plausible.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using files::Json;
using files::pointer_to;
using std::chrono::hours;

const Json* member(const Json* object, const std::string& key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(key);
  return found == object->end() || found->is_null() ? nullptr : &*found;
}

class Reader {
 public:
  Reader(const Json& document, const ReadOptions& options, base::Faults& faults)
      : document_(document), options_(options), faults_(faults) {}

  sky::Series read() {
    const std::size_t before = faults_.size();
    hourly_ = member(&document_, "hourly");
    units_ = member(&document_, "hourly_units");
    read_place();
    read_times();
    if (faults_.size() != before) return {};
    for (const auto& [name, list] : hourly_->items()) {
      const auto measure = measure_named(name);
      if (measure && name != "time") read_list(name, *measure, list);
    }
    faults_.say_rest();
    return faults_.size() == before ? assembled() : sky::Series{};
  }

 private:
  void read_place() {
    const auto degrees = [&](const char* name, double most, double& to) {
      const Json* value = member(&document_, name);
      if (value == nullptr) return;  // the place of the options stands in
      if (!value->is_number() || std::fabs(value->get<double>()) > most) {
        faults_.add({"no-place", std::string("/") + name, files::shown(*value),
                     fmt::format("-{0} to {0} degrees", most), "Fetch the forecast again."});
        return;
      }
      to = value->get<double>();
    };
    heading_.latitude = options_.latitude;
    heading_.longitude = options_.longitude;
    degrees("latitude", 90, heading_.latitude);
    degrees("longitude", 180, heading_.longitude);
    heading_.source = "Open-Meteo";
    heading_.attribution = "Weather data by Open-Meteo.com, CC BY 4.0, modified";
  }

  [[nodiscard]] std::chrono::seconds offset() {
    const Json* value = member(&document_, "utc_offset_seconds");
    if (value == nullptr) return std::chrono::seconds(0);
    constexpr std::int64_t most = std::int64_t{26} * 3600;
    if (!value->is_number_integer() || std::abs(value->get<std::int64_t>()) > most) {
      faults_.add({"bad-time", "/utc_offset_seconds", files::shown(*value), "seconds, at most 26 hours",
                   "Fetch the forecast again with timezone=UTC."});
      return std::chrono::seconds(0);
    }
    return std::chrono::seconds(value->get<std::int64_t>());
  }

  [[nodiscard]] static std::optional<Instant> moment(const Json& value, std::chrono::seconds offset) {
    constexpr std::int64_t latest = 4'102'444'800;  // 2100
    if (value.is_number_integer()) {
      const auto seconds = value.get<std::int64_t>();  // these are in UTC whatever zone was asked for
      if (seconds < 0 || seconds > latest) return std::nullopt;
      return Instant(std::chrono::seconds(seconds));
    }
    if (!value.is_string()) return std::nullopt;
    const auto text = value.get<std::string>();
    if (const auto instant = base::parse_iso_instant(text)) return instant;
    if (const auto local = base::parse_iso_local(text)) return Instant(local->time_since_epoch() - offset);
    return std::nullopt;
  }

  void read_times() {
    const Json* times = member(hourly_, "time");
    if (times == nullptr || !times->is_array() || times->empty()) {
      faults_.add({"empty-forecast", "/hourly/time", times == nullptr ? "nothing" : files::shown(*times),
                   "a list of at least one time", "Ask for hourly values and fetch the forecast again."});
      return;
    }
    const std::chrono::seconds shift = offset();
    for (std::size_t i = 0; i < times->size(); ++i) {
      const std::string place = pointer_to("/hourly/time", i);
      const auto time = moment((*times)[i], shift);
      if (!time) {
        faults_.add({"bad-time", place, files::shown((*times)[i]), "a time such as 2026-02-09T05:00",
                     "Fetch the forecast again."});
        times_.push_back(times_.empty() ? Instant{} : times_.back());
        continue;
      }
      if (!times_.empty() && *time <= times_.back()) {
        faults_.add({"time-backwards", place, files::shown((*times)[i]),
                     "a time after the one before, " + base::iso_utc(times_.back()),
                     "Fetch the forecast again with timezone=UTC."});
      }
      times_.push_back(*time);
    }
    if (times_.back() - times_.front() > options_.longest) {
      faults_.add({"too-long", "/hourly/time",
                   fmt::format("times over more than {} days", options_.longest.count()),
                   fmt::format("at most {} days", options_.longest.count()), "Ask for fewer days."});
    }
  }

  void read_list(const std::string& name, Measure measure, const Json& list) {
    // "rain" is without snow and showers: what falls is in "precipitation".
    if (name == "rain" && hourly_->contains("precipitation")) return;
    const std::string place = pointer_to("/hourly", name);
    if (!list.is_array() || list.size() != times_.size()) {
      faults_.add({"wrong-field-count", place, files::shown(list),
                   fmt::format("a list of {}, one for each time", times_.size()),
                   "Fetch the forecast again."});
      return;
    }
    if (values_.count(measure) > 0) {
      faults_.add({"duplicate-column", place, "two lists for one thing", "one list for each thing",
                   "Ask for one of the two."});
      return;
    }
    const Json* unit = member(units_, name);
    const auto rule = unit != nullptr && unit->is_string()
                          ? unit_rule(measure, plain_unit(unit->get<std::string>()))
                          : std::nullopt;
    if (!rule) {
      faults_.add({"unknown-unit", pointer_to("/hourly_units", name),
                   unit == nullptr ? "nothing" : files::shown(*unit), units_allowed(measure),
                   "Fetch the forecast again, with its units."});
      return;
    }
    auto& values = values_[measure];
    values.resize(list.size());
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (list[i].is_null()) continue;
      const std::string where = pointer_to(place, i);
      if (!list[i].is_number()) {
        faults_.add(
            {"wrong-type", where, files::shown(list[i]), "a number or null", "Fetch the forecast again."});
        continue;
      }
      const double in_ours = list[i].get<double>() * rule->scale + rule->offset;
      if (auto fault = impossible(measure, in_ours, where)) {
        faults_.add(*std::move(fault));
        continue;
      }
      values[i] = tamed(measure, in_ours);
    }
  }

  [[nodiscard]] std::vector<sky::Moment> moments(Measure measure) const {
    std::vector<sky::Moment> out;
    const auto found = values_.find(measure);
    if (found == values_.end()) return out;
    for (std::size_t i = 0; i < times_.size(); ++i) {
      if (found->second[i]) out.push_back({times_[i], *found->second[i]});
    }
    return out;
  }
  [[nodiscard]] std::vector<sky::Stretch> hours_before(Measure measure) const {
    std::vector<sky::Stretch> out;
    for (const sky::Moment& moment : moments(measure)) {
      // Steps nearer than an hour would count rain twice.
      const Instant from =
          out.empty() ? moment.at - hours(1) : std::max<Instant>(out.back().to, moment.at - hours(1));
      out.push_back({from, moment.at, moment.value});
    }
    return out;
  }

  [[nodiscard]] sky::Series assembled() const {
    sky::SeriesBuilder builder(times_.front() - hours(1), times_.back() + std::chrono::seconds(1));
    constexpr hours longest{6};
    builder.moments(sky::Layer::temperature, moments(Measure::temperature), longest);
    builder.moments(sky::Layer::dew_point, moments(Measure::dew_point), longest);
    builder.moments(sky::Layer::humidity, moments(Measure::humidity), longest);
    builder.moments(sky::Layer::wind, moments(Measure::wind), longest);
    builder.moments(sky::Layer::cloud, moments(Measure::cloud), longest);
    builder.holding(sky::Layer::gust, hours_before(Measure::gust));
    builder.rain_totals(hours_before(Measure::rain_in_an_hour));
    builder.rain_chances(hours_before(Measure::rain_chance));
    builder.derive_gusts(options_.gust_factor);
    builder.derive_humidity();
    builder.note("licence", "Open-Meteo's free service is not for trade use: ask with a key of your own");
    return builder.finish(heading_);
  }

  const Json& document_;
  const ReadOptions& options_;
  CappedFaults faults_;
  const Json* hourly_ = nullptr;
  const Json* units_ = nullptr;
  sky::Series heading_;
  std::vector<Instant> times_;
  std::map<Measure, std::vector<std::optional<double>>> values_;
};

}  // namespace

sky::Series read_open_meteo(const Json& document, const ReadOptions& options, base::Faults& faults) {
  return Reader(document, options, faults).read();
}

}  // namespace weatherstruck::feed
