#include "weatherstruck/programme/choose_plan.h"

#include <numeric>
#include <tuple>
#include <vector>

#include <gtest/gtest.h>

#include "programme/any_job.h"
#include "programme/demo_week.h"
#include "programme/planned_case.h"
#include "weatherstruck/programme/follow.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

PlannedCase demo() {
  return {works::demo_job(), demo_week()};
}
PlannedCase any(unsigned seed) {
  AnyJob made = any_job(seed);
  return {std::move(made.job), std::move(made.weather)};
}

auto work_done(const engine::Value& value) {
  return std::tuple(value.must_unplaced, value.must_late, value.should_unplaced, value.may_unplaced);
}

// In weathers that neither has seen, and over some seeds: one choice alone may have been lucky.
TEST(ChosenPlan, IsSurerThanTheOneThatTheForecastAloneWouldChoose) {
  const PlannedCase it = demo();
  const Programme programme = it.programme();
  int alone_good = 0;
  int chosen_good = 0;
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    PlanRequest by_forecast = it.request(0, 600);
    by_forecast.seed = seed;
    PlanRequest by_chance = it.request(60, 600);
    by_chance.seed = seed;
    const engine::ListPlan alone = choose_plan(by_forecast, programme);
    const engine::ListPlan chosen = choose_plan(by_chance, programme);
    EXPECT_LE(work_done(chosen.best.value), work_done(alone.best.value)) << seed;
    const std::vector<int> good =
        race(it.possible(programme, 70 + seed), {settled(alone), settled(chosen)}, 0, 60);
    alone_good += good[0];
    chosen_good += good[1];
  }
  EXPECT_GT(chosen_good, alone_good + 12) << "of 240";
}

TEST(ChosenPlan, NeverDoesLessThanThatOfTheForecastAndIsOneOfItsOwnSchedules) {
  for (const unsigned seed : {1U, 4U, 7U}) {
    const PlannedCase it = any(seed);
    const Programme programme = it.programme();
    const engine::ListPlan alone = choose_plan(it.request(0, 120), programme);
    const engine::ListPlan chosen = choose_plan(it.request(20, 120), programme);
    EXPECT_LE(work_done(chosen.best.value), work_done(alone.best.value)) << seed;
    EXPECT_EQ(engine::decode(programme.network, chosen.genes).value, chosen.best.value) << seed;
  }
}

TEST(ChosenPlan, OfAMorningThatBringsNothingNewIsYesterdays) {
  const PlannedCase it = demo();
  // Long enough that the morning's search finds nothing better.
  const PlanResult first = make_plan(it.request(60, 800));
  const base::Instant next = it.job.trip.leave_home + std::chrono::hours(25);
  PlanRequest again = it.request(60);
  again.now = next;
  again.followed = &first.plan;
  again.seed = 3;
  const PlanResult second = make_plan(again);
  int moved = 0;
  for (std::size_t i = 0; i < first.plan.tasks.size(); ++i) {
    const PlannedTask& was = first.plan.tasks[i];
    const PlannedTask& is = second.plan.tasks[i];
    if (was.placed() != is.placed() || (was.placed() && was.start() != is.start())) ++moved;
  }
  EXPECT_EQ(moved, 0);
}

TEST(ChosenPlan, OfAMorningThatBreaksYesterdaysIsAnother) {
  PlannedCase it = demo();
  const PlanResult first = make_plan(it.request(60));
  const base::Instant next = it.job.trip.leave_home + std::chrono::hours(25);
  // Two wet days that nobody foresaw.
  for (sky::Hour& hour : it.weather.hours) {
    if (hour.start >= next && hour.start < next + std::chrono::hours(36))
      hour.rain = {base::Millimetres(1.5), sky::Origin::given};
  }
  PlanRequest again = it.request(60);
  again.now = next;
  again.followed = &first.plan;
  const PlanResult second = make_plan(again);
  const Programme programme = it.programme(&first.plan, next);
  const engine::ListPlan chosen = choose_plan(again, programme);
  EXPECT_EQ(engine::decode(programme.network, chosen.genes).value, chosen.best.value);
  bool moved = false;
  for (std::size_t i = 0; i < first.plan.tasks.size(); ++i) {
    const PlannedTask& was = first.plan.tasks[i];
    const PlannedTask& is = second.plan.tasks[i];
    moved = moved || was.placed() != is.placed() || (was.placed() && was.finish() != is.finish());
  }
  EXPECT_TRUE(moved);
  EXPECT_TRUE(second.objections.empty());
}

TEST(Race, GivesEachRunnerTheSameWeathersAndTheSameAnswerTwice) {
  const PlannedCase it = demo();
  const Programme programme = it.programme();
  const engine::Genes genes = settled(choose_plan(it.request(0), programme));
  const PossibleRequest where = it.possible(programme, 5);
  const std::vector<int> whole = race(where, {genes, genes}, 0, 20);
  EXPECT_EQ(whole[0], whole[1]);
  const std::vector<int> front = race(where, {genes}, 0, 8);
  const std::vector<int> back = race(where, {genes}, 8, 12);
  EXPECT_EQ(front[0] + back[0], whole[0]);
}

}  // namespace
}  // namespace weatherstruck::programme
