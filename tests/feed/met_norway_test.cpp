#include "weatherstruck/feed/met_norway.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using nlohmann::json;
using std::chrono::hours;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

json small() {
  return json_fixture("met_norway_small.json");
}
json& step(json& document, std::size_t i) {
  return document["properties"]["timeseries"][i];
}

TEST(MetNorway, ReadsPlaceIssueAndWhatTheLicenceAsksFor) {
  const sky::Series series = read_json(small());
  EXPECT_EQ(series.source, "MET Norway");
  EXPECT_EQ(series.attribution, "Weather data from MET Norway (api.met.no), CC BY 4.0, modified");
  EXPECT_EQ(series.issued, instant("2026-03-02T08:31:07Z"));
  EXPECT_DOUBLE_EQ(series.latitude, 52.5);
  EXPECT_DOUBLE_EQ(series.longitude, -3.5);
}

TEST(MetNorway, SixHourWindowsOfHourlyStepsOverlapAndAreNeverAdded) {
  const sky::Series series = read_json(small());
  // 1.0, 0.5, 0.2 by the hour; then 2.0 over six hours; then 0.0 over six.
  EXPECT_THAT(rain_of(series), ElementsAre(1.0, 0.5, 0.2, 0.4, 0.4, 0.3, 0.3, 0.3, 0.3, 0, 0, 0, 0, 0, 0));
  EXPECT_EQ(tenths(series), 37);
}

TEST(MetNorway, TheLastHourlyStepHasItsOneHourOnly) {
  const sky::Series series = read_json(small());
  const sky::Hour* last_hourly = series.at(instant("2026-03-02T11:00:00Z"));
  ASSERT_TRUE(last_hourly != nullptr && last_hourly->rain);
  EXPECT_EQ(last_hourly->rain->origin, sky::Origin::given);
  EXPECT_EQ(series.at(instant("2026-03-02T12:00:00Z"))->rain->origin, sky::Origin::split);
}

TEST(MetNorway, TheLastStepHasReadingsOnlyAndEndsTheSeries) {
  const sky::Series series = read_json(small());
  EXPECT_EQ(series.begin_time(), instant("2026-03-02T09:00:00Z"));
  EXPECT_EQ(series.end_time(), instant("2026-03-03T00:00:00Z"));
  // 4.0 at 18 h, 1.0 at midnight: 1.5 at 23 h.
  EXPECT_DOUBLE_EQ(series.hours.back().temperature->value.value(), 1.5);
  EXPECT_EQ(series.hours.back().temperature->origin, sky::Origin::held);
}

TEST(MetNorway, AWindowWithoutDetailsIsMissingRainAndNotDry) {
  json document = small();
  step(document, 1)["data"]["next_1_hours"].erase("details");
  const sky::Series series = read_json(document);
  EXPECT_FALSE(series.hours[1].rain);
  EXPECT_DOUBLE_EQ(series.hours[0].rain->value.value(), 1.0);
  EXPECT_TRUE(has_note(series, "gap"));
}

TEST(MetNorway, EmptyDetailsAreMissingRainToo) {
  json document = small();
  step(document, 1)["data"]["next_1_hours"]["details"] = json::object();
  EXPECT_FALSE(read_json(document).hours[1].rain);
}

TEST(MetNorway, NullIsMissing) {
  json document = small();
  step(document, 0)["data"]["instant"]["details"]["air_temperature"] = nullptr;
  step(document, 0)["data"]["next_1_hours"]["details"]["precipitation_amount"] = nullptr;
  const sky::Series series = read_json(document);
  EXPECT_FALSE(series.hours[0].temperature);
  EXPECT_FALSE(series.hours[0].rain);
}

TEST(MetNorway, AnAnswerWithAnErrorInsideIsNoForecast) {
  json document = small();
  document["properties"]["meta"]["error"] = "no data at the given location";
  document["properties"]["timeseries"] = json::array();
  const auto faults = faults_of(document.dump());
  ASSERT_EQ(codes(faults), std::vector<std::string>{"service-error"});
  EXPECT_THAT(faults[0].found, HasSubstr("no data at the given location"));
}

TEST(MetNorway, AnEmptyTimeseriesIsNoForecast) {
  json document = small();
  document["properties"]["timeseries"] = json::array();
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("empty-forecast"));
}

TEST(MetNorway, OutsideTheNorthPercentilesGustsAndChancesAreAbsent) {
  const sky::Series series = read_json(small());
  for (const sky::Hour& hour : series.hours) {
    EXPECT_FALSE(hour.temperature_error);
    EXPECT_TRUE(!hour.rain_chance || hour.rain_chance->origin == sky::Origin::derived);
  }
  EXPECT_EQ(series.hours[0].gust->origin, sky::Origin::derived);
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 7.0);  // 3.0 x 2.33 = 6.99
  EXPECT_TRUE(has_note(series, "derived-gust"));
}

TEST(MetNorway, AChanceOfRainThatIsNotGivenIsReckonedFromTheAmountAndTheLeadAndMarked) {
  const sky::Series series = read_json(small());
  ASSERT_TRUE(series.issued);
  EXPECT_TRUE(has_note(series, "derived-chance"));
  int wet = 0;
  for (const sky::Hour& hour : series.hours) {
    ASSERT_EQ(hour.rain_chance.has_value(), hour.rain.has_value());
    if (!hour.rain) continue;
    const double days = std::chrono::duration<double, std::ratio<86400>>(hour.start - *series.issued).count();
    // docs/chance.md: 3 % dry, 60, 80, 92 % by the amount, fading to 11.5 %.
    const double mm = hour.rain->value.value();
    const double said = mm <= 0 ? 0.03 : mm < 0.2 ? 0.6 : mm < 1 ? 0.8 : 0.92;
    EXPECT_NEAR(hour.rain_chance->value.value(), 0.115 + (said - 0.115) * std::exp(-std::max(0.0, days) / 4),
                0.0051);
    wet += mm > 0 ? 1 : 0;
  }
  EXPECT_GT(wet, 0);
  json document = small();
  document["properties"]["meta"].erase("updated_at");
  for (const sky::Hour& hour : read_json(document).hours)
    EXPECT_FALSE(hour.rain_chance) << "how far ahead it was is not known";
}

TEST(MetNorway, InTheNorthGustsAndChancesAreGiven) {
  json document = small();
  step(document, 0)["data"]["instant"]["details"]["wind_speed_of_gust"] = 8.8;
  step(document, 0)["data"]["next_1_hours"]["details"]["probability_of_precipitation"] = 73.2;
  step(document, 3)["data"]["next_6_hours"]["details"]["probability_of_precipitation"] = 40;
  const sky::Series series = read_json(document);
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 8.8);
  EXPECT_EQ(series.hours[0].gust->origin, sky::Origin::given);
  EXPECT_EQ(series.hours[1].gust->origin, sky::Origin::derived);
  EXPECT_DOUBLE_EQ(series.hours[0].rain_chance->value.value(), 0.73);
  EXPECT_EQ(series.at(instant("2026-03-02T15:00:00Z"))->rain_chance->origin, sky::Origin::split);
}

TEST(MetNorway, AFileCutAfterAnHourlyStepKeepsThatHour) {
  json document = small();
  auto& steps = document["properties"]["timeseries"];
  steps.erase(steps.begin() + 2, steps.end());
  const sky::Series series = read_json(document);
  EXPECT_THAT(rain_of(series), ElementsAre(1.0, 0.5));
}

TEST(MetNorway, ALostStepLeavesAGapAndNoRainIsMadeUp) {
  json document = small();
  auto& steps = document["properties"]["timeseries"];
  steps.erase(steps.begin() + 1);
  const sky::Series series = read_json(document);
  EXPECT_FALSE(series.hours[1].rain);
  EXPECT_DOUBLE_EQ(series.hours[1].temperature->value.value(), 5.0);  // between 4.0 and 6.0
}

TEST(MetNorway, EveryFaultIsToldAtOnceWithItsPlace) {
  json document = small();
  step(document, 0)["data"]["instant"]["details"]["air_temperature"] = 80.0;
  step(document, 1)["data"]["next_1_hours"]["details"]["precipitation_amount"] = -0.5;
  step(document, 2)["data"]["instant"]["details"]["wind_speed"] = "calm";
  const auto faults = faults_of(document.dump());
  ASSERT_THAT(codes(faults), ElementsAre("impossible-value", "impossible-value", "wrong-type"));
  EXPECT_EQ(faults[0].place, "/properties/timeseries/0/data/instant/details/air_temperature");
  EXPECT_EQ(faults[0].found, "temperature 80 C");
  EXPECT_EQ(faults[0].expected, "-90 to 60 C");
  EXPECT_EQ(faults[1].place, "/properties/timeseries/1/data/next_1_hours/details/precipitation_amount");
}

TEST(MetNorway, StepsMustRiseInTime) {
  json document = small();
  step(document, 2)["time"] = "2026-03-02T09:30:00Z";
  step(document, 4)["time"] = "soon";
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("time-backwards", "bad-time"));
}

TEST(MetNorway, AnotherUnitIsAFaultAndNotAGuess) {
  json document = small();
  document["properties"]["meta"]["units"]["air_temperature"] = "kelvin";
  const auto faults = faults_of(document.dump());
  ASSERT_THAT(codes(faults), ElementsAre("unknown-unit"));
  EXPECT_EQ(faults[0].expected, "celsius");
}

TEST(MetNorway, TheDemonstrationsForecastsReadAndTellTheirStory) {
  const auto folder = std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / "fixtures" / "demo";
  const sky::Series first = read_forecast("day1", bytes_of(folder / "forecast-day1.json"));
  EXPECT_EQ(first.issued, instant("2026-02-09T04:43:00Z"));
  EXPECT_GE(first.end_time() - first.begin_time(), hours(9 * 24));
  double night = 0;
  for (auto t = instant("2026-02-09T19:00:00Z"); t < instant("2026-02-10T04:00:00Z"); t += hours(1)) {
    night += first.at(t)->rain->value.value();
  }
  EXPECT_NEAR(night, 12.0, 1e-9);
  EXPECT_NEAR(first.at(instant("2026-02-11T06:00:00Z"))->temperature->value.value(), -2.0, 0.3);
  EXPECT_GT(first.at(instant("2026-02-10T14:00:00Z"))->gust->value.value(), 11.0);
  const sky::Series second = read_forecast("day2", bytes_of(folder / "forecast-day2.json"));
  EXPECT_NEAR(second.at(instant("2026-02-11T06:00:00Z"))->temperature->value.value(), -2.5, 0.3);
  EXPECT_GT(second.at(instant("2026-02-12T12:00:00Z"))->rain->value.value(), 0.0);
}

// Real answers of the service (CC BY 4.0). The sum is made here from the raw text by its own rule: every
// one-hour amount, and every six-hour amount of the steps that have no one-hour amount.
class MetNorwayAnswer : public ::testing::TestWithParam<const char*> {};

TEST_P(MetNorwayAnswer, ReadsWithoutLossOfRain) {
  const auto path = shared_forecasts() / "metno" / GetParam();
  if (!std::filesystem::exists(path))
    GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
  const std::string bytes = bytes_of(path);
  const sky::Series series = read_forecast(GetParam(), bytes);
  const json document = json::parse(bytes);
  const auto& steps = document["properties"]["timeseries"];
  double sum = 0;
  double covered = 0;
  for (const auto& s : steps) {
    const auto& data = s["data"];
    if (data.contains("next_1_hours")) {
      sum += data["next_1_hours"]["details"]["precipitation_amount"].get<double>();
      covered += 1;
    } else if (data.contains("next_6_hours")) {
      sum += data["next_6_hours"]["details"]["precipitation_amount"].get<double>();
      covered += 6;
    }
  }
  EXPECT_EQ(tenths(series), std::llround(sum * 10.0));  // the service itself gives tenths
  EXPECT_EQ(static_cast<double>(series.hours.size()), covered);
  for (const sky::Hour& hour : series.hours) {
    EXPECT_TRUE(hour.temperature && hour.wind && hour.gust && hour.humidity && hour.cloud && hour.rain);
  }
  // Every reading of every step but the last stands in its hour.
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    const sky::Hour* hour = series.at(instant(steps[i]["time"].get<std::string>()));
    ASSERT_NE(hour, nullptr);
    const auto& details = steps[i]["data"]["instant"]["details"];
    EXPECT_NEAR(hour->temperature->value.value(), details["air_temperature"].get<double>(), 1e-9);
    EXPECT_NEAR(hour->wind->value.value(), details["wind_speed"].get<double>(), 1e-9);
    EXPECT_EQ(hour->temperature->origin, sky::Origin::given);
  }
}

INSTANTIATE_TEST_SUITE_P(Real, MetNorwayAnswer,
                         ::testing::Values("compact_20240516T1335Z_innsbruck_wet.json",
                                           "complete_20200720T01Z_london_global.json",
                                           "complete_20220518T20Z_59N10E_skagerrak_percentiles.json"),
                         [](const auto& tested) {
                           const std::string name = tested.param;
                           return name.find("innsbruck") != std::string::npos ? "Innsbruck"
                                  : name.find("london") != std::string::npos  ? "London"
                                                                              : "Skagerrak";
                         });

TEST(MetNorway, PercentilesBecomeTheErrorOfTheHour) {
  auto document = json_fixture("met_norway_small.json");
  auto& details = document["properties"]["timeseries"][0]["data"]["instant"]["details"];
  details["air_temperature_percentile_10"] = 2.0;
  details["air_temperature_percentile_90"] = 4.563;
  details["wind_speed_percentile_10"] = 3.0;
  details["wind_speed_percentile_90"] = 5.563;
  const sky::Series series = read_json(document);
  EXPECT_NEAR(series.hours[0].temperature_error->value.value(), 1.0, 1e-3);
  EXPECT_NEAR(series.hours[0].wind_error->value.value(), 1.0, 1e-3);
  EXPECT_FALSE(series.hours[1].temperature_error);
  details["wind_speed_percentile_90"] = 2.0;
  EXPECT_THAT(codes(faults_of(document.dump())), ElementsAre("crossed"));
}

TEST(MetNorwayAnswerOfTheNorth, HasGustsGivenInItsHourlyPart) {
  const auto path = shared_forecasts() / "metno" / "complete_20220518T20Z_59N10E_skagerrak_percentiles.json";
  if (!std::filesystem::exists(path))
    GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
  const sky::Series series = read_forecast("north", bytes_of(path));
  EXPECT_EQ(series.hours.front().gust->origin, sky::Origin::given);
  EXPECT_DOUBLE_EQ(series.hours.front().gust->value.value(), 2.2);
  EXPECT_TRUE(series.hours.front().rain_chance);
  EXPECT_EQ(series.hours.back().gust->origin, sky::Origin::derived);
}

TEST(MetNorwayErrors, AreToldInTheServicesOwnWords) {
  const auto folder = shared_forecasts() / "metno";
  if (!std::filesystem::exists(folder)) {
    GTEST_SKIP() << "no " << folder << "; set WEATHERSTRUCK_SHARED to the data folder";
  }
  const std::pair<const char*, const char*> bodies[] = {
      {"error_200_no_data_at_location.json", "no data at the given location"},
      {"error_400_missing_lat.txt", "Missing value for lat"},
      {"error_404_outside.txt", "Outside of coverage area"},
      {"error_503.txt", "service unavailable"}};
  for (const auto& [name, words] : bodies) {
    const auto faults = faults_of(bytes_of(folder / name));
    ASSERT_THAT(codes(faults), ElementsAre("service-error")) << name;
    EXPECT_THAT(faults[0].found, HasSubstr(words));
  }
}

}  // namespace
}  // namespace weatherstruck::feed
