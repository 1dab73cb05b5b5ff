// Small jobs that are begun: hour 4 is now, what was done before is as it was, and the rest is planned. One
// tick is an hour; hour 3 is the time from 3 to 4. All numbers are invented.
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "engine/brute_force_support.h"
#include "engine/lists_support.h"
#include "engine/miniature_support.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine::brute {
namespace {

constexpr Tick now = 4;
using Runs = std::vector<engine::Run>;

/// Ten hours of which four are over.
struct Begun : Sketch {
  Begun() : Sketch(10) { network.now = now; }
  ClockId day = clock("day", "1111 111111");
  ClockId rain = clock("rain", "0200 010000");
  ResourceId mason = people("mason", 1);
  void did(TaskId task, Runs runs, int way = 0) { at(network.tasks, task).history = {way, std::move(runs)}; }
};

Runs runs_of(const Schedule& schedule, TaskId task) {
  return at(schedule.tasks, task).runs;
}

bool has_rule(const Network& network, const Schedule& schedule, Rule rule) {
  for (const Violation& it : check(network, schedule)) {
    if (it.rule == rule) return true;
  }
  return false;
}

// Four courses, two of them laid yesterday the slow way. The other way would now be done at 5; the rest of
// this way takes the hours 4 and 5: done at 6.
TEST(History, WhatIsHalfDoneGoesOnInItsWay) {
  Begun job;
  const auto wall = job.task("lay", job.day, 4).by(job.mason).may_stop_at_every_course().or_by(job.day, 1);
  job.did(wall, {{1, 3, 2}});
  const Plans plans = expect_answer(job, {0, 0, 6});
  EXPECT_EQ(runs_of(plans.list, wall), (Runs{{1, 3, 2}, {4, 6, 2}}));
  EXPECT_EQ(way_of(plans.list, wall), 0);
}

// Set up anew: an hour of the clock is gone before the first course of today.
TEST(History, WhatGoesOnIsSetUpAnew) {
  Begun job;
  const auto wall = job.task("lay", job.day, 4).by(job.mason).setup(1).may_stop_at_every_course();
  job.did(wall, {{0, 3, 2}});
  expect_answer(job, {0, 0, 7});
}

// Nothing new before now, though the mason was idle from 0 to 4.
TEST(History, NewRunsBeginNowOrLater) {
  Begun job;
  const auto dig = job.task("dig", job.day, 2).by(job.mason);
  const Plans plans = expect_answer(job, {0, 0, 6});
  EXPECT_EQ(start_of(plans.list, dig), now);
  Schedule before = plans.list;
  at(before.tasks, dig).runs = {{3, 5, 2}};
  EXPECT_TRUE(has_rule(job.network, before, Rule::release));
  EXPECT_EQ(replay(job.network, before).broken->rule, Rule::release);
}

// A pour that is under way and may not pause ends as it was begun; what is new waits for the mason.
TEST(History, APourThatIsUnderWayIsNotBrokenOff) {
  Begun job;
  const auto pour = job.task("pour", job.day, 4).by(job.mason);
  const auto dig = job.task("dig", job.day, 2).by(job.mason);
  job.did(pour, {{3, 7, 4}});
  const Plans plans = expect_answer(job, {0, 0, 9});
  EXPECT_EQ(start_of(plans.list, dig), 7);
}

// The site book may say that he took four hours over an hour's work, and did the next thing first: what
// follows, follows from it all the same.
TEST(History, AHistoryThatBrokeRulesDoesNotMakeTheRestImpossible) {
  Begun job;
  const auto night = job.clock("night shift", "0000 111111");
  const auto dig = job.task("dig", night, 2).by(job.mason, 2).not_before(9).within(1);
  const auto pour = job.task("pour", job.day, 3).by(job.mason);
  const auto lay = job.task("lay", job.day, 1).by(job.mason);
  job.did(dig, {{1, 4, 2}});   // at night, by two of one, too early, too long
  job.did(pour, {{0, 2, 1}});  // before what it follows, and with a pause that it may not have
  job.after(dig, pour);
  job.after(pour, lay);
  const Plans plans = expect_answer(job, {0, 0, 7});
  EXPECT_EQ(runs_of(plans.list, pour), (Runs{{0, 2, 1}, {4, 6, 2}}));
  EXPECT_EQ(start_of(plans.list, lay), 6);
}

// What may not pause goes on in one run, not in two.
TEST(History, WhatMayNotPauseGoesOnInOneRun) {
  Begun job;
  const auto hours = job.clock("hours", "1111 101111");
  const auto pour = job.task("pour", hours, 3);
  job.did(pour, {{0, 1, 1}});
  Plans plans = expect_answer(job, {0, 0, 8});
  at(plans.list.tasks, pour).runs = {{0, 1, 1}, {4, 5, 1}, {6, 7, 1}};
  EXPECT_TRUE(has_rule(job.network, plans.list, Rule::pause));
  EXPECT_FALSE(replay(job.network, plans.list).valid());
}

// The drive may begin two hours after the pour at the latest; the pour was over at 1. It is not driven at
// all. If he has left at 3, too late, he drives on.
TEST(History, ALinkIntoWhatWasDoneIsNotJudged) {
  for (const bool left : {false, true}) {
    Begun job;
    const auto pour = job.task("pour", job.day, 1);
    const auto drive = job.task("drive", job.day, 3).may_stop_anywhere();
    job.did(pour, {{0, 1, 1}});
    if (left) job.did(drive, {{3, 4, 1}});
    Link& link = job.after(pour, drive);
    link.most_clock = job.day;
    link.most = 1;
    expect_answer(job, left ? Expected{0, 0, 6} : Expected{1, 0, 1});
  }
}

// Laid before what it stands on, which can no longer be poured in the hours that are left: it stays, and so
// does what is left of it, and nobody looks for a better plan for ever.
TEST(History, WhatWasDoneOutOfTurnStaysWhereTheFirstFindsNoPlace) {
  Begun job;
  const auto pour = job.task("pour", job.day, 9).by(job.mason);
  const auto lay = job.task("lay", job.day, 2).by(job.mason).may_stop_anywhere();
  job.did(lay, {{2, 3, 1}});
  job.after(pour, lay);
  expect_answer(job, {1, 0, 5});
  job.network.links.front().to_edge = Edge::finish;  // it may not be finished before the pour
  const Plans plans = expect_answer(job, {2, 0, 0});
  EXPECT_EQ(runs_of(plans.list, lay), (Runs{{2, 3, 1}}));
}

// The rest finds no place: two courses are left and one hour of daylight. What is done stays, the task counts
// as without a place, and what may only follow its end has none either; what follows its start has.
TEST(History, WhatCannotBeFinishedStaysAsItIs) {
  Begun job;
  const auto light = job.clock("light", "1111 100000");
  const auto wall = job.task("lay", light, 4).by(job.mason);
  const auto point = job.task("point", job.day, 1).by(job.mason);
  const auto sweep = job.task("sweep", job.day, 1).by(job.mason);
  job.did(wall, {{1, 3, 2}});
  job.after(wall, point);
  job.after(wall, sweep).from_edge = Edge::start;
  const Plans plans = expect_answer(job, {2, 0, 5});
  EXPECT_EQ(runs_of(plans.list, wall), (Runs{{1, 3, 2}}));
  EXPECT_TRUE(at(plans.list.tasks, wall).unfinished(at(job.network.tasks, wall)));
  EXPECT_FALSE(at(plans.list.tasks, point).placed());
  Schedule forgotten = plans.list;
  at(forgotten.tasks, wall).runs.clear();
  EXPECT_TRUE(has_rule(job.network, forgotten, Rule::shape));
  EXPECT_FALSE(replay(job.network, forgotten).valid());
}

// The same where a later start was found and a link then stood in its way: no run of the search is left over.
TEST(History, NoTrialIsTakenForARun) {
  Begun job;
  const auto pour = job.task("pour", job.day, 1);
  const auto strike = job.task("strike", job.day, 2).may_stop_anywhere();
  job.did(pour, {{0, 1, 1}});
  job.did(strike, {{2, 3, 1}});
  Link& link = job.after(pour, strike);
  link.to_edge = Edge::finish;
  link.most_clock = job.day;
  link.most = 3;
  const Plans plans = expect_answer(job, {1, 0, 1});
  EXPECT_EQ(runs_of(plans.list, strike), (Runs{{2, 3, 1}}));
}

// All of it is done: it holds nothing up, and nothing more of it is planned.
TEST(History, WhatIsDoneWholeIsDone) {
  Begun job;
  const auto pour = job.task("pour", job.day, 2).by(job.mason);
  const auto lay = job.task("lay", job.day, 2).by(job.mason);
  job.did(pour, {{0, 3, 2}});
  Link& link = job.after(pour, lay);
  link.least_clock = job.day;
  link.least = 3;
  const Plans plans = expect_answer(job, {0, 0, 8});
  EXPECT_EQ(runs_of(plans.list, pour), (Runs{{0, 3, 2}}));
  EXPECT_EQ(start_of(plans.list, lay), 6);  // three hours after 3
}

// What was begun is there, whatever became of what it was to hang on.
TEST(History, WhatWasBegunIsThere) {
  Begun job;
  const auto wall = job.task("lay", job.day, 1).or_by(job.day, 2);
  const auto point = job.task("point", job.day, 2).may_stop_anywhere().only_if(wall, 1);
  job.did(wall, {{0, 1, 1}}, 0);
  job.did(point, {{2, 3, 1}});
  const Plans plans = expect_answer(job, {0, 0, 5});
  EXPECT_TRUE(at(plans.list.tasks, point).present);
}

// Rain in hours 1 and 5; a fresh wall bears none for six hours. Laid 0-1 it was rained on, and the rest of
// its six hours, to 7, holds the rain of hour 5: a sheet. No sheet: nothing helps it any more.
TEST(History, ExposureCountsFromNowOnAndProgressFromTheStop) {
  for (const Amount most : {Amount{0}, Amount{1}, Amount{2}}) {
    Begun job;
    const auto wall = job.keep("wall", job.day).harmed_by("rain", job.day, 6, job.rain, most);
    const auto lay = job.task("lay", job.day, 1).by(job.mason).lays(wall);
    job.did(lay, {{0, 1, 1}});
    const ListPlan plan = plan_by_list(job.network);
    const bool bears_it = most >= 1;  // of hour 5; hour 1 is over
    EXPECT_EQ(check(job.network, plan.best.schedule).empty(), bears_it) << most;
    EXPECT_EQ(replay(job.network, plan.best.schedule).valid(), bears_it) << most;
    EXPECT_EQ(brute_force(job.network).found, bears_it) << most;
    at(job.network.keeps, wall).hazards[0].until = 4;  // over at 5, before the rain
    expect_answer(job, {0, 0, 1});
  }
}

TEST(History, ACoverThatLiesSinceBeforeNowProtects) {
  Begun job;
  const auto sheet = job.people("sheets", 1);
  const auto wall =
      job.keep("wall", job.day).harmed_by("rain", job.day, 6, job.rain, 0).cover("sheet", job.day, {{sheet}});
  const auto lay = job.task("lay", job.day, 4).by(job.mason).may_stop_at_every_course().lays(wall);
  job.did(lay, {{0, 1, 1}});
  // The rest would be laid in the rain's way: from 4 to 7, and covered it cannot be while it is laid. That is
  // no harm to what is being laid, only to what is left; it may go on at once.
  const Plans plans = expect_answer(job, {0, 0, 7});
  ASSERT_FALSE(at(plans.list.spells, wall).empty());
  EXPECT_EQ(at(plans.list.spells, wall).front().from, 1);
  EXPECT_LE(at(plans.list.spells, wall).front().to, now);
}

// Laid at 2-3 in good faith, and no cover: the rain of hour 5 falls on it within its six hours. Nobody is
// there in that hour to lay the next course, which would end its care, and one laid before it would be rained
// on itself: no plan keeps the rules. What the past may suffer is the caller's to allow; then the next course
// is laid after the rain, 6-7.
TEST(History, WhatLiesMaySufferMoreThanWhatIsLaidAnew) {
  Begun job;
  const auto visitor = job.people("visitor", "1111 101111");
  const auto wall = job.keep("wall", job.day).harmed_by("rain", job.day, 6, job.rain, 0);
  const auto lay = job.task("lay", job.day, 1).lays(wall);
  const auto more = job.task("lay more", job.day, 1).by(visitor).lays(wall);
  job.did(lay, {{2, 3, 1}});
  EXPECT_FALSE(brute_force(job.network).found);
  EXPECT_TRUE(has_rule(job.network, plan_by_list(job.network).best.schedule, Rule::hazard));
  at(job.network.keeps, wall).hazards[0].most_for_past = 1;
  const Plans plans = expect_answer(job, {0, 0, 7});
  EXPECT_EQ(start_of(plans.list, more), 6);
  // A stop of new work does not share in it, though it is the same keep.
  Schedule sooner = plans.list;
  at(sooner.tasks, more).runs = {{4, 5, 1}};
  EXPECT_TRUE(has_rule(job.network, sooner, Rule::hazard));
  EXPECT_FALSE(replay(job.network, sooner).valid());
}

// A pour under way that ends after now is past all the same: nobody can choose it away.
TEST(History, WhatIsUnderWayMaySufferAsWhatLies) {
  Begun job;
  const auto strip = job.keep("strip", job.day).harmed_by("rain", job.day, 3, job.rain, 0);
  const auto pour = job.task("pour", job.day, 4).by(job.mason).lays(strip);
  job.did(pour, {{1, 5, 4}});
  EXPECT_FALSE(brute_force(job.network).found);
  at(job.network.keeps, strip).hazards[0].most_for_past = 1;
  expect_answer(job, {0, 0, 5});
}

// Green work counts by what was laid, on the day it was laid: two units may be green in four hours, and three
// were laid at 2-3 against the rule. From 7 on they are firm, and two more may be laid.
TEST(History, TooMuchGreenWorkHoldsUpOnlyTheNext) {
  Begun job;
  const auto wall = job.keep("wall", job.day).green(job.day, 4, 2);
  const auto lay = job.task("lay", job.day, 5).may_stop_at_every_course().lays(wall);
  job.did(lay, {{2, 3, 3}});
  const Plans plans = expect_answer(job, {0, 0, 8});
  EXPECT_EQ(runs_of(plans.list, lay), (Runs{{2, 3, 3}, {6, 8, 2}}));
}

// Five hours a day; today is hours 0-5, of which 4 and 5 are left. Three were worked: both hours still count,
// and the third is worked tomorrow. Four were worked: today holds one more.
TEST(History, ABucketHoldsWhatWasUsedBeforeNow) {
  for (const auto& [used, done] : {std::pair<Tick, Tick>{3, 7}, {4, 8}}) {
    Begun job;
    job.hours_a_day(job.mason, 6, {5, 5});
    const auto dig = job.task("dig", job.day, used).by(job.mason);
    const auto lay = job.task("lay", job.day, 3).by(job.mason).may_stop_at_every_course();
    job.did(dig, {{0, used, used}});
    const Plans plans = expect_answer(job, {0, 0, done});
    EXPECT_EQ(start_of(plans.list, lay), now);
  }
}

// Four hours of three were worked: nobody objects, but today nothing more is done.
TEST(History, ADayThatIsOverdrawnTakesNothingMore) {
  Begun job;
  job.hours_a_day(job.mason, 6, {3, 5});
  const auto dig = job.task("dig", job.day, 4).by(job.mason);
  const auto lay = job.task("lay", job.day, 1).by(job.mason);
  job.did(dig, {{0, 4, 4}});
  const Plans plans = expect_answer(job, {0, 0, 7});
  EXPECT_EQ(start_of(plans.list, lay), 6);
}

TEST(History, ACanopyIsNotMovedBeforeNow) {
  Begun job;
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"1111 111111", "1111 111111"}, {});
  const auto lay = job.task("lay", job.day, 2).under(canopy, 1);
  Plans plans = expect_answer(job, {0, 0, 7});
  at(plans.list.changes, canopy).front().at = 3;
  at(plans.list.tasks, lay).runs = {{4, 6, 2}};
  EXPECT_TRUE(has_rule(job.network, plans.list, Rule::release));
  EXPECT_EQ(replay(job.network, plans.list).broken->rule, Rule::release);
}

// He drives home from pointing that is left out; also from pointing that will not be finished.
TEST(History, LinksWhoseFirstIsUnfinishedCanBeWaived) {
  Begun job;
  const auto light = job.clock("light", "1111 100000");
  const auto wall = job.task("point", light, 4).should();
  const auto home = job.task("drive home", job.day, 2);
  job.did(wall, {{1, 3, 2}});
  job.after(wall, home).waived_if_left_out = true;
  expect_answer(job, {0, 0, 6});
  job.network.links.front().waived_if_left_out = false;
  expect_answer(job, {1, 0, 0});
}

}  // namespace
}  // namespace weatherstruck::engine::brute
