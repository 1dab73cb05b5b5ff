#include "weatherstruck/feed/met_norway.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

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
  std::string_view unit;  // as the service documents it
  Measure measure;
  sky::Layer layer;
};

// MET Norway, Locationforecast data model: names and units of the readings of a step.
constexpr std::array<Field, 6> kInstant{{
    {"air_temperature", "celsius", Measure::temperature, sky::Layer::temperature},
    {"dew_point_temperature", "celsius", Measure::dew_point, sky::Layer::dew_point},
    {"relative_humidity", "%", Measure::humidity, sky::Layer::humidity},
    {"wind_speed", "m/s", Measure::wind, sky::Layer::wind},
    {"wind_speed_of_gust", "m/s", Measure::gust, sky::Layer::gust},
    {"cloud_area_fraction", "%", Measure::cloud, sky::Layer::cloud},
}};
// The tenth and the ninetieth of a hundred, all over the Nordic area since 2021, nowhere else.
struct Spread {
  std::string_view low;
  std::string_view high;
  std::string_view unit;
  Measure measure;
  sky::Layer layer;
};
constexpr std::array<Spread, 2> kSpreads{{
    {"air_temperature_percentile_10", "air_temperature_percentile_90", "celsius", Measure::temperature,
     sky::Layer::temperature},
    {"wind_speed_percentile_10", "wind_speed_percentile_90", "m/s", Measure::wind, sky::Layer::wind},
}};
// Between the two lie 2.563 standard deviations of a normal distribution.
constexpr double kDeviations = 2.563103131;
constexpr std::string_view kAmount = "precipitation_amount";
constexpr std::string_view kChance = "probability_of_precipitation";

const Json* member(const Json* object, std::string_view key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(std::string(key));
  return found == object->end() || found->is_null() ? nullptr : &*found;
}

class Reader {
 public:
  Reader(const Json& document, base::Faults& faults) : document_(document), faults_(faults) {}

  sky::Series read(const ReadOptions& options) {
    const std::size_t before = faults_.size();
    const Json* properties = member(&document_, "properties");
    const Json* meta = member(properties, "meta");
    const Json* steps = member(properties, "timeseries");
    if (const Json* error = member(meta, "error")) {
      faults_.push_back({"service-error", "/properties/meta/error", files::shown(*error), "a forecast",
                         "The service has no forecast for this place: check latitude and longitude."});
      return {};
    }
    if (steps == nullptr || !steps->is_array() || steps->empty()) {
      faults_.push_back({"empty-forecast", "/properties/timeseries",
                         steps == nullptr ? "nothing" : files::shown(*steps), "a list of at least one step",
                         "Fetch the forecast again."});
      return {};
    }
    check_units(member(meta, "units"));
    read_times(*steps);
    if (faults_.size() != before) return {};
    for (std::size_t i = 0; i < steps->size(); ++i)
      read_step((*steps)[i], i);
    if (faults_.size() != before) return {};
    return assembled(member(meta, "updated_at"), options, before);
  }

 private:
  void check_units(const Json* units) {
    if (units == nullptr) return;
    const auto check = [&](std::string_view name, std::string_view unit) {
      const Json* said = member(units, name);
      if (said == nullptr || (said->is_string() && said->get<std::string>() == unit)) return;
      faults_.push_back({"unknown-unit", pointer_to("/properties/meta/units", name), files::shown(*said),
                         std::string(unit),
                         "Fetch the forecast again; the service documents this unit only."});
    };
    for (const Field& field : kInstant)
      check(field.name, field.unit);
    for (const Spread& spread : kSpreads) {
      check(spread.low, spread.unit);
      check(spread.high, spread.unit);
    }
    check(kAmount, "mm");
    check(kChance, "%");
  }

  void read_times(const Json& steps) {
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const std::string place = pointer_to(pointer_to("/properties/timeseries", i), "time");
      const Json* text = member(&steps[i], "time");
      const auto time = text != nullptr && text->is_string()
                            ? base::parse_iso_instant(text->get<std::string>())
                            : std::nullopt;
      if (!time) {
        faults_.push_back({"bad-time", place, text == nullptr ? "nothing" : files::shown(*text),
                           "a time such as 2026-02-09T05:00:00Z", "Fetch the forecast again."});
        times_.push_back(times_.empty() ? Instant{} : times_.back());
        continue;
      }
      if (!times_.empty() && *time <= times_.back()) {
        faults_.push_back({"time-backwards", place, files::shown(*text),
                           "a time after the step before, " + base::iso_utc(times_.back()),
                           "Put the steps in order of time, each once."});
      }
      times_.push_back(*time);
    }
    if (!times_.empty() && times_.back() - times_.front() > std::chrono::days(60)) {
      faults_.push_back({"too-long", "/properties/timeseries", "steps over more than 60 days",
                         "a forecast of at most 60 days", "Check the times of the first and the last step."});
    }
  }

  // A number of an object, checked and in our unit; nothing where it is missing or null.
  std::optional<double> number(const Json* details, const std::string& place, std::string_view name,
                               Measure measure, double over_hours = 1) {
    const Json* value = member(details, name);
    if (value == nullptr) return std::nullopt;
    const std::string where = pointer_to(place, name);
    if (!value->is_number()) {
      faults_.push_back({"wrong-type", where, files::shown(*value), "a number", "Fetch the forecast again."});
      return std::nullopt;
    }
    const bool share =
        measure == Measure::humidity || measure == Measure::cloud || measure == Measure::rain_chance;
    const double in_ours = value->get<double>() * (share ? 0.01 : 1.0);
    if (auto fault = impossible(measure, in_ours, where, over_hours)) {
      faults_.push_back(*fault);
      return std::nullopt;
    }
    return tamed(measure, in_ours);
  }

  void read_step(const Json& step, std::size_t i) {
    const std::string place = pointer_to(pointer_to("/properties/timeseries", i), "data");
    const Json* data = member(&step, "data");
    const Json* instant = member(member(data, "instant"), "details");
    for (std::size_t f = 0; f < kInstant.size(); ++f) {
      const auto value = number(instant, place + "/instant/details", kInstant[f].name, kInstant[f].measure);
      if (value) readings_[f].push_back({times_[i], *value});
    }
    for (std::size_t k = 0; k < kSpreads.size(); ++k) {
      const Spread& spread = kSpreads[k];
      const std::string where = place + "/instant/details";
      const auto low = number(instant, where, spread.low, spread.measure);
      const auto high = number(instant, where, spread.high, spread.measure);
      if (!low || !high) continue;
      if (*low > *high) {
        faults_.push_back({"crossed", pointer_to(where, spread.low), base::plain_number(*low, 1),
                           "at most " + base::plain_number(*high, 1) + ", the ninetieth",
                           "Fetch the forecast again."});
        continue;
      }
      errors_[k].push_back({times_[i], (*high - *low) / kDeviations});
    }
    const auto next = [&](const char* window, int length) {
      const Json* details = member(member(data, window), "details");
      const std::string where = place + "/" + window + "/details";
      return std::pair{number(details, where, kAmount, Measure::rain_in_an_hour, length),
                       number(details, where, kChance, Measure::rain_chance)};
    };
    // One window a step, the one that is as long as the step: six-hour windows of hourly steps overlap.
    const bool last = i + 1 == times_.size();
    const bool long_step = !last && times_[i + 1] - times_[i] >= hours(6);
    const auto [one_amount, one_chance] = next("next_1_hours", 1);
    const auto [six_amount, six_chance] = next("next_6_hours", 6);
    const bool use_six = six_amount && (long_step || (last && !one_amount)) && times_[i] >= covered_until_;
    const Instant to = times_[i] + hours(use_six ? 6 : 1);
    const auto& amount = use_six ? six_amount : one_amount;
    const auto& chance = use_six ? six_chance : one_chance;
    if (times_[i] < covered_until_) return;  // a half-hourly step would count rain twice
    if (amount) {
      rain_.push_back({times_[i], to, *amount});
      covered_until_ = to;
    }
    if (chance) chances_.push_back({times_[i], to, *chance});
  }

  sky::Series assembled(const Json* updated, const ReadOptions& options, std::size_t before) {
    sky::Series heading;
    heading.source = "MET Norway";
    heading.attribution = "Weather data from MET Norway (api.met.no), CC BY 4.0, modified";
    if (updated != nullptr) {
      if (updated->is_string()) heading.issued = base::parse_iso_instant(updated->get<std::string>());
      if (!heading.issued) {
        faults_.push_back({"bad-time", "/properties/meta/updated_at", files::shown(*updated),
                           "a time such as 2026-02-09T05:00:00Z", "Fetch the forecast again."});
      }
    }
    read_place(heading);
    if (faults_.size() != before) return {};
    // The last step has readings only: it closes the interpolation and begins no hour of its own.
    Instant end = std::max(times_.back(), covered_until_);
    if (end == times_.front()) end += hours(1);
    sky::SeriesBuilder builder(times_.front(), end);
    for (std::size_t f = 0; f < kInstant.size(); ++f) {
      const bool gust =
          kInstant[f].layer == sky::Layer::gust;  // greatest of its own hour: nothing to carry on
      builder.moments(kInstant[f].layer, readings_[f], gust ? hours(1) : hours(12));
    }
    for (std::size_t k = 0; k < kSpreads.size(); ++k)
      builder.errors(kSpreads[k].layer, errors_[k], hours(12));
    builder.rain_totals(rain_);
    builder.rain_chances(chances_);
    builder.derive_gusts(options.gust_factor);
    builder.derive_rain_chances(heading.issued);
    return builder.finish(heading);
  }

  void read_place(sky::Series& heading) {
    const Json* coordinates = member(member(&document_, "geometry"), "coordinates");
    if (coordinates == nullptr || !coordinates->is_array() || coordinates->size() < 2 ||
        !(*coordinates)[0].is_number() || !(*coordinates)[1].is_number()) {
      faults_.push_back({"no-place", "/geometry/coordinates",
                         coordinates == nullptr ? "nothing" : files::shown(*coordinates),
                         "longitude, latitude and altitude", "Fetch the forecast again."});
      return;
    }
    heading.longitude = (*coordinates)[0].get<double>();
    heading.latitude = (*coordinates)[1].get<double>();
  }

  const Json& document_;
  base::Faults& faults_;
  std::vector<Instant> times_;
  std::array<std::vector<sky::Moment>, kInstant.size()> readings_;
  std::array<std::vector<sky::Moment>, kSpreads.size()> errors_;
  std::vector<sky::Stretch> rain_;
  std::vector<sky::Stretch> chances_;
  Instant covered_until_ = Instant::min();
};

}  // namespace

sky::Series read_met_norway(const Json& document, const ReadOptions& options, base::Faults& faults) {
  return Reader(document, faults).read(options);
}

}  // namespace weatherstruck::feed
