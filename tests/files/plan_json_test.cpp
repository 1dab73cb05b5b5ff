#include "weatherstruck/files/plan_json.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

base::Instant at(int minutes) {
  return base::Instant(std::chrono::seconds(1770624000 + 60 * minutes));
}

KeptPlan every_member() {
  programme::Plan plan;
  programme::PlannedTask task;
  task.task = "wall-lay";
  task.way = "rake";
  task.way_title = "joints raked";
  task.turn = 4;
  task.held_until = at(-20);
  task.people = 2;
  task.runs = {{{at(0), at(30)}, 0.25, 2, true, false, true},
               {{at(60), at(90)}, 0.75, 6, false, true, false}};
  task.reasons = {{{at(-60), at(0)}, "rain", "rain 2.1 mm/h, \"stops\" at 0.5", ""},
                  {{at(0), at(30)}, "person", "busy with: Pour", "north-pour"}};
  programme::PlannedTask absent;
  absent.task = "wall-point";
  absent.present = false;
  plan.tasks = {task, absent};
  plan.covers = {{"wall",
                  "the wall",
                  false,
                  trade::CoverKind::hessian_and_sheet,
                  base::SquareMetres(2.5),
                  {at(90), at(900)},
                  true}};
  plan.canopy = {{"wall", at(-10), {at(0), at(90)}, at(100)}};
  plan.waits = {{"wall", "the wall", "wall-fill", works::Wait::mortar_to_fill, {at(90), at(2000)}}};
  plan.horizon_from = at(-600);
  plan.horizon_to = at(9000);
  plan.forecast_until = at(5000);
  plan.leaves_site = at(3000);
  plan.home = at(3120);
  plan.in_hand = std::chrono::seconds(-900);
  plan.soonest_home = at(2900);
  plan.left_out = {"path-flags"};
  plan.assumptions = {"gusts are worked out"};
  plan.dangers = {"the strip freezes"};
  plan.schedules = 431;
  programme::Outlook outlook;
  outlook.weathers = 100;
  outlook.home = 70;
  outlook.home_and_sound = 61;
  outlook.spoilt = 9;
  outlook.less = 4;
  outlook.back = programme::Tenths{at(3000), at(3100), at(3200)};
  outlook.starts = {programme::Tenths{at(1), at(2), at(3)}, std::nullopt};
  outlook.decides = {{"north-pour", 20}};
  outlook.spoils = {{"north", 9}};
  return {at(-30), plan, false, outlook};
}

TEST(PlanJson, APlanComesBackToTheLastByte) {
  const std::string text = write_plan(every_member());
  const std::optional<KeptPlan> back = read_plan(text);
  ASSERT_TRUE(back);
  EXPECT_EQ(write_plan(*back), text);
  EXPECT_EQ(back->now, at(-30));
  EXPECT_FALSE(back->sound);
  EXPECT_EQ(back->plan.tasks.front().way, "rake");
  EXPECT_EQ(back->plan.tasks.front().runs.back().courses_after, 6);
  EXPECT_FALSE(back->plan.tasks.back().present);
  EXPECT_EQ(back->plan.covers.front().kind, trade::CoverKind::hessian_and_sheet);
  EXPECT_EQ(back->plan.waits.front().wait, works::Wait::mortar_to_fill);
  EXPECT_EQ(back->plan.in_hand.count(), -900);
  EXPECT_EQ(back->plan.home, at(3120));
  EXPECT_EQ(back->plan.soonest_home, at(2900));
  ASSERT_TRUE(back->outlook);
  EXPECT_EQ(back->outlook->home_and_sound, 61);
  EXPECT_EQ(back->outlook->starts.size(), 2U);
  EXPECT_EQ(back->outlook->decides.front().task, "north-pour");
}

TEST(PlanJson, WhatThisVersionDidNotWriteIsNoPlan) {
  std::string text = write_plan(every_member());
  EXPECT_FALSE(read_plan(""));
  EXPECT_FALSE(read_plan("[]"));
  EXPECT_FALSE(read_plan(text.substr(0, text.size() / 2)));
  std::string later = text;
  later.replace(later.find("\"version\":3"), 11, "\"version\":4");
  EXPECT_FALSE(read_plan(later));
  std::string strange = text;
  strange.replace(strange.find("hessian-and-sheet"), 17, "tarpaulin-and-rope");
  EXPECT_FALSE(read_plan(strange));
}

TEST(PlanJson, KeepsTheTaskThatAReasonIsAbout) {
  const auto back = read_plan(write_plan(every_member()));
  ASSERT_TRUE(back);
  const auto& reasons = back->plan.tasks.front().reasons;
  ASSERT_EQ(reasons.size(), 2U);
  EXPECT_EQ(reasons[0].by, "");
  EXPECT_EQ(reasons[1].by, "north-pour");
}

}  // namespace
}  // namespace weatherstruck::files
