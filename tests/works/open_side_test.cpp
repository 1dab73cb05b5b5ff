// A base with walls on three sides: the fourth is a door as wide as the side allows. Bricks of 215 mm with
// joints of 10 mm (BS EN 771-1 work size and common practice): 225 mm a brick.
#include <gtest/gtest.h>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/task_list.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

Job with_base(std::optional<Side> open) {
  Job job = demo_job();
  job.parts.clear();
  job.importance.clear();
  job.fallbacks.clear();
  job.site.routes[0].shut_by.clear();
  job.supplies.deliveries.clear();
  Base base;
  base.name = "store";
  base.length = Metres(3.15);  // 14 bricks
  base.width = Metres(1.8);    // 8 bricks
  base.courses = 7;
  base.courses_below = 3;
  if (open) {
    base.door_side = open;
    base.door_width = open_width(base, *open);
  }
  job.parts.emplace_back(base);
  return job;
}

double facing(const Job& job, Side side) {
  const Expansion expansion = expand(job);
  constexpr std::array names{"store-north", "store-east", "store-south", "store-west"};
  for (const WallPart& wall : expansion.walls) {
    if (wall.shape.name == names[static_cast<std::size_t>(side)]) return wall.count.facing;
  }
  return -1;
}

TEST(AnOpenSide, HasNoBricksAboveTheGroundButTheEndsOfTheWallsBesideIt) {
  for (const Side side : {Side::north, Side::east, Side::south, Side::west}) {
    const Job job = with_base(side);
    for (const base::Fault& fault : check(job).faults)
      ADD_FAILURE() << base::to_text(fault);
    EXPECT_TRUE(is_open_sided(std::get<Base>(job.parts[0])));
    // Lengths count the corners: one end brick at each, half a brick and its joint, in four courses.
    const bool lengthwise = side == Side::south || side == Side::north;
    EXPECT_NEAR(facing(job, side), lengthwise ? 4 * 1.0 : 0, 1e-6);
  }
}

TEST(AnOpenSide, LeavesTheOtherThreeAndEverythingBelowGroundAsTheyAre) {
  const Job whole = with_base({});
  const Job open = with_base(Side::south);
  for (const Side side : {Side::north, Side::east, Side::west})
    EXPECT_EQ(facing(open, side), facing(whole, side));
  // 14 bricks a course less the two half bricks of the corners, in the four courses above the ground.
  EXPECT_NEAR(facing(whole, Side::south) - facing(open, Side::south), 4 * 13.0, 1e-6);
  EXPECT_EQ(bill_of(open).concrete.value(), bill_of(whole).concrete.value());
  const double plates_whole = expand(whole).groups[0].plates.value();
  const double plates_open = expand(open).groups[0].plates.value();
  EXPECT_NEAR(plates_whole - plates_open, 3.15 - 0.225, 1e-9);
}

TEST(AnOpenSide, MakesNoTaskWithoutWork) {
  for (const Side side : {Side::south, Side::east}) {
    const Job job = with_base(side);
    for (const Task& task : derive_tasks(job).tasks)
      EXPECT_GT(task.hours.value(), 0) << task.name;
  }
}

TEST(ADoor, IsNoWiderThanTheSideIsOpen) {
  Job job = with_base(Side::south);
  std::get<Base>(job.parts[0]).door_width = Metres(2.95);
  EXPECT_FALSE(check(job).faults.empty());
  std::get<Base>(job.parts[0]).door_width = Metres(0.9);
  EXPECT_TRUE(check(job).faults.empty());
  EXPECT_FALSE(is_open_sided(std::get<Base>(job.parts[0])));
}

TEST(ABox, IsNotAdvisedOfAStripThatNobodyCanChange) {
  Job job = with_base({});
  job.parts.clear();
  job.parts.emplace_back(Box{"planter", Metres(1.2), Metres(0.9), 3});
  const CheckResult checked = check(job);
  EXPECT_TRUE(checked.faults.empty());
  EXPECT_TRUE(checked.advice.empty());
}

}  // namespace
}  // namespace weatherstruck::works
