#include "weatherstruck/measure/paving.h"

#include <gtest/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::Metres;

// By hand: along 6 m 13 flags and joints are 5.98 m, and the joints take the other 20 mm; across .75 m one
// flag and .29 m to be cut, one piece from a flag: 13 whole and 13 cut. 6 x .75 = 4.5 m2, bed 30 mm
// (assumption of the norms table; BS 7533-9 wants 20 mm at least): .135 m3.
TEST(Paving, FlagsGoByTheirSizeWithAJoint) {
  const FlagCount count = count_flags(Metres(6), Metres(0.75), Metres(0.45), Metres(0.45));
  EXPECT_NEAR(count.area.value(), 4.5, 1e-12);
  EXPECT_EQ(count.flags, 26);
  EXPECT_NEAR(count.bed.value(), 0.135, 1e-12);
}

// By hand, 450 mm flags: 4 x .75 m is 8 rows of one and .29 m, and a ninth row of .32 m: 8 whole, 8 and 1
// cut, 1 for the corner. 1.83 x .6 m is 4 rows and 1.38 + .45 m, exactly 4 flags long; .14 m across: 3 pieces
// from a flag, so 2. One flag is one flag.
TEST(Paving, WhatIsLeftAtAnEdgeIsCutFromWholeFlags) {
  const auto flags = [](double length, double width) {
    return count_flags(Metres(length), Metres(width), Metres(0.45), Metres(0.45)).flags;
  };
  EXPECT_EQ(flags(4, 0.75), 18);
  EXPECT_EQ(flags(1.83, 0.6), 4 + 2);
  EXPECT_EQ(flags(0.45, 0.45), 1);
  EXPECT_EQ(flags(0.2, 0.2), 1) << "less than a flag is cut from one";
}

// By hand: .9 m is 4 bricks long, .45 m is 4 bricks wide, .15 m is 2 courses: 32 a step, 96 for three. Base
// along the slope: run 1.35, rise .45, sqrt(1.8225 + .2025) = 1.4230; x .9 x .15 = .1921 m3.
TEST(Paving, StepsAreSolidBrickOnASlopingBase) {
  const FlightCount count = count_flight(3, Metres(0.9), Metres(0.45), Metres(0.15), Metres(0.15));
  EXPECT_NEAR(count.bricks, 96, 1e-9);
  EXPECT_NEAR(count.concrete.value(), 0.1921, 1e-4);
  EXPECT_NEAR(count.rise.value(), 0.45, 1e-12);
}

}  // namespace
}  // namespace weatherstruck::measure
