#include "weatherstruck/render/now_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::HasSubstr;
using testing::Not;

TEST(NowSheet, TellsWhatIsUnderWayWhatComesAndWhatIsLeftOfTheDay) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(9, 10);
  EXPECT_EQ(now_sheet(facts, Ink::plain),
            "Now, Mon 9 Feb 10:00                                                  day 1 of 2\n"
            "Under way    b Dig the trench of the wall, to about 10:45\n"
            "Next         c 14:00 Pour the footing of the wall\n"
            "             d 18:00 Lay the wall, to course 3 of 6\n"
            "Light        7 h 45 min left, to 17:45\n"
            "Dry          until about 11:00 by the forecast, 1 h\n"
            "Cover        15:30 hessian under sheet on the footing of the wall\n"
            "In hand      7 h: home about Tue 13:00\n");
}

TEST(NowSheet, InTheRainItTellsWhenItStops) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(9, 12, 10);
  const std::string text = now_sheet(facts, Ink::plain);
  EXPECT_THAT(text, HasSubstr("Under way    nothing\n"));
  EXPECT_THAT(text, HasSubstr("Dry          from about 13:00 by the forecast\n"));
}

TEST(NowSheet, InTheDarkItTellsWhenItIsLight) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(9, 6, 15);
  EXPECT_THAT(now_sheet(facts, Ink::plain),
              HasSubstr("Light        dark until 07:00, then light to 17:45\n"));
  facts.now = at(9, 20);
  EXPECT_THAT(now_sheet(facts, Ink::plain), HasSubstr("Light        dark since 17:45\n"));
  EXPECT_THAT(now_sheet(facts, Ink::plain), HasSubstr("Next         nothing more today\n"));
}

TEST(NowSheet, TheBookGoesBeforeThePlan) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(9, 10);
  works::Progress progress;
  works::TaskProgress dug;
  dug.task = "wall-dig";
  dug.finished = at(9, 9, 30);
  works::TaskProgress pour;
  pour.task = "wall-pour";
  pour.begun = at(9, 9, 40);
  pour.runs = {{at(9, 9, 40), at(9, 10), true, base::Hours(0.33)}};
  progress.tasks = {dug, pour};
  facts.progress = &progress;
  const std::string text = now_sheet(facts, Ink::plain);
  EXPECT_THAT(text, HasSubstr("Under way    c Pour the footing of the wall, to about 15:30\n"));
  EXPECT_THAT(text, Not(HasSubstr("Dig the trench")));
}

TEST(NowSheet, IsNeverMoreThanFifteenLines) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(9, 7, 30);
  programme::Plan plan = trip.plan;
  for (int i = 0; i < 12; ++i)
    plan.covers.push_back(plan.covers.front());
  TripFacts many{trip.job, trip.list, trip.series, trip.limits, plan, facts.now, {}, true};
  programme::Turn turn;
  turn.kind = programme::Turn::Kind::rain;
  turn.at = at(9, 13);
  turn.until = at(9, 19);
  turn.stops = {"wall-pour", "wall-lay"};
  turn.left_out = {"wall-pour", "wall-lay"};
  many.turns = {turn, turn, turn};
  const std::string text = now_sheet(many, Ink::plain);
  EXPECT_LE(sample::lines_of(text).size(), now_lines);
  EXPECT_LE(sample::widest(text), page_width);
  EXPECT_THAT(text, HasSubstr("If           Steady rain"));
  EXPECT_THAT(text, HasSubstr("In hand"));
}

TEST(NowSheet, OutsideTheTripItSaysSo) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.now = at(8, 12);
  EXPECT_THAT(now_sheet(facts, Ink::plain), HasSubstr("The trip has not begun."));
  facts.now = at(13, 12);
  EXPECT_THAT(now_sheet(facts, Ink::plain), HasSubstr("The trip is over."));
}

}  // namespace
}  // namespace weatherstruck::render
