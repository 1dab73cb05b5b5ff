#include "weatherstruck/render/days.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Days, DrawEachDayAsACourse) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  EXPECT_THAT(course_of(facts, days, 0),
              ElementsAre("             06  07  08  09  10  11  12  13  14  15  16  17  18",
                          "  light          :::......................................::",
                          "  weather                        rrrrRRRR",
                          "  work       a===b=======  b====             c=====          do",
                          "  left alone                                       //////////////"));
}

TEST(Days, GoOverToHalfHoursWhereTheTripNeedsALongStrip) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[0].runs[0].span.from = at(9, 1);
  trip.plan.tasks[4].runs[0].span = {at(10, 19), at(10, 20)};
  const auto days = trip_days(trip.facts());
  const auto rows = course_of(trip.facts(), days, 0);
  EXPECT_THAT(rows[0], HasSubstr("0102030405"));
  EXPECT_LE(sample::widest(days_sheet(trip.facts(), Ink::plain)), page_width);
}

TEST(Days, PutTwoPeopleOnTwoRows) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[2].runs[0].span = {at(9, 8), at(9, 9)};
  const auto rows = course_of(trip.facts(), trip_days(trip.facts()), 0);
  EXPECT_THAT(rows, testing::Contains(testing::StartsWith("  and        ")));
}

TEST(Days, ShowTasksCoversCanopyAndTheWayHome) {
  const sample::Trip trip = sample::trip();
  const std::string text = days_sheet(trip.facts(), Ink::plain);
  EXPECT_THAT(
      text, HasSubstr("Mon 9 Feb, day 1 of 2\n  6 °C; rain 11:00-13:00 2.9 mm; wind to 9 mph, gusts 18.\n"));
  EXPECT_THAT(text, HasSubstr("  c  14:00-15:30  Pour the footing of the wall (0.3 m3, 4 mixes)\n"));
  EXPECT_THAT(text, HasSubstr("  cover      15:30 the footing of the wall: hessian under sheet\n"));
  EXPECT_THAT(text, HasSubstr("  canopy     pitch 08:45 over the wall, down by 11:15\n"));
  EXPECT_THAT(text,
              HasSubstr("Home         about Tue 10 Feb 13:00; promised Tue 10 Feb 20:00: 7 h in hand\n"));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(Days, NeverHideThatWorkIsLeftOutOrThatHeIsLate) {
  sample::Trip trip = sample::trip();
  trip.plan.left_out = {"wall-lay"};
  trip.plan.in_hand = std::chrono::hours(-2);
  const std::string late = days_sheet(trip.facts(), Ink::plain);
  EXPECT_THAT(late, HasSubstr(": 2 h late\n"));
  EXPECT_THAT(late, HasSubstr("Left out     Lay the wall (120 facing bricks)\n"));
  trip.plan.home.reset();
  EXPECT_THAT(days_sheet(trip.facts(), Ink::plain),
              HasSubstr("Home         no way found to be home; promised"));
}

}  // namespace
}  // namespace weatherstruck::render
