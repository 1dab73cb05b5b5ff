// A cover that was put on before it was known how soon the strip would be walled over. One tick is an hour.
#include <string>

#include <gtest/gtest.h>

#include "engine/sketch_support.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine::brute {
namespace {

// Poured 0-1, lines 2-3, bricks from `bricks` on; hour 8 is night, and what is not walled by then must be
// covered.
Schedule strip_walled_from(Tick bricks) {
  Sketch job(12);
  const auto work = job.clock("daylight", "111111110111");
  const auto time = job.clock("time", "111111111111");
  const auto night = job.clock("night", "000000001000");
  const auto mason = job.people("mason", 1);
  const auto sheet = job.people("sheets", 1);
  const auto strip =
      job.keep("strip", time).harmed_by("night", time, 12, night, 0).cover("sheet", time, {{sheet}});
  const auto pour = job.task("pour", work, 1).by(mason).lays(strip);
  const auto lines = job.task("lines", work, 1).by(mason).works_on(strip).not_before(2);
  const auto lay = job.task("lay", work, 1).by(mason).closes(strip).not_before(bricks);
  job.after(pour, lines);
  job.after(lines, lay);
  const Decoded made = decode(job.network, {{0, 1, 2}, {0, 0, 0}, {0, 0, 0}, {0, 0, 0}});
  EXPECT_TRUE(check(job.network, made.schedule).empty());
  EXPECT_EQ(made.schedule.tasks[2].start(), bricks);
  return made.schedule;
}

TEST(NeedlessCover, IsNotPutOnForTheHoursBetweenLinesAndBricks) {
  const Schedule plan = strip_walled_from(6);
  for (const Spell& spell : plan.spells[0])
    EXPECT_LE(spell.to, 2) << "covered after the lines, though the bricks come before night";
}

TEST(NeedlessCover, StaysWhereTheNightComesBetween) {
  const Schedule plan = strip_walled_from(10);
  ASSERT_FALSE(plan.spells[0].empty());
  EXPECT_LE(plan.spells[0].back().from, 8);
  EXPECT_GE(plan.spells[0].back().to, 9);
}

// Two lifts of one wall by one mason, an hour to cover it.
Decoded two_lifts(const std::string& daylight, const std::string& nights, Amount below_hours) {
  Sketch job(12);
  const auto work = job.clock("daylight", daylight);
  const auto time = job.clock("time", "111111111111");
  const auto night = job.clock("night", nights);
  const auto mason = job.people("mason", 1);
  const auto sheet = job.people("sheets", 1);
  const auto wall = job.keep("wall", time)
                        .harmed_by("night", time, 12, night, 0)
                        .cover("sheet", time, {{sheet}})
                        .takes(1, 1, {{mason}});
  const auto below = job.task("below", work, below_hours).by(mason).lays(wall);
  const auto facing = job.task("facing", work, 2).by(mason).lays(wall);
  job.after(below, facing);
  Decoded made = decode(job.network, {{0, 1}, {0, 0}, {0, 0}, {0, 0}});
  EXPECT_TRUE(check(job.network, made.schedule).empty());
  return made;
}

TEST(NeedlessCover, DoesNotKeepTheNextLiftOfTheSameWallWaiting) {
  const Schedule plan = two_lifts("111111110000", "000000001111", 2).schedule;
  EXPECT_EQ(plan.tasks[1].start(), plan.tasks[0].finish());
  ASSERT_EQ(plan.spells[0].size(), 1U);
  EXPECT_LE(plan.spells[0][0].from + 1, 8) << "covered before the night";
}

// After hour 6 the wall can be covered by the night, or gone on with; not both.
TEST(NeedlessCover, GoesOnWhereTheNextLiftCannotFollowAtOnce) {
  EXPECT_FALSE(two_lifts("111111110011", "000000001100", 6).schedule.spells[0].empty());
}

}  // namespace
}  // namespace weatherstruck::engine::brute
