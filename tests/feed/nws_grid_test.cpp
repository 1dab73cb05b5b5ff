#include "weatherstruck/feed/nws_grid.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using nlohmann::json;
using std::chrono::hours;
using std::chrono::minutes;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

json small() {
  return json_fixture("nws_grid_small.json");
}
json& values(json& document, const char* layer) {
  return document["properties"][layer]["values"];
}

TEST(Duration, TakesDaysHoursAndMinutes) {
  EXPECT_EQ(parse_duration("PT1H"), hours(1));
  EXPECT_EQ(parse_duration("P7DT14H"), hours(7 * 24 + 14));
  EXPECT_EQ(parse_duration("P1D"), hours(24));
  EXPECT_EQ(parse_duration("PT1H30M"), minutes(90));
  EXPECT_EQ(parse_duration("PT90M"), minutes(90));
  EXPECT_EQ(parse_duration("P2DT18H"), hours(66));
}

TEST(Duration, RefusesEverythingElse) {
  for (const char* text : {"",     "P",           "PT",    "T1H",   "1H",    "P1H",    "PT1D",   "PT1S",
                           "P1M",  "P1Y",         "P1W",   "PT0H",  "PT-1H", "PT1.5H", "PT1H1H", "PT1M1H",
                           "P1DT", "PT99999999H", "P401D", "PT1H ", "PTT1H", "PT1"}) {
    EXPECT_FALSE(parse_duration(text)) << text;
  }
}

TEST(NwsGrid, RainIsTheTotalOfItsIntervalAndIsSplit) {
  const sky::Series series = read_json(small());
  // 0.508 mm over three hours is 0.5; 7.62 over six is 7.6.
  std::vector<double> first(series.hours.size(), 0);
  const auto rain = rain_of(series);
  EXPECT_THAT(std::vector<double>(rain.begin(), rain.begin() + 9),
              ElementsAre(0.2, 0.2, 0.1, 1.3, 1.3, 1.3, 1.3, 1.2, 1.2));
  EXPECT_EQ(tenths(series), 81);
  EXPECT_EQ(series.hours[0].rain->origin, sky::Origin::split);
}

TEST(NwsGrid, RainThatEndsEarlyIsMissingAndNotZero) {
  const sky::Series series = read_json(small());
  ASSERT_EQ(series.hours.size(), 27U);
  for (std::size_t i = 9; i < 27; ++i)
    EXPECT_FALSE(series.hours[i].rain);
  const auto told = std::find_if(series.notes.begin(), series.notes.end(), [](const sky::SeriesNote& note) {
    return note.code == "ends-early" && note.text.starts_with("rain known");
  });
  ASSERT_NE(told, series.notes.end());
  EXPECT_EQ(told->text,
            "rain known only until 2026-01-10 18:00 UTC, the series runs until 2026-01-11 12:00 UTC");
}

TEST(NwsGrid, TheFirstIntervalsBeginInThePast) {
  const sky::Series series = read_json(small());
  EXPECT_EQ(series.begin_time(), instant("2026-01-10T09:00:00Z"));
  EXPECT_GT(*series.issued, series.begin_time() + hours(4));
}

TEST(NwsGrid, KilometresPerHourBecomeMetresPerSecond) {
  const sky::Series series = read_json(small());
  EXPECT_DOUBLE_EQ(series.hours[0].wind->value.value(), 5.0);
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 10.0);
}

TEST(NwsGrid, AGustLayerThatEndsIsContinuedFromTheWind) {
  const sky::Series series = read_json(small());
  EXPECT_EQ(series.hours[5].gust->origin, sky::Origin::held);
  EXPECT_EQ(series.hours[6].gust->origin, sky::Origin::derived);
}

TEST(NwsGrid, TheUnitPrefixOf2019AndOfTodayAreBothTaken) {
  json document = small();
  for (const char* layer : {"temperature", "dewpoint"})
    document["properties"][layer]["uom"] = "unit:degC";
  document["properties"]["windSpeed"]["uom"] = "unit:m_s-1";
  values(document, "windSpeed")[0]["value"] = 5;
  const sky::Series series = read_json(document);
  EXPECT_DOUBLE_EQ(series.hours[0].temperature->value.value(), 2.3);
  EXPECT_DOUBLE_EQ(series.hours[0].wind->value.value(), 5.0);
}

TEST(NwsGrid, FahrenheitIsConvertedAndAnUnknownUnitIsAFault) {
  json document = small();
  document["properties"]["temperature"]["uom"] = "wmoUnit:degF";
  values(document, "temperature")[0]["value"] = 50;
  EXPECT_DOUBLE_EQ(read_json(document).hours[0].temperature->value.value(), 10.0);
  document["properties"]["temperature"]["uom"] = "wmoUnit:degR";
  const auto faults = faults_of(document.dump());
  ASSERT_THAT(codes(faults), ElementsAre("unknown-unit"));
  EXPECT_EQ(faults[0].place, "/properties/temperature/uom");
}

TEST(NwsGrid, AnEmptyLayerCarriesNoUnitAndIsNoFault) {
  json document = small();
  document["properties"]["windGust"] = {{"values", json::array()}};
  const sky::Series series = read_json(document);
  EXPECT_EQ(series.hours[0].gust->origin, sky::Origin::derived);
}

TEST(NwsGrid, NullIsMissing) {
  const sky::Series series = read_json(small());
  EXPECT_TRUE(series.hours[11].cloud);
  EXPECT_FALSE(series.hours[12].cloud);
}

TEST(NwsGrid, TheChanceIsOfTheWholeInterval) {
  const sky::Series series = read_json(small());
  EXPECT_DOUBLE_EQ(series.hours[11].rain_chance->value.value(), 0.6);
  EXPECT_EQ(series.hours[11].rain_chance->origin, sky::Origin::split);
  EXPECT_FALSE(series.hours[12].rain_chance);
}

TEST(NwsGrid, DailyExtremesAndSnowDepthStayOut) {
  const sky::Series series = read_json(small());
  for (const sky::Hour& hour : series.hours)
    EXPECT_LE(hour.temperature->value.value(), 6.0);
  EXPECT_EQ(tenths(series), 81);
}

TEST(NwsGrid, OverlappingRainIsAFault) {
  json document = small();
  values(document, "quantitativePrecipitation")[1]["validTime"] = "2026-01-10T11:00:00+00:00/PT6H";
  const auto faults = faults_of(document.dump());
  ASSERT_THAT(codes(faults), ElementsAre("overlap"));
  EXPECT_THAT(faults[0].found, HasSubstr("2026-01-10T11:00:00Z"));
}

TEST(NwsGrid, EveryFaultIsToldAtOnceWithItsPlace) {
  json document = small();
  values(document, "temperature")[0]["validTime"] = "2026-01-10T09:00:00+00:00/PT";
  values(document, "windSpeed")[0]["value"] = "18";
  values(document, "quantitativePrecipitation")[0]["value"] = -1;
  document["properties"]["updateTime"] = "today";
  const auto faults = faults_of(document.dump());
  EXPECT_THAT(codes(faults), ElementsAre("bad-time", "bad-interval", "wrong-type", "impossible-value"));
  EXPECT_EQ(faults[1].place, "/properties/temperature/values/0/validTime");
}

TEST(NwsGrid, AnAnswerWithoutAnyValueIsNoForecast) {
  json document = small();
  json& properties = document["properties"];
  for (auto& [name, layer] : properties.items()) {
    if (layer.is_object() && layer.contains("values")) layer["values"] = json::array();
  }
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("empty-forecast"));
}

// Real answers of the service (public domain). Sums are made here from the raw text with its own reading of
// durations.
class NwsAnswer : public ::testing::TestWithParam<const char*> {};

int hours_in(const std::string& interval) {  // PT6H, P1DT3H, P2D: enough for these files
  const std::string duration = interval.substr(interval.find("/P") + 2);
  int total = 0;
  int number = 0;
  for (const char c : duration) {
    if (c >= '0' && c <= '9') number = number * 10 + (c - '0');
    if (c == 'D') total += 24 * number;
    if (c == 'H') total += number;
    if (c == 'D' || c == 'H') number = 0;
  }
  return total;
}

TEST_P(NwsAnswer, ReadsWithoutLossOfRain) {
  const auto path = shared_forecasts() / "nws" / GetParam();
  if (!std::filesystem::exists(path))
    GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
  const std::string bytes = bytes_of(path);
  const sky::Series series = read_forecast(GetParam(), bytes);
  const json document = json::parse(bytes);
  const json& rain = document["properties"]["quantitativePrecipitation"]["values"];
  long long exact = 0;
  double raw = 0;
  long long covered = 0;
  for (const auto& interval : rain) {
    if (interval["value"].is_null()) continue;
    exact += std::llround(interval["value"].get<double>() * 10.0);
    raw += interval["value"].get<double>();
    covered += hours_in(interval["validTime"].get<std::string>());
  }
  EXPECT_EQ(tenths(series), exact);
  EXPECT_NEAR(static_cast<double>(tenths(series)) / 10.0, raw, 0.05 * static_cast<double>(rain.size()));
  EXPECT_EQ(std::count_if(series.hours.begin(), series.hours.end(),
                          [](const sky::Hour& h) { return h.rain.has_value(); }),
            covered);
  EXPECT_TRUE(has_note(series, "ends-early"));
  // Each temperature interval, hour by hour.
  for (const auto& interval : document["properties"]["temperature"]["values"]) {
    const std::string when = interval["validTime"].get<std::string>();
    const auto from = instant(when.substr(0, when.find('/')));
    for (int h = 0; h < hours_in(when); ++h) {
      const sky::Hour* hour = series.at(from + hours(h));
      ASSERT_TRUE(hour != nullptr && hour->temperature);
      EXPECT_NEAR(hour->temperature->value.value(), interval["value"].get<double>(), 0.0500001);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Real, NwsAnswer,
                         ::testing::Values("grid_BMX_32_69_20240223.json", "grid_LZK_83_73_20240220.json",
                                           "grid_OHX_14_55_tennessee_20240108_storm_then_cold.json"),
                         [](const auto& tested) { return std::string(tested.param).substr(5, 3); });

TEST(NwsAnswerOfLittleRock, RainEndsAfterFourDaysWhileTheRestGoesOn) {
  const auto path = shared_forecasts() / "nws" / "grid_LZK_83_73_20240220.json";
  if (!std::filesystem::exists(path))
    GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
  const sky::Series series = read_forecast("LZK", bytes_of(path));
  EXPECT_TRUE(series.at(instant("2024-02-24T23:00:00Z"))->rain);
  EXPECT_FALSE(series.at(instant("2024-02-25T00:00:00Z"))->rain);
  EXPECT_TRUE(series.at(instant("2024-02-28T11:00:00Z"))->temperature);
  EXPECT_NEAR(series.latitude, 34.75, 0.05);
  EXPECT_NEAR(series.longitude, -92.26, 0.05);
}

TEST(NwsErrors, AreToldInTheServicesOwnWords) {
  const auto folder = shared_forecasts() / "nws";
  if (!std::filesystem::exists(folder)) {
    GTEST_SKIP() << "no " << folder << "; set WEATHERSTRUCK_SHARED to the data folder";
  }
  const std::tuple<const char*, const char*, const char*> bodies[] = {
      {"error_404_InvalidPoint_20191023.json", "service-error", "Data Unavailable For Requested Point (404)"},
      {"error_500_UnexpectedProblem_2022.json", "service-error", "Unexpected Problem (500)"},
      {"error_503_UnavailableWebService_20191204.json", "service-error", "Unavailable Resource (503)"},
      {"hourly_BMX_32_69_20240223.json", "no-amounts", "text forecast"},
      {"points_30_-85.json", "not-a-forecast", "points answer"}};
  for (const auto& [name, code, words] : bodies) {
    const auto faults = faults_of(bytes_of(folder / name));
    ASSERT_THAT(codes(faults), ElementsAre(code)) << name;
    EXPECT_THAT(faults[0].found, HasSubstr(words));
  }
}

}  // namespace
}  // namespace weatherstruck::feed
