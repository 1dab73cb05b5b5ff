#include "weatherstruck/render/second_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using std::chrono::hours;
using testing::ElementsAre;

programme::SecondOpinion agrees() {
  programme::SecondOpinion second;
  second.source = "MOSMIX";
  second.issued = at(9, 3);
  second.until = at(15, 0);
  second.home = at(10, 13);
  second.in_time = second.was_in_time = true;
  second.later = std::chrono::seconds(0);
  return second;
}

std::vector<std::string> lines(const programme::SecondOpinion& second) {
  const sample::Trip trip = sample::trip();
  return second_lines(second, trip.job, trip.list);
}

TEST(SecondWords, OneThatAgreesIsALine) {
  EXPECT_THAT(lines(agrees()),
              ElementsAre("Held against MOSMIX of Mon 9 Feb 03:00 the plan stays as it is."));
  programme::SecondOpinion shorter = agrees();
  shorter.until = at(10, 6);
  EXPECT_THAT(lines(shorter),
              ElementsAre("Held against MOSMIX of Mon 9 Feb 03:00 the plan stays as it is. It "
                          "reaches to Tue 10 Feb 06:00."));
}

TEST(SecondWords, OneThatDiffersSaysHomeWhatIsLeftOutAndWhatWouldSpoil) {
  programme::SecondOpinion second = agrees();
  second.home = at(10, 22);
  second.later = hours(9);
  second.in_time = false;
  second.left_out = {"wall-lay"};
  second.spoilt = {"the footing", "the wall", "the bed"};
  EXPECT_THAT(
      lines(second),
      ElementsAre("By MOSMIX of Mon 9 Feb 03:00 it comes otherwise: home Tue 10 Feb 22:00, 9 h later, "
                  "after the promise or without work that must be done; no time for Lay the wall.",
                  "In its weather this plan would spoil the footing, the wall and 1 more: look at the "
                  "covers for it."));
  second = agrees();
  second.home.reset();
  second.later.reset();
  second.in_time = false;
  EXPECT_THAT(lines(second),
              ElementsAre("By MOSMIX of Mon 9 Feb 03:00 it comes otherwise: by this order of work "
                          "he is not home at all."));
}

TEST(SecondWords, TheWeathersThemselvesAreHeldSideBySideWhereBothReach) {
  const sample::Trip trip = sample::trip();
  sky::Series wetter = trip.series;
  wetter.source = "Wetter";
  wetter.issued.reset();
  for (sky::Hour& hour : wetter.hours)
    hour.rain = {base::Millimetres(1)};
  wetter.hours.resize(30);
  EXPECT_EQ(weather_beside(trip.series, wetter, trip.job, at(9, 10)),
            "Beside it Wetter, to Tue 10 Feb 06:00: 20.0 mm of rain instead of 2.9 mm, -1 to 6 °C instead of "
            "-1 to 6 "
            "°C, gusts to 18 mph instead of 18 mph.");
  EXPECT_EQ(weather_beside(trip.series, wetter, trip.job, at(11, 10)), "");
  EXPECT_EQ(weather_beside(trip.series, {}, trip.job, at(9, 10)), "");
}

}  // namespace
}  // namespace weatherstruck::render
