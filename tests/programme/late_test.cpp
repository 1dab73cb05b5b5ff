#include "weatherstruck/programme/late.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "programme/demo_week.h"
#include "weatherstruck/programme/planner.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using namespace std::chrono_literals;

struct Case {
  works::Job job;
  works::TaskList list = works::derive_tasks(job);
  sky::Series weather = demo_week();
  trade::ResolvedLimits limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  Plan plan = planned();

  [[nodiscard]] Plan planned() const {
    PlanRequest request{job, list, weather, limits.values, job.trip.leave_home};
    request.schedules = 100;
    return make_plan(request).plan;
  }
  [[nodiscard]] std::optional<Late> late(base::Instant now) const {
    return late_because({job, list, weather, limits.values, plan, now});
  }
};

works::Job home_sooner(std::chrono::hours by) {
  works::Job job = works::demo_job();
  job.importance.clear();  // nothing of it may wait
  job.fallbacks.clear();
  job.trip.home_by -= by;
  return job;
}

bool has(const Late& late, Cure::Kind kind) {
  return std::any_of(late.cures.begin(), late.cures.end(),
                     [&](const Cure& cure) { return cure.kind == kind; });
}

TEST(Late, APlanThatKeepsThePromiseHasNoCause) {
  Case trip{works::demo_job()};
  trip.plan.in_hand = 1h;
  trip.plan.home = trip.job.trip.home_by - 1h;
  trip.plan.left_out.clear();
  EXPECT_EQ(trip.late(trip.job.trip.leave_home - 1h).has_value(), !trip.plan.all_musts_placed(trip.list));
}

TEST(Late, ADayTooFewIsNotTheWeatherAndEveryCureKeepsThePromise) {
  const Case trip{home_sooner(48h)};
  const auto late = trip.late(trip.job.trip.leave_home - 1h);
  ASSERT_TRUE(late);
  EXPECT_FALSE(late->weather) << "four days of work do not go into two, in any weather";
  EXPECT_GT(late->work, 10h);
  EXPECT_TRUE(has(*late, Cure::Kind::later)) << "the demonstration's own promise is two days later";
  for (const Cure& cure : late->cures) {
    const auto by = cure.kind == Cure::Kind::later ? trip.weather.end_time() : trip.job.trip.home_by;
    EXPECT_LE(cure.home, by);
    EXPECT_EQ(cure.kind == Cure::Kind::without, !cure.part.empty());
    EXPECT_NE(std::find(late->tried.begin(), late->tried.end(), cure.kind), late->tried.end());
  }
}

TEST(Late, OnceHeHasLeftNoCureIsLookedFor) {
  const Case trip{home_sooner(48h)};
  const auto late = trip.late(trip.job.trip.leave_home + 5h);
  ASSERT_TRUE(late);
  EXPECT_TRUE(late->cures.empty());
  EXPECT_TRUE(late->tried.empty());
}

}  // namespace
}  // namespace weatherstruck::programme
