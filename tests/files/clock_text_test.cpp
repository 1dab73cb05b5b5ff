#include "weatherstruck/files/clock_text.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <chrono>
#include <string>

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

base::Instant utc(const char* text) {
  return base::parse_iso_instant(text).value();
}

// The clock changes of 2026 in the United Kingdom: 29 March and 25 October at 01:00 UTC (gov.uk, "When do
// the clocks change?", from memory).
base::Zone london_2026() {
  return {"Europe/London",
          seconds(0),
          "GMT",
          {{utc("2026-03-29T01:00:00Z"), hours(1), "BST"}, {utc("2026-10-25T01:00:00Z"), seconds(0), "GMT"}}};
}

std::string told(const char* text) {
  const auto read = read_moment(text, london_2026());
  return read.fault ? read.fault->code + " | " + base::to_text(*read.fault)
                    : base::iso_utc(read.moment.value());
}

TEST(ClockText, ALocalTimeIsReadInItsZone) {
  EXPECT_EQ(told("2026-02-09T05:30"), "2026-02-09T05:30:00Z");
  EXPECT_EQ(told("2026-07-01T05:30"), "2026-07-01T04:30:00Z");
  EXPECT_EQ(told("2026-07-01T05:30Z"), "2026-07-01T05:30:00Z");
  EXPECT_EQ(told("2026-07-01T05:30+02:00"), "2026-07-01T03:30:00Z");
}

TEST(ClockText, ATimeThatDoesNotExistIsAFaultWithBothReadings) {
  EXPECT_EQ(
      told("2026-03-29T01:30"),
      "nonexistent-time | found 2026-03-29T01:30, which no clock in Europe/London shows: clocks go from "
      "01:00 GMT "
      "to 02:00 BST; allowed: a clock time that comes once. Write 2026-03-29T00:30 or 2026-03-29T02:30, "
      "whichever is meant.");
  EXPECT_EQ(told("2026-03-29T00:59"), "2026-03-29T00:59:00Z");
  EXPECT_EQ(told("2026-03-29T02:00"), "2026-03-29T01:00:00Z");
}

TEST(ClockText, ATimeThatComesTwiceIsAFaultWithBothReadings) {
  EXPECT_EQ(told("2026-10-25T01:30"),
            "ambiguous-time | found 2026-10-25T01:30, which comes twice in Europe/London; allowed: a clock "
            "time that "
            "comes once, or one with its offset. Write 2026-10-25T01:30+01:00 (BST) for the first, or "
            "2026-10-25T01:30+00:00 (GMT) for the second.");
  EXPECT_EQ(told("2026-10-25T01:30+01:00"), "2026-10-25T00:30:00Z");
  EXPECT_EQ(told("2026-10-25T01:30+00:00"), "2026-10-25T01:30:00Z");
}

TEST(ClockText, DatesThatAreNoneAndYearsBeyondTheZoneDataAreFaults) {
  EXPECT_EQ(told("2026-02-30T05:30"),
            "bad-time | found \"2026-02-30T05:30\"; allowed: a date and clock time that exist, such as "
            "2026-02-09T05:30. "
            "Write year, month, day, T, hour and minute.");
  EXPECT_EQ(told("1969-12-31T23:59"),
            "out-of-range | found \"1969-12-31T23:59\"; allowed: the years 1970 to 2100. Check the year.");
  EXPECT_EQ(told("2101-01-01T00:00Z"),
            "out-of-range | found \"2101-01-01T00:00Z\"; allowed: the years 1970 to 2100. Check the year.");
  for (const char* text : {"", "Monday", "2026-02-09", "05:30", "2026-02-09T25:00", "2026-02-09T05:30 GMT"}) {
    EXPECT_EQ(told(text).substr(0, 8), "bad-time") << text;
  }
}

RC_GTEST_PROP(ClockText, EveryMomentReadsBackFromItsText, ()) {
  const auto zone = london_2026();
  // Half of the draws lie in the hours round the changes.
  const auto whole_year = rc::gen::inRange(0, 365 * 24 * 60);
  const auto round_change = rc::gen::inRange(297 * 24 * 60 - 300, 297 * 24 * 60 + 300);
  const auto minute = *rc::gen::oneOf(whole_year, round_change);
  const auto moment = utc("2026-01-01T00:00:00Z") + minutes(minute);
  const auto read = read_moment(moment_text(moment, zone), zone);
  RC_ASSERT(read.moment == moment);
}

TEST(ClockText, SpansOfTheDayAreReadStrictly) {
  const auto span = parse_span("08:00-18:30");
  ASSERT_TRUE(span);
  EXPECT_EQ(span->from, hours(8));
  EXPECT_EQ(span->to, hours(18) + minutes(30));
  EXPECT_EQ(span_text(*span), "08:00-18:30");
  EXPECT_EQ(parse_span("00:00-24:00")->to, hours(24));
  for (const char* text : {"18:00-08:00", "08:00-08:00", "8:00-18:00", "08:00-24:01", "08:60-18:00",
                           "08:00 - 18:00", "", "08:00-18:00 "}) {
    EXPECT_FALSE(parse_span(text)) << text;
  }
}

TEST(ClockText, DurationsAreHoursAndMinutes) {
  EXPECT_DOUBLE_EQ(parse_duration("1:30")->value(), 1.5);
  EXPECT_DOUBLE_EQ(parse_duration("0:25")->value(), 25.0 / 60);
  for (const char* text : {"1:60", "1:3", ":30", "1.5", "1:300", "12345:00", "-1:00", "1:-1"})
    EXPECT_FALSE(parse_duration(text)) << text;
  for (int minute = 0; minute < 3000; ++minute) {
    const base::Hours hour(minute / 60.0);
    ASSERT_EQ(parse_duration(duration_text(hour).value()), hour) << minute;
  }
  EXPECT_FALSE(duration_text(base::Hours(0.123)));
}

TEST(ClockText, MoneyIsReadInMinorUnits) {
  // ISO 4217: GBP has two decimals, JPY none, KWD three.
  EXPECT_EQ(parse_money("35.00 GBP")->minor(), 3500);
  EXPECT_EQ(parse_money("35 GBP")->minor(), 3500);
  EXPECT_EQ(parse_money("35.5 GBP")->minor(), 3550);
  EXPECT_EQ(parse_money("35 JPY")->minor(), 35);
  EXPECT_EQ(parse_money("1.234 KWD")->minor(), 1234);
  for (const char* text : {"35", "GBP", "35.001 GBP", "35.5 JPY", "-1 GBP", "35  GBP", "35 gbp", "35. GBP",
                           ".5 GBP", "1,000 GBP", "35 GBP ", "35 ZZQ", "999999999999999 GBP"}) {
    EXPECT_FALSE(parse_money(text)) << text;
  }
}

}  // namespace
}  // namespace weatherstruck::files
