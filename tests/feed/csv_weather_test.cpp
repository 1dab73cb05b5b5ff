#include "weatherstruck/feed/csv_weather.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using base::Zone;
using std::chrono::hours;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

// Great Britain in 2026: forward on 29 March, back on 25 October, both at 01:00 UTC.
ReadOptions british() {
  ReadOptions options;
  options.zone = Zone("Europe/London", hours(0), "GMT",
                      {{instant("2026-03-29T01:00:00Z"), hours(1), "BST"},
                       {instant("2026-10-25T01:00:00Z"), hours(0), "GMT"}});
  return options;
}

sky::Series table(const std::string& text, const ReadOptions& options = {}) {
  return read_forecast("table.csv", text, options);
}

const std::string kPlain =
    "time,temperature,wind,rain\n"
    "2026-02-09T10:00Z,4.5,5,0.2\n"
    "2026-02-09T11:00Z,5.0,6,1.4\n"
    "2026-02-09T12:00Z,5.5,5,0\n";

TEST(Csv, ReadsAPlainTable) {
  const sky::Series series = table(kPlain);
  EXPECT_EQ(series.source, "table.csv");
  EXPECT_FALSE(series.issued);
  ASSERT_EQ(series.hours.size(), 3U);
  EXPECT_DOUBLE_EQ(series.hours[1].temperature->value.value(), 5.0);
  EXPECT_EQ(series.hours[1].temperature->origin, sky::Origin::given);
  EXPECT_THAT(rain_of(series), ElementsAre(0.2, 1.4, 0));
  EXPECT_TRUE(has_note(series, "rain-hour"));
}

TEST(Csv, SemicolonsDecimalCommasByteOrderMarkQuotesRemarksAndUnits) {
  const sky::Series series = table(bytes_of(fixture("station_semicolon.csv")), british());
  ASSERT_EQ(series.hours.size(), 3U);
  EXPECT_EQ(series.begin_time(), instant("2026-02-09T10:00:00Z"));
  EXPECT_DOUBLE_EQ(series.hours[0].temperature->value.value(), 4.5);
  EXPECT_DOUBLE_EQ(series.hours[0].wind->value.value(), 5.0);
  EXPECT_DOUBLE_EQ(series.hours[2].gust->value.value(), 11.3);  // 40.5 km/h = 11.25 m/s
  EXPECT_THAT(rain_of(series), ElementsAre(0.2, 1.4, -1));
}

TEST(Csv, MarksOfMissingAreMissing) {
  const sky::Series series = table(bytes_of(fixture("station_semicolon.csv")), british());
  EXPECT_FALSE(series.hours[1].humidity);                         // ---
  EXPECT_FALSE(series.hours[2].temperature);                      // -9999
  EXPECT_FALSE(series.hours[2].rain);                             // NA
  EXPECT_EQ(series.hours[1].gust->origin, sky::Origin::derived);  // empty
}

TEST(Csv, ServiceNamesWhoseSumsEndAtTheStampAreKnown) {
  const sky::Series series = table(bytes_of(fixture("service_sums_before_stamp.csv")), british());
  // Stamp 11:00 holds the rain of 10 to 11 h and the temperature of 11:00.
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T10:00:00Z"))->rain->value.value(), 1.4);
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T11:00:00Z"))->rain->value.value(), 0.3);
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T11:00:00Z"))->temperature->value.value(), 5.0);
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T10:00:00Z"))->rain_chance->value.value(), 0.7);
}

TEST(Csv, TheRainHourCanBeChosen) {
  ReadOptions options;
  options.stamp = sky::StampMeans::end_of_hour;
  const sky::Series before = table(kPlain, options);
  EXPECT_DOUBLE_EQ(before.at(instant("2026-02-09T09:00:00Z"))->rain->value.value(), 0.2);
  EXPECT_FALSE(before.at(instant("2026-02-09T12:00:00Z"))->rain);
  EXPECT_FALSE(has_note(before, "rain-hour"));
  options.stamp = sky::StampMeans::start_of_hour;
  EXPECT_DOUBLE_EQ(table(kPlain, options).at(instant("2026-02-09T10:00:00Z"))->rain->value.value(), 0.2);
  EXPECT_THAT(rain_of(table(bytes_of(fixture("service_sums_before_stamp.csv")),
                            [] {
                              ReadOptions o = british();
                              o.stamp = sky::StampMeans::start_of_hour;
                              return o;
                            }())),
              ElementsAre(0, 1.4, 0.3));
}

TEST(Csv, UnitsStandInTheHeader) {
  const sky::Series series = table(
      "time,temp_f,wind (mph),gust [kt],rain (in),rh (0-1),cloud_okta\n"
      "2026-02-09T10:00Z,50,10,20,0.1,0.85,4\n");
  const sky::Hour& hour = series.hours.at(0);
  EXPECT_DOUBLE_EQ(hour.temperature->value.value(), 10.0);
  EXPECT_DOUBLE_EQ(hour.wind->value.value(), 4.5);   // 10 mph = 4.47 m/s
  EXPECT_DOUBLE_EQ(hour.gust->value.value(), 10.3);  // 20 kn = 10.29 m/s
  EXPECT_DOUBLE_EQ(hour.rain->value.value(), 2.5);   // 0.1 in = 2.54 mm
  EXPECT_DOUBLE_EQ(hour.humidity->value.value(), 0.85);
  EXPECT_DOUBLE_EQ(hour.cloud->value.value(), 0.5);
}

TEST(Csv, AnUnknownUnitIsAFault) {
  const auto faults = faults_of("time,temp (degR),rain\n2026-02-09T10:00Z,500,0\n");
  ASSERT_THAT(codes(faults), ElementsAre("unknown-unit"));
  EXPECT_EQ(faults[0].place, "line 1");
  EXPECT_EQ(faults[0].expected, "degC, F, K");
}

TEST(Csv, HumidityThatMayBeAFractionIsAFaultAndNotAGuess) {
  EXPECT_THAT(codes(faults_of("time,humidity\n2026-02-09T10:00Z,0.86\n2026-02-09T11:00Z,0.9\n")),
              ElementsAre("unclear-unit"));
}

TEST(Csv, ColumnsHaveManyNames) {
  const char* headers[] = {"time,air_temperature,precipitation_amount,wind_speed",
                           "datetime,temp,precip,windspeed", "valid_time;Temperature;Rainfall;Wind Speed",
                           "timestamp\tTEMP\tRAIN\tWIND"};
  for (const std::string header : headers) {
    const char separator = header.find('\t') != std::string::npos  ? '\t'
                           : header.find(';') != std::string::npos ? ';'
                                                                   : ',';
    std::string row = "2026-02-09T10:00Z,4,1,5\n";
    std::replace(row.begin(), row.end(), ',', separator);
    const sky::Series series = table(header + "\n" + row);
    EXPECT_DOUBLE_EQ(series.hours.at(0).temperature->value.value(), 4) << header;
    EXPECT_DOUBLE_EQ(series.hours.at(0).rain->value.value(), 1) << header;
    EXPECT_DOUBLE_EQ(series.hours.at(0).wind->value.value(), 5) << header;
  }
}

TEST(Csv, PrecipitationGoesBeforeRainAndTwoOfAKindAreAFault) {
  EXPECT_THAT(rain_of(table("time,rain,precipitation,temp\n2026-02-09T10:00Z,0.2,1.4,3\n")),
              ElementsAre(1.4));
  EXPECT_THAT(codes(faults_of("time,temp,temperature\n2026-02-09T10:00Z,3,4\n")),
              ElementsAre("duplicate-column"));
}

TEST(Csv, TimesCarryAnOffsetOrAreReadInTheZoneGiven) {
  EXPECT_EQ(table("time,temp\n2026-07-01T10:00+01:00,20\n").begin_time(), instant("2026-07-01T09:00:00Z"));
  EXPECT_EQ(table("time,temp\n2026-07-01 10:00,20\n", british()).begin_time(),
            instant("2026-07-01T09:00:00Z"));
  EXPECT_EQ(table("time_utc,temp\n2026-07-01 10:00,20\n", british()).begin_time(),
            instant("2026-07-01T10:00:00Z"));
  EXPECT_EQ(table("epoch,temp\n1782900000,20\n").begin_time(), instant("2026-07-01T10:00:00Z"));
}

TEST(Csv, DatesAreWrittenInManyWays) {
  for (const char* text : {"09.02.2026 10:00", "9.2.26 10:00", "09-feb-2026 10:00", "09-Feb-2026 10:00:00",
                           "2026-02-09T10:00"}) {
    EXPECT_EQ(table(std::string("time,temp\n") + text + ",4\n", british()).begin_time(),
              instant("2026-02-09T10:00:00Z"))
        << text;
  }
  EXPECT_EQ(table("date,time,temp\n2026-02-09,10:00,4\n", british()).begin_time(),
            instant("2026-02-09T10:00:00Z"));
  EXPECT_EQ(table("date,hour,temp\n2026-02-09,10,4\n", british()).begin_time(),
            instant("2026-02-09T10:00:00Z"));
}

TEST(Csv, ALocalTimeWithoutAZoneIsAFaultToldOnce) {
  const auto faults = faults_of("time,temp\n2026-07-01 10:00,20\n2026-07-01 11:00,20\n");
  ASSERT_THAT(codes(faults), ElementsAre("no-zone"));
  EXPECT_EQ(faults[0].place, "line 2");
}

TEST(Csv, ATimeSkippedOrRepeatedByTheClocksIsAFault) {
  const auto skipped = faults_of("time,temp\n2026-03-29 01:30,8\n", british());
  ASSERT_THAT(codes(skipped), ElementsAre("nonexistent-time"));
  const auto twice = faults_of("time,temp\n2026-10-25 00:30,8\n2026-10-25 01:30,8\n", british());
  ASSERT_THAT(codes(twice), ElementsAre("ambiguous-time"));
  EXPECT_EQ(twice[0].place, "line 3");
}

TEST(Csv, AnHourThatTheClocksGiveTwiceHasBothItsRows) {
  const sky::Series series = table(
      "time,temp,rain\n2026-10-25 00:00,8,1\n2026-10-25 01:00,7,2\n2026-10-25 01:00,6,3\n"
      "2026-10-25 02:00,5,4\n",
      british());
  // Back at 01:00 UTC: 00:00, 01:00 BST are 23:00 and 00:00 UTC, then 01:00 and 02:00 GMT.
  EXPECT_EQ(series.begin_time(), instant("2026-10-24T23:00:00Z"));
  EXPECT_THAT(rain_of(series), ElementsAre(1, 2, 3, 4));
  EXPECT_THAT(
      codes(faults_of("time,temp\n2026-10-25 01:00,8\n2026-10-25 01:00,8\n2026-10-25 01:00,8\n", british())),
      ElementsAre("ambiguous-time"));
}

TEST(Csv, AcrossTheChangeForwardTheHoursStayWhole) {
  const sky::Series series =
      table("time,temp,rain\n2026-03-29 00:00,8,1\n2026-03-29 02:00,7,2\n2026-03-29 03:00,7,3\n", british());
  EXPECT_EQ(series.begin_time(), instant("2026-03-29T00:00:00Z"));
  EXPECT_THAT(rain_of(series), ElementsAre(1, 2, 3));
}

TEST(Csv, TheHeadingMaySayWhichHourTheRainIsOf) {
  const sky::Series before = table("time,temp,rain last hour (mm)\n2026-02-09T10:00Z,4,1.5\n");
  EXPECT_DOUBLE_EQ(before.at(instant("2026-02-09T09:00:00Z"))->rain->value.value(), 1.5);
  EXPECT_FALSE(has_note(before, "rain-hour"));
  const sky::Series after = table("time,temp,rain next hour (mm)\n2026-02-09T10:00Z,4,1.5\n");
  EXPECT_DOUBLE_EQ(after.at(instant("2026-02-09T10:00:00Z"))->rain->value.value(), 1.5);
  EXPECT_FALSE(has_note(after, "rain-hour"));
}

TEST(Csv, MoreMarksOfMissingAndTraces) {
  const sky::Series series = table(
      "time,temp,rain\n2026-02-09T10:00Z,NaN,T\n2026-02-09T11:00Z,None,trace\n2026-02-09T12:00Z,...,?\n");
  EXPECT_THAT(rain_of(series), ElementsAre(0, 0));
}

TEST(Csv, TimesComePackedInFourColumnsWithFractionsAndUpToTwentyFourHours) {
  const auto begins = [](const std::string& text) { return table(text, british()).begin_time(); };
  const base::Instant five = instant("2026-02-09T05:00:00Z");
  EXPECT_EQ(begins("time,temp\n2026020905,4\n"), five);
  EXPECT_EQ(begins("time,temp\n202602090500,4\n"), five);
  EXPECT_EQ(begins("date,hour,temp\n20260209,5,4\n"), five);
  EXPECT_EQ(begins("year,month,day,hour,temp\n2026,2,9,5,4\n"), five);
  EXPECT_EQ(begins("time,temp\n2026-02-09T05:00:00.000Z,4\n"), five);
  EXPECT_EQ(begins("date,hour,temp\n2026-02-08,24,4\n"), instant("2026-02-09T00:00:00Z"));
  EXPECT_THAT(codes(faults_of("date,hour,temp\n2026-02-08,25,4\n", british())), ElementsAre("bad-time"));
}

TEST(Csv, CloudOfNineEighthsIsNotToBeSeenAndMissing) {
  const sky::Series series = table("time,temp,cloud (okta)\n2026-02-09T10:00Z,4,9\n2026-02-09T11:00Z,4,8\n");
  EXPECT_FALSE(series.hours[0].cloud);
  EXPECT_DOUBLE_EQ(series.hours[1].cloud->value.value(), 1.0);
}

// The publishers' own columns, two invented rows each.
TEST(CsvDialect, KnmiWritesTenthsOfTheHourBeforeBehindAMark) {
  const sky::Series series = table(
      "# De Bilt\n#\n# STN,YYYYMMDD,   HH,   DD,   FH,   FF,   FX,    T,   TD,   RH,    N,    U\n"
      "  260,20110101,   23,  250,   50,   60,   90,  -36,  -40,   12,    9,   95\n"
      "  260,20110101,   24,  250,   50,   60,   90,  -36,  -40,   -1,    8,   95\n");
  EXPECT_DOUBLE_EQ(series.at(instant("2011-01-01T22:00:00Z"))->rain->value.value(), 1.2);
  EXPECT_DOUBLE_EQ(series.at(instant("2011-01-01T23:00:00Z"))->rain->value.value(), 0.0);
  const sky::Hour& one = *series.at(instant("2011-01-01T23:00:00Z"));
  EXPECT_DOUBLE_EQ(one.temperature->value.value(), -3.6);
  EXPECT_DOUBLE_EQ(one.wind->value.value(), 5.0);
  EXPECT_FALSE(one.cloud);
  EXPECT_DOUBLE_EQ(one.humidity->value.value(), 0.95);
  EXPECT_TRUE(series.at(instant("2011-01-02T00:00:00Z"))->cloud);
}

TEST(CsvDialect, TheGermanClimateDataCentre) {
  const sky::Series series = table(
      "STATIONS_ID;MESS_DATUM;  QN_9;TT_TU;RF_TU;eor\n"
      "       3987;2026020905;   10;   4.5;  86.0;eor\n       3987;2026020906;   10;  -999;  80.0;eor\n");
  EXPECT_EQ(series.begin_time(), instant("2026-02-09T05:00:00Z"));
  EXPECT_DOUBLE_EQ(series.hours[0].temperature->value.value(), 4.5);
  EXPECT_FALSE(series.hours[1].temperature);
  EXPECT_THAT(rain_of(table("STATIONS_ID;MESS_DATUM;QN_8;R1;RS_IND;WRTR;eor\n1;2026020905;3;1.5;1;6;eor\n")),
              ElementsAre(1.5));
}

TEST(CsvDialect, MetEireannHasKnotsAndTheHourBeforeInUtc) {
  const sky::Series series = table(
      "Station Name: INVENTED\ndate:  -  Date and Time (utc)\n\n"
      "date,ind,rain,ind,temp,ind,wetb,dewpt,vappr,rhum,msl,ind,wdsp,ind,wddir,clamt\n"
      "09-feb-2026 05:00,0,1.2,0,4.5,0,4.0,3.5,7.9,93,1005.0,2,10,2,250,8\n");
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T04:00:00Z"))->rain->value.value(), 1.2);
  const sky::Hour& five = *series.at(instant("2026-02-09T05:00:00Z"));
  EXPECT_DOUBLE_EQ(five.wind->value.value(), 5.1);  // 10 kn
  EXPECT_DOUBLE_EQ(five.cloud->value.value(), 1.0);
}

TEST(CsvDialect, ImperialUnitsThatNoHeadingShows) {
  const sky::Series series = table(
      "origin,year,month,day,hour,temp,dewp,humid,wind_dir,wind_speed,wind_gust,precip,pressure,visib,time_"
      "hour\n"
      "EWR,2013,1,1,1,39.02,26.06,59.37,270,10.35702,NA,0.1,1012,10,2013-01-01T06:00:00Z\n");
  EXPECT_DOUBLE_EQ(series.hours[0].temperature->value.value(), 3.9);
  EXPECT_DOUBLE_EQ(series.hours[0].wind->value.value(), 4.6);
  EXPECT_DOUBLE_EQ(series.hours[0].rain->value.value(), 2.5);
}

TEST(Csv, DayAndMonthThatCannotBeToldApartAreAFault) {
  EXPECT_THAT(codes(faults_of("time,temp\n3/4/2026 10:00,8\n", british())), ElementsAre("unclear-date"));
}

TEST(Csv, TimesRunningBackwardsOrRepeatedAreFaultsWithTheirLines) {
  const auto faults = faults_of(
      "time,temp\n2026-02-09T10:00Z,4\n2026-02-09T09:00Z,4\n2026-02-09T10:00Z,4\n2026-02-09T11:00Z,4\n");
  ASSERT_THAT(codes(faults), ElementsAre("time-backwards", "time-repeated"));
  EXPECT_EQ(faults[0].place, "line 3");
  EXPECT_EQ(faults[1].place, "line 4");
}

TEST(Csv, AbsurdValuesAreFaultsWithLineAndColumn) {
  const auto faults = faults_of(
      "time,temp,rain,wind,rh\n"
      "2026-02-09T10:00Z,80,0,5,80\n"
      "2026-02-09T11:00Z,4,-1,5,80\n"
      "2026-02-09T12:00Z,NaN,0,5,80\n"
      "2026-02-09T13:00Z,4,0,200,150\n"
      "2026-02-09T14:00Z,4,x,inf,80\n");
  ASSERT_THAT(codes(faults), ElementsAre("impossible-value", "impossible-value", "impossible-value",
                                         "impossible-value", "not-a-number", "not-a-number"));
  EXPECT_EQ(faults[0].place, "line 2, temp");
  EXPECT_EQ(faults[1].found, "rain in an hour -1 mm");
  EXPECT_EQ(faults[3].expected, "0 to 105 %");
}

TEST(Csv, HowMuchRainIsTooMuchDependsOnTheStep) {
  EXPECT_THAT(codes(faults_of("time,rain\n2026-02-09T10:00Z,500\n2026-02-09T11:00Z,0\n")),
              ElementsAre("impossible-value"));
  EXPECT_EQ(tenths(table("time,rain\n2026-02-09T00:00Z,500\n2026-02-09T06:00Z,0\n")), 5000);
}

TEST(Csv, TooManyFaultsAreCountedAndNotAllTold) {
  std::string text = "time,temp\n";
  for (int i = 0; i < 80; ++i)
    text += "2026-02-09T10:00Z,99\n";
  const auto faults = faults_of(text);
  ASSERT_EQ(faults.size(), 51U);
  EXPECT_EQ(faults.back().code, "more-faults");
  EXPECT_EQ(faults.back().found, "109 more");  // 80 values and 79 repeated times, 50 of them told
}

TEST(Csv, RowsOfTheWrongLengthAndOpenQuotesAreFaults) {
  EXPECT_THAT(codes(faults_of(
                  "time,temp,rain\n2026-02-09T10:00Z,4,5,0\n2026-02-09T11:00Z,4\n2026-02-09T12:00Z,\"4,0\n")),
              ElementsAre("wrong-field-count", "wrong-field-count", "open-quote"));
}

TEST(Csv, SixHourRowsAreSplitAndALostRowIsAGap) {
  const sky::Series series = table(
      "time,temp,rain\n2026-02-09T00:00Z,0,1.2\n2026-02-09T06:00Z,6,0.6\n2026-02-09T12:00Z,6,0\n2026-02-"
      "10T00:00Z,0,0\n");
  EXPECT_DOUBLE_EQ(series.hours[3].temperature->value.value(), 3.0);
  EXPECT_EQ(series.hours[3].temperature->origin, sky::Origin::held);
  EXPECT_DOUBLE_EQ(series.hours[3].rain->value.value(), 0.2);
  EXPECT_FALSE(series.at(instant("2026-02-09T20:00:00Z"))->rain);
  EXPECT_TRUE(has_note(series, "gap"));
}

TEST(Csv, TenMinuteRowsAreAddedUpAndTheGreatestGustIsKept) {
  std::string text = "time,rain,gust,temp\n";
  for (int m = 0; m < 60; m += 10) {
    text += "2026-02-09T10:" + std::string(m < 10 ? "0" : "") + std::to_string(m) + "Z,0.04," +
            std::to_string(5 + m / 10) + ",4\n";
  }
  const sky::Series series = table(text);
  ASSERT_EQ(series.hours.size(), 1U);
  EXPECT_DOUBLE_EQ(series.hours[0].rain->value.value(), 0.2);
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 10.0);
}

TEST(Csv, StepsThatChangeOnTheWayAreAFault) {
  std::string text = "time,rain\n";
  for (int h = 0; h < 8; ++h)
    text += "2026-02-09T0" + std::to_string(h) + ":00Z,0\n";
  for (int h = 10; h < 22; h += 3)
    text += "2026-02-09T" + std::to_string(h) + ":00Z,1\n";
  EXPECT_THAT(codes(faults_of(text)), ElementsAre("uneven-steps"));
  EXPECT_THAT(codes(faults_of("time,rain\n2026-02-09,1\n2026-02-10,1\n", british())),
              ElementsAre("step-too-long"));
}

TEST(Csv, FieldsSplitAsRfc4180Says) {
  EXPECT_EQ(split_csv_line("a,\"b,c\",\"d\"\"e\",", ','), (std::vector<std::string>{"a", "b,c", "d\"e", ""}));
  EXPECT_FALSE(split_csv_line("a,\"b", ','));
  EXPECT_FALSE(split_csv_line("a,b\"c", ','));
  EXPECT_FALSE(split_csv_line("\"a\"b,c", ','));
}

TEST(Csv, HourlyHistoryOfAStationReads) {
  // The columns of the KNMI stations' hourly history (CC BY 4.0), two rows of De Kooy.
  const sky::Series series = table(
      "time_start_utc,temp_c,dewpoint_c,rh_pct,precip_mm,precip_hours,wind_ms,gust_ms,cloud_okta,wmo_ww,rain_"
      "flag,snow_flag\n"
      "2011-01-01T00:00:00Z,5.1,4.3,95,0.0,0.0,7.0,10.0,8,10,0,0\n"
      "2011-01-01T01:00:00Z,5.0,4.1,94,0.0,0.0,7.0,10.0,8,10,0,0\n");
  ASSERT_EQ(series.hours.size(), 2U);
  EXPECT_DOUBLE_EQ(series.hours[1].dew_point->value.value(), 4.1);
  EXPECT_DOUBLE_EQ(series.hours[1].humidity->value.value(), 0.94);
  EXPECT_DOUBLE_EQ(series.hours[1].gust->value.value(), 10.0);
  EXPECT_DOUBLE_EQ(series.hours[1].cloud->value.value(), 1.0);
}

}  // namespace
}  // namespace weatherstruck::feed
