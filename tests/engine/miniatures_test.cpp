// Small jobs whose best plan a person can find with a pencil. One tick is an hour; hour 3 is the time from 3
// to 4; "done at 8" means that hour 7 was the last one worked. All numbers are invented.
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "engine/miniature_support.h"

namespace weatherstruck::engine::brute {
namespace {

// Two walls of two hours each; rain in hours 4 and 5, when nobody lays; a fresh wall must lie four hours
// before rain can touch it. The first wall is laid 0-2, the second 2-4, and both want a sheet at 4.
//   Two sheets: done at 4.
//   One sheet: only one wall may be fresh in the rain, so the other waits until it is over: 6-8, done at 8.
//   None: laid 0-2 a wall has lain two hours when the rain comes; laid 6-8 it has not: both wait, 6-8 and
//   8-10.
Sketch two_fresh_walls(int sheets) {
  Sketch job(12);
  const auto work = job.clock("dry hours", "1111 00 111111");
  const auto time = job.clock("time", "1111 11 111111");
  const auto rain = job.clock("rain", "0000 11 000000");
  const auto mason = job.people("mason", 1);
  const auto sheet = job.people("sheets", sheets);
  const auto east =
      job.keep("east wall", time).harmed_by("rain", time, 4, rain, 0).cover("sheet", time, {{sheet}});
  const auto west =
      job.keep("west wall", time).harmed_by("rain", time, 4, rain, 0).cover("sheet", time, {{sheet}});
  job.task("lay east", work, 2).by(mason).lays(east);
  job.task("lay west", work, 2).by(mason).lays(west);
  return job;
}

TEST(Miniature, OneCoverForTwoFreshWalls) {
  expect_answer(two_fresh_walls(1), {0, 0, 8});
}
TEST(Miniature, OneCoverForTwoFreshWallsNeedsNoWaitWithTwoCovers) {
  expect_answer(two_fresh_walls(2), {0, 0, 4});
}
TEST(Miniature, OneCoverForTwoFreshWallsTakesLongestWithNone) {
  expect_answer(two_fresh_walls(0), {0, 0, 10});
}

// It rains all day, so the wall (four courses, an hour each) is laid under the canopy, which one man puts up
// or takes down in an hour. Gale in hours 3-5: by then it must be down, and it comes down in the hour before.
//   Up 0-1, a course 1-2, down 2-3, gale, up 6-7, three courses 7-10: done at 10. (Waiting for the gale to
//   pass and laying all four after it ends at 11, and that is what is left if the wall may not stop between
//   courses.) No gale: up 0-1, four courses: done at 5.
Sketch canopy_and_gale(const std::string& calm, bool may_stop) {
  Sketch job(12);
  const auto work = job.clock("daylight", "111111111111");
  const auto mason = job.people("mason", 1);
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"111111111111", calm}, {{mason}});
  auto wall = job.task("lay wall", work, 4).by(mason).under(canopy, 1);
  if (may_stop) wall.may_stop_at_every_course();
  return job;
}

TEST(Miniature, ACanopyAndAGale) {
  expect_answer(canopy_and_gale("111000111111", true), {0, 0, 10});
}
TEST(Miniature, ACanopyAndAGaleForAWallThatMayNotStop) {
  expect_answer(canopy_and_gale("111000111111", false), {0, 0, 11});
}
TEST(Miniature, ACanopyWithoutAGale) {
  expect_answer(canopy_and_gale("111111111111", true), {0, 0, 5});
}

// The mixer may not run in hours 4-6. Digging is quiet; then a pour of three hours without a pause.
//   Dug 0-2, a pour from 2 would run until 5, into the quiet hours; it waits: 7-10, done at 10.
//   Dug in one hour: pour 1-4, done at 4.   If a pour could pause: 2-4 and 7-8, done at 8.
Sketch pour_and_quiet_hours(Amount dig_hours, bool may_pause) {
  Sketch job(11);
  const auto day = job.clock("daylight", "1111 111 1111");
  const auto noise = job.clock("noise allowed", "1111 000 1111");
  const auto mason = job.people("mason", 1);
  const auto dig = job.task("dig", day, dig_hours).by(mason);
  auto pour = job.task("pour", noise, 3).by(mason);
  if (may_pause) pour.may_stop_anywhere();
  job.after(dig, pour);
  return job;
}

TEST(Miniature, APourThatWouldRunIntoQuietHours) {
  expect_answer(pour_and_quiet_hours(2, false), {0, 0, 10});
}
TEST(Miniature, APourThatEndsAsQuietHoursBegin) {
  expect_answer(pour_and_quiet_hours(1, false), {0, 0, 4});
}
TEST(Miniature, APourThatCouldPauseWouldUseBothSides) {
  expect_answer(pour_and_quiet_hours(2, true), {0, 0, 8});
}

// Forms are struck four hours after the pour at the soonest, and so many hours after it at the latest; day 1
// is hours 0-3, day 2 hours 10-13. Poured 0-2, 1-3 or 2-4, they cannot be struck before hour 10, an hour's
// work: done at 11.
//   At most seven hours: hour 10 is seven after 3, eight after 2: the pour may not begin at 0.
//   At most eight: it may.
//   At most five: nothing poured on day 1 can be struck in time, and what is poured on day 2, 10-12, cannot
//   be struck before the job ends: the forms stay. Poured at 0-2 all the same, done at 2.
Sketch forms_over_a_night(Amount most) {
  Sketch job(14);
  const auto day = job.clock("daylight", "1111 000000 1111");
  const auto time = job.clock("time", "1111 111111 1111");
  const auto mason = job.people("mason", 1);
  const auto pour = job.task("pour", day, 2).by(mason);
  const auto strike = job.task("strike forms", day, 1).by(mason);
  Link& lag = job.after(pour, strike);
  lag.least_clock = time;
  lag.least = 4;
  lag.most_clock = time;
  lag.most = most;
  return job;
}

TEST(Miniature, AMostLagOverANight) {
  const Plans plans = expect_answer(forms_over_a_night(7), {0, 0, 11});
  EXPECT_GE(start_of(plans.least, 0), 1);
  EXPECT_GE(start_of(plans.list, 0), 1);
}
TEST(Miniature, AMostLagOverANightThatIsLongEnough) {
  const Plans plans = expect_answer(forms_over_a_night(8), {0, 0, 11});
  EXPECT_EQ(start_of(plans.list, 0), 0);
}
TEST(Miniature, AMostLagOverANightThatIsTooShort) {
  expect_answer(forms_over_a_night(5), {1, 0, 2});
}

// Joints are soft for three hours, and then more than 1 mm of rain washes them out. Rain: 1 mm in hour 3, 2
// mm in hour 4; nobody lays in it. A wall of two hours.
//   0-2: 1 + 2 mm in hours 2-4, too much. 1-3: the same. From hour 5: done at 7.
//   If 3 mm did no harm: done at 2.
Sketch rain_while_soft(Amount most) {
  Sketch job(10);
  const auto work = job.clock("dry hours", "111 00 11111");
  const auto time = job.clock("time", "111 11 11111");
  const auto rain = job.clock("rain", "000 12 00000");
  const auto mason = job.people("mason", 1);
  job.task("lay wall", work, 2).by(mason).guard(time, 3, rain, most);
  return job;
}

TEST(Miniature, RainWhileSoft) {
  expect_answer(rain_while_soft(1), {0, 0, 7});
}
TEST(Miniature, RainWhileSoftThatDoesNoHarm) {
  expect_answer(rain_while_soft(3), {0, 0, 2});
}

// Concrete is safe from frost once six degree-hours have gone by; frost in hours 6 and 7, when nobody pours.
// Digging takes two hours, the pour one.
//   Poured 2-3, it has 2 + 1 + 1 by hour 6: not safe. It waits for the frost to pass: 8-9, done at 9.
//   Under a mat that lets no frost through: poured 2-3, done at 3.
//   Ready dug: poured 0-1, safe with 2 + 2 + 2 at hour 4; done at 1.
Sketch frost_before_safe(bool mat, bool dug) {
  Sketch job(14);
  const auto work = job.clock("no frost", "111111 00 111111");
  const auto warmth = job.clock("warmth", "222211 00 222222");
  const auto frost = job.clock("frost", "000000 11 000000");
  const auto mason = job.people("mason", 1);
  auto strip = job.keep("strip", warmth).harmed_by("frost", warmth, 6, frost, 0);
  if (mat) strip.cover("mat", warmth, {});
  const auto pour = job.task("pour", work, 1).by(mason).lays(strip);
  if (!dug) job.after(job.task("dig", work, 2).by(mason), pour);
  return job;
}

TEST(Miniature, FrostBeforeSafe) {
  expect_answer(frost_before_safe(false, false), {0, 0, 9});
}
TEST(Miniature, FrostBeforeSafeUnderAMat) {
  expect_answer(frost_before_safe(true, false), {0, 0, 3});
}
TEST(Miniature, FrostAfterSafe) {
  expect_answer(frost_before_safe(false, true), {0, 0, 1});
}

// A wall pointed as it goes up takes four hours; laid only, three, and then pointing takes two more, two
// hours later at the soonest. An hour's drive home ends the job. What is pointed now must see no rain for two
// hours after.
//   Dry: pointed now 0-4, home 4-5: done at 5. (Later: 0-3, 5-7, home at 8.)
//   Rain in hour 4, when nobody works: pointed now is washed out, or waits until 5-9, home at 10. Pointed
//   later: 0-3, 5-7, home at 8.
Sketch point_now_or_later(bool wet) {
  Sketch job(12);
  const auto work = job.clock("dry hours", wet ? "1111 0 1111111" : "1111 1 1111111");
  const auto time = job.clock("time", "1111 1 1111111");
  const auto rain = job.clock("rain", wet ? "0000 1 0000000" : "0000 0 0000000");
  const auto mason = job.people("mason", 1);
  const auto wall = job.task("wall", work, 4).by(mason).guard(time, 2, rain, 0).or_by(work, 3).by(mason);
  const auto point = job.task("point", work, 2).by(mason).only_if(wall, 1);
  const auto home = job.task("home", time, 1).by(mason);
  Link& stiff = job.after(wall, point);
  stiff.least_clock = time;
  stiff.least = 2;
  job.after(wall, home);
  job.after(point, home);
  return job;
}

TEST(Miniature, PointNow) {
  const Plans plans = expect_answer(point_now_or_later(false), {0, 0, 5});
  EXPECT_EQ(way_of(plans.least, 0), 0);
}
TEST(Miniature, PointLater) {
  const Plans plans = expect_answer(point_now_or_later(true), {0, 0, 8});
  EXPECT_EQ(way_of(plans.least, 0), 1);
}

// The lintel takes two people for two hours, and the neighbour has time in hours 5 and 6. Piers before (three
// hours), a course on top after (one); flags take two hours at any time.
//   Piers 0-3, flags 3-5, lift 5-7, top 7-8: done at 8.
//   The neighbour has one hour only: no lift and no top; piers and flags are done at 5.
Sketch two_for_one_lift(const std::string& people) {
  Sketch job(10);
  const auto work = job.clock("daylight", "1111111111");
  const auto hands = job.people("people", people);
  const auto piers = job.task("piers", work, 3).by(hands);
  const auto lift = job.task("lift lintel", work, 2).by(hands, 2);
  const auto top = job.task("top course", work, 1).by(hands);
  job.task("flags", work, 2).by(hands);
  job.after(piers, lift);
  job.after(lift, top);
  return job;
}

TEST(Miniature, TwoPeopleForOneLift) {
  expect_answer(two_for_one_lift("1111122111"), {0, 0, 8});
}
TEST(Miniature, TwoPeopleForOneLiftButNotForLongEnough) {
  expect_answer(two_for_one_lift("1111121111"), {2, 0, 5});
}

}  // namespace
}  // namespace weatherstruck::engine::brute
