// For every rule: a schedule that breaks it and nothing else, and the same schedule with that put right.
#include "weatherstruck/engine/check.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "engine/simulator_support.h"
#include "engine/sketch_support.h"

namespace weatherstruck::engine::brute {
namespace {

/// A schedule with nothing in it, and short ways to put something there.
class Plan {
 public:
  explicit Plan(const Network& network) {
    schedule.tasks.resize(network.tasks.size());
    schedule.spells.resize(network.keeps.size());
    schedule.changes.resize(network.statefuls.size());
  }
  Plan& run(TaskId task, Tick start, Tick end, Amount done) {
    schedule.tasks[static_cast<std::size_t>(task)].runs.push_back({start, end, done});
    return *this;
  }
  Plan& way(TaskId task, int which) {
    schedule.tasks[static_cast<std::size_t>(task)].way = which;
    return *this;
  }
  Plan& gone(TaskId task) {
    schedule.tasks[static_cast<std::size_t>(task)].present = false;
    return *this;
  }
  Plan& spell(KeepId keep, int which, Tick from, Tick to) {
    schedule.spells[static_cast<std::size_t>(keep)].push_back({which, from, to});
    return *this;
  }
  Plan& change(StatefulId stateful, Tick at, int state) {
    schedule.changes[static_cast<std::size_t>(stateful)].push_back({at, state});
    return *this;
  }
  Schedule schedule;
};

void expect_sound(const Sketch& job, const Plan& plan) {
  for (const Violation& it : check(job.network, plan.schedule)) {
    ADD_FAILURE() << to_text(it.rule) << ": " << it.what;
  }
  EXPECT_TRUE(replay(job.network, plan.schedule).valid());
}

/// Broken under this rule and no other, and in words.
void expect_broken(Rule rule, const Sketch& job, const Plan& plan) {
  const auto violations = check(job.network, plan.schedule);
  EXPECT_FALSE(violations.empty()) << to_text(rule) << " not noticed";
  for (const Violation& it : violations) {
    EXPECT_EQ(it.rule, rule) << to_text(it.rule) << ": " << it.what;
    EXPECT_FALSE(it.what.empty());
  }
  EXPECT_FALSE(replay(job.network, plan.schedule).valid());
}

/// Ten hours, one mason, and clocks for everything.
struct Yard : Sketch {
  Yard() : Sketch(10) {}
  ClockId work = clock("work", "1111 00 1111");
  ClockId time = clock("time", "1111 11 1111");
  ClockId rain = clock("rain", "0002 00 0000");
  ResourceId mason = people("mason", 1);
};

TEST(Check, ASoundScheduleIsSound) {
  Yard job;
  job.task("lay", job.work, 3).by(job.mason);
  expect_sound(job, Plan(job.network).run(0, 1, 4, 3));
}

TEST(Check, ATaskLeftOutBreaksNoRule) {
  Yard job;
  job.task("lay", job.work, 3).by(job.mason);
  expect_sound(job, Plan(job.network));
}

TEST(Check, NoticesAScheduleOfAnotherShape) {
  Yard job;
  const auto wall = job.task("wall", job.work, 2).or_by(job.work, 1);
  const auto point = job.task("point", job.work, 1).only_if(wall, 1);
  expect_sound(job, Plan(job.network).run(wall, 0, 2, 2).gone(point));
  expect_sound(job, Plan(job.network).way(wall, 1).run(wall, 0, 1, 1).run(point, 2, 3, 1));
  expect_broken(Rule::shape, job, Plan(job.network).run(wall, 0, 2, 2));
  expect_broken(Rule::shape, job, Plan(job.network).way(wall, 1).run(wall, 0, 1, 1).gone(point));
  expect_broken(Rule::shape, job, Plan(job.network).way(wall, 7).run(wall, 0, 2, 2).gone(point));
  Plan short_one(job.network);
  short_one.schedule.tasks.pop_back();
  expect_broken(Rule::shape, job, short_one);
}

TEST(Check, NoticesRunsThatOverlap) {
  Yard job;
  job.task("lay", job.time, 4).may_stop_anywhere();
  expect_sound(job, Plan(job.network).run(0, 0, 2, 2).run(0, 2, 4, 2));
  expect_broken(Rule::shape, job, Plan(job.network).run(0, 0, 2, 2).run(0, 1, 3, 2));
}

TEST(Check, NoticesWhatLiesOutsideTheHorizon) {
  Yard job;
  const auto wall = job.keep("wall", job.time).cover("sheet", job.time, {}).takes(2, 2, {});
  expect_sound(job, Plan(job.network).spell(wall, 1, 4, 8));
  expect_sound(job, Plan(job.network).spell(wall, 1, 4, 10));  // left on
  expect_broken(Rule::horizon, job, Plan(job.network).spell(wall, 1, 4, 9));
}

TEST(Check, NoticesARunBeforeItsRelease) {
  Yard job;
  job.task("lay", job.work, 2).not_before(1);
  expect_sound(job, Plan(job.network).run(0, 1, 3, 2));
  expect_broken(Rule::release, job, Plan(job.network).run(0, 0, 2, 2));
}

TEST(Check, NoticesARunWhileItsClockStands) {
  Yard job;
  job.task("lay", job.work, 2);
  expect_sound(job, Plan(job.network).run(0, 6, 8, 2));
  expect_broken(Rule::standing_clock, job, Plan(job.network).run(0, 3, 7, 2));
}

TEST(Check, NoticesRunsThatDoNotAddUp) {
  Yard job;
  job.task("lay", job.time, 3).setup(1).may_stop_at_every_course();
  expect_sound(job, Plan(job.network).run(0, 0, 2, 1).run(0, 5, 8, 2));
  expect_broken(Rule::amount, job, Plan(job.network).run(0, 0, 2, 1).run(0, 5, 7, 2));  // no set-up
  expect_broken(Rule::amount, job, Plan(job.network).run(0, 0, 5, 3));  // longer than it takes
  expect_broken(Rule::amount, job, Plan(job.network).run(0, 0, 2, 1).run(0, 5, 7, 1));  // a course short
}

TEST(Check, AnAmountThatOvershootsInTheLastHourIsLost) {
  Yard job;
  const auto brisk = job.clock("brisk", "3333 33 3333");
  job.task("lay", brisk, 5).may_stop_at({2});
  expect_sound(job, Plan(job.network).run(0, 0, 1, 2).run(0, 4, 5, 3));
  expect_broken(Rule::amount, job, Plan(job.network).run(0, 0, 1, 2).run(0, 4, 5, 2));
}

TEST(Check, NoticesAPauseWhereThereMayBeNone) {
  Yard job;
  job.task("lay", job.time, 4).may_stop_at({2});
  expect_sound(job, Plan(job.network).run(0, 0, 2, 2).run(0, 5, 7, 2));
  expect_broken(Rule::pause, job, Plan(job.network).run(0, 0, 1, 1).run(0, 5, 8, 3));
  Yard pour;
  pour.task("pour", pour.time, 4);
  expect_sound(pour, Plan(pour.network).run(0, 0, 4, 4));
  expect_broken(Rule::pause, pour, Plan(pour.network).run(0, 0, 2, 2).run(0, 5, 7, 2));
}

TEST(Check, NoticesATaskUnderWayForTooLong) {
  Yard job;
  job.task("lay", job.time, 4).may_stop_anywhere().within(6);
  expect_sound(job, Plan(job.network).run(0, 0, 2, 2).run(0, 4, 6, 2));
  expect_broken(Rule::span, job, Plan(job.network).run(0, 0, 2, 2).run(0, 5, 7, 2));
}

TEST(Check, NoticesAGuardOverrunFromTheEndOfAnyRun) {
  Yard job;  // 2 mm of rain in hour 3
  job.task("lay", job.time, 2).may_stop_anywhere().guard(job.time, 2, job.rain, 1);
  expect_sound(job, Plan(job.network).run(0, 0, 1, 1).run(0, 3, 4, 1));
  expect_broken(Rule::guard, job, Plan(job.network).run(0, 0, 2, 2));
  expect_broken(Rule::guard, job, Plan(job.network).run(0, 0, 1, 1).run(0, 1, 2, 1));
  expect_broken(Rule::guard, job, Plan(job.network).run(0, 1, 2, 1).run(0, 5, 6, 1));
}

TEST(Check, NoticesAGuardOverrunFromTheStart) {
  Yard job;
  job.task("paint", job.time, 1).start_guard(job.time, 3, job.rain, 0);
  expect_sound(job, Plan(job.network).run(0, 0, 1, 1));
  expect_broken(Rule::guard, job, Plan(job.network).run(0, 1, 2, 1));
}

TEST(Check, NoticesMorePeopleAtWorkThanThereAre) {
  Yard job;
  job.task("lay", job.time, 2).by(job.mason);
  job.task("point", job.time, 2).by(job.mason);
  expect_sound(job, Plan(job.network).run(0, 0, 2, 2).run(1, 2, 4, 2));
  expect_broken(Rule::capacity, job, Plan(job.network).run(0, 0, 2, 2).run(1, 1, 3, 2));
}

TEST(Check, NoticesHandsThatAreNotFreeForACover) {
  Yard job;
  const auto wall = job.keep("wall", job.time).cover("sheet", job.time, {}).takes(1, 1, {{job.mason}});
  job.task("point", job.time, 2).by(job.mason);
  expect_sound(job, Plan(job.network).run(0, 1, 3, 2).spell(wall, 1, 0, 3));
  expect_broken(Rule::capacity, job, Plan(job.network).run(0, 1, 3, 2).spell(wall, 1, 0, 2));
  expect_broken(Rule::capacity, job, Plan(job.network).run(0, 1, 3, 2).spell(wall, 1, 1, 4));
}

TEST(Check, NoticesOneSheetOverTwoWalls) {
  Yard job;
  const auto sheet = job.people("sheets", 1);
  const auto east = job.keep("east", job.time).cover("sheet", job.time, {{sheet}}).takes(0, 1, {});
  const auto west = job.keep("west", job.time).cover("sheet", job.time, {{sheet}}).takes(0, 1, {});
  expect_sound(job, Plan(job.network).spell(east, 1, 0, 3).spell(west, 1, 4, 10));
  expect_broken(Rule::capacity, job, Plan(job.network).spell(east, 1, 0, 3).spell(west, 1, 3, 10));
}

TEST(Check, NoticesADayThatIsTooLong) {
  Yard job;
  job.hours_a_day(job.mason, 5, {3, 4});
  job.task("lay", job.time, 4).may_stop_anywhere().by(job.mason);
  expect_sound(job, Plan(job.network).run(0, 1, 4, 3).run(0, 6, 7, 1));
  expect_broken(Rule::bucket, job, Plan(job.network).run(0, 0, 4, 4));
}

TEST(Check, NoticesACanopyInTheWrongState) {
  Yard job;
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"1111111111", "1111111111"}, {});
  job.task("lay", job.time, 2).under(canopy, 1);
  expect_sound(job, Plan(job.network).change(canopy, 1, 1).run(0, 2, 4, 2).change(canopy, 4, 0));
  expect_broken(Rule::state, job, Plan(job.network).run(0, 2, 4, 2));
  expect_broken(Rule::state, job, Plan(job.network).change(canopy, 2, 1).run(0, 2, 4, 2));
  expect_broken(Rule::state, job,
                Plan(job.network).change(canopy, 1, 1).run(0, 2, 4, 2).change(canopy, 3, 0));
}

TEST(Check, NoticesACoverWithoutTheCanopyItIs) {
  Yard job;
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"1111111111", "1111111111"}, {});
  const auto wall = job.keep("wall", job.time).cover("canopy", job.time, {}).stands_while(canopy, 1);
  expect_sound(job, Plan(job.network).change(canopy, 1, 1).spell(wall, 1, 2, 6).change(canopy, 6, 0));
  expect_broken(Rule::state, job, Plan(job.network).change(canopy, 1, 1).spell(wall, 1, 1, 6));
}

TEST(Check, NoticesACanopyUpInAGale) {
  Yard job;
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"1111111111", "1111001111"}, {});
  expect_sound(job, Plan(job.network).change(canopy, 0, 1).change(canopy, 3, 0).change(canopy, 6, 1));
  expect_broken(Rule::state_allowed, job, Plan(job.network).change(canopy, 0, 1).change(canopy, 6, 0));
  expect_broken(Rule::state_allowed, job, Plan(job.network).change(canopy, 0, 1).change(canopy, 4, 0));
  expect_broken(Rule::state_allowed, job, Plan(job.network).change(canopy, 5, 1));
}

TEST(Check, NoticesATaskTooSoonAfterAnother) {
  Yard job;
  const auto pour = job.task("pour", job.time, 1);
  const auto wall = job.task("wall", job.time, 1);
  Link& link = job.after(pour, wall);
  expect_sound(job, Plan(job.network).run(pour, 0, 1, 1).run(wall, 1, 2, 1));
  expect_broken(Rule::link_least, job, Plan(job.network).run(pour, 1, 2, 1).run(wall, 0, 1, 1));
  expect_broken(Rule::link_least, job, Plan(job.network).run(wall, 0, 1, 1));
  link.least_clock = job.work;  // stands in hours 4 and 5
  link.least = 3;
  expect_sound(job, Plan(job.network).run(pour, 1, 2, 1).run(wall, 7, 8, 1));
  expect_broken(Rule::link_least, job, Plan(job.network).run(pour, 1, 2, 1).run(wall, 6, 7, 1));
  link.waived_if_left_out = true;
  expect_sound(job, Plan(job.network).run(wall, 0, 1, 1));
}

TEST(Check, NoticesATaskTooLateAfterAnother) {
  Yard job;
  const auto pour = job.task("pour", job.time, 1);
  const auto strike = job.task("strike", job.time, 1);
  Link& link = job.after(pour, strike);
  link.most_clock = job.work;
  link.most = 2;
  expect_sound(job, Plan(job.network).run(pour, 1, 2, 1).run(strike, 6, 7, 1));
  expect_broken(Rule::link_most, job, Plan(job.network).run(pour, 1, 2, 1).run(strike, 7, 8, 1));
}

TEST(Check, ReadsTheEdgesOfALink) {
  Yard job;
  const auto mix = job.task("mix", job.time, 3);
  const auto lay = job.task("lay", job.time, 3);
  Link& link = job.after(mix, lay);
  link.from_edge = Edge::start;
  expect_sound(job, Plan(job.network).run(mix, 1, 4, 3).run(lay, 1, 4, 3));
  expect_broken(Rule::link_least, job, Plan(job.network).run(mix, 1, 4, 3).run(lay, 0, 3, 3));
  link.from_edge = Edge::finish;
  link.to_edge = Edge::finish;
  expect_sound(job, Plan(job.network).run(mix, 1, 4, 3).run(lay, 1, 4, 3));
  expect_broken(Rule::link_least, job, Plan(job.network).run(mix, 1, 4, 3).run(lay, 0, 3, 3));
}

TEST(Check, NoticesWorkOnWhatHasNotCured) {
  Yard job;
  const auto strip = job.keep("strip", job.time);
  const auto pour = job.task("pour", job.time, 2).lays(strip);
  const auto wall = job.task("wall", job.time, 1);
  job.cured(strip, wall, 3);
  expect_sound(job, Plan(job.network).run(pour, 0, 2, 2).run(wall, 5, 6, 1));
  expect_sound(job, Plan(job.network).run(wall, 0, 1, 1).run(pour, 1, 3, 2));  // nothing laid yet: void
  expect_broken(Rule::cure, job, Plan(job.network).run(pour, 0, 2, 2).run(wall, 4, 5, 1));
  expect_broken(Rule::cure, job, Plan(job.network).run(pour, 0, 2, 2).run(wall, 1, 2, 1));
}

TEST(Check, NoticesWorkUnderACoverAndCoversThatOverlap) {
  Yard job;
  const auto wall = job.keep("wall", job.time).cover("sheet", job.time, {}).takes(1, 1, {});
  const auto point = job.task("point", job.time, 2).works_on(wall);
  expect_sound(job, Plan(job.network).spell(wall, 1, 0, 2).run(point, 3, 5, 2).spell(wall, 1, 5, 10));
  expect_broken(Rule::cover, job, Plan(job.network).spell(wall, 1, 0, 3).run(point, 3, 5, 2));
  expect_broken(Rule::cover, job, Plan(job.network).run(point, 3, 5, 2).spell(wall, 1, 4, 10));
  expect_sound(job, Plan(job.network).spell(wall, 1, 0, 2).spell(wall, 1, 3, 6));
  expect_broken(Rule::cover, job, Plan(job.network).spell(wall, 1, 0, 2).spell(wall, 1, 2, 6));
}

TEST(Check, NoticesFreshWorkLeftInTheRain) {
  Yard job;  // 2 mm in hour 3
  const auto wall =
      job.keep("wall", job.time).harmed_by("rain", job.time, 3, job.rain, 1).cover("sheet", job.time, {});
  const auto lay = job.task("lay", job.time, 2).lays(wall);
  expect_sound(job, Plan(job.network).run(lay, 0, 2, 2).spell(wall, 1, 3, 4));
  expect_sound(job, Plan(job.network).run(lay, 4, 6, 2));
  expect_broken(Rule::hazard, job, Plan(job.network).run(lay, 0, 2, 2));
  expect_broken(Rule::hazard, job, Plan(job.network).run(lay, 0, 2, 2).spell(wall, 1, 4, 10));
}

TEST(Check, WorkThatClosesAKeepEndsItsCareFromItsFirstHourAfterTheStop) {
  Yard job;  // 2 mm in hour 3
  const auto strip = job.keep("strip", job.time).harmed_by("rain", job.time, 3, job.rain, 1);
  const auto pour = job.task("pour", job.time, 1).lays(strip);
  const auto wall = job.task("wall", job.time, 2).may_stop_anywhere().closes(strip);
  expect_sound(job, Plan(job.network).run(pour, 1, 2, 1).run(wall, 3, 5, 2));
  expect_broken(Rule::hazard, job, Plan(job.network).run(pour, 1, 2, 1).run(wall, 4, 6, 2));
  expect_broken(Rule::hazard, job, Plan(job.network).run(wall, 0, 2, 2).run(pour, 1, 2, 1));
}

TEST(Check, NoticesTooMuchGreenWork) {
  Yard job;
  const auto wall = job.keep("wall", job.time).green(job.time, 4, 2);
  job.task("lay", job.time, 3).may_stop_at_every_course().lays(wall);
  expect_sound(job, Plan(job.network).run(0, 0, 2, 2).run(0, 4, 5, 1));
  expect_broken(Rule::green, job, Plan(job.network).run(0, 0, 3, 3));
  expect_broken(Rule::green, job, Plan(job.network).run(0, 0, 2, 2).run(0, 3, 4, 1));
}

TEST(Check, EveryRuleHasWordsOfItsOwn) {
  std::set<std::string> texts;
  const int rules = static_cast<int>(Rule::green) + 1;
  for (int rule = 0; rule < rules; ++rule)
    texts.insert(to_text(static_cast<Rule>(rule)));
  EXPECT_EQ(texts.size(), static_cast<std::size_t>(rules));
  EXPECT_EQ(texts.count(""), 0U);
}

}  // namespace
}  // namespace weatherstruck::engine::brute
