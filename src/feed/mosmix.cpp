#include "weatherstruck/feed/mosmix.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <pugixml.hpp>

#include "capped_faults.h"
#include "csv_columns.h"
#include "csv_times.h"
#include "packed.h"
#include "plausible.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using std::chrono::hours;

struct Element {
  std::string_view name;
  Measure measure;
  UnitRule rule;
  int hours_before;  // what it holds for: so many hours before its step, or none: the moment
};

constexpr UnitRule kKelvin{1, -273.15};
constexpr UnitRule kPercent{0.01, 0};
// DWD, MetElementDefinition: kelvin, m/s, percent, kg/m2.
enum Which : std::size_t { ttt, td, ff, n, fx1, fx3, rr1c, rr3c, rr6c, r101, wwp, e_ttt, e_ff };
constexpr std::size_t kElements = e_ff + 1;
constexpr std::array<Element, kElements> kRead{{
    {"TTT", Measure::temperature, kKelvin, 0},
    {"Td", Measure::dew_point, kKelvin, 0},
    {"FF", Measure::wind, {1, 0}, 0},
    {"N", Measure::cloud, kPercent, 0},
    {"FX1", Measure::gust, {1, 0}, 1},
    {"FX3", Measure::gust, {1, 0}, 3},
    {"RR1c", Measure::rain_in_an_hour, {1, 0}, 1},
    {"RR3c", Measure::rain_in_an_hour, {1, 0}, 3},
    {"RR6c", Measure::rain_in_an_hour, {1, 0}, 6},
    {"R101", Measure::rain_chance, kPercent, 1},
    {"wwP", Measure::rain_chance, kPercent, 1},
    // Wind is never negative and its range is wide: the bounds of a sane error, in K as in m/s.
    {"E_TTT", Measure::wind, {1, 0}, 0},
    {"E_FF", Measure::wind, {1, 0}, 0},
}};

constexpr std::size_t kMostSteps = 2000;

// Prefixes of name spaces are the writer's choice.
std::string_view local(const char* name) {
  const std::string_view text(name);
  const auto colon = text.rfind(':');
  return colon == std::string_view::npos ? text : text.substr(colon + 1);
}

pugi::xml_node child(const pugi::xml_node& parent, std::string_view name) {
  return parent.find_child([&](const pugi::xml_node& node) { return local(node.name()) == name; });
}

std::string_view text_of(const pugi::xml_node& node) {
  std::string_view text(node.child_value());
  const auto blank = [](char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; };
  while (!text.empty() && blank(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && blank(text.back()))
    text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> out;
  constexpr std::string_view blanks = " \n\r\t";
  for (auto at = text.find_first_not_of(blanks); at != std::string_view::npos;) {
    const auto end = std::min(text.find_first_of(blanks, at), text.size());
    out.push_back(text.substr(at, end - at));
    at = text.find_first_not_of(blanks, end);
  }
  return out;
}

struct Point {
  double longitude = 0;
  double latitude = 0;
};

std::optional<Point> point_of(const pugi::xml_node& placemark) {
  const std::string_view text = text_of(child(child(placemark, "Point"), "coordinates"));
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto longitude = base::parse_number(std::string(text.substr(0, comma)));
  const std::string_view rest = text.substr(comma + 1);
  const auto latitude = base::parse_number(std::string(rest.substr(0, rest.find(','))));
  if (!longitude || !latitude || std::fabs(*longitude) > 180 || std::fabs(*latitude) > 90)
    return std::nullopt;
  return Point{*longitude, *latitude};
}

// Good enough to choose the nearest.
double far(const Point& point, const ReadOptions& options) {
  constexpr double degree = 3.14159265358979323846 / 180.0;
  double east = std::fabs(point.longitude - options.longitude);
  if (east > 180) east = 360 - east;
  return std::hypot(point.latitude - options.latitude, east * std::cos(options.latitude * degree));
}

class Reader {
 public:
  Reader(const ReadOptions& options, base::Faults& faults) : options_(options), faults_(faults) {}

  sky::Series read(std::string_view kml) {
    const std::size_t before = faults_.size();
    pugi::xml_document document;
    const pugi::xml_parse_result parsed = document.load_buffer(kml.data(), kml.size());
    if (!parsed) {
      faults_.add({"bad-xml", fmt::format("byte {}", parsed.offset), parsed.description(), "whole KML",
                   "Fetch the forecast again: it may have been cut short."});
      return {};
    }
    const pugi::xml_node root = child(child(document, "kml"), "Document");
    const pugi::xml_node product = child(child(root, "ExtendedData"), "ProductDefinition");
    read_head(product);
    read_times(child(product, "ForecastTimeSteps"));
    const pugi::xml_node station = find_station(root);
    if (faults_.size() != before || !station) return {};
    read_elements(child(station, "ExtendedData"));
    if (faults_.size() == before && nothing_read()) {
      faults_.add({"empty-forecast", heading_.source, "no value of temperature, wind or rain", "at least one",
                   "Fetch the forecast again."});
    }
    faults_.say_rest();
    return faults_.size() == before ? assembled() : sky::Series{};
  }

 private:
  void read_head(const pugi::xml_node& product) {
    heading_.source = "DWD MOSMIX";
    // Changed data must say so (Creative Commons BY 4.0; the service's words for the source).
    heading_.attribution = "Quelle: Deutscher Wetterdienst (opendata.dwd.de), CC BY 4.0, modified";
    const std::string_view issued = text_of(child(product, "IssueTime"));
    heading_.issued = base::parse_iso_instant(without_fraction(issued));
    if (!heading_.issued) {
      faults_.add({"bad-time", "IssueTime", issued.empty() ? "nothing" : fit_to_show(issued),
                   "a time such as 2026-02-09T09:00:00.000Z", "Fetch the forecast again."});
    }
    const std::string_view sign = text_of(child(child(product, "FormatCfg"), "DefaultUndefSign"));
    if (!sign.empty()) missing_ = sign;
  }

  void read_times(const pugi::xml_node& steps) {
    for (const pugi::xml_node& step : steps.children()) {
      if (local(step.name()) != "TimeStep") continue;
      const std::string_view text = text_of(step);
      const std::string place = fmt::format("TimeStep {}", times_.size() + 1);
      if (times_.size() == kMostSteps) {
        faults_.add({"too-long", place, fmt::format("more than {} steps", kMostSteps),
                     "a forecast of some days", "Check that this is a MOSMIX forecast."});
        return;
      }
      const auto time = base::parse_iso_instant(without_fraction(text));
      if (!time) {
        faults_.add({"bad-time", place, fit_to_show(text), "a time such as 2026-02-09T10:00:00.000Z",
                     "Fetch the forecast again."});
        times_.push_back(times_.empty() ? Instant{} : times_.back());
        continue;
      }
      if (!times_.empty() && *time <= times_.back()) {
        faults_.add({"time-backwards", place, base::iso_utc(*time),
                     "a time after the step before, " + base::iso_utc(times_.back()),
                     "Fetch the forecast again."});
      }
      times_.push_back(*time);
    }
    if (times_.empty()) {
      faults_.add(
          {"empty-forecast", "ForecastTimeSteps", "no step", "at least one", "Fetch the forecast again."});
    } else if (times_.back() - times_.front() > std::chrono::days(60)) {
      faults_.add({"too-long", "ForecastTimeSteps", "steps over more than 60 days",
                   "a forecast of at most 60 days", "Check the times of the first and the last step."});
    }
  }

  pugi::xml_node find_station(const pugi::xml_node& root) {
    pugi::xml_node best;
    std::optional<Point> where;
    std::size_t stations = 0;
    for (const pugi::xml_node& node : root.children()) {
      if (local(node.name()) != "Placemark") continue;
      ++stations;
      const auto point = point_of(node);
      if (!point || (where && far(*point, options_) >= far(*where, options_))) continue;
      best = node;
      where = point;
    }
    if (!where) {
      faults_.add({"no-place", "Placemark", stations == 0 ? "no station" : "a station without a place",
                   "longitude, latitude and height", "Fetch the forecast again."});
      return best;
    }
    heading_.longitude = where->longitude;
    heading_.latitude = where->latitude;
    const std::string_view id = text_of(child(best, "name"));
    const std::string_view name = text_of(child(best, "description"));
    if (!id.empty()) heading_.source += " " + fit_to_show(id);
    if (!name.empty()) heading_.source += " (" + fit_to_show(name) + ")";
    if (stations > 1) {
      heading_.notes.push_back(
          {"nearest-station", fmt::format("of {} stations the nearest is taken", stations)});
    }
    return best;
  }

  void read_elements(const pugi::xml_node& data) {
    for (const pugi::xml_node& forecast : data.children()) {
      if (local(forecast.name()) != "Forecast") continue;
      std::string_view name;
      for (const pugi::xml_attribute& attribute : forecast.attributes()) {
        if (local(attribute.name()) == "elementName") name = attribute.value();
      }
      const auto* element =
          std::find_if(kRead.begin(), kRead.end(), [&](const Element& e) { return e.name == name; });
      if (element == kRead.end()) continue;
      read_element(*element, text_of(child(forecast, "value")));
    }
  }

  void read_element(const Element& element, std::string_view text) {
    auto& values = values_[static_cast<std::size_t>(&element - kRead.data())];
    if (!values.empty()) {
      faults_.add({"duplicate-element", std::string(element.name), "the same element twice", "each once",
                   "Fetch the forecast again."});
      return;
    }
    const auto words = words_of(text);
    if (words.size() != times_.size()) {
      faults_.add({"wrong-field-count", std::string(element.name), fmt::format("{} values", words.size()),
                   fmt::format("{} values, one for each step", times_.size()),
                   "Fetch the forecast again: it may have been cut short."});
      return;
    }
    values.resize(words.size());
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] == missing_) continue;
      const std::string place = fmt::format("{}, step {}", element.name, i + 1);
      const auto number = base::parse_number(std::string(words[i]));
      if (!number) {
        faults_.add({"not-a-number", place, fit_to_show(words[i]),
                     fmt::format("a number, or {} where there is no value", fit_to_show(missing_)),
                     "Fetch the forecast again."});
        continue;
      }
      const double in_ours = *number * element.rule.scale + element.rule.offset;
      if (auto fault = impossible(element.measure, in_ours, place, std::max(1, element.hours_before))) {
        faults_.add(*std::move(fault));
        continue;
      }
      values[i] = tamed(element.measure, in_ours);
    }
  }

  [[nodiscard]] bool nothing_read() const {
    return std::all_of(values_.begin(), values_.end(), [](const auto& values) {
      return std::none_of(values.begin(), values.end(), [](const auto& v) { return v.has_value(); });
    });
  }

  [[nodiscard]] std::vector<sky::Moment> moments(Which which) const {
    std::vector<sky::Moment> out;
    for (std::size_t i = 0; i < values_[which].size(); ++i) {
      if (values_[which][i]) out.push_back({times_[i], *values_[which][i]});
    }
    return out;
  }
  // The service gives absolute errors: taken as their mean, sqrt(2 / pi) of a normal's standard deviation.
  [[nodiscard]] std::vector<sky::Moment> deviations(Which which) const {
    constexpr double over_mean = 1.2533141373;
    std::vector<sky::Moment> out = moments(which);
    for (sky::Moment& moment : out)
      moment.value *= over_mean;
    return out;
  }
  [[nodiscard]] std::vector<sky::Stretch> before_steps(Which which) const {
    std::vector<sky::Stretch> out;
    for (std::size_t i = 0; i < values_[which].size(); ++i) {
      if (values_[which][i])
        out.push_back({times_[i] - hours(kRead[which].hours_before), times_[i], *values_[which][i]});
    }
    return out;
  }

  // Hourly sums, and in the stretches that have none at all the longer totals.
  [[nodiscard]] std::vector<sky::Stretch> rain() const {
    std::map<Instant, sky::Stretch> by_start;
    const auto free = [&](const sky::Stretch& stretch) {
      const auto after = by_start.lower_bound(stretch.to);
      return after == by_start.begin() || std::prev(after)->second.to <= stretch.from;
    };
    for (const Which which : {rr1c, rr3c, rr6c}) {
      for (const sky::Stretch& stretch : before_steps(which)) {
        if (free(stretch)) by_start.emplace(stretch.from, stretch);
      }
    }
    std::vector<sky::Stretch> out;
    for (const auto& [from, stretch] : by_start)
      out.push_back(stretch);
    return out;
  }

  // The greatest of three hours is a bound for each of them; the least of the bounds is the best.
  [[nodiscard]] std::map<Instant, double> gust_bounds() const {
    std::map<Instant, double> least;
    for (const sky::Stretch& stretch : before_steps(fx3)) {
      // The first one reaches back behind the forecast: a gust alone is no hour of weather.
      const Instant from = std::max(stretch.from, times_.front() - hours(1));
      for (Instant t = std::chrono::floor<hours>(from); t < stretch.to; t += hours(1)) {
        const auto [place, fresh] = least.emplace(t, stretch.value);
        if (!fresh) place->second = std::min(place->second, stretch.value);
      }
    }
    return least;
  }

  [[nodiscard]] sky::Series assembled() const {
    sky::SeriesBuilder builder(times_.front() - hours(6), times_.back() + std::chrono::seconds(1));
    // Steps are hourly; later ones may lie apart.
    constexpr hours longest{6};
    builder.moments(sky::Layer::temperature, moments(ttt), longest);
    builder.moments(sky::Layer::dew_point, moments(td), longest);
    builder.moments(sky::Layer::wind, moments(ff), longest);
    builder.moments(sky::Layer::cloud, moments(n), longest);
    builder.errors(sky::Layer::temperature, deviations(e_ttt), longest);
    builder.errors(sky::Layer::wind, deviations(e_ff), longest);
    builder.holding(sky::Layer::gust, before_steps(fx1));
    builder.bound_gusts(gust_bounds());
    builder.rain_totals(rain());
    std::vector<sky::Stretch> chances = before_steps(r101);
    for (const sky::Stretch& stretch : before_steps(wwp)) {
      const bool known = std::any_of(chances.begin(), chances.end(),
                                     [&](const sky::Stretch& chance) { return chance.to == stretch.to; });
      if (!known) chances.push_back(stretch);
    }
    builder.rain_chances(chances);
    builder.derive_gusts(options_.gust_factor);
    builder.derive_rain_chances(heading_.issued);
    builder.derive_humidity();
    return builder.finish(heading_);
  }

  const ReadOptions& options_;
  CappedFaults faults_;
  sky::Series heading_;
  std::string missing_ = "-";
  std::vector<Instant> times_;
  std::array<std::vector<std::optional<double>>, kElements> values_;
};

}  // namespace

sky::Series read_mosmix(std::string_view kml, const ReadOptions& options, base::Faults& faults) {
  return Reader(options, faults).read(kml);
}

sky::Series read_mosmix_archive(std::string_view kmz, const ReadOptions& options, base::Faults& faults) {
  const Unpacked unpacked = unzipped(kmz, ".kml", kMostForecastBytes);
  if (!unpacked.trouble.empty()) {
    faults.push_back({"bad-archive", "", unpacked.trouble, "a KMZ archive with one KML forecast in it",
                      "Fetch the forecast again, or save it as CSV."});
    return {};
  }
  if (!looks_like_mosmix(unpacked.bytes)) {
    faults.push_back({"not-a-forecast", "", "KML without forecast steps", "a MOSMIX forecast",
                      "Check that this is the right file."});
    return {};
  }
  return read_mosmix(unpacked.bytes, options, faults);
}

bool looks_like_mosmix(std::string_view text) {
  return text.find("ForecastTimeSteps") != std::string_view::npos &&
         text.find("kml") != std::string_view::npos;
}

}  // namespace weatherstruck::feed
