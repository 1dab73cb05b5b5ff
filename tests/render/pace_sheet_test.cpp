#include "weatherstruck/render/pace_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

TEST(PaceSheet, SaysHowMuchFromHowManyAndTheNorm) {
  const std::vector<works::LearntPace> learnt{{trade::Operation::lay_facing, 6, 2, 0, 50.0 / 41, 0.05, 0.15},
                                              {trade::Operation::dig, 1, 1, 2, 1.25, 0.1, 0.2}};
  const std::string sheet = pace_sheet(learnt, Ink::plain);
  // 41 / e^(1.2816 x 0.15) = 33.8, and times that 49.7.
  EXPECT_THAT(sheet, HasSubstr("41 bricks an hour, from 6 tasks of 2 jobs; norm 50;"));
  EXPECT_THAT(sheet, HasSubstr("34 to 50"));
  // 2.4 x 1.25 = 3 h; over and times e^(1.2816 x 0.2): 2.3 and 3.9.
  EXPECT_THAT(sheet, HasSubstr("3 h a m3, from 1 task of 1 job; norm 2.4; the next"));
  EXPECT_THAT(sheet, HasSubstr("the next 2.3"));
  EXPECT_THAT(sheet, HasSubstr("to 3.9\n"));
  EXPECT_THAT(sheet, HasSubstr("2 tasks left out"));
}

TEST(PaceSheet, SaysThatNothingIsKnown) {
  EXPECT_THAT(pace_sheet({}, Ink::plain), HasSubstr("plans go by the norms"));
}

}  // namespace
}  // namespace weatherstruck::render
