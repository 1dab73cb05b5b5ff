#include "weatherstruck/base/zone.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "weatherstruck/base/text.h"

namespace weatherstruck::base {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

Instant utc(const char* text) {
  return parse_iso_instant(text).value();
}
LocalTime local(const char* text) {
  return parse_iso_local(text).value();
}
LocalDay day(const char* text) {
  return parse_iso_day(text).value();
}

// All changes below as printed by `zdump -v` from the tz database 2026f.
Zone london() {
  return {"Europe/London",
          seconds(0),
          "GMT",
          {{utc("2026-03-29T01:00:00Z"), hours(1), "BST"}, {utc("2026-10-25T01:00:00Z"), hours(0), "GMT"}}};
}

TEST(Zone, NamesItsOffsetAndAbbreviation) {
  const Zone zone = london();
  EXPECT_EQ(zone.name(), "Europe/London");
  EXPECT_EQ(zone.offset_at(utc("2026-03-29T00:59:59Z")), seconds(0));
  EXPECT_EQ(zone.offset_at(utc("2026-03-29T01:00:00Z")), hours(1));
  EXPECT_EQ(zone.abbreviation_at(utc("2026-02-09T12:00:00Z")), "GMT");
  EXPECT_EQ(zone.abbreviation_at(utc("2026-07-01T12:00:00Z")), "BST");
  EXPECT_EQ(zone.abbreviation_at(utc("2026-12-01T12:00:00Z")), "GMT");
}

TEST(Zone, SpringDayHasTwentyThreeHours) {
  const Zone zone = london();
  const LocalDay changing = day("2026-03-29");
  EXPECT_EQ(zone.start_of(changing), utc("2026-03-29T00:00:00Z"));
  EXPECT_EQ(zone.end_of(changing), utc("2026-03-29T23:00:00Z"));
  EXPECT_EQ(zone.end_of(changing) - zone.start_of(changing), hours(23));
}

TEST(Zone, AutumnDayHasTwentyFiveHours) {
  const Zone zone = london();
  const LocalDay changing = day("2026-10-25");
  EXPECT_EQ(zone.start_of(changing), utc("2026-10-24T23:00:00Z"));
  EXPECT_EQ(zone.end_of(changing), utc("2026-10-26T00:00:00Z"));
  EXPECT_EQ(zone.end_of(changing) - zone.start_of(changing), hours(25));
}

TEST(Zone, OrdinaryDayHasTwentyFourHours) {
  const Zone zone = london();
  EXPECT_EQ(zone.end_of(day("2026-02-09")) - zone.start_of(day("2026-02-09")), hours(24));
  EXPECT_EQ(zone.end_of(day("2026-07-09")) - zone.start_of(day("2026-07-09")), hours(24));
}

TEST(Zone, SkippedLocalTimeDoesNotExistAndGivesTheChange) {
  const Zone zone = london();
  for (const char* text : {"2026-03-29T01:00", "2026-03-29T01:30", "2026-03-29T01:59:59"}) {
    const LocalMeaning meaning = zone.meaning(local(text));
    EXPECT_EQ(meaning.kind, LocalMeaning::Kind::nonexistent) << text;
    EXPECT_EQ(meaning.first, utc("2026-03-29T01:00:00Z")) << text;
    EXPECT_EQ(meaning.second, meaning.first) << text;
  }
  EXPECT_EQ(zone.to_instant_earliest(local("2026-03-29T01:30")), utc("2026-03-29T01:00:00Z"));
}

TEST(Zone, EdgesOfTheSkippedHourAreUnique) {
  const Zone zone = london();
  EXPECT_EQ(zone.meaning(local("2026-03-29T00:59:59")).kind, LocalMeaning::Kind::unique);
  const LocalMeaning after = zone.meaning(local("2026-03-29T02:00"));
  EXPECT_EQ(after.kind, LocalMeaning::Kind::unique);
  EXPECT_EQ(after.first, utc("2026-03-29T01:00:00Z"));
}

TEST(Zone, RepeatedLocalTimeStandsForTwoMoments) {
  const Zone zone = london();
  for (const char* text : {"2026-10-25T01:00", "2026-10-25T01:59:59"}) {
    const LocalMeaning meaning = zone.meaning(local(text));
    EXPECT_EQ(meaning.kind, LocalMeaning::Kind::ambiguous) << text;
    EXPECT_EQ(meaning.second - meaning.first, hours(1)) << text;
    EXPECT_EQ(zone.to_local(meaning.first), local(text));
    EXPECT_EQ(zone.to_local(meaning.second), local(text));
  }
  EXPECT_EQ(zone.to_instant_earliest(local("2026-10-25T01:30")), utc("2026-10-25T00:30:00Z"));
  EXPECT_EQ(zone.meaning(local("2026-10-25T00:59:59")).kind, LocalMeaning::Kind::unique);
  EXPECT_EQ(zone.meaning(local("2026-10-25T02:00")).kind, LocalMeaning::Kind::unique);
}

TEST(Zone, TimeOfDayIsWhatTheWallClockShows) {
  const Zone zone = london();
  EXPECT_EQ(zone.time_of_day(utc("2026-03-29T01:00:00Z")), hours(2));
  EXPECT_EQ(zone.time_of_day(utc("2026-10-25T00:30:00Z")), minutes(90));
  EXPECT_EQ(zone.time_of_day(utc("2026-10-25T01:30:00Z")), minutes(90));
  EXPECT_EQ(zone.day_of(utc("2026-07-01T23:30:00Z")), day("2026-07-02"));
}

TEST(Zone, HalfHourChangeOfLordHoweIsCarried) {
  const Zone zone("Australia/Lord_Howe", hours(11), "+11",
                  {{utc("2026-04-04T15:00:00Z"), minutes(630), "+1030"},
                   {utc("2026-10-03T15:30:00Z"), hours(11), "+11"}});
  EXPECT_EQ(zone.end_of(day("2026-04-05")) - zone.start_of(day("2026-04-05")), minutes(24 * 60 + 30));
  EXPECT_EQ(zone.end_of(day("2026-10-04")) - zone.start_of(day("2026-10-04")), minutes(24 * 60 - 30));
  EXPECT_EQ(zone.meaning(local("2026-10-04T02:15")).kind, LocalMeaning::Kind::nonexistent);
  EXPECT_EQ(zone.meaning(local("2026-04-05T01:45")).kind, LocalMeaning::Kind::ambiguous);
}

TEST(Zone, DayThatBeginsWithASkipStartsAtTheChange) {
  const Zone zone("America/Sao_Paulo", hours(-3), "-03", {{utc("2018-11-04T03:00:00Z"), hours(-2), "-02"}});
  EXPECT_EQ(zone.start_of(day("2018-11-04")), utc("2018-11-04T03:00:00Z"));
  EXPECT_EQ(zone.to_local(zone.start_of(day("2018-11-04"))), local("2018-11-04T01:00"));
  EXPECT_EQ(zone.end_of(day("2018-11-04")) - zone.start_of(day("2018-11-04")), hours(23));
}

TEST(Zone, DateThatSamoaSkippedHasNoLength) {
  const Zone zone("Pacific/Apia", hours(-10), "-10", {{utc("2011-12-30T10:00:00Z"), hours(14), "+14"}});
  EXPECT_EQ(zone.end_of(day("2011-12-30")) - zone.start_of(day("2011-12-30")), seconds(0));
  EXPECT_EQ(zone.meaning(local("2011-12-30T12:00")).kind, LocalMeaning::Kind::nonexistent);
  EXPECT_EQ(zone.end_of(day("2011-12-31")) - zone.start_of(day("2011-12-31")), hours(24));
}

TEST(Zone, FixedZoneHasOneMeaningForEverything) {
  const Zone zone = Zone::fixed("+05:45", minutes(345));
  EXPECT_EQ(zone.abbreviation_at(utc("2026-01-01T00:00:00Z")), "+05:45");
  const LocalMeaning meaning = zone.meaning(local("2026-01-01T05:45"));
  EXPECT_EQ(meaning.kind, LocalMeaning::Kind::unique);
  EXPECT_EQ(meaning.first, utc("2026-01-01T00:00:00Z"));
}

TEST(Zone, RefusesChangesOutOfOrderAndAbsurdOffsets) {
  const Instant t = utc("2026-03-29T01:00:00Z");
  EXPECT_THROW(Zone("x", seconds(0), "x", {{t, hours(1), "a"}, {t, hours(0), "b"}}), std::invalid_argument);
  EXPECT_THROW(Zone("x", seconds(0), "x", {{t, hours(1), "a"}, {t - hours(1), hours(0), "b"}}),
               std::invalid_argument);
  EXPECT_THROW(Zone("x", hours(27), "x", {}), std::invalid_argument);
  EXPECT_THROW(Zone("x", seconds(0), "x", {{t, hours(-27), "a"}}), std::invalid_argument);
}

RC_GTEST_PROP(ZoneProperty, EveryMomentIsAmongTheMeaningsOfItsLocalTime, ()) {
  const Zone zone = london();
  const auto from = utc("2026-01-01T00:00:00Z").time_since_epoch().count();
  const Instant t{seconds(from + *rc::gen::inRange<std::int64_t>(0, 366 * 86'400LL))};
  const LocalMeaning meaning = zone.meaning(zone.to_local(t));
  RC_ASSERT(meaning.kind != LocalMeaning::Kind::nonexistent);
  RC_ASSERT(meaning.first == t || meaning.second == t);
  const LocalDay date = zone.day_of(t);
  RC_ASSERT(zone.start_of(date) <= t);
  RC_ASSERT(t < zone.end_of(date));
  RC_ASSERT(zone.end_of(date) == zone.start_of(date + std::chrono::days(1)));
}

// The obvious slow way: try every offset the zone ever has.
RC_GTEST_PROP(ZoneProperty, MeaningAgreesWithTryingEveryOffset, ()) {
  const auto gaps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 200'000));
  std::vector<Zone::Change> changes;
  Instant at = utc("2026-01-01T00:00:00Z");
  std::vector<seconds> offsets{minutes(*rc::gen::inRange(-180, 180))};
  for (const int gap : gaps) {
    at += seconds(gap) + hours(12);
    offsets.emplace_back(minutes(*rc::gen::inRange(-180, 180)));
    changes.push_back({at, offsets.back(), "x"});
  }
  const Zone zone("x", offsets.front(), "x", changes);
  const LocalTime t(utc("2026-01-01T00:00:00Z").time_since_epoch() +
                    seconds(*rc::gen::inRange(0, 2'000'000)));
  std::vector<Instant> moments;
  for (const seconds offset : offsets) {
    const Instant moment(t.time_since_epoch() - offset);
    const bool seen = std::find(moments.begin(), moments.end(), moment) != moments.end();
    if (zone.offset_at(moment) == offset && !seen) moments.push_back(moment);
  }
  std::sort(moments.begin(), moments.end());
  const LocalMeaning meaning = zone.meaning(t);
  if (moments.empty()) {
    RC_ASSERT(meaning.kind == LocalMeaning::Kind::nonexistent);
    RC_ASSERT(zone.to_local(meaning.first) > t);
    RC_ASSERT(zone.to_local(meaning.first - seconds(1)) < t);
  } else {
    RC_ASSERT(meaning.first == moments.front());
    RC_ASSERT(meaning.second == moments.back());
    RC_ASSERT((meaning.kind == LocalMeaning::Kind::unique) == (moments.size() == 1));
  }
}

}  // namespace
}  // namespace weatherstruck::base
