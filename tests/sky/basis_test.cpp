#include "weatherstruck/sky/basis.h"

#include <gtest/gtest.h>

#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/observed.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;

const Instant midnight{hours(1000)};

Series hourly(const std::string& source, int from, int to, int issued) {
  Series series;
  series.source = source;
  series.attribution = source + " says";
  series.issued = midnight + hours(issued);
  for (int i = from; i < to; ++i) {
    Hour hour;
    hour.start = midnight + hours(i);
    hour.temperature = {base::Celsius(5)};
    hour.wind = {base::MetresPerSecond(3)};
    hour.rain = {base::Millimetres(0)};
    series.hours.push_back(hour);
  }
  return series;
}

std::vector<Basis::Kind> kinds(const std::vector<Basis>& list) {
  std::vector<Basis::Kind> out;
  for (const Basis& one : list)
    out.push_back(one.kind);
  return out;
}

TEST(Basis, OfOnePieceIsOneStretchCutToWhatWasAsked) {
  const Series series = hourly("A", 0, 10, 0);
  const auto list = bases_of(series, midnight + minutes(90), midnight + hours(4));
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0].from, midnight + minutes(90));
  EXPECT_EQ(list[0].to, midnight + hours(4));
  EXPECT_EQ(list[0].source, "A");
  EXPECT_EQ(list[0].issued, midnight);
}

TEST(Basis, EachHourOfAJoinedOneKnowsItsIssue) {
  const Series both = join(hourly("A", 0, 10, 0), hourly("B", 4, 8, 3));
  const auto list = bases_of(both, midnight, midnight + hours(10));
  ASSERT_EQ(list.size(), 3U);
  EXPECT_EQ(list[0].source, "A");
  EXPECT_EQ(list[1].source, "B");
  EXPECT_EQ(list[1].from, midnight + hours(4));
  EXPECT_EQ(list[1].issued, midnight + hours(3));
  EXPECT_EQ(list[2].source, "A");
  EXPECT_EQ(list[2].to, midnight + hours(10));
}

TEST(Basis, WhatIsMissingInsideBeforeAndBeyondStandsOnNothing) {
  Series series = hourly("A", 2, 6, 0);
  series.hours[1].rain.reset();
  using K = Basis::Kind;
  EXPECT_EQ(kinds(bases_of(series, midnight, midnight + hours(8))),
            (std::vector<K>{K::nothing, K::forecast, K::nothing, K::forecast, K::nothing}));
  EXPECT_EQ(kinds(bases_of(Series{}, midnight, midnight + hours(8))), std::vector<K>{K::nothing});
  EXPECT_TRUE(bases_of(series, midnight, midnight).empty());
}

TEST(Basis, AReadingOnSiteAndAStationAreToldApart) {
  const RainReading gauge{midnight + hours(1), midnight + hours(2), base::Millimetres(3)};
  const Series read = observe(hourly("A", 0, 3, 0), {}, {&gauge, 1}).series;
  using K = Basis::Kind;
  EXPECT_EQ(kinds(bases_of(read, midnight, midnight + hours(3))),
            (std::vector<K>{K::forecast, K::read_on_site, K::forecast}));
  Series station = hourly("Station", 0, 2, 0);
  for (Hour& hour : station.hours) {
    hour.temperature->origin = hour.wind->origin = hour.rain->origin = Origin::measured;
  }
  // Also where a later forecast lies over it.
  const auto list = bases_of(join(station, hourly("A", 0, 3, 1)), midnight, midnight + hours(3));
  ASSERT_EQ(kinds(list), (std::vector<K>{K::observed, K::forecast}));
  EXPECT_EQ(list[0].source, "Station");
  EXPECT_FALSE(list[0].issued);
  EXPECT_EQ(list[0].filled_from, "");
}

TEST(Basis, WhatALaterIssueLacksIsNamedWithItsOwn) {
  Series grid = hourly("B", 0, 4, 2);
  for (std::size_t i = 2; i < 4; ++i)
    grid.hours[i].rain.reset();
  const auto list = bases_of(join(hourly("A", 0, 4, 0), grid), midnight, midnight + hours(4));
  ASSERT_EQ(list.size(), 2U);
  EXPECT_EQ(list[0].filled_from, "");
  EXPECT_EQ(list[1].source, "B");
  EXPECT_EQ(list[1].filled_from, "A");
  EXPECT_EQ(list[1].filled_issued, midnight);
}

TEST(Basis, ReadingsForecastNothingAndNeverHeadAJoinedSeriesHoweverNewTheyAre) {
  Series station = hourly("Station", 0, 3, 9);
  EXPECT_FALSE(only_readings(station));
  for (Hour& hour : station.hours)
    hour.temperature->origin = hour.wind->origin = hour.rain->origin = Origin::measured;
  station.hours[1].temperature->origin = Origin::held;
  EXPECT_TRUE(only_readings(station));
  EXPECT_FALSE(only_readings(Series{}));
  for (const Series& both : {join(station, hourly("A", 0, 6, 1)), join(hourly("A", 0, 6, 1), station)}) {
    EXPECT_EQ(both.source, "A");
    EXPECT_EQ(both.issued, midnight + hours(1));
    EXPECT_EQ(both.hours[0].rain->origin, Origin::measured);
    EXPECT_EQ(both.hours[4].rain->origin, Origin::given);
  }
}

}  // namespace
}  // namespace weatherstruck::sky
