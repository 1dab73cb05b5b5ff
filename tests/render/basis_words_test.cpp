#include "weatherstruck/render/basis_words.h"

#include <gtest/gtest.h>

#include "render/sample.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/observed.h"

namespace weatherstruck::render {
namespace {

using sample::at;

const base::Zone zone = base::Zone::fixed("Site/Fixed", std::chrono::seconds(0));

std::string line(const sky::Series& series, base::Instant now, base::Instant to) {
  return basis_line(series, zone, {at(9, 6), now, to});
}

// The sample's hours run over the 9th and 10th.
TEST(BasisWords, OneForecastOverTheWholeTripIsOneLine) {
  EXPECT_EQ(line(sample::trip().series, at(9, 4), at(10, 20)),
            "Hand of Mon 9 Feb 03:00, to the end of the trip");
  EXPECT_EQ(line(sample::trip().series, at(9, 4), at(9, 6)), "");
}

TEST(BasisWords, AForecastThatEndsInsideTheTripSaysWhatStandsInBeyond) {
  EXPECT_EQ(
      line(sample::trip().series, at(9, 4), at(12, 20)),
      "Hand of Mon 9 Feb 03:00 to Wed 11 Feb 00:00; then no forecast, each hour as that of the day before");
}

TEST(BasisWords, OfTheHoursGoneByOnlyWhatWasNotAsForecastIsTold) {
  sky::Series newer = sample::trip().series;
  newer.source = "Newer";
  newer.issued = at(10, 5);
  newer.hours.erase(newer.hours.begin(), newer.hours.begin() + 29);
  const sky::Series both = sky::join(sample::trip().series, newer);
  EXPECT_EQ(line(both, at(10, 6), at(10, 20)), "Newer of Tue 10 Feb 05:00, to the end of the trip");
  const sky::RainReading gauge{at(9, 18), at(9, 20), base::Millimetres(3)};
  const sky::Series read = sky::observe(both, {}, {&gauge, 1}).series;
  EXPECT_EQ(
      line(read, at(10, 6), at(10, 20)),
      "Newer of Tue 10 Feb 05:00, to the end of the trip; gone by: as forecast then 22 h, read on site 2 h");
  EXPECT_EQ(line(read, at(10, 20), at(10, 20)), "gone by: as forecast then 1 day 12 h, read on site 2 h");
}

TEST(BasisWords, WhatFillsUpTheRainOfAGridIsNamed) {
  sky::Series grid = sample::trip().series;
  grid.source = "Grid";
  grid.issued = at(9, 4);
  for (std::size_t i = 30; i < grid.hours.size(); ++i)
    grid.hours[i].rain.reset();
  EXPECT_EQ(line(sky::join(sample::trip().series, grid), at(9, 4), at(10, 20)),
            "Grid of Mon 9 Feb 04:00, to the end of the trip; what that lacks, Hand of Mon 9 Feb 03:00");
}

}  // namespace
}  // namespace weatherstruck::render
