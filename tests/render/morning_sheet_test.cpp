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
            "Leave        the footing of the wall until about 08:45 tomorrow (a boot heel\n"
            "             leaves no mark)\n"
            "Cover        hessian under sheet on: 15:30 the footing of the wall\n"
            "\n"
            "Needs        63 facing bricks, 4 mixes of concrete, 1 mix of mortar, 4 bags of\n"
            "             cement\n"
            "By tonight   a to c done; d to course 3 of 6; c begun by about 17:30\n"
            "In hand      7 h: home about Tue 13:00, promised 20:00\n"
            "Stands on    Hand of Mon 9 Feb 03:00, to the end of the trip\n"
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

}  // namespace
}  // namespace weatherstruck::render
