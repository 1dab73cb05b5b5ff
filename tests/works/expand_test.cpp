#include "weatherstruck/works/expand.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

Job job_with(Part part) {
  Job job = demo_job();
  job.parts = {std::move(part)};
  job.importance.clear();
  job.fallbacks.clear();
  job.site.routes[0].shut_by.clear();
  return job;
}

Base shelter() {
  return std::get<Base>(demo_job().parts[0]);
}
Bed bed() {
  return std::get<Bed>(demo_job().parts[1]);
}

const WallPart& wall(const Expansion& e, const Name& name) {
  for (const WallPart& w : e.walls) {
    if (w.shape.name == name) return w;
  }
  throw std::logic_error("no wall " + name);
}

TEST(Expand, ABaseBecomesFourStripsAndFourRunsWithNamesOfTheirOwn) {
  const Expansion e = expand(job_with(shelter()));
  ASSERT_EQ(e.footings.size(), 4U);
  ASSERT_EQ(e.walls.size(), 4U);
  EXPECT_EQ(e.footings[0].shape.name, "shelter-north-footing");
  EXPECT_EQ(e.footings[0].title, "north footing of the shelter");
  EXPECT_EQ(e.walls[2].shape.name, "shelter-south");
  ASSERT_EQ(e.groups.size(), 1U);
  EXPECT_EQ(e.groups[0].kind, Group::Kind::base);
  EXPECT_TRUE(e.faults.empty());
}

// By hand: west is high, .15 m over 3.0 m, two steps of one course. North and south step down; east lies at
// their low end, two courses deeper all along; west stays at six.
TEST(Expand, AllRunsFinishLevelOnASlope) {
  const Expansion e = expand(job_with(shelter()));
  EXPECT_EQ(wall(e, "shelter-north").count.courses.size(), 8U);
  EXPECT_EQ(wall(e, "shelter-south").count.courses.size(), 8U);
  EXPECT_EQ(wall(e, "shelter-east").count.courses.size(), 8U);
  EXPECT_EQ(wall(e, "shelter-west").count.courses.size(), 6U);
  EXPECT_EQ(wall(e, "shelter-east").shape.courses, 8);
}

TEST(Expand, AFallTowardsTheWestTurnsThePictureRound) {
  Base turned = shelter();
  turned.drop_along_length = Metres(-0.15);
  const Expansion e = expand(job_with(turned));
  EXPECT_EQ(wall(e, "shelter-west").shape.courses, 8);
  EXPECT_EQ(wall(e, "shelter-east").shape.courses, 6);
  EXPECT_NEAR(wall(e, "shelter-north").count.bricks(),
              wall(expand(job_with(shelter())), "shelter-north").count.bricks(), 1e-9);
}

// By hand: lengths count the corners, widths stop between them: 3.0 m = 13.333 bricks a full course, 1.8 - 2
// x .1125 = 1.575 m = 7. The top course of the ring with a door .9 m = 4 bricks wide: 13.333 + 9.333 + 2 x 7
// = 36.667.
TEST(Expand, CornersAreCountedOnceAndTheDoorIsLeftOpen) {
  const Expansion e = expand(job_with(shelter()));
  double top = 0;
  for (const WallPart& w : e.walls)
    top += w.count.courses.back().facing;
  EXPECT_NEAR(top, 36.667, 1e-3);
  EXPECT_NEAR(wall(e, "shelter-south").count.courses.back().facing, 9.3333, 1e-4);
  EXPECT_NEAR(wall(e, "shelter-west").count.courses.back().facing, 7, 1e-9);
}

// Middle line of the ring: 2 x (3.0 + 1.8) - 4 x .1025 = 9.19 m; strips without double corners are as long.
TEST(Expand, StripsMeetAtTheCornersWithoutOverlap) {
  const Expansion e = expand(job_with(shelter()));
  double length = 0;
  for (const FootingPart& f : e.footings)
    length += f.shape.length.value();
  EXPECT_NEAR(length, 9.19, 1e-9);
}

// Plates go round the ring less the door: 3.0 + 2.1 + 2 x (1.8 - .205) = 8.29 m.
TEST(Expand, PlatesAreBrokenByTheDoor) {
  EXPECT_NEAR(expand(job_with(shelter())).groups[0].plates.value(), 8.29, 1e-9);
}

// By hand: inside 3.0 - .205 by .9 - .205 m, .225 - .05 m deep: 2.795 x .695 x .175 = .340 m3.
TEST(Expand, ABedHoldsItsInsideLessTheFreeboard) {
  const Expansion e = expand(job_with(bed()));
  EXPECT_NEAR(e.groups[0].fill.value(), 2.795 * 0.695 * 0.175, 1e-9);
  Bed empty = bed();
  empty.filled = false;
  EXPECT_EQ(expand(job_with(empty)).groups[0].fill.value(), 0);
}

TEST(Expand, ABedAgainstAWallHasFewerSides) {
  Bed lean = bed();
  lean.sides = 3;
  const Expansion e = expand(job_with(lean));
  ASSERT_EQ(e.walls.size(), 3U);
  // Along a fence: the front and both ends, of which each shares one corner.
  for (const auto& wall : e.walls)
    EXPECT_NE(wall.shape.name, "bed-north");
  // By hand: inside 3.0 - .205 by .9 - .1025 m, .175 m deep.
  EXPECT_NEAR(e.groups[0].fill.value(), 2.795 * 0.7975 * 0.175, 1e-9);
  lean.sides = 1;
  EXPECT_EQ(expand(job_with(lean)).walls.size(), 1U);
}

TEST(Expand, ABoxStandsOnAShallowStrip) {
  Box box;
  box.name = "planter";
  box.length = Metres(1.5);
  box.width = Metres(0.8);
  box.courses = 3;
  const Expansion e = expand(job_with(box));
  EXPECT_EQ(e.walls.size(), 4U);
  EXPECT_EQ(e.groups[0].kind, Group::Kind::box);
  EXPECT_TRUE(e.faults.empty());
}

TEST(Expand, AWallWrittenByItselfStandsOnItsFooting) {
  Footing strip{"strip", Metres(4), Metres(0.45), Metres(0.15), Metres(0.45), Metres(0.15)};
  Wall run;
  run.name = "run";
  run.footing = "strip";
  run.length = Metres(4);
  run.courses = 8;
  Job job = job_with(strip);
  job.parts.emplace_back(run);
  const Expansion e = expand(job);
  ASSERT_EQ(e.groups.size(), 1U);
  ASSERT_EQ(e.groups[0].walls.size(), 1U);
  EXPECT_EQ(e.walls[0].count.courses.size(), 10U);
  EXPECT_EQ(e.footings[0].courses_on_it, 10);
}

TEST(Expand, FootingFaultsNameTheKeyOfTheWrittenPart) {
  Base steep = shelter();
  steep.drop_along_width = Metres(3);
  const Expansion e = expand(job_with(steep));
  ASSERT_EQ(e.faults.size(), 1U);
  EXPECT_EQ(e.faults[0].code, "ground-too-steep");
  EXPECT_EQ(e.faults[0].place, "/parts/0/drop_along_width");
}

// Approved Document A 2E2 (read on the page): T >= P. A strip .6 wide under half a brick projects .249.
TEST(Expand, AWideThinStripIsAdvice) {
  Base wide = shelter();
  wide.footing_width = Metres(0.6);
  wide.footing_depth = Metres(0.45);
  const Expansion e = expand(job_with(wide));
  ASSERT_EQ(e.advice.size(), 1U);
  EXPECT_EQ(e.advice[0].code, "footing-projects-far");
  EXPECT_EQ(e.advice[0].place, "/parts/0/footing_thickness");
}

TEST(Expand, DropsGoToTheNearestCourse) {
  EXPECT_EQ(courses_for_drop(Metres(0)), 0);
  EXPECT_EQ(courses_for_drop(Metres(0.037)), 0);
  EXPECT_EQ(courses_for_drop(Metres(0.0375)), 1);
  EXPECT_EQ(courses_for_drop(Metres(0.3)), 4);
  EXPECT_EQ(courses_for_drop(Metres(-0.3)), 0);
}

RC_GTEST_PROP(ExpandProperty, MoreDropNeverFewerBricksAndCornersAgree, ()) {
  Base base = shelter();
  base.length = Metres(*rc::gen::inRange(15, 80) / 10.0);
  base.width = Metres(*rc::gen::inRange(15, 80) / 10.0);
  // Up to one in six of the inner strip, so that one-course steps find room on every side.
  const double most = std::min(base.length.value(), base.width.value() - 0.6) / 6;
  const double drop = most * *rc::gen::inRange(0, 90) / 100.0;
  base.drop_along_length = Metres(drop);
  base.drop_along_width = Metres(most * *rc::gen::inRange(-100, 100) / 100.0);
  const Expansion a = expand(job_with(base));
  base.drop_along_length = Metres(drop + most / 10);
  const Expansion b = expand(job_with(base));
  RC_PRE(a.faults.empty() && b.faults.empty());
  double bricks_a = 0;
  double bricks_b = 0;
  for (const WallPart& w : a.walls)
    bricks_a += w.count.bricks();
  for (const WallPart& w : b.walls)
    bricks_b += w.count.bricks();
  RC_ASSERT(bricks_b >= bricks_a - 1e-6);
  // The two runs that meet at the lowest corner are equally high there.
  std::size_t highest = 0;
  int reach = 0;
  for (const WallPart& w : a.walls)
    highest = std::max(highest, w.count.courses.size());
  for (const WallPart& w : a.walls)
    reach += w.count.courses.size() == highest ? 1 : 0;
  RC_ASSERT(reach >= 2);
}

}  // namespace
}  // namespace weatherstruck::works
