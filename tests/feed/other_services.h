#pragma once
// Answers of services as they send them, made by hand for any days.
#include <chrono>
#include <string>

#include <fmt/format.h>

#include "feed/packing.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::feed {

/// What an hour holds.
struct Made {
  double celsius = 6;
  double metres_per_second = 4;
  double millimetres = 0;
};

/// A MOSMIX archive of station 10315, hourly from `begin` on, issued then.
template <class MadeAt>
std::string mosmix_kmz(base::Instant begin, int hours, MadeAt made_at) {
  std::string times;
  std::string air;
  std::string wind;
  std::string rain;
  for (int i = 0; i <= hours; ++i) {
    const Made made = made_at(i);
    times += "<dwd:TimeStep>" + base::iso_utc(begin + std::chrono::hours(i)) + "</dwd:TimeStep>";
    air += fmt::format(" {:.2f}", made.celsius + 273.15);
    wind += fmt::format(" {:.2f}", made.metres_per_second);
    rain += fmt::format(" {:.2f}", i == 0 ? 0 : made_at(i - 1).millimetres);  // of the hour before
  }
  const auto element = [](const char* name, const std::string& values) {
    return fmt::format("<dwd:Forecast dwd:elementName=\"{}\"><dwd:value>{}</dwd:value></dwd:Forecast>", name,
                       values);
  };
  return zip_of(
      {{"MOSMIX_L_LATEST_10315.kml",
        "<?xml version=\"1.0\"?><kml:kml xmlns:dwd=\"d\" xmlns:kml=\"k\"><kml:Document><kml:ExtendedData>"
        "<dwd:ProductDefinition><dwd:IssueTime>" +
            base::iso_utc(begin) + "</dwd:IssueTime><dwd:ForecastTimeSteps>" + times +
            "</dwd:ForecastTimeSteps></dwd:ProductDefinition></kml:ExtendedData><kml:Placemark>"
            "<kml:name>10315</kml:name><kml:ExtendedData>" +
            element("TTT", air) + element("FF", wind) + element("RR1c", rain) +
            "</kml:ExtendedData><kml:Point><kml:coordinates>7.70,52.13,48</kml:coordinates>"
            "</kml:Point></kml:Placemark></kml:Document></kml:kml>"}});
}

/// Reports of a station in the United States, on the hour, newest first.
inline std::string nws_reports(base::Instant begin, int hours, double millimetres) {
  std::string features;
  for (int i = hours; i >= 0; --i) {
    const std::string at = base::iso_utc(begin + std::chrono::hours(i));
    features += fmt::format(
        R"({}{{"geometry":{{"coordinates":[-85,30]}},"properties":{{"timestamp":"{}",)"
        R"("temperature":{{"unitCode":"wmoUnit:degC","value":9}},"dewpoint":{{"unitCode":"wmoUnit:degC","value":7}},)"
        R"("windSpeed":{{"unitCode":"wmoUnit:km_h-1","value":18}},)"
        R"("precipitationLastHour":{{"unitCode":"wmoUnit:mm","value":{}}}}}}})",
        features.empty() ? "" : ",", at, millimetres);
  }
  return R"({"features":[)" + features + "]}";
}

/// JSON as Open-Meteo writes it, in m/s and UTC.
inline std::string open_meteo_json(base::Instant begin, int hours) {
  std::string times;
  std::string air;
  std::string wind;
  std::string rain;
  for (int i = 0; i < hours; ++i) {
    const char* comma = i > 0 ? "," : "";
    times += fmt::format("{}\"{}\"", comma, base::iso_utc(begin + std::chrono::hours(i)).substr(0, 16));
    air += fmt::format("{}6", comma);
    wind += fmt::format("{}4", comma);
    rain += fmt::format("{}0", comma);
  }
  return fmt::format(
      R"({{"latitude":52.06,"longitude":-3.61,"utc_offset_seconds":0,"hourly_units":{{"temperature_2m":"°C",)"
      R"("precipitation":"mm","wind_speed_10m":"m/s"}},"hourly":{{"time":[{}],"temperature_2m":[{}],)"
      R"("precipitation":[{}],"wind_speed_10m":[{}]}}}})",
      times, air, rain, wind);
}

}  // namespace weatherstruck::feed
