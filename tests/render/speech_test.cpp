#include "weatherstruck/render/speech.h"

#include <gtest/gtest.h>

namespace weatherstruck::render {
namespace {

using namespace std::chrono_literals;

const base::LocalDay monday{std::chrono::local_days(std::chrono::year(2026) / 2 / 9)};

TEST(Speech, TemperaturesAreWholeDegreesInWhatTheReaderUses) {
  EXPECT_EQ(temperature(base::Celsius(-0.4), Units::uk), "0 °C");
  EXPECT_EQ(temperature(base::Celsius(4), Units::us), "39 °F");
  EXPECT_EQ(temperatures(base::Celsius(-2), base::Celsius(6), Units::uk), "-2 to 6 °C");
  EXPECT_EQ(temperatures(base::Celsius(5.6), base::Celsius(6.4), Units::uk), "6 °C");
}

// One mile is 1,609.344 m exactly (international yard and pound agreement, 1959), one inch 25.4 mm.
TEST(Speech, WindAndRainAreConvertedByTheirDefinitions) {
  EXPECT_EQ(wind(base::MetresPerSecond(11.176)), "25 mph");
  EXPECT_EQ(rain(base::Millimetres(25.4), Units::us), "1.00 in");
  EXPECT_EQ(rain(base::Millimetres(3.25), Units::uk), "3.2 mm");
}

TEST(Speech, MassChangesToTonnesAtAThousand) {
  EXPECT_EQ(mass(base::Kilograms(640)), "640 kg");
  EXPECT_EQ(mass(base::Kilograms(999.4)), "999 kg");
  EXPECT_EQ(mass(base::Kilograms(1250)), "1.25 t");
}

TEST(Speech, CountsKnowTheirPlurals) {
  EXPECT_EQ(count_of(1, "mix"), "1 mix");
  EXPECT_EQ(count_of(4, "mix"), "4 mixes");
  EXPECT_EQ(count_of(2500, "brick"), "2,500 bricks");
  EXPECT_EQ(whole(-1234567), "-1,234,567");
}

TEST(Speech, TimesComeToTheNearestQuarter) {
  EXPECT_EQ(quarter(base::LocalTime(monday) + 7h + 7min), "07:00");
  EXPECT_EQ(quarter(base::LocalTime(monday) + 7h + 8min), "07:15");
  EXPECT_EQ(quarter_from(monday, base::LocalTime(monday) + 31h), "Tue 07:00");
  EXPECT_EQ(quarter_from(monday, base::LocalTime(monday) + 23h + 55min), "Tue 00:00");
}

// Plans go by five minutes, so that a wait is never told more than five too short.
TEST(Speech, WaitsAreToldToTheQuarterAsTheWorkThatFollowsIs) {
  EXPECT_EQ(about(monday, base::LocalTime(monday) + 13h), "about 13:00");
  EXPECT_EQ(about(monday, base::LocalTime(monday) + 13h + 10min), "about 13:15");
  EXPECT_EQ(about(monday, base::LocalTime(monday) + 30h), "about 06:00 tomorrow");
  EXPECT_EQ(about(monday, base::LocalTime(monday) + 54h), "about 06:00 on Wed");
  EXPECT_EQ(about(monday, base::LocalTime(monday) + 24h * 9), "about 00:00 on Wed 18 Feb");
}

TEST(Speech, DurationsAreQuartersUnlessAskedForToTheMinute) {
  EXPECT_EQ(duration(5min), "a few minutes");
  EXPECT_EQ(duration(3h + 10min), "3 h 15 min");
  EXPECT_EQ(duration(2h), "2 h");
  EXPECT_EQ(duration(39h + 45min), "1 day 16 h");
  EXPECT_EQ(duration(48h), "2 days");
  EXPECT_EQ(duration_minutes(10h + 47min), "10 h 47 min");
}

}  // namespace
}  // namespace weatherstruck::render
