#include "weatherstruck/measure/brickwork.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::Metres;
using trade::Bond;
using WallRun = measure::Run;  // a test fixture has a Run of its own

WallRun plain(double length, int courses, Bond bond = Bond::half_stretcher) {
  WallRun run;
  run.length = Metres(length);
  run.courses = courses;
  run.bond = bond;
  return run;
}

// Coordinating size 225 x 75 (read on the page, UK metric brick): 4.0 x 0.6 m = 2.4 m2, 59.259 a square metre
// gives 142.2 (143 whole); the ruled 60 gives 144; with 5 % waste 151.2, so 152.
TEST(Brickwork, HalfBrickWallOfFourMetresMatchesTheWorkedCount) {
  const RunCount count = count_run(plain(4.0, 8));
  EXPECT_NEAR(count.bricks(), 142.2222, 1e-3);
  EXPECT_EQ(std::ceil(count.bricks()), 143);
  EXPECT_NEAR(bricks_by_rule(count.bricks(), Bond::half_stretcher), 144, 1e-3);
  EXPECT_EQ(std::ceil(bricks_by_rule(count.bricks(), Bond::half_stretcher) * 1.05), 152);
  // .0176 m3 a square metre net, derived from the brick's size: 2.4 x .017615 = .0423; the table rounds the
  // rate.
  EXPECT_NEAR((count.mortar_below + count.mortar_facing).value(), 0.0423, 1e-4);
}

// The same page: 120 a square metre for one brick: 288. Net mortar .0452 m3/m2 derived: .1085.
TEST(Brickwork, OneBrickWallHasTwiceAsMany) {
  for (const Bond bond : {Bond::one_english, Bond::one_flemish}) {
    const RunCount count = count_run(plain(4.0, 8, bond));
    EXPECT_NEAR(bricks_by_rule(count.bricks(), bond), 288, 1e-3);
    EXPECT_NEAR(count.mortar_facing.value(), 0.1085, 1e-4);
  }
}

TEST(Brickwork, ThicknessesAreThoseOfTheBrick) {
  EXPECT_NEAR(thickness_of(Bond::half_stretcher).value(), 0.1025, 1e-12);
  EXPECT_NEAR(thickness_of(Bond::one_english).value(), 0.215, 1e-12);
  EXPECT_NEAR(thickness_of(Bond::one_and_half_english).value(), 0.3275, 1e-12);
}

// Geometry: a ring 2.25 x 1.35 m outside of half brick, one course. Its middle line is 2 x (2.25 + 1.35) less
// four brick widths with joints (.1125): 6.75 m, which is 30 bricks of 225.
TEST(Brickwork, CornersAreCountedOnce) {
  WallRun end = plain(1.35, 1);
  end.shared_corners = 2;
  const double ring = 2 * count_run(plain(2.25, 1)).bricks() + 2 * count_run(end).bricks();
  EXPECT_NEAR(ring, 2 * 10 + 2 * (1.35 - 0.225) / 0.225, 1e-9);
  EXPECT_NEAR(ring, 30, 1e-9);
}

// A published take-off figure (read on the page) allows 14 bricks a metre of height for an attached pier of
// one brick by half; exact is one a course, 13.33.
TEST(Brickwork, APierAddsOneBrickACourse) {
  WallRun run = plain(3.0, 8);
  const double bare = count_run(run).bricks();
  run.piers.push_back({Metres(0.215), Metres(0.1025)});
  EXPECT_NEAR(count_run(run).bricks() - bare, 8, 1e-9);
  EXPECT_NEAR(8 / 0.6, 13.33, 0.01);
}

// 3.6 m, ten courses: 16 a course. An opening .9 m wide from course 3 up takes 4 bricks out of seven courses.
TEST(Brickwork, AnOpeningIsCutFromItsCourseUp) {
  WallRun run = plain(3.6, 10);
  run.openings.push_back({Metres(0.9), 3});
  const RunCount count = count_run(run);
  EXPECT_NEAR(count.bricks(), 160 - 7 * 4, 1e-9);
  EXPECT_NEAR(count.courses[2].facing, 16, 1e-9);
  EXPECT_NEAR(count.courses[3].facing, 12, 1e-9);
}

// Two steps over 4.5 m: stretches of 1.8, 0.9 and 1.8 m with 0, 1 and 2 courses more. By hand, bricks of 225:
// lowest course 1.8 m = 8; next 2.7 m = 12; then six courses of 20. The two below-ground courses follow the
// steps: 8 + (12) at the low end and middle... each stretch has two: 2 x 8 + 2 x 4 + 2 x 8 = 40.
TEST(Brickwork, CoursesFollowTheStepsOfTheFooting) {
  WallRun run = plain(4.5, 6);
  run.courses_below = 2;
  run.stretches = {{Metres(0), Metres(1.8), 0}, {Metres(1.8), Metres(2.7), 1}, {Metres(2.7), Metres(4.5), 2}};
  const RunCount count = count_run(run);
  ASSERT_EQ(count.courses.size(), 8U);
  EXPECT_NEAR(count.bricks(), 8 + 12 + 6 * 20, 1e-9);
  EXPECT_NEAR(count.below, 40, 1e-9);
  EXPECT_NEAR(count.courses[0].below, 8, 1e-9);
  EXPECT_NEAR(count.courses[0].facing, 0, 1e-9);
  EXPECT_NEAR(count.courses[2].below, 4 + 8, 1e-9);  // middle stretch's second, high stretch's first
  EXPECT_NEAR(count.courses[2].facing, 8, 1e-9);     // low end is already above ground
  EXPECT_NEAR(count.courses[7].facing, 20, 1e-9);
  EXPECT_NEAR(count.height.value(), 0.6, 1e-9);
}

RC_GTEST_PROP(BrickworkProperty, QuantitiesScaleWithLength, ()) {
  const double length = *rc::gen::inRange(2, 300) / 10.0;
  const int courses = *rc::gen::inRange(1, 40);
  const auto bond = *rc::gen::element(Bond::half_stretcher, Bond::one_english, Bond::one_and_half_english);
  const RunCount one = count_run(plain(length, courses, bond));
  const RunCount two = count_run(plain(2 * length, courses, bond));
  RC_ASSERT(std::abs(two.bricks() - 2 * one.bricks()) < 1e-6);
  RC_ASSERT(std::abs(two.mortar_facing.value() - 2 * one.mortar_facing.value()) < 1e-9);
}

// By hand, half bricks of 112.5 mm: 4.0 m is 35 and 62.5 mm over; the joints take 35.6: 36 halves. 900 mm is
// 8 exactly; 905 mm is 5 mm over, the joints take 8: no cut.
TEST(Brickwork, LengthsGoUpToTheHalfBrickUnlessTheJointsTakeIt) {
  EXPECT_EQ(half_bricks_along(Metres(4.0)), 36);
  EXPECT_EQ(half_bricks_along(Metres(0.9)), 8);
  EXPECT_EQ(half_bricks_along(Metres(0.905)), 8);
  EXPECT_EQ(half_bricks_along(Metres(0.91)), 9);
  EXPECT_EQ(half_bricks_along(Metres(0)), 0);
  EXPECT_EQ(half_bricks_along(Metres(0.05)), 1);
}

// One brick English, 12 halves long. By hand, stretcher course: 6 and 6 side by side. Header course with a
// closer beside each quoin header: 11 headers and 2 closers out of one brick. Both 12.
TEST(Brickwork, AThickCourseTakesAsManyWithClosersAsWithout) {
  const RunCount count = count_run(plain(1.35, 4, Bond::one_english));
  for (const Course& course : count.courses)
    EXPECT_EQ(course.laid_facing, 12);
  EXPECT_EQ(count.cut, 4);  // a closer at each of two free ends in every other of four courses
  EXPECT_EQ(count_run(plain(1.35, 1, Bond::one_and_half_english)).laid_facing, 18);
}

// By hand: 2.7 m of one-brick wall that stops against half a brick: 2.7 - .1025 - .01 = 2.5875 m, 23 halves,
// 23 bricks. Against one of its own thickness it loses 225 mm: 22 halves, 22 bricks.
TEST(Brickwork, ACornerTakesAwayTheThicknessOfTheWallThatCountsIt) {
  WallRun run = plain(2.7, 1, Bond::one_english);
  run.shared_corners = 1;
  EXPECT_EQ(count_run(run).laid_facing, 22);
  run.met_low = Metres(0.1025);
  EXPECT_NEAR(corners_of(run).low.value(), 0.1125, 1e-12);
  EXPECT_EQ(corners_of(run).high.value(), 0);
  EXPECT_EQ(count_run(run).laid_facing, 23);
  run.shared_corners = 2;
  EXPECT_NEAR(corners_of(run).high.value(), 0.225, 1e-12);
}

// By hand: an opening of 4 bricks from .45 m on leaves 4 and 8 halves; in the middle it would stand off the
// gauge and leave 5.6 and 5.6 halves, 6 each.
TEST(Brickwork, AnOpeningStandsWhereItIsPut) {
  WallRun run = plain(2.2, 1);
  run.openings.push_back({Metres(0.9), 0, Metres(0.45)});
  const RunCount count = count_run(run);
  EXPECT_EQ(count.laid_facing, 6.0);  // 450: 4 halves; 850: 7 and 62 mm over, 8 halves
  ASSERT_EQ(pieces_on(run, 0).size(), 2U);
  EXPECT_NEAR(pieces_on(run, 0)[1].value(), 0.85, 1e-12);
  run.openings[0].at.reset();
  EXPECT_EQ(count_run(run).laid_facing, 6.0);  // 650 each: 5 and 88 mm over, 6 halves
}

// The same pier counts one course more where the footing is one step deeper.
TEST(Brickwork, AnEndPierFollowsItsOwnStretch) {
  WallRun run = plain(1.8, 4);
  run.stretches = {{Metres(0), Metres(0.9), 0}, {Metres(0.9), Metres(1.8), 1}};
  const double bare = count_run(run).laid();
  run.piers.push_back({Metres(0.215), Metres(0.1025), Metres(0)});
  EXPECT_EQ(count_run(run).laid() - bare, 4);
  run.piers[0].at = Metres(1.585);
  EXPECT_EQ(count_run(run).laid() - bare, 5);
}

// By hand: 2.4 m, units of 600: (2410 / 610) = 3.95, four; 900s: 2410 / 910 = 2.65, three. Holes: common
// practice.
TEST(Brickwork, CopingsAndWeepHolesAreWholeOnes) {
  EXPECT_EQ(coping_units(Metres(2.4), Metres(0.6)), 4);
  EXPECT_EQ(coping_units(Metres(2.4), Metres(0.9)), 3);
  EXPECT_EQ(coping_units(Metres(0.6), Metres(0.6)), 1);
  EXPECT_EQ(coping_units(Metres(0), Metres(0.6)), 0);
  EXPECT_EQ(weep_holes(Metres(1.8), Metres(0.9)), 2);
  EXPECT_EQ(weep_holes(Metres(1.85), Metres(0.9)), 3);
}

// The rule of the header and of docs/quantities-worked.md: by area nothing; to the brick, each course gains
// at most one half brick across the wall, and nothing where both lengths are on the gauge.
RC_GTEST_PROP(BrickworkProperty, CuttingARunInTwoAddsOnlyACutAtTheCut, ()) {
  const auto bond = *rc::gen::element(Bond::half_stretcher, Bond::one_flemish, Bond::one_and_half_english);
  const int courses = *rc::gen::inRange(1, 8);
  const bool on_gauge = *rc::gen::arbitrary<bool>();
  const double unit = on_gauge ? 0.1125 : 0.001;
  const int all = on_gauge ? *rc::gen::inRange(2, 250) : *rc::gen::inRange(300, 30000);
  const int first = *rc::gen::inRange(1, all);
  const double whole = count_run(plain(unit * all, courses, bond)).laid();
  const double parts = count_run(plain(unit * first, courses, bond)).laid() +
                       count_run(plain(unit * (all - first), courses, bond)).laid();
  const double most = 0.5 * leaves_of(bond) * courses;
  RC_ASSERT(parts - whole >= (unit * all <= 12.6 ? 0 : -most));
  RC_ASSERT(parts - whole <= (on_gauge ? 0 : most));
}

RC_GTEST_PROP(BrickworkProperty, LongerAndHigherNeverTakesFewer, ()) {
  WallRun run = plain(*rc::gen::inRange(300, 20000) / 1000.0, *rc::gen::inRange(1, 20));
  run.bond = *rc::gen::element(Bond::half_stretcher, Bond::one_english, Bond::one_and_half_english);
  const RunCount a = count_run(run);
  WallRun longer = run;
  longer.length += Metres(*rc::gen::inRange(1, 500) / 1000.0);
  WallRun higher = run;
  ++higher.courses;
  for (const WallRun& more : {longer, higher}) {
    const RunCount b = count_run(more);
    RC_ASSERT(b.laid() >= a.laid());
    RC_ASSERT(b.bricks() > a.bricks());
    RC_ASSERT(b.mortar_facing.value() > a.mortar_facing.value());
  }
}

RC_GTEST_PROP(BrickworkProperty, TwiceTheGaugedLengthIsTwiceTheBricks, ()) {
  const int halves = *rc::gen::inRange(1, 120);
  const int courses = *rc::gen::inRange(1, 20);
  const double once = count_run(plain(0.1125 * halves, courses)).laid();
  RC_ASSERT(once == 0.5 * halves * courses);
  RC_ASSERT(count_run(plain(0.225 * halves, courses)).laid() == 2 * once);
}

RC_GTEST_PROP(BrickworkProperty, CuttingARunInTwoChangesNothing, ()) {
  const double length = *rc::gen::inRange(10, 300) / 10.0;
  const double cut = length * *rc::gen::inRange(1, 99) / 100.0;
  const int courses = *rc::gen::inRange(1, 40);
  const double whole = count_run(plain(length, courses)).bricks();
  const double parts =
      count_run(plain(cut, courses)).bricks() + count_run(plain(length - cut, courses)).bricks();
  RC_ASSERT(std::abs(whole - parts) < 1e-6);
}

RC_GTEST_PROP(BrickworkProperty, MoreDropNeverFewerBricks, ()) {
  const double length = *rc::gen::inRange(10, 120) / 10.0;
  const Strip strip{Metres(length), Metres(0.45), Metres(0.15), Metres(0.35)};
  const double drop = length * *rc::gen::inRange(0, 190) / 1000.0;
  WallRun run = plain(length, *rc::gen::inRange(1, 12));
  run.courses_below = *rc::gen::inRange(0, run.courses + 1);
  const FootingPlan less = plan_footing(strip, Metres(drop), FootingRules::uk());
  const FootingPlan more = plan_footing(strip, Metres(drop + length * 0.01), FootingRules::uk());
  RC_ASSERT(less.faults.empty() && more.faults.empty());
  run.stretches = less.stretches;
  const RunCount a = count_run(run);
  run.stretches = more.stretches;
  const RunCount b = count_run(run);
  RC_ASSERT(b.bricks() >= a.bricks() - 1e-9);
  // Out of sight lies the same whatever the fall: it follows the steps.
  RC_ASSERT(std::abs(a.below - b.below) < 1e-6);
}

RC_GTEST_PROP(BrickworkProperty, CoursesAddUpToTheRun, ()) {
  WallRun run = plain(*rc::gen::inRange(10, 200) / 10.0, *rc::gen::inRange(1, 20));
  run.courses_below = *rc::gen::inRange(0, run.courses + 1);
  run.shared_corners = *rc::gen::inRange(0, 3);
  run.openings.push_back({Metres(0.6), *rc::gen::inRange(0, run.courses)});
  const RunCount count = count_run(run);
  double sum = 0;
  for (const Course& course : count.courses)
    sum += course.below + course.facing;
  RC_ASSERT(std::abs(sum - count.bricks()) < 1e-9);
  // Area and bricks agree at the exact rate of the size 225 x 75.
  RC_ASSERT(std::abs((count.area_below + count.area_facing).value() / (0.225 * 0.075) - count.bricks()) <
            1e-6);
}

}  // namespace
}  // namespace weatherstruck::measure
