#include "weatherstruck/measure/paving.h"

#include <gtest/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::Metres;

// By hand: 6 x .75 = 4.5 m2; flag with joint .46 x .46 = .2116 m2; 21.27 flags. Bed 30 mm (assumption of the
// norms table; BS 7533-9 wants 20 mm at least): .135 m3.
TEST(Paving, FlagsGoByTheirSizeWithAJoint) {
  const FlagCount count = count_flags(Metres(6), Metres(0.75), Metres(0.45), Metres(0.45));
  EXPECT_NEAR(count.area.value(), 4.5, 1e-12);
  EXPECT_NEAR(count.flags, 21.266, 1e-3);
  EXPECT_NEAR(count.bed.value(), 0.135, 1e-12);
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
