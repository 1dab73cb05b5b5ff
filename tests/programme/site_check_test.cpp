// A sound plan passes; broken in one place it is caught under the code that names the fault, and no other.
// Limits are those of the limits table with their sources there; the sums beside a test are done by hand.
#include "weatherstruck/programme/site_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::minutes;
using testing::Contains;
using testing::ElementsAre;

TEST(SiteCheck, ASoundPlanInADryMildWeekPasses) {
  EXPECT_SOUND(sound_site());
}

TEST(SiteCheck, AWetWeekSpoilsTheSamePlanInSeveralWays) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 0), feb(14, 0), 2.5);
  const auto codes = site.codes();
  EXPECT_THAT(codes, Contains("rain"));          // facing stops at 1 mm/h, the pour at 2
  EXPECT_THAT(codes, Contains("soft-in-rain"));  // half an hour bare, then 0.75 mm/h through hessian
  EXPECT_THAT(codes, Contains("wet-concrete"));  // forty minutes bare before the hessian
  EXPECT_EQ(codes.count("cold") + codes.count("frost") + codes.count("dark") + codes.count("people"), 0U);
}

TEST(SiteCheck, DigsOnInRainThatStopsBricks) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 8), feb(9, 10), 3.9);
  // Rough work goes on below 4 mm/h at nine tenths of its pace: 1.45 h in 1 h 40's 1.5.
  site.place("dig", feb(9, 8, 20), feb(9, 10));
  EXPECT_SOUND(site);
  site.rain(feb(9, 8), feb(9, 10), 4.0);
  EXPECT_ONLY(site, "rain");
}

TEST(SiteCheck, MissesNoTaskOfTheList) {
  SiteByHand site = sound_site();
  site.plan.tasks.pop_back();
  EXPECT_THAT(site.codes(), Contains("list"));
  EXPECT_THAT(site.codes(), Contains("left-out"));
}

TEST(SiteCheck, NamesTasksInAnotherOrderThanTheList) {
  SiteByHand site = sound_site();
  std::swap(site.plan.tasks[1], site.plan.tasks[2]);
  EXPECT_ONLY(site, "list");
}

TEST(SiteCheck, RunsThatGoBackAreOutOfOrder) {
  SiteByHand site = sound_site();
  PlannedRun& run = site.planned("dig").runs.front();
  std::swap(run.span.from, run.span.to);
  EXPECT_THAT(site.codes(), Contains("order"));
}

TEST(SiteCheck, RunsOfOneTaskDoNotOverlap) {
  SiteByHand site = sound_site();
  site.job.crew.push_back({"mate", false, 1.0});
  auto& runs = site.planned("dig").runs;
  runs = {runs.front(), runs.front()};
  runs[0].share = runs[1].share = 0.5;
  EXPECT_ONLY(site, "order");
}

TEST(SiteCheck, SharesMakeTheWhole) {
  SiteByHand site = sound_site();
  site.planned("dig").runs.front().share = 0.9;
  EXPECT_ONLY(site, "amount");
}

TEST(SiteCheck, NobodyWorksFasterThanTheNorm) {
  SiteByHand site = sound_site();
  site.place("dig", feb(9, 9), feb(9, 10));  // 1.2 h and a quarter to begin
  EXPECT_ONLY(site, "too-quick");
  site.job.crew.front().pace = 1.5;
  EXPECT_SOUND(site);
}

TEST(SiteCheck, ColdHandsAreSlow) {
  SiteByHand site = sound_site();
  site.place("facing", feb(10, 9, 30), feb(10, 12, 20));  // 2.5 h and a quarter to begin
  EXPECT_SOUND(site);
  site.temperature(feb(10, 9), feb(10, 13), 4.5);  // at nine tenths: 2.55
  EXPECT_ONLY(site, "too-quick");
}

TEST(SiteCheck, APourIsNeverSplit) {
  SiteByHand site = sound_site();
  site.place("pour", feb(9, 10), feb(9, 11));
  auto& runs = site.planned("pour").runs;
  runs.front().share = 0.6;
  runs.push_back(runs.front());
  runs.back().span = {feb(9, 11, 15), feb(9, 12)};
  runs.back().share = 0.4;
  EXPECT_ONLY(site, "split");
}

/// Facing in two goes on one morning.
SiteByHand facing_in_two(double first_share, int courses) {
  SiteByHand site = sound_site();
  auto& runs = site.planned("facing").runs;
  runs.push_back(runs.front());
  runs[0].span = {feb(10, 9, 30), feb(10, 11, 15)};
  runs[0].share = first_share;
  runs[0].courses_after = courses;
  runs[1].span = {feb(10, 11, 15), feb(10, 13)};
  runs[1].share = 1 - first_share;
  return site;
}

TEST(SiteCheck, BricksStopAtAnyCourse) {
  EXPECT_SOUND(facing_in_two(0.5, 2));
}

TEST(SiteCheck, BricksDoNotStopWithinACourse) {
  EXPECT_ONLY(facing_in_two(0.55, 2), "course");
  EXPECT_ONLY(facing_in_two(0.5, 1), "course");
}

TEST(SiteCheck, TheLastRunLeavesEveryCourseLaid) {
  SiteByHand site = sound_site();
  site.planned("facing").runs.back().courses_after = 3;
  EXPECT_ONLY(site, "course");
}

TEST(SiteCheck, AWayIsOneOfTheTasks) {
  SiteByHand site = sound_site();
  site.planned("dig").way = "rake";
  EXPECT_ONLY(site, "way");
}

TEST(SiteCheck, APlacedTaskWithWaysSaysWhich) {
  SiteByHand site = sound_site();
  site.planned("facing").way.reset();
  // The usual way is taken to be meant, and then pointing is not called for, nor is there time to strike.
  EXPECT_THAT(site.codes(), Contains("way"));
}

TEST(SiteCheck, PointingBelongsToRakedJointsOnly) {
  SiteByHand site = sound_site();
  site.place("facing", feb(10, 9, 30), feb(10, 12, 45));
  site.planned("facing").way = "strike";
  EXPECT_ONLY(site, "presence");
  site.planned("point").runs.clear();
  site.planned("point").present = false;
  EXPECT_SOUND(site);
  site.planned("facing").way = "rake";
  EXPECT_ONLY(site, "presence");
}

TEST(SiteCheck, AMustHasAPlace) {
  SiteByHand site = sound_site();
  site.planned("straps").runs.clear();
  site.plan.left_out = {"straps"};
  EXPECT_ONLY(site, "left-out");
}

TEST(SiteCheck, WhatIsLeftOutIsSaid) {
  SiteByHand site = sound_site();
  site.planned("fill").runs.clear();
  EXPECT_ONLY(site, "left-out-list");
  site.plan.left_out = {"fill"};
  EXPECT_SOUND(site);
  site = sound_site();
  site.plan.left_out = {"fill"};
  EXPECT_ONLY(site, "left-out-list");
}

TEST(SiteCheck, WorkBeyondTheForecastIsMarked) {
  SiteByHand site = sound_site();
  site.weather.hours.resize(24 * 3 + 12);  // to Thursday noon
  EXPECT_ONLY(site, "mark");
  for (const char* name : {"straps", "clear-up", "drive-back"})
    site.planned(name).runs.back().beyond_forecast = true;
  EXPECT_SOUND(site);
}

TEST(SiteCheck, PastYearsAreNoForecast) {
  SiteByHand site = sound_site();
  site.hours(feb(11, 9), feb(11, 10), [](sky::Hour& h) { h.rain->origin = sky::Origin::climate; });
  EXPECT_ONLY(site, "mark");
}

TEST(SiteCheck, AfterTheForecastTheDayBeforeStandsIn) {
  SiteByHand site = sound_site();
  site.rain(feb(11, 12), feb(11, 13), 5);
  site.weather.hours.resize(24 * 3);  // Thursday is not given: the rain of Wednesday noon comes again
  for (PlannedTask& task : site.plan.tasks) {
    for (PlannedRun& run : task.runs)
      run.beyond_forecast = run.span.to > feb(12, 0);
  }
  ASSERT_THAT(site.codes(), ElementsAre("rain")) << site.said();
  EXPECT_EQ(site.check().front().task, "straps");
  EXPECT_EQ(site.check().front().at, feb(12, 12));
}

TEST(SiteCheck, WithoutTemperatureOrRainThereIsNothingToJudgeBy) {
  SiteByHand site = sound_site();
  site.weather.hours.clear();
  EXPECT_THAT(site.codes(), Contains("no-weather"));
  site = sound_site();
  site.hours(feb(9, 0), feb(14, 0), [](sky::Hour& h) { h.rain.reset(); });
  EXPECT_THAT(site.codes(), ElementsAre("mark", "no-weather"));
}

}  // namespace
}  // namespace weatherstruck::programme
