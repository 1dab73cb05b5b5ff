#include "weatherstruck/measure/setting_out.h"

#include <gtest/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::Metres;

// Derived in the project's rules, section 7, to the millimetre.
TEST(SettingOut, DiagonalsMatchTheWorkedRectangles) {
  EXPECT_NEAR(diagonal(Metres(3), Metres(4)).value(), 5.000, 5e-4);
  EXPECT_NEAR(diagonal(Metres(4), Metres(2.25)).value(), 4.589, 5e-4);
  EXPECT_NEAR(diagonal(Metres(6), Metres(0.9)).value(), 6.067, 5e-4);
}

// Common practice, no source: 3-4-5. On 3.6 x 2.4 m the largest is 8 parts of (.4, .3, .5).
TEST(SettingOut, TheCornerTriangleIsTheLargestThatFits) {
  const CornerTriangle t = corner_triangle(Metres(3.6), Metres(2.4));
  EXPECT_NEAR(t.along_first.value(), 3.2, 1e-9);
  EXPECT_NEAR(t.along_second.value(), 2.4, 1e-9);
  EXPECT_NEAR(t.across.value(), 4.0, 1e-9);
  EXPECT_NEAR(diagonal(t.along_first, t.along_second).value(), t.across.value(), 1e-9);
  const CornerTriangle turned = corner_triangle(Metres(2.4), Metres(3.6));
  EXPECT_NEAR(turned.along_first.value(), 2.4, 1e-9);
  EXPECT_EQ(corner_triangle(Metres(0.2), Metres(3)).across.value(), 0);
}

TEST(SettingOut, GaugeMarksAreSeventyFiveMillimetresApart) {
  const auto marks = gauge_marks(4);
  ASSERT_EQ(marks.size(), 4U);
  EXPECT_NEAR(marks[0].value(), 0.075, 1e-12);
  EXPECT_NEAR(marks[3].value(), 0.300, 1e-12);
  EXPECT_TRUE(gauge_marks(0).empty());
}

// Half-brick ring 3.6 x 2.4 m on strips .45 wide: the trench stands (.45 - .1025)/2 = .17375 outside the wall
// on each side.
TEST(SettingOut, TrenchLinesStandClearOfTheWallOnBothSides) {
  const RingLines lines = ring_lines(Metres(3.6), Metres(2.4), Metres(0.1025), Metres(0.45));
  EXPECT_NEAR(lines.trench_outer.length.value(), 3.6 + 2 * 0.17375, 1e-9);
  EXPECT_NEAR(lines.trench_outer.width.value(), 2.4 + 2 * 0.17375, 1e-9);
  EXPECT_NEAR(lines.wall_inner.length.value(), 3.6 - 0.205, 1e-9);
  EXPECT_NEAR(lines.trench_inner.length.value(), 3.6 - 0.205 - 2 * 0.17375, 1e-9);
  EXPECT_NEAR(lines.wall_outer.diagonal.value(), 4.3267, 5e-5);
}

TEST(SettingOut, ATrenchThatClosesUpHasNoInnerLine) {
  EXPECT_EQ(ring_lines(Metres(2), Metres(0.5), Metres(0.1025), Metres(0.45)).trench_inner.length.value(), 0);
}

}  // namespace
}  // namespace weatherstruck::measure
