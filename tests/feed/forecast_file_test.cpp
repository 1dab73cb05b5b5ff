#include "weatherstruck/feed/forecast_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(Recognise, GoesByContent) {
  EXPECT_EQ(recognise(bytes_of(fixture("met_norway_small.json"))), ForecastKind::met_norway);
  EXPECT_EQ(recognise(bytes_of(fixture("nws_grid_small.json"))), ForecastKind::nws_grid);
  EXPECT_EQ(recognise(bytes_of(fixture("station_semicolon.csv"))), ForecastKind::csv);
  EXPECT_EQ(recognise(bytes_of(fixture("service_sums_before_stamp.csv"))), ForecastKind::csv);
  EXPECT_EQ(recognise("{}"), std::nullopt);
  EXPECT_EQ(recognise("service unavailable"), std::nullopt);
  EXPECT_EQ(recognise(""), std::nullopt);
}

TEST(ReadForecast, AWebPageIsTold) {
  const auto faults = faults_of("<!DOCTYPE html>\n<html><head><title>403 Forbidden</title></head></html>\n");
  ASSERT_THAT(codes(faults), ElementsAre("service-error"));
  EXPECT_EQ(faults[0].found, "a web page: 403 Forbidden");
}

TEST(ReadForecast, AMessageInPlaceOfAForecastIsTold) {
  const auto faults = faults_of("Outside of coverage area\n");
  ASSERT_THAT(codes(faults), ElementsAre("service-error"));
  EXPECT_EQ(faults[0].found, "Outside of coverage area");
}

TEST(ReadForecast, AProblemAnswerIsTold) {
  const auto faults = faults_of(R"({"title":"Unexpected Problem","type":"about:blank","status":500,)"
                                R"("detail":"An unexpected problem has occurred."})");
  ASSERT_THAT(codes(faults), ElementsAre("service-error"));
  EXPECT_EQ(faults[0].found, "Unexpected Problem (500): An unexpected problem has occurred.");
}

TEST(ReadForecast, AnErrorWithAReasonIsTold) {
  const auto faults = faults_of(R"({"error":true,"reason":"Latitude must be in range of -90 to 90"})");
  ASSERT_THAT(codes(faults), ElementsAre("service-error"));
  EXPECT_THAT(faults[0].found, HasSubstr("Latitude"));
}

TEST(ReadForecast, OtherThingsAreNoForecast) {
  EXPECT_THAT(codes(faults_of("{\"a\": 1}")), ElementsAre("not-a-forecast"));
  EXPECT_THAT(codes(faults_of("[1, 2]")), ElementsAre("not-a-forecast"));
  EXPECT_THAT(codes(faults_of("PK\x03\x04 whatever")), ElementsAre("bad-archive"));
  EXPECT_THAT(codes(faults_of("\x1f\x8b\x08 whatever")), ElementsAre("bad-archive"));
  EXPECT_THAT(codes(faults_of(std::string("t\0i\0m\0e\0", 8))), ElementsAre("not-a-forecast"));
  EXPECT_THAT(codes(faults_of("  \n \n")), ElementsAre("empty-input"));
  EXPECT_THAT(codes(faults_of("one\ntwo\nthree\nfour\nfive\nsix\n")), ElementsAre("not-a-forecast"));
}

TEST(ReadForecast, BrokenJsonIsToldWithItsPlace) {
  std::string text = bytes_of(fixture("met_norway_small.json"));
  text.resize(text.size() / 2);
  const auto faults = faults_of(text);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_THAT(faults[0].place, HasSubstr("line"));
}

TEST(ReadForecast, NestingBombsAndHugeNumbersAreFaultsAndNotCrashes) {
  EXPECT_FALSE(faults_of(std::string(100000, '[')).empty());
  std::string text = bytes_of(fixture("met_norway_small.json"));
  text.replace(text.find("4.0"), 3, "1e999");
  EXPECT_THAT(codes(faults_of(text)), ElementsAre("huge-number"));
}

// Any prefix of a good file is either read or refused with faults: nothing else comes out.
TEST(ReadForecast, EveryPrefixIsReadOrRefused) {
  for (const char* name : {"met_norway_small.json", "nws_grid_small.json", "station_semicolon.csv",
                           "service_sums_before_stamp.csv"}) {
    const std::string whole = bytes_of(fixture(name));
    ReadOptions options;
    options.zone = base::Zone::fixed("UTC", std::chrono::seconds(0));
    std::size_t refused = 0;
    for (std::size_t n = 0; n < whole.size(); ++n) {
      try {
        EXPECT_FALSE(read_forecast(name, whole.substr(0, n), options).empty());
      } catch (const base::InputError& error) {
        EXPECT_FALSE(error.faults().empty());
        ++refused;
      }
    }
    EXPECT_GT(refused, 0U);
  }
}

TEST(ReadForecast, AGustFactorOutsideReasonIsAFault) {
  ReadOptions options;
  options.gust_factor = 0.5;
  EXPECT_THAT(codes(faults_of(bytes_of(fixture("met_norway_small.json")), options)),
              ElementsAre("out-of-range"));
}

TEST(ReadForecast, TheFactorForGustsCanBeChosen) {
  ReadOptions options;
  options.gust_factor = sky::GustFactor::coast;
  const auto series = read_forecast("x", bytes_of(fixture("met_norway_small.json")), options);
  EXPECT_DOUBLE_EQ(series.hours[1].gust->value.value(), 7.0);  // 4.0 x 1.75
}

}  // namespace
}  // namespace weatherstruck::feed
