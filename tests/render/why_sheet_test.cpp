#include "weatherstruck/render/why_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

programme::Why why_in(const sample::Trip& trip, std::size_t task) {
  programme::Why why;
  const programme::PlannedTask& planned = trip.plan.tasks[task];
  why.before = programme::drawn_together(planned.reasons);
  why.days = programme::day_by_day(planned.reasons, trip.job);
  for (const programme::PlannedRun& run : planned.runs)
    why.at_work += run.span.to - run.span.from;
  why.in_fair_weather = base::Hours(std::chrono::duration<double>(why.at_work).count() / 3600);
  return why;
}
std::string sheet(const sample::Trip& trip, std::size_t task) {
  return why_sheet(trip.facts(), task, why_in(trip, task), Ink::plain);
}

TEST(WhySheet, GivesHoursLinksAndReasonsExactly) {
  const sample::Trip trip = sample::trip();
  const std::string text = sheet(trip, 3);
  EXPECT_EQ(text,
            "Lay the wall (120 facing bricks)\n"
            "wall-lay\n"
            "\n"
            "When          Mon 9 Feb 18:00 to 18:30; Tue 10 Feb 09:00 to 11:00\n"
            "What for      It is needed.\n"
            "How long      2.0 h of one man at the norm\n"
            "Comes         after Pour the footing of the wall (0.3 m3, 4 mixes): The concrete\n"
            "              must bear the bricks.\n"
            "\n"
            "Why not sooner\n"
            "  Mon 9 Feb 15:25 to Tue 10 Feb 09:00  waits for: Pour the footing of the wall\n"
            "\n"
            "Day by day, in working hours\n"
            "  Mon 9 Feb   3 h 30 min a wait\n"
            "  Tue 10 Feb  2 h a wait\n");
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(WhySheet, TellsAWorkLeftOutFromOneNotCalledFor) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[1].runs.clear();
  EXPECT_THAT(sheet(trip, 1), HasSubstr("left out: no hours were found"));
  trip.plan.tasks[1].present = false;
  EXPECT_THAT(sheet(trip, 1), HasSubstr("not called for"));
}

TEST(WhySheet, SaysWhenNothingStoodInTheWay) {
  const sample::Trip trip = sample::trip();
  EXPECT_THAT(sheet(trip, 0), HasSubstr("Nothing stood in its way"));
}

programme::Lifted lifted(programme::Hindrance::Kind kind, int minutes, int home_minutes) {
  programme::Lifted one{{kind, {}, {}}, {}, {}};
  one.sooner = std::chrono::minutes(minutes);
  one.home_sooner = std::chrono::minutes(home_minutes);
  return one;
}

TEST(WhySheet, TellsWhatGainsAndWhatDoesNot) {
  const sample::Trip trip = sample::trip();
  programme::Why why = why_in(trip, 3);
  why.lifted = {lifted(programme::Hindrance::Kind::hands, 150, -30),
                lifted(programme::Hindrance::Kind::dark, 5, 0)};
  const std::string text = why_sheet(trip.facts(), 3, why, Ink::plain);
  EXPECT_THAT(text, HasSubstr("with a second who lays bricks  2 h 30 min sooner, home 30 min later"));
  EXPECT_THAT(text, HasSubstr("Would gain nothing: with lights."));
}

TEST(WhySheet, SaysWhatWouldGiveWorkThatIsLeftOutAPlace) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[1].runs.clear();
  programme::Why why = why_in(trip, 1);
  programme::Lifted found = lifted(programme::Hindrance::Kind::hands, 0, 0);
  found.sooner.reset();
  found.had_place = false;
  found.found = trip.job.trip.home_by;
  programme::Lifted nothing = found;
  nothing.hindrance.kind = programme::Hindrance::Kind::dark;
  nothing.found.reset();
  why.lifted = {found, nothing};
  const std::string text = why_sheet(trip.facts(), 1, why, Ink::plain);
  EXPECT_THAT(text, HasSubstr("a place "));
  EXPECT_THAT(text, HasSubstr("Would give it no place: with lights."));
}

TEST(WhySheet, SaysHowLongItIsAtWorkWhereThatIsMoreThanFairWeatherAsks) {
  const sample::Trip trip = sample::trip();
  programme::Why why = why_in(trip, 3);
  why.in_fair_weather = base::Hours(1);
  EXPECT_THAT(why_sheet(trip.facts(), 3, why, Ink::plain),
              HasSubstr("2 h 30 min at work in 2 stretches; in fair"));
}

TEST(WhySheet, DrawsTogetherWhatComesFirstForOneReason) {
  sample::Trip trip = sample::trip();
  for (int i = 0; i < 7; ++i)
    trip.list.links.push_back(
        {"earlier-" + std::to_string(i), trip.list.tasks[3].name, {}, {}, {}, "The mess."});
  const std::string text = sheet(trip, 3);
  EXPECT_THAT(text, HasSubstr("earlier-3 and 3 more: The\n"));
}

}  // namespace
}  // namespace weatherstruck::render
