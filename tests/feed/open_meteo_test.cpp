#include "weatherstruck/feed/open_meteo.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

// In the shape that the service documents; the numbers are invented.
json answer() {
  return {{"latitude", 52.06},
          {"longitude", -3.61},
          {"utc_offset_seconds", 0},
          {"timezone", "GMT"},
          {"hourly_units",
           {{"time", "iso8601"},
            {"temperature_2m",
             "\xc2\xb0"
             "C"},
            {"relative_humidity_2m", "%"},
            {"precipitation", "mm"},
            {"precipitation_probability", "%"},
            {"wind_speed_10m", "km/h"},
            {"wind_gusts_10m", "km/h"}}},
          {"hourly",
           {{"time", {"2026-02-09T10:00", "2026-02-09T11:00", "2026-02-09T12:00"}},
            {"temperature_2m", {4.5, 5.0, nullptr}},
            {"relative_humidity_2m", {86, 80, 75}},
            {"precipitation", {0.2, 1.4, 0.0}},
            {"precipitation_probability", {20, 70, 5}},
            {"wind_speed_10m", {18.0, 21.6, 18.0}},
            {"wind_gusts_10m", {36.0, nullptr, 43.2}}}}};
}

const sky::Hour& hour(const sky::Series& series, const std::string& iso) {
  const sky::Hour* found = series.at(instant(iso));
  if (found == nullptr) throw std::out_of_range(iso);
  return *found;
}

TEST(OpenMeteo, SumsGustsAndChancesAreOfTheHourBefore) {
  const sky::Series series = read_json(answer());
  EXPECT_EQ(series.begin_time(), instant("2026-02-09T09:00:00Z"));
  EXPECT_THAT(rain_of(series), ElementsAre(0.2, 1.4, 0.0, -1));
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").rain_chance->value.value(), 0.7);
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T09:00:00Z").gust->value.value(), 10.0);
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").temperature->value.value(), 4.5);
}

TEST(OpenMeteo, WindIsInKilometresAnHourUnlessTheAnswerSaysOtherwise) {
  json document = answer();
  EXPECT_DOUBLE_EQ(hour(read_json(document), "2026-02-09T10:00:00Z").wind->value.value(), 5.0);
  document["hourly_units"]["wind_speed_10m"] = "m/s";
  EXPECT_DOUBLE_EQ(hour(read_json(document), "2026-02-09T10:00:00Z").wind->value.value(), 18.0);
  document["hourly_units"]["precipitation"] = "inch";
  EXPECT_DOUBLE_EQ(hour(read_json(document), "2026-02-09T10:00:00Z").rain->value.value(), 35.6);
}

TEST(OpenMeteo, TimesAreLocalByTheOffsetAndSecondsAreUtc) {
  json document = answer();
  document["utc_offset_seconds"] = 3600;
  EXPECT_EQ(read_json(document).begin_time(), instant("2026-02-09T08:00:00Z"));
  document["hourly"]["time"] = {1770631200, 1770634800, 1770638400};  // 10:00, 11:00, 12:00 UTC
  EXPECT_EQ(read_json(document).begin_time(), instant("2026-02-09T09:00:00Z"));
}

TEST(OpenMeteo, NullIsMissing) {
  const sky::Series series = read_json(answer());
  EXPECT_FALSE(hour(series, "2026-02-09T12:00:00Z").temperature);
  EXPECT_EQ(hour(series, "2026-02-09T10:00:00Z").gust->origin, sky::Origin::derived);
}

TEST(OpenMeteo, NamesOfBeforeAreKnownAndRainAloneStandsInForWhatFalls) {
  json document = answer();
  json& hourly = document["hourly"];
  json& units = document["hourly_units"];
  hourly["windspeed_10m"] = hourly["wind_speed_10m"];
  units["windspeed_10m"] = units["wind_speed_10m"];
  hourly.erase("wind_speed_10m");
  hourly["rain"] = {0.1, 0.1, 0.1};
  units["rain"] = "mm";
  EXPECT_THAT(rain_of(read_json(document)), ElementsAre(0.2, 1.4, 0.0, -1));
  hourly.erase("precipitation");
  const sky::Series series = read_json(document);
  EXPECT_THAT(rain_of(series), ElementsAre(0.1, 0.1, 0.1, -1));
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T11:00:00Z").wind->value.value(), 6.0);
}

TEST(OpenMeteo, SaysThatTheFreeServiceIsNotForTradeUseAndWhatTheLicenceAsksFor) {
  const sky::Series series = read_json(answer());
  EXPECT_TRUE(has_note(series, "licence"));
  EXPECT_THAT(series.attribution, HasSubstr("CC BY 4.0"));
  EXPECT_FALSE(series.issued);
}

TEST(OpenMeteo, EveryFaultIsToldAtOnceWithItsPlace) {
  json document = answer();
  document["hourly"]["temperature_2m"][0] = 80;
  document["hourly"]["precipitation"][1] = -1.4;
  document["hourly"]["wind_speed_10m"] = {1, 2};
  document["hourly_units"]["wind_gusts_10m"] = "furlongs";
  const auto faults = faults_of(document.dump());
  EXPECT_THAT(codes(faults), ::testing::UnorderedElementsAre("impossible-value", "impossible-value",
                                                             "wrong-field-count", "unknown-unit"));
}

TEST(OpenMeteo, TimesMustRiseAndThereMustBeSome) {
  json document = answer();
  document["hourly"]["time"][2] = "2026-02-09T09:00";
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("time-backwards"));
  document["hourly"]["time"] = json::array();
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("empty-forecast"));
}

}  // namespace
}  // namespace weatherstruck::feed
