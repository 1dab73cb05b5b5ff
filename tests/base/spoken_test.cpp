// Times as text: the half of text.h whose body is src/base/spoken.cpp.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <clocale>
#include <cstdint>
#include <string>

#include "weatherstruck/base/text.h"

namespace weatherstruck::base {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

LocalTime on(int year, unsigned month, unsigned day) {
  return LocalTime(LocalDay(std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day)));
}

// 9 February 2026 is a Monday (any calendar); 29 February 2000 was a Tuesday.
TEST(Times, AreSpokenPlainly) {
  const LocalTime t = on(2026, 2, 9) + hours(8) + minutes(15) + seconds(59);
  EXPECT_EQ(clock_time(t), "08:15");
  EXPECT_EQ(day_and_time(t), "Mon 9 Feb 08:15");
  EXPECT_EQ(iso_local(t), "2026-02-09T08:15");
  EXPECT_EQ(day_name(std::chrono::floor<std::chrono::days>(on(2000, 2, 29))), "Tue 29 Feb");
  EXPECT_EQ(day_name(std::chrono::floor<std::chrono::days>(on(2026, 12, 31))), "Thu 31 Dec");
}

// 1,000,000,000 s after the epoch was 2001-09-09 01:46:40 UTC (the well-known "billennium").
TEST(Times, UtcIsWrittenToTheSecond) {
  EXPECT_EQ(iso_utc(Instant(seconds(0))), "1970-01-01T00:00:00Z");
  EXPECT_EQ(iso_utc(Instant(seconds(1'000'000'000))), "2001-09-09T01:46:40Z");
  EXPECT_EQ(iso_utc(Instant(seconds(-1))), "1969-12-31T23:59:59Z");
}

TEST(Times, LocalTextIsReadStrictly) {
  const LocalTime t = on(2026, 2, 9) + hours(8) + minutes(15);
  EXPECT_EQ(parse_iso_local("2026-02-09T08:15"), t);
  EXPECT_EQ(parse_iso_local("2026-02-09 08:15"), t);
  EXPECT_EQ(parse_iso_local("2026-02-09T08:15:30"), t + seconds(30));
  EXPECT_EQ(parse_iso_local("2024-02-29T00:00"), on(2024, 2, 29));
  for (const char* text : {"",
                           "2026-02-09",
                           "2026-2-9T08:15",
                           "2026-02-09T8:15",
                           "2026-02-09T08:15Z",
                           "2026-02-09T08:15+01:00",
                           "2026-02-09T08:15:",
                           "2026-02-09T08:15:60",
                           "2026-02-09T24:00",
                           "2026-02-09T08:60",
                           "2026-02-29T08:15",
                           "2026-04-31T08:15",
                           "2026-13-01T08:15",
                           "2026-00-01T08:15",
                           "2026-01-00T08:15",
                           "2026-02-09t08:15",
                           " 2026-02-09T08:15",
                           "2026-02-09T08:15 ",
                           "2026-02-09T08:15:30.5",
                           "-026-02-09T08:15",
                           "2100-02-29T00:00"}) {
    EXPECT_EQ(parse_iso_local(text), std::nullopt) << text;
  }
}

TEST(Times, InstantNeedsItsOffset) {
  const Instant t = Instant(seconds(1'000'000'000));
  EXPECT_EQ(parse_iso_instant("2001-09-09T01:46:40Z"), t);
  EXPECT_EQ(parse_iso_instant("2001-09-09T03:46:40+02:00"), t);
  EXPECT_EQ(parse_iso_instant("2001-09-09T03:46:40+0200"), t);
  EXPECT_EQ(parse_iso_instant("2001-09-08T20:16:40-05:30"), t);
  EXPECT_EQ(parse_iso_instant("2001-09-09 01:46Z"), t - seconds(40));
  for (const char* text :
       {"2001-09-09T01:46:40", "2001-09-09T01:46:40z", "2001-09-09T01:46:40+02", "2001-09-09T01:46:40+2:00",
        "2001-09-09T01:46:40+24:00", "2001-09-09T01:46:40+02:60", "2001-09-09T01:46:40 Z",
        "2001-09-09T01:46:40Z ", "2001-02-30T01:46:40Z", "2001-09-09T01:46:40+02:0",
        "2001-09-09T01:46:40-+02:00"}) {
    EXPECT_EQ(parse_iso_instant(text), std::nullopt) << text;
  }
}

TEST(Times, DayIsReadStrictly) {
  EXPECT_EQ(parse_iso_day("2026-02-09"), std::chrono::floor<std::chrono::days>(on(2026, 2, 9)));
  for (const char* text :
       {"", "2026-02-30", "2026-02-9", "2026/02/09", "2026-02-09T", "20260209", "2026-02-0x"}) {
    EXPECT_EQ(parse_iso_day(text), std::nullopt) << text;
  }
}

RC_GTEST_PROP(TimesProperty, WhatIsWrittenReadsBack, ()) {
  // Years 1 to 9999 of the calendar, which four digits can hold.
  const auto count = *rc::gen::inRange<std::int64_t>(-62'135'596'800LL, 253'402'300'800LL);
  const Instant t{seconds(count)};
  RC_ASSERT(parse_iso_instant(iso_utc(t)) == t);
  const LocalTime local = std::chrono::floor<minutes>(LocalTime(t.time_since_epoch()));
  RC_ASSERT(parse_iso_local(iso_local(local)) == local);
  const LocalDay day = std::chrono::floor<std::chrono::days>(local);
  RC_ASSERT(parse_iso_day(iso_local(local).substr(0, 10)) == day);
}

TEST(Times, LocaleNeverMatters) {
  // Any locale with a comma for the point will do; a machine may have none, and then only "C" is tried.
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* name : {"C", "de_DE.UTF-8", "fr_FR.UTF-8", "cy_GB.UTF-8", "de_DE.utf8"}) {
    if (std::setlocale(LC_ALL, name) == nullptr) continue;
    EXPECT_EQ(parse_number("3.25"), 3.25) << name;
    EXPECT_EQ(parse_number("3,25"), std::nullopt) << name;
    EXPECT_EQ(plain_number(1234.5, 2), "1234.5") << name;
    EXPECT_EQ(day_and_time(on(2026, 2, 9)), "Mon 9 Feb 00:00") << name;
  }
  std::setlocale(LC_ALL, before.c_str());
}

}  // namespace
}  // namespace weatherstruck::base
