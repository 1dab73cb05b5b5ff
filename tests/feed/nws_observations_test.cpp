#include "weatherstruck/feed/nws_observations.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::feed {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;

json value(const char* unit, const json& number) {
  return {{"unitCode", unit}, {"value", number}, {"qualityControl", "V"}};
}

json report(const char* time, double air, const json& rain) {
  return {{"type", "Feature"},
          {"geometry", {{"type", "Point"}, {"coordinates", {-86.8, 33.5}}}},
          {"properties",
           {{"timestamp", time},
            {"temperature", value("wmoUnit:degC", air)},
            {"dewpoint", value("wmoUnit:degC", air - 2)},
            {"windSpeed", value("wmoUnit:km_h-1", 18)},
            {"windGust", value("wmoUnit:km_h-1", nullptr)},
            {"relativeHumidity", value("wmoUnit:percent", 87.5)},
            {"precipitationLastHour", value("wmoUnit:mm", rain)}}}};
}

// Newest first, as the service sends them; invented.
json night() {
  return {{"type", "FeatureCollection"},
          {"features",
           {report("2026-02-09T06:53:00+00:00", 3, 1.0), report("2026-02-09T05:53:00+00:00", 4, nullptr),
            report("2026-02-09T04:53:00+00:00", 5, 2.0), report("2026-02-09T03:53:00+00:00", 6, 0.0)}}};
}

TEST(NwsObservations, AreReadInAnyOrderAndMarkedMeasured) {
  const sky::Series series = read_json(night());
  EXPECT_EQ(series.source, "NWS observations");
  EXPECT_EQ(*series.issued, instant("2026-02-09T06:53:00Z"));
  EXPECT_DOUBLE_EQ(series.latitude, 33.5);
  const sky::Hour& five = *series.at(instant("2026-02-09T05:00:00Z"));
  // Between 5 C at 04:53 and 4 C at 05:53.
  EXPECT_DOUBLE_EQ(five.temperature->value.value(), 4.9);
  EXPECT_EQ(five.temperature->origin, sky::Origin::measured);
  EXPECT_DOUBLE_EQ(five.wind->value.value(), 5.0);
  EXPECT_FALSE(five.gust);
}

TEST(NwsObservations, RainThatIsNullIsMissingAndNotDry) {
  const sky::Series series = read_json(night());
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T03:00:00Z"))->rain.has_value() ? 1 : 0, 1);
  EXPECT_FALSE(series.at(instant("2026-02-09T05:00:00Z"))->rain);
}

TEST(NwsObservations, ReportsBetweenTheHoursAreNotCountedTwice) {
  json document = night();
  document["features"].push_back(report("2026-02-09T04:20:00+00:00", 5, 1.5));
  EXPECT_EQ(tenths(read_json(document)), tenths(read_json(night())));
}

TEST(NwsObservations, ThreeHourTotalsStandWhereTheHourlyKeyIsAbsent) {
  json document = night();
  for (json& feature : document["features"])
    feature["properties"].erase("precipitationLastHour");
  document["features"][0]["properties"]["precipitationLast3Hours"] = value("wmoUnit:mm", 6.0);
  const sky::Series series = read_json(document);
  // 03:53 to 06:53: 2 mm an hour, of which the hours from four to six are whole.
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T04:00:00Z"))->rain->value.value(), 2.0);
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T05:00:00Z"))->rain->value.value(), 2.0);
}

TEST(NwsObservations, UnitsOf2019AreReadFromTheUnitCode) {
  json document = night();
  json& properties = document["features"][2]["properties"];
  properties["windSpeed"] = value("unit:m_s-1", 5);
  properties["precipitationLastHour"] = value("unit:m", 0.002);
  EXPECT_EQ(tenths(read_json(document)), tenths(read_json(night())));
  properties["precipitationLastHour"] = value("unit:parsec", 2);
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("unknown-unit"));
}

TEST(NwsObservations, StandBesideALaterForecastForTheHoursTheyMeasured) {
  sky::Series forecast;
  forecast.source = "later";
  forecast.issued = instant("2026-02-09T07:10:00Z");
  for (int i = 0; i < 12; ++i) {
    sky::Hour hour;
    hour.start = instant("2026-02-09T03:00:00Z") + std::chrono::hours(i);
    hour.temperature = sky::Value<base::Celsius>{base::Celsius(20)};
    forecast.hours.push_back(hour);
  }
  const sky::Series both = sky::join(read_json(night()), forecast);
  EXPECT_DOUBLE_EQ(both.at(instant("2026-02-09T05:00:00Z"))->temperature->value.value(), 4.9);
  EXPECT_DOUBLE_EQ(both.at(instant("2026-02-09T09:00:00Z"))->temperature->value.value(), 20);
}

TEST(NwsObservations, FaultsAreToldWithTheirPlaces) {
  json document = night();
  document["features"][0]["properties"]["timestamp"] = "today";
  document["features"][1]["properties"]["temperature"]["value"] = 80;
  document["features"][2]["properties"]["precipitationLastHour"]["value"] = -1;
  const auto faults = faults_of(document.dump());
  EXPECT_THAT(codes(faults), ElementsAre("bad-time", "impossible-value", "impossible-value"));
  EXPECT_EQ(faults[0].place, "/features/0/properties/timestamp");
}

}  // namespace
}  // namespace weatherstruck::feed
