// One thread or several: the same plans, chances and answers.
#include <atomic>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "programme/any_job.h"
#include "programme/demo_week.h"
#include "programme/plan_text.h"
#include "programme/planned_case.h"
#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/programme/follow.h"
#include "weatherstruck/programme/helps.h"
#include "weatherstruck/programme/turns.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

// So many threads, which take the last piece first.
base::Lanes threads(std::size_t count) {
  return {count, [count](std::size_t pieces, const base::Lanes::Piece& piece) {
            std::atomic<std::size_t> left = pieces;
            std::vector<std::thread> all;
            for (std::size_t lane = 0; lane < count; ++lane) {
              all.emplace_back([&, lane] {
                for (std::size_t k = left; k > 0;) {
                  if (left.compare_exchange_weak(k, k - 1)) {
                    piece(k - 1, lane);
                    k = left;
                  }
                }
              });
            }
            for (std::thread& thread : all)
              thread.join();
          }};
}

PlannedCase any(unsigned seed) {
  AnyJob made = any_job(seed);
  return {std::move(made.job), std::move(made.weather)};
}

void expect_same(const Outlook& a, const Outlook& b) {
  EXPECT_EQ(a.each, b.each);
  EXPECT_EQ(a.back, b.back);
  EXPECT_EQ(a.starts, b.starts);
  EXPECT_EQ(a.decides, b.decides);
  EXPECT_EQ(a.spoils, b.spoils);
  EXPECT_EQ(a.less, b.less);
}

TEST(SideBySide, APlanAndItsChanceAreTheSameWithOneThreadTwoAndThree) {
  std::vector<PlannedCase> cases{{works::demo_job(), demo_week()}, any(1), any(7)};
  for (const PlannedCase& it : cases) {
    const PlanResult alone = make_plan(it.request(20, 100));
    for (const std::size_t count : {2U, 3U}) {
      PlanRequest request = it.request(20, 100);
      request.lanes = threads(count);
      const PlanResult beside = make_plan(request);
      EXPECT_EQ(text_of(beside.plan), text_of(alone.plan));
      EXPECT_EQ(beside.plan.schedules, alone.plan.schedules);
      ASSERT_EQ(beside.outlook.has_value(), alone.outlook.has_value());
      expect_same(*beside.outlook, *alone.outlook);
    }
  }
}

TEST(SideBySide, TurnsAndHelpsAreTheSame) {
  const PlannedCase it{works::demo_job(), demo_week()};
  const Plan plan = make_plan(it.request(0, 100)).plan;
  const base::LocalDay day = it.job.site.zone.day_of(it.job.trip.leave_home);
  TurnRequest turns{it.job, it.list, it.weather, it.limits, plan, it.job.trip.leave_home, day};
  const std::vector<Turn> alone = turns_of(turns);
  turns.lanes = threads(2);
  const std::vector<Turn> beside = turns_of(turns);
  ASSERT_FALSE(alone.empty());
  ASSERT_EQ(beside.size(), alone.size());
  for (std::size_t k = 0; k < alone.size(); ++k) {
    EXPECT_EQ(beside[k].kind, alone[k].kind);
    EXPECT_EQ(beside[k].at, alone[k].at);
    EXPECT_EQ(beside[k].home, alone[k].home);
    EXPECT_EQ(beside[k].stops, alone[k].stops);
  }
  HelpRequest helps{it.job, it.weather, it.limits, it.job.trip.leave_home, 50, 5, 1};
  const Helps one = what_would_help(helps);
  helps.lanes = threads(2);
  const Helps two = what_would_help(helps);
  ASSERT_EQ(two.helps.size(), one.helps.size());
  for (std::size_t k = 0; k < one.helps.size(); ++k) {
    EXPECT_EQ(two.helps[k].kind, one.helps[k].kind);
    EXPECT_EQ(two.helps[k].home, one.helps[k].home);
    expect_same(two.helps[k].outlook, one.helps[k].outlook);
  }
}

TEST(PossibleTrips, WhoGivesUpALateOneEndsWellWhereTheWholeTripDoes) {
  for (const unsigned seed : {1U, 4U, 7U, 9U}) {
    const PlannedCase it = any(seed);
    const Programme programme = it.programme();
    const engine::Genes genes = settled(choose_plan(it.request(0, 100), programme));
    PossibleTrips whole(it.possible(programme, seed));
    PossibleTrips short_cut(it.possible(programme, seed));
    for (int k = 0; k < 12; ++k) {
      whole.put(k);
      short_cut.put(k);
      const engine::Schedule done = whole.done(genes);
      EXPECT_EQ(short_cut.ends_well(genes), whole.is_home(done) && whole.is_sound(done)) << seed << ' ' << k;
    }
  }
}

}  // namespace
}  // namespace weatherstruck::programme
