#include "weatherstruck/render/why_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

TEST(WhySheet, GivesHoursLinksAndReasonsExactly) {
  const sample::Trip trip = sample::trip();
  const std::string text = why_sheet(trip.facts(), 3, Ink::plain);
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
            "  Mon 9 Feb 15:25 to Tue 10 Feb 09:00  waits for: Pour the footing of the wall\n");
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(WhySheet, TellsAWorkLeftOutFromOneNotCalledFor) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[1].runs.clear();
  EXPECT_THAT(why_sheet(trip.facts(), 1, Ink::plain), HasSubstr("left out: no hours were found"));
  trip.plan.tasks[1].present = false;
  EXPECT_THAT(why_sheet(trip.facts(), 1, Ink::plain), HasSubstr("not called for"));
}

TEST(WhySheet, SaysWhenNothingStoodInTheWay) {
  const sample::Trip trip = sample::trip();
  EXPECT_THAT(why_sheet(trip.facts(), 0, Ink::plain), HasSubstr("Nothing stood in its way"));
}

}  // namespace
}  // namespace weatherstruck::render
