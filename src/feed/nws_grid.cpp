#include "weatherstruck/feed/nws_grid.h"

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

struct GridLayer {
  std::string_view name;
  Measure measure;
};
// Layer names of the service's grid data. Daily extremes, snow depth and ice are not hourly facts and stay
// out; snow is in quantitativePrecipitation as its water.
constexpr std::array<GridLayer, 8> kGridLayers{{
    {"temperature", Measure::temperature},
    {"dewpoint", Measure::dew_point},
    {"relativeHumidity", Measure::humidity},
    {"windSpeed", Measure::wind},
    {"windGust", Measure::gust},
    {"skyCover", Measure::cloud},
    {"quantitativePrecipitation", Measure::rain_in_an_hour},
    {"probabilityOfPrecipitation", Measure::rain_chance},
}};

std::optional<sky::Layer> layer_of(Measure measure) {
  switch (measure) {
    case Measure::temperature:
      return sky::Layer::temperature;
    case Measure::dew_point:
      return sky::Layer::dew_point;
    case Measure::humidity:
      return sky::Layer::humidity;
    case Measure::wind:
      return sky::Layer::wind;
    case Measure::gust:
      return sky::Layer::gust;
    case Measure::cloud:
      return sky::Layer::cloud;
    case Measure::rain_in_an_hour:
    case Measure::rain_chance:
      return std::nullopt;
  }
  return std::nullopt;
}

const Json* member(const Json& object, std::string_view key) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(std::string(key));
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

// "wmoUnit:degC" of today, "unit:degC" of 2019.
std::string_view without_prefix(std::string_view unit) {
  const auto colon = unit.rfind(':');
  return colon == std::string_view::npos ? unit : unit.substr(colon + 1);
}

std::optional<sky::Stretch> parse_interval(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto from = base::parse_iso_instant(text.substr(0, slash));
  const auto length = parse_duration(text.substr(slash + 1));
  if (!from || !length) return std::nullopt;
  return sky::Stretch{*from, *from + *length, 0};
}

std::vector<sky::Stretch> read_layer(const Json& layer, const GridLayer& kind, base::Faults& faults) {
  std::vector<sky::Stretch> out;
  const std::string place = pointer_to("/properties", kind.name);
  const Json* values = member(layer, "values");
  if (values == nullptr || !values->is_array()) {
    faults.push_back({"wrong-type", pointer_to(place, "values"),
                      values == nullptr ? "nothing" : files::shown(*values),
                      "a list of intervals with values", "Fetch the grid data again."});
    return out;
  }
  if (values->empty()) return out;  // an empty layer carries no unit either
  const Json* uom = member(layer, "uom");
  const auto rule = uom != nullptr && uom->is_string()
                        ? unit_rule(kind.measure, without_prefix(uom->get<std::string>()))
                        : std::nullopt;
  if (!rule) {
    faults.push_back({"unknown-unit", pointer_to(place, "uom"),
                      uom == nullptr ? "nothing" : files::shown(*uom), units_allowed(kind.measure),
                      "Fetch the grid data again."});
    return out;
  }
  for (std::size_t i = 0; i < values->size(); ++i) {
    const std::string where = pointer_to(pointer_to(place, "values"), i);
    const Json* when = member((*values)[i], "validTime");
    auto stretch =
        when != nullptr && when->is_string() ? parse_interval(when->get<std::string>()) : std::nullopt;
    if (!stretch) {
      faults.push_back(
          {"bad-interval", pointer_to(where, "validTime"), when == nullptr ? "nothing" : files::shown(*when),
           "a time and a length such as 2024-01-08T15:00:00+00:00/PT6H", "Fetch the grid data again."});
      continue;
    }
    const Json* value = member((*values)[i], "value");
    if (value == nullptr) continue;  // null: not known, which is not zero
    if (!value->is_number()) {
      faults.push_back({"wrong-type", pointer_to(where, "value"), files::shown(*value), "a number or null",
                        "Fetch the grid data again."});
      continue;
    }
    const double in_ours = value->get<double>() * rule->scale + rule->offset;
    const double length =
        std::chrono::duration<double, std::ratio<3600>>(stretch->to - stretch->from).count();
    if (auto fault = impossible(kind.measure, in_ours, pointer_to(where, "value"), length)) {
      faults.push_back(*fault);
      continue;
    }
    stretch->value = tamed(kind.measure, in_ours);
    out.push_back(*stretch);
  }
  return out;
}

void read_place(const Json& document, sky::Series& heading) {
  const Json* geometry = member(document, "geometry");
  const Json* rings = geometry == nullptr ? nullptr : member(*geometry, "coordinates");
  if (rings == nullptr || !rings->is_array() || rings->empty() || !(*rings)[0].is_array()) return;
  // The middle of the grid square; its outline repeats the first corner at the end.
  const Json& ring = (*rings)[0];
  double count = 0;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    if (!ring[i].is_array() || ring[i].size() < 2 || !ring[i][0].is_number() || !ring[i][1].is_number())
      return;
    heading.longitude += ring[i][0].get<double>();
    heading.latitude += ring[i][1].get<double>();
    count += 1;
  }
  if (count == 0) return;
  heading.longitude /= count;
  heading.latitude /= count;
}

}  // namespace

std::optional<std::chrono::seconds> parse_duration(std::string_view text) {
  if (text.empty() || text.front() != 'P') return std::nullopt;
  text.remove_prefix(1);
  std::int64_t minutes = 0;
  bool in_time = false;
  bool any = false;
  int unit_before = 0;  // days 1, hours 2, minutes 3: each at most once, in this order
  while (!text.empty()) {
    if (text.front() == 'T') {
      if (in_time || text.size() == 1) return std::nullopt;
      in_time = true;
      text.remove_prefix(1);
      continue;
    }
    std::int64_t number = 0;
    std::size_t digits = 0;
    while (digits < text.size() && text[digits] >= '0' && text[digits] <= '9' && digits < 7) {
      number = number * 10 + (text[digits] - '0');
      ++digits;
    }
    if (digits == 0 || digits == text.size()) return std::nullopt;
    const char letter = text[digits];
    text.remove_prefix(digits + 1);
    const int unit = letter == 'D' && !in_time  ? 1
                     : letter == 'H' && in_time ? 2
                     : letter == 'M' && in_time ? 3
                                                : 0;
    if (unit <= unit_before) return std::nullopt;
    unit_before = unit;
    any = true;
    constexpr std::array<std::int64_t, 4> in_minutes{0, std::int64_t{24} * 60, 60, 1};
    minutes += number * in_minutes[static_cast<std::size_t>(unit)];
  }
  if (!any || minutes == 0 || minutes > std::int64_t{400} * 24 * 60) return std::nullopt;
  return std::chrono::minutes(minutes);
}

sky::Series read_nws_grid(const Json& document, const ReadOptions& options, base::Faults& faults) {
  const std::size_t before = faults.size();
  const Json* properties = member(document, "properties");
  sky::Series heading;
  heading.source = "NWS";
  heading.attribution = "Weather data from the US National Weather Service (api.weather.gov), public domain";
  if (const Json* updated = properties == nullptr ? nullptr : member(*properties, "updateTime")) {
    if (updated->is_string()) heading.issued = base::parse_iso_instant(updated->get<std::string>());
    if (!heading.issued) {
      faults.push_back({"bad-time", "/properties/updateTime", files::shown(*updated),
                        "a time such as 2024-02-20T17:36:55+00:00", "Fetch the grid data again."});
    }
  }
  read_place(document, heading);

  std::array<std::vector<sky::Stretch>, kGridLayers.size()> layers;
  Instant begin = Instant::max();
  Instant end = Instant::min();
  for (std::size_t i = 0; i < kGridLayers.size(); ++i) {
    const Json* layer = properties == nullptr ? nullptr : member(*properties, kGridLayers[i].name);
    if (layer == nullptr) continue;
    layers[i] = read_layer(*layer, kGridLayers[i], faults);
    if (kGridLayers[i].measure == Measure::rain_in_an_hour) {
      if (const auto overlapping = sky::first_overlap(layers[i])) {
        faults.push_back({"overlap", pointer_to("/properties", kGridLayers[i].name),
                          "an interval from " + base::iso_utc(overlapping->from) +
                              " that begins before the one before ends",
                          "intervals that follow each other", "Fetch the grid data again."});
      }
    }
    for (const sky::Stretch& stretch : layers[i]) {
      begin = std::min(begin, stretch.from);
      end = std::max(end, stretch.to);
    }
  }
  if (faults.size() != before) return {};
  if (begin >= end) {
    faults.push_back({"empty-forecast", "/properties", "no layer with a value", "temperature, wind and rain",
                      "Fetch the grid data again; the service is sometimes empty for an hour."});
    return {};
  }
  if (end - begin > std::chrono::days(60)) {
    faults.push_back({"too-long", "/properties", "values over more than 60 days",
                      "a forecast of at most 60 days",
                      "Check the intervals of the first and the last value."});
    return {};
  }
  sky::SeriesBuilder builder(begin, end);
  for (std::size_t i = 0; i < kGridLayers.size(); ++i) {
    if (const auto layer = layer_of(kGridLayers[i].measure))
      builder.holding(*layer, layers[i]);
    else if (kGridLayers[i].measure == Measure::rain_in_an_hour)
      builder.rain_totals(layers[i]);
    else
      builder.rain_chances(layers[i]);
  }
  builder.derive_gusts(options.gust_factor);
  return builder.finish(heading);
}

}  // namespace weatherstruck::feed
