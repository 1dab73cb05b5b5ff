#include "weatherstruck/files/zone_source.h"

#include <gtest/gtest.h>

#include <filesystem>

#include <chrono>
#include <cstdlib>
#include <string>

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

base::Instant utc(const char* text) {
  return base::parse_iso_instant(text).value();
}
base::LocalTime local(const char* text) {
  return base::parse_iso_local(text).value();
}

std::string told(std::string_view name) {
  const auto read = SystemZones().find(name);
  EXPECT_FALSE(read.zone);
  return base::to_text(read.fault.value());
}

TEST(ZoneSource, KnowsTheClockChangesOfTheUnitedKingdom) {
  const auto zone = SystemZones().find("Europe/London").zone.value();
  // Last Sundays of March and October at 01:00 UTC (Summer Time Order 2002, after directive 2000/84/EC; dates
  // of 2026 from memory: 29 March, 25 October).
  EXPECT_EQ(zone.offset_at(utc("2026-03-29T00:59:59Z")), hours(0));
  EXPECT_EQ(zone.offset_at(utc("2026-03-29T01:00:00Z")), hours(1));
  EXPECT_EQ(zone.offset_at(utc("2026-10-25T00:59:59Z")), hours(1));
  EXPECT_EQ(zone.offset_at(utc("2026-10-25T01:00:00Z")), hours(0));
  EXPECT_EQ(zone.abbreviation_at(utc("2026-07-01T00:00:00Z")), "BST");
  // British Standard Time of 1968-1971: an hour ahead all year (from memory: ended 31 October 1971, 02:00
  // UTC).
  EXPECT_EQ(zone.offset_at(utc("1970-01-15T12:00:00Z")), hours(1));
  EXPECT_EQ(zone.offset_at(utc("1971-10-31T02:00:00Z")), hours(0));
}

TEST(ZoneSource, KnowsTheTrapsOfDaysAndOffsets) {
  // Berlin 2026-10-25 02:30 comes twice, 2026-03-29 02:30 never (checked against the date library's own
  // answer).
  const auto berlin = SystemZones().find("Europe/Berlin").zone.value();
  EXPECT_EQ(berlin.meaning(local("2026-10-25T02:30")).kind, base::LocalMeaning::Kind::ambiguous);
  EXPECT_EQ(berlin.meaning(local("2026-03-29T02:30")).kind, base::LocalMeaning::Kind::nonexistent);
  // United States from 2007: second Sunday in March, 02:00 local (Energy Policy Act of 2005).
  const auto new_york = SystemZones().find("America/New_York").zone.value();
  EXPECT_EQ(new_york.offset_at(utc("2007-03-11T06:59:59Z")), -hours(5));
  EXPECT_EQ(new_york.offset_at(utc("2007-03-11T07:00:00Z")), -hours(4));
  EXPECT_EQ(SystemZones().find("Asia/Kathmandu").zone->offset_at(utc("2026-01-01T00:00:00Z")),
            hours(5) + minutes(45));
  EXPECT_EQ(SystemZones().find("UTC").zone->offset_at(utc("2099-01-01T00:00:00Z")), hours(0));
}

TEST(ZoneSource, ReachesToTheEndOf2100) {
  const auto zone = SystemZones().find("Europe/London").zone.value();
  EXPECT_EQ(zone.offset_at(utc("2100-07-01T00:00:00Z")), hours(1));
  EXPECT_EQ(zone.offset_at(utc("2100-12-31T23:00:00Z")), hours(0));
}

TEST(ZoneSource, AnUnknownNameIsAnsweredByTheNearest) {
  EXPECT_EQ(
      told("Europe/Lodnon"),
      "found \"Europe/Lodnon\"; allowed: the name of a time zone, such as \"Europe/London\". Did you mean "
      "\"Europe/London\"?");
  EXPECT_EQ(told("London"),
            "found \"London\"; allowed: the name of a time zone, such as \"Europe/London\". Did you mean "
            "\"Europe/London\"?");
  EXPECT_EQ(told("somewhere quite else"),
            "found \"somewhere quite else\"; allowed: the name of a time zone, such as \"Europe/London\". "
            "Write a name "
            "such as \"Europe/London\".");
}

TEST(ZoneSource, ANameNeverReachesAFile) {
  for (const char* name : {"", ".", "..", "/etc/passwd", "../../etc/passwd", "Europe/../Europe/London",
                           "posixrules/x", "europe/london"}) {
    EXPECT_FALSE(SystemZones().find(name).zone) << name;
  }
  EXPECT_FALSE(SystemZones().find(std::string("Europe/London\0x", 15)).zone);
  EXPECT_FALSE(SystemZones().find(std::string(100000, 'a')).zone);
}

TEST(ZoneSource, EveryZoneOfTheSystemCanBeRead) {
  const SystemZones zones;
  EXPECT_GT(zones.names().size(), 300U);
  for (const auto& name : zones.names())
    EXPECT_TRUE(zones.find(name).zone) << name;
}

TEST(ZoneSource, SaysWhichReleaseOfTheDataItReads) {
  // A release is named by its year and a letter (IANA tz, NEWS).
  const auto version = SystemZones().version();
  ASSERT_GE(version.size(), 5U) << version;
  EXPECT_GE(std::atoi(version.substr(0, 4).c_str()), 2020);
}

TEST(ZoneOfTheMachine, IsThatOfItsSettings) {
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "weatherstruck-zone-test";
  std::filesystem::create_directories(folder);
  const std::filesystem::path link = folder / "localtime";
  std::filesystem::remove(link);
  EXPECT_EQ(machine_zone("", link), "") << "no link";
  std::filesystem::create_symlink("/usr/share/zoneinfo/America/New_York", link);
  EXPECT_EQ(machine_zone("", link), "America/New_York");
  EXPECT_EQ(machine_zone(":Europe/Dublin", link), "Europe/Dublin") << "TZ goes first";
  EXPECT_EQ(machine_zone("GMT0BST", link), "") << "a rule has no name";
  std::filesystem::remove(link);
  std::filesystem::create_symlink("/usr/share/zoneinfo/Etc/UTC", link);
  EXPECT_EQ(machine_zone("", link), "") << "nobody lives by it";
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace weatherstruck::files
