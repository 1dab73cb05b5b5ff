#include "weatherstruck/measure/footing.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::Fault;
using base::Metres;

const FootingRules rules = FootingRules::uk();

Strip light_strip(double length, double thickness = 0.15) {
  return {Metres(length), Metres(0.45), Metres(thickness), Metres(0.35)};
}

double overlap_mm(double step_mm, double thickness_mm) {
  const auto overlap = step_overlap(Metres(step_mm / 1000), Metres(thickness_mm / 1000), rules);
  return std::get<Metres>(overlap).value() * 1000;
}

// Approved Document A 2E2 (read on the page), the table of worked overlaps in the project's rules: max(2S, T,
// 300).
TEST(Footing, OverlapIsTheLargestOfTwoStepsThicknessAnd300) {
  EXPECT_NEAR(overlap_mm(75, 150), 300, 1e-9);
  EXPECT_NEAR(overlap_mm(150, 225), 300, 1e-9);
  EXPECT_NEAR(overlap_mm(225, 225), 450, 1e-9);
  EXPECT_NEAR(overlap_mm(200, 400), 400, 1e-9);
}

// Approved Document A 2E2 (read on the page): the step is not deeper than the concrete is thick.
TEST(Footing, StepDeeperThanTheConcreteIsRefused) {
  const auto overlap = step_overlap(Metres(0.225), Metres(0.200), rules);
  const auto* fault = std::get_if<Fault>(&overlap);
  ASSERT_NE(fault, nullptr);
  EXPECT_EQ(fault->code, "step-deeper-than-footing");
  EXPECT_EQ(fault->found, "a step of 225 mm in concrete 200 mm thick");
  EXPECT_FALSE(fault->remedy.empty());
}

// Approved Document A 2E2 (read on the page): T >= max(150, P). One-brick wall (215) on 515 wide: P = 150.
TEST(Footing, ThicknessIsAtLeastTheProjectionAnd150) {
  EXPECT_NEAR(least_thickness(Metres(0.515), Metres(0.215), rules).value(), 0.150, 1e-12);
  EXPECT_NEAR(least_thickness(Metres(0.45), Metres(0.1025), rules).value(), 0.17375, 1e-12);
  EXPECT_NEAR(least_thickness(Metres(0.30), Metres(0.215), rules).value(), 0.150, 1e-12);
}

// IRC R403.1.5 (read on a page that quotes it): bottom slope at most 1 in 10, else stepped.
TEST(Footing, BottomMayFollowTheGroundOnlyToOneInTen) {
  EXPECT_TRUE(bottom_may_slope(Metres(0.6), Metres(6)));
  EXPECT_FALSE(bottom_may_slope(Metres(0.61), Metres(6)));
}

// Derived by hand: .5 x .225 x 6 = .675; three laps .5 x .45 x .225 = .050625 each; together .826875.
TEST(Footing, SteppedConcreteMatchesTheWorkedVolume) {
  const Strip strip{Metres(6), Metres(0.5), Metres(0.225), Metres(0.5)};
  EXPECT_NEAR(stepped_concrete(strip, 3, Metres(0.225), Metres(0.45)).value(), 0.826875, 1e-9);
}

// Common practice, no source: each step one course, extra courses at the low end equal the number of steps.
TEST(Footing, StepsAreOneCourseEach) {
  const FootingPlan plan = plan_footing(light_strip(3.6), Metres(0.3), rules);
  ASSERT_TRUE(plan.faults.empty());
  ASSERT_EQ(plan.steps.size(), 4U);
  EXPECT_NEAR(plan.step.value(), 0.075, 1e-12);
  EXPECT_NEAR(plan.overlap.value(), 0.3, 1e-12);
  EXPECT_EQ(plan.extra_courses(), 4);
  // Middle of the first step where the ground is half a course down: 3.6 x 37.5 / 300 = .45; lap 150 each
  // way.
  EXPECT_NEAR(plan.steps[0].bottom_at.value(), 0.30, 1e-9);
  EXPECT_NEAR(plan.steps[0].top_at.value(), 0.60, 1e-9);
  EXPECT_NEAR(plan.steps[3].bottom_at.value(), 3.00, 1e-9);
  // .45 x .15 x 3.6 = .243; four laps .45 x .3 x .075 = .010125 each; together .2835.
  EXPECT_NEAR(plan.concrete.value(), 0.2835, 1e-9);
  // The bottom steps 150 mm (lap/2) before the middle each time: .45 x 3.6 x .35 = .567 for the even depth,
  // and four times .45 x .15 x .075 = .0050625 more.
  EXPECT_NEAR(plan.trench.value(), 0.567 + 4 * 0.0050625, 1e-9);
}

TEST(Footing, LevelGroundNeedsNoSteps) {
  const FootingPlan plan = plan_footing(light_strip(3), Metres(0.03), rules);
  EXPECT_TRUE(plan.steps.empty());
  ASSERT_EQ(plan.stretches.size(), 1U);
  EXPECT_EQ(plan.extra_courses(), 0);
  EXPECT_NEAR(plan.concrete.value(), 0.45 * 0.15 * 3, 1e-12);
}

TEST(Footing, SteepGroundTakesDeeperStepsWhenTheConcreteAllows) {
  // 0.9 m over 3 m: twelve steps of one course would stand 250 mm apart, less than the lap of 300.
  const FootingPlan plan = plan_footing(light_strip(3), Metres(0.9), rules);
  ASSERT_TRUE(plan.faults.empty());
  EXPECT_NEAR(plan.step.value(), 0.150, 1e-12);
  EXPECT_EQ(plan.steps.size(), 6U);
  EXPECT_EQ(plan.extra_courses(), 12);
}

TEST(Footing, GroundTooSteepForTheConcreteIsAFault) {
  const FootingPlan plan = plan_footing(light_strip(3), Metres(2), rules);
  ASSERT_EQ(plan.faults.size(), 1U);
  EXPECT_EQ(plan.faults[0].code, "ground-too-steep");
  EXPECT_EQ(plan.faults[0].place, "/drop");
  EXPECT_EQ(plan.faults[0].found, "2000 mm over 3 m");
  EXPECT_TRUE(plan.steps.empty());
}

TEST(Footing, LevelsReadAsDugMoveTheSteps) {
  // Level for 2 m, then .3 m down in the last 2 m: all four steps stand in the second half.
  const Level readings[] = {{Metres(0), Metres(1.20)}, {Metres(2), Metres(1.20)}, {Metres(4), Metres(1.50)}};
  const FootingPlan plan = plan_footing(light_strip(4), readings, rules);
  ASSERT_EQ(plan.steps.size(), 4U);
  EXPECT_NEAR(plan.steps[0].bottom_at.value(), 2.25 - 0.15, 1e-9);
  EXPECT_NEAR(plan.steps[3].top_at.value(), 4 - 0.1125, 1e-9);  // 3.75 + .15, moved up to leave half a brick
}

TEST(Footing, AReadingAboveAnEarlierOneCountsAsLevel) {
  const Level bump[] = {
      {Metres(0), Metres(0)}, {Metres(1), Metres(0.2)}, {Metres(2), Metres(0.1)}, {Metres(4), Metres(0.3)}};
  EXPECT_EQ(plan_footing(light_strip(4), bump, rules).extra_courses(), 4);
}

TEST(Footing, LevelsOutOfOrderAreRefused) {
  const Level wrong[] = {{Metres(1), Metres(0)}, {Metres(0), Metres(0.2)}};
  EXPECT_THROW((void)plan_footing(light_strip(4), wrong, rules), std::invalid_argument);
}

TEST(Footing, ThinAndShallowStripsAreAdviceNotFaults) {
  const Strip box{Metres(2), Metres(0.3), Metres(0.1), Metres(0.15)};
  const FootingPlan plan = plan_footing(box, Metres(0), rules);
  EXPECT_TRUE(plan.faults.empty());
  ASSERT_EQ(plan.advice.size(), 2U);
  EXPECT_EQ(plan.advice[0].code, "footing-shallow-for-frost");
  EXPECT_EQ(plan.advice[1].code, "footing-thin");
}

// By hand: 1 m with .12 m of fall is two steps; the second would have its middle at 1 x 112.5 / 120 = .9375
// and run off the end. It moves up until its lap ends half a brick (112.5 mm) short of it.
TEST(Footing, AStepAtTheLowEndMovesUpTheSlope) {
  const FootingPlan plan = plan_footing(light_strip(1), Metres(0.12), rules);
  ASSERT_EQ(plan.steps.size(), 2U);
  EXPECT_NEAR(plan.step.value(), 0.075, 1e-12);
  EXPECT_NEAR(plan.steps[1].top_at.value(), 0.8875, 1e-9);
  EXPECT_NEAR(plan.steps[0].bottom_at.value(), 1 * 37.5 / 120 - 0.15, 1e-9);
}

TEST(Footing, AStubTooShortForALapIsDugLevel) {
  const FootingPlan plan = plan_footing(light_strip(0.35), Metres(0.06), rules);
  EXPECT_TRUE(plan.faults.empty());
  EXPECT_TRUE(plan.steps.empty());
}

RC_GTEST_PROP(FootingProperty, MoreDropNeverLessConcreteDiggingOrCourses, ()) {
  const double length = *rc::gen::inRange(15, 120) / 10.0;
  // Up to one in five, so that one-course steps always find room.
  const double drop = length * *rc::gen::inRange(0, 190) / 1000.0;
  const double more = drop + length * 0.01;
  const FootingPlan a = plan_footing(light_strip(length), Metres(drop), rules);
  const FootingPlan b = plan_footing(light_strip(length), Metres(more), rules);
  RC_ASSERT(a.faults.empty() && b.faults.empty());
  RC_ASSERT(b.extra_courses() >= a.extra_courses());
  RC_ASSERT(b.concrete.value() >= a.concrete.value() - 1e-9);
}

RC_GTEST_PROP(FootingProperty, StepsKeepTheirOverlapsAndTheDepthAskedFor, ()) {
  const double length = *rc::gen::inRange(5, 300) / 10.0;
  const double drop = *rc::gen::inRange(0, 300) / 100.0;
  const double thickness = *rc::gen::inRange(10, 60) / 100.0;
  const Strip strip{Metres(length), Metres(0.45), Metres(thickness), Metres(thickness + 0.2)};
  const FootingPlan plan = plan_footing(strip, Metres(drop), rules);
  RC_PRE(plan.faults.empty());
  double free_from = 0;
  double bottom = strip.depth.value();
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const Step& step = plan.steps[i];
    RC_ASSERT(step.fall.value() <= thickness + 1e-9);
    RC_ASSERT(step.bottom_at.value() >= free_from - 1e-9);
    RC_ASSERT(step.top_at.value() <= length + 1e-9);
    RC_ASSERT(step.top_at.value() - step.bottom_at.value() >= plan.overlap.value() - 1e-9);
    const double next = i + 1 < plan.steps.size() ? plan.steps[i + 1].bottom_at.value() : length - 0.1125;
    const bool crowded_above = step.bottom_at.value() <= free_from + 1e-9;
    const bool crowded_below = step.top_at.value() >= next - 1e-9;
    // Ground over the middle of a step that stands free is half-way between the two levels.
    const double middle = (step.bottom_at.value() + step.top_at.value()) / 2;
    const double off = bottom + plan.step.value() / 2 - strip.depth.value() - drop * middle / length;
    RC_ASSERT(crowded_above || off > -1e-6);
    RC_ASSERT(crowded_below || off < 1e-6);
    bottom += plan.step.value();
    free_from = step.top_at.value();
  }
  double at = 0;
  for (const Stretch& stretch : plan.stretches) {
    RC_ASSERT(std::abs(stretch.from.value() - at) < 1e-9);
    at = stretch.to.value();
  }
  RC_ASSERT(std::abs(at - length) < 1e-9);
}

}  // namespace
}  // namespace weatherstruck::measure
