#include "weatherstruck/works/carry.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

Route flat(const Name& name, double length, int steps = 0) {
  return {name, Metres(length), Metres(0), steps, Metres(1), {}};
}

TEST(Carry, TheFirstRouteIsUsedUnlessARivalIsCheaper) {
  Job job = demo_job();
  job.site.routes = {flat("drive", 40), flat("lane", 40)};
  EXPECT_EQ(chosen_route(job), 0U);
  job.site.routes = {flat("stairs", 40, 14), flat("lane", 60)};
  EXPECT_EQ(chosen_route(job), 1U);
}

// By hand: 200 facing bricks at 50 a load of .08 m3, 1 h/m3: .32 h. Class B bricks weigh 2.8 kg: 50 come to
// 140 kg, the barrow's most.
TEST(Carry, BricksGoByTheLoad) {
  Uses uses;
  uses.add("facing-brick", 200, 0);
  const Carry load = carry(uses, flat("drive", 30), demo_job().kit);
  EXPECT_EQ(load.trips, 4);
  EXPECT_NEAR(load.hours.value(), 0.32, 1e-9);
  EXPECT_NEAR(load.bricks, 200, 1e-9);
}

// A flag of 17.7 kg: seven to a barrow of 140 kg. 21 flags are three loads.
TEST(Carry, FlagsGoByTheirMass) {
  Uses uses;
  uses.add("flag-450", 21, 0);
  EXPECT_EQ(carry(uses, flat("drive", 30), demo_job().kit).trips, 3);
}

// 144 kg of cement at 1440 kg/m3 is .1 m3; with .3 m3 of sand .4 m3: five loads of .08, .4 h at 1 h/m3.
TEST(Carry, BagsAndBulkGoByVolumeAndPlatesRideAlong) {
  Uses uses;
  uses.add("cement", 144, 0);
  uses.add("sharp-sand", 0.3, 0);
  uses.add("plate-100x50", 12, 0);
  const Carry load = carry(uses, flat("drive", 30), demo_job().kit);
  EXPECT_NEAR(load.volume.value(), 0.4, 1e-9);
  EXPECT_EQ(load.trips, 5);
  EXPECT_NEAR(load.hours.value(), 0.4, 1e-9);
}

}  // namespace
}  // namespace weatherstruck::works
