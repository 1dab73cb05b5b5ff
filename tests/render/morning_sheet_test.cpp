#include "weatherstruck/render/morning_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::HasSubstr;

TEST(MorningSheet, IsOneScreenWithTheDayInOrder) {
  const sample::Trip trip = sample::trip();
  const MorningFacts morning{0, {&trade::row_for(trade::Hazard::wet_cement)}};
  const std::string text = morning_sheet(trip.facts(), morning, Ink::plain);
  EXPECT_EQ(text,
            "Morning sheet, Mon 9 Feb                                              day 1 of 2\n"
            "A wall by the lane\n"
            "\n"
            "Light        07:00 to 17:45, sun 07:45 to 17:15\n"
            "Weather      6 °C; rain 11:00-13:00 2.9 mm; wind to 9 mph, gusts 18\n"
            "Tonight      down to -1 °C, frost, gusts 18 mph\n"
            "\n"
            "a  06:00-07:00  Drive to the site\n"
            "b  07:00-09:00  Dig the trench of the wall (0.5 m3); again 09:30-10:45\n"
            "c  14:00-15:30  Pour the footing of the wall (0.3 m3, 4 mixes)\n"
            "d  18:00-18:30  Lay the wall (120 facing bricks), to course 3 of 6; lights\n"
            "\n"
            "Leave        wall footing until about 09:00 tomorrow, then lay facing bricks (a\n"
            "             boot heel leaves no mark)\n"
            "Cover        hessian under sheet on: 15:30 the footing of the wall\n"
            "If it rains  1 mm in an hour stops d, 2 mm c, 4 mm everything. Cover what is\n"
            "             fresh first.\n"
            "Needs        63 facing bricks, 4 mixes of concrete, 1 mix of mortar, 4 bags of\n"
            "             cement\n"
            "\n"
            "By tonight   a b c done; d to course 3 of 6\n"
            "In hand      7 h: home about Tue 10 Feb 13:00, promised Tue 10 Feb 20:00\n"
            "Caution      Wet cement burns before it is felt: waterproof gloves, no kneeling\n"
            "             in it, wash it off at once.\n");
  EXPECT_LE(sample::widest(text), page_width);
  EXPECT_LE(sample::lines_of(text).size(), 40U);
}

TEST(MorningSheet, OfTheSecondDayTakesCoversOffAndPutsTheCanopyUp) {
  const sample::Trip trip = sample::trip();
  const std::string text = morning_sheet(trip.facts(), {1, {}}, Ink::plain);
  EXPECT_THAT(text, HasSubstr("Cover        hessian under sheet off: 08:45 the footing of the wall\n"));
  EXPECT_THAT(text, HasSubstr("Canopy       08:45 up over the wall, down by 11:15\n"));
  EXPECT_THROW(static_cast<void>(morning_sheet(trip.facts(), {2, {}}, Ink::plain)), std::out_of_range);
}

TEST(MorningSheet, CountsOnlyTodaysShareOfWhatATaskTakes) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  const DayNeeds monday = needs_of(facts, days[0]);
  ASSERT_EQ(monday.bricks.size(), 1U);
  EXPECT_DOUBLE_EQ(monday.bricks[0].amount, 63);
  EXPECT_DOUBLE_EQ(monday.concrete.value(), 0.3 * 1.1);
  const DayNeeds tuesday = needs_of(facts, days[1]);
  EXPECT_DOUBLE_EQ(tuesday.bricks[0].amount, 63);
  EXPECT_DOUBLE_EQ(tuesday.concrete.value(), 0);
}

TEST(MorningSheet, FactsForCautionsComeFromTheDay) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  const trade::DayFacts monday = caution_facts(facts, days[0], base::Metres(0.4));
  EXPECT_TRUE(monday.first_digging);
  EXPECT_TRUE(monday.alone);
  EXPECT_TRUE(monday.power_tools_wet);
  EXPECT_FALSE(monday.canopy_up);
  EXPECT_DOUBLE_EQ(monday.drive.value(), 1);
  EXPECT_DOUBLE_EQ(monday.deepest_trench.value(), 0.4);
  const trade::DayFacts tuesday = caution_facts(facts, days[1], base::Metres(0.4));
  EXPECT_FALSE(tuesday.first_digging);
  EXPECT_TRUE(tuesday.canopy_up);
  EXPECT_DOUBLE_EQ(tuesday.highest_gust.value(), 12);
  EXPECT_DOUBLE_EQ(tuesday.lowest_air.value(), -1);
}

}  // namespace
}  // namespace weatherstruck::render
