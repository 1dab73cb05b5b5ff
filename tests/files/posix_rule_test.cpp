#include "weatherstruck/files/posix_rule.h"

#include <gtest/gtest.h>

#include <string>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/zone_source.h"

namespace weatherstruck::files {
namespace {

std::string listed(std::string_view rule, int year) {
  const auto changes = changes_by_rule(rule, year, year);
  if (!changes) return "no rule";
  std::string out;
  for (const auto& change : *changes) {
    if (!out.empty()) out += ", ";
    out += base::iso_utc(change.at) + " " + change.abbreviation;
  }
  return out;
}

TEST(PosixRule, GivesTheChangesOfAYear) {
  // Dates of 2026: the last Sundays of March and October are the 29th and the 25th, the second Sunday of
  // March is the 8th, the first of November the 1st (calendar).
  EXPECT_EQ(listed("GMT0BST,M3.5.0/1,M10.5.0", 2026), "2026-03-29T01:00:00Z BST, 2026-10-25T01:00:00Z GMT");
  EXPECT_EQ(listed("EST5EDT,M3.2.0,M11.1.0", 2026), "2026-03-08T07:00:00Z EDT, 2026-11-01T06:00:00Z EST");
  // South of the equator summer ends first; Lord Howe moves by half an hour (RFC 9636 leaves both open).
  EXPECT_EQ(listed("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", 2026),
            "2026-04-04T15:00:00Z +1030, 2026-10-03T15:30:00Z +11");
  // A time before midnight (RFC 9636 3.3.1 allows hours from -167 to 167).
  EXPECT_EQ(listed("<-02>2<-01>,M3.5.0/-1,M10.5.0/0", 2026),
            "2026-03-29T01:00:00Z -01, 2026-10-25T01:00:00Z -02");
  EXPECT_EQ(listed("CET-1", 2026), "");
}

TEST(PosixRule, RefusesWhatIsNoRule) {
  for (const char* text :
       {"", "GMT", "GMT0BST", "GMT0BST,M3.5.0", "GMT0BST,M13.5.0,M10.5.0", "GMT0BST,M3.6.0,M10.5.0",
        "GMT0BST,M3.5.7,M10.5.0", "GMT0BST,J60,J300", "GMT0BST,M3.5.0,M10.5.0 ", "<GMT0BST,M3.5.0,M10.5.0"}) {
    EXPECT_FALSE(changes_by_rule(text, 2026, 2026)) << text;
  }
}

TEST(PosixRule, CarriesOnEveryZoneOfTheSystemAsItsListedYearsEnd) {
  // The listed changes of 2033 to 2037 are the database's own; a zone whose yearly changes go on after them
  // must do so at the same weekday, week and clock time.
  const SystemZones zones;
  int carried_on = 0;
  for (const auto& name : zones.names()) {
    const auto zone = zones.find(name).zone.value();
    const auto offset = [&zone](int year, unsigned month) {
      return zone.offset_at(
          base::Instant(std::chrono::sys_days(std::chrono::year(year) / std::chrono::month(month) / 15)));
    };
    for (const unsigned month : {1U, 7U}) {
      if (name == "Africa/Casablanca" || name == "Africa/El_Aaiun")
        continue;  // follow the moon, listed to 2087
      EXPECT_EQ(offset(2036, month), offset(2060, month)) << name;
      EXPECT_EQ(offset(2036, month), offset(2100, month)) << name;
    }
    if (offset(2060, 1) != offset(2060, 7)) ++carried_on;
  }
  EXPECT_GT(carried_on, 50);
}

}  // namespace
}  // namespace weatherstruck::files
