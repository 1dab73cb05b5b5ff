#include "weatherstruck/works/carry.h"

#include <gtest/gtest.h>

#include "weatherstruck/works/task_list.h"
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

// 144 kg of cement at 1440 kg/m3 is .1 m3; .3 m3 of sand, damp, swells by a fifth to .36: .46 m3, six loads
// of .08, .46 h at 1 h/m3.
TEST(Carry, BagsAndBulkGoByVolumeAndPlatesRideAlong) {
  Uses uses;
  uses.add("cement", 144, 0);
  uses.add("sharp-sand", 0.3, 0);
  uses.add("plate-100x50", 12, 0);
  const Carry load = carry(uses, flat("drive", 30), demo_job().kit);
  EXPECT_NEAR(load.volume.value(), 0.46, 1e-9);
  EXPECT_EQ(load.trips, 6);
  EXPECT_NEAR(load.hours.value(), 0.46, 1e-9);
}

// A barrow of 140 kg holds .0583 m3 of concrete at 2400 kg/m3: a cubic metre is 17.1 loads, whatever the
// barrow could hold; the time for a cubic metre stays that of the norm.
TEST(Carry, WetConcreteIsWheeledByWhatABarrowMayWeigh) {
  const Carry load =
      carry_wet(base::CubicMetres(1), base::KilogramsPerCubicMetre(2400), flat("drive", 30), demo_job().kit);
  EXPECT_EQ(load.trips, 18);
  EXPECT_NEAR(load.hours.value(), 1, 1e-9);
}

TEST(Carry, ByAJobsOwnNorms) {
  trade::NormValues norms;
  norms.set("barrow-base", 0.8);
  EXPECT_NEAR(carry_loose(base::CubicMetres(1), flat("drive", 30), demo_job().kit, norms).hours.value(), 0.8,
              1e-9);
}

TEST(MixerPlace, AtTheKerbNothingIsWheeledDryAndEveryMixWet) {
  Job job = demo_job();
  const TaskList at_work = derive_tasks(job);
  job.site.mixer = trade::MixerPlace::kerb;
  const TaskList at_kerb = derive_tasks(job);
  int pours = 0;
  for (const Task& task : at_kerb.tasks) {
    const Task* same = at_work.find(task.name);
    if (task.operation == trade::Operation::wheel_in) {
      for (const MaterialDraw& draw : task.materials)
        EXPECT_FALSE(is_mixed(draw.material)) << task.name << " wheels " << draw.material;
    }
    if (task.operation != trade::Operation::pour) continue;
    ++pours;
    ASSERT_NE(same, nullptr);
    EXPECT_GT(task.hours.value(), same->hours.value()) << task.name;
  }
  EXPECT_GT(pours, 0);
}

}  // namespace
}  // namespace weatherstruck::works
