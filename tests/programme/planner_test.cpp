#include "weatherstruck/programme/planner.h"

#include <algorithm>
#include <set>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "programme/demo_week.h"
#include "programme/plan_text.h"
#include "programme/site_by_hand.h"
#include "weatherstruck/programme/site_check.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

struct Case {
  works::Job job;
  works::TaskList list;
  sky::Series weather;
  int schedules = 500;

  [[nodiscard]] PlanResult plan() const {
    std::vector<trade::LimitSetting> settings;
    for (const works::LimitOverride& o : job.limits.overrides)
      settings.push_back({o.key, o.value});
    const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule, settings);
    PlanRequest request{job, list, weather, limits.values, job.trip.leave_home};
    request.schedules = schedules;
    return make_plan(request);
  }
};

/// The small job by hand: eleven tasks, where a few dozen decodes say all there is to say. Nothing is done
/// after clearing up, and the weather reaches as far as the plan does.
Case small(SiteByHand site = sound_site()) {
  site.link("point", "clear-up");
  site.link("fill", "clear-up");
  // Three days beyond the promise, as the last one given.
  while (site.weather.end_time() < feb(16, 8)) {
    site.weather.hours.push_back(site.weather.hours.back());
    site.weather.hours.back().start += std::chrono::hours(1);
  }
  return {std::move(site.job), std::move(site.list), std::move(site.weather), 60};
}
Case demo() {
  const works::Job job = works::demo_job();
  return {job, works::derive_tasks(job), demo_week(), 500};
}

const PlannedTask& planned(const Plan& plan, const std::string& name) {
  for (const PlannedTask& task : plan.tasks) {
    if (task.task == name) return task;
  }
  throw std::logic_error("no planned task " + name);
}

std::vector<std::string> reasons_of(const Plan& plan, const std::string& name) {
  std::vector<std::string> said;
  for (const Reason& reason : planned(plan, name).reasons)
    said.push_back(reason.code + ": " + reason.text);
  return said;
}

std::set<std::string> codes(const PlanResult& result) {
  std::set<std::string> found;
  for (const Objection& o : result.objections)
    found.insert(o.code);
  return found;
}

// ------------------------------------------------------------------------------------------------- demo

TEST(Planner, TheDemosPlanKeepsThePromiseAndBothCheckersAgree) {
  const Case c = demo();
  const PlanResult result = c.plan();
  EXPECT_EQ(text_of(result.objections), "");
  ASSERT_TRUE(result.plan.home.has_value());
  EXPECT_LE(*result.plan.home, c.job.trip.home_by);
  EXPECT_EQ(result.plan.in_hand, c.job.trip.home_by - *result.plan.home);
  EXPECT_TRUE(result.plan.all_musts_placed(c.list));
  EXPECT_EQ(result.plan.tasks.size(), c.list.tasks.size());
  // Taking in again what was left out may come on top of the budget.
  EXPECT_LE(result.plan.schedules, 500 + static_cast<int>(2 * c.list.tasks.size()));
  for (const works::Name& name : result.plan.left_out)
    EXPECT_NE(c.list.find(name)->importance, works::Importance::must) << name;
}

TEST(Planner, TheSameRequestGivesTheSamePlan) {
  const Case c = demo();
  EXPECT_EQ(text_of(c.plan().plan), text_of(c.plan().plan));
}

TEST(Planner, TheDemosNightOfFrostFindsEverythingCovered) {
  const Plan plan = demo().plan().plan;
  // Below nought from two to eight on Wednesday morning: what was laid on Tuesday lies under hessian and
  // sheet.
  const Instant coldest = feb(11, 6);
  const works::TaskList list = works::derive_tasks(works::demo_job());
  std::set<works::Name> laid;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
    const works::Task& task = list.tasks[i];
    if (!task.fresh || task.fresh->kind == works::FreshWork::Kind::concrete) continue;
    for (const PlannedRun& run : plan.tasks[i].runs) {
      if (run.span.to > feb(10, 19) && run.span.to < coldest) laid.insert(task.part);
    }
  }
  for (const works::Name& part : laid) {
    const bool covered = std::any_of(plan.covers.begin(), plan.covers.end(), [&](const PlannedCover& cover) {
      return cover.part == part && cover.kind == trade::CoverKind::hessian_and_sheet &&
             cover.span.from <= coldest && cover.span.to > coldest;
    });
    EXPECT_TRUE(covered) << part;
  }
}

// ------------------------------------------------------------------------------------------ small plans

TEST(Planner, TheSmallJobIsHomeAndSound) {
  const Case c = small();
  const PlanResult result = c.plan();
  EXPECT_EQ(text_of(result.objections), "");
  ASSERT_TRUE(result.plan.home.has_value());
  EXPECT_LE(*result.plan.home, c.job.trip.home_by);
  EXPECT_THAT(result.plan.left_out, IsEmpty());
  EXPECT_THAT(result.plan.assumptions, IsEmpty());
  EXPECT_THAT(result.plan.covers, Not(IsEmpty())) << "February: fresh work is covered at night";
}

TEST(Planner, AReasonNamesTheLimitAndTheValue) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 0), feb(10, 12), 3);
  const Plan plan = small(std::move(site)).plan().plan;
  EXPECT_THAT(reasons_of(plan, "pour"), Contains("rain: rain 3.0 mm/h, stops at 2"));
  EXPECT_GE(planned(plan, "pour").start(), feb(10, 12));
  EXPECT_THAT(reasons_of(plan, "below"), Contains(HasSubstr("wait: waits for: pour")));
  for (const Reason& reason : planned(plan, "pour").reasons)
    EXPECT_LT(reason.span.from, reason.span.to);
}

TEST(Planner, ColdAndQuietHoursAreNamedToo) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 0), feb(9, 15), 1);
  const Plan cold = small(std::move(site)).plan().plan;
  EXPECT_THAT(reasons_of(cold, "pour"), Contains("cold: 1 \u00b0C, no pour below 2"));
  SiteByHand late = sound_site();
  late.job.site.noisy.monday_to_friday = {{std::chrono::hours(16), std::chrono::hours(18)}};
  EXPECT_THAT(reasons_of(small(std::move(late)).plan().plan, "pour"),
              Contains(HasSubstr("quiet-hours: quiet hours")));
}

TEST(Planner, AnImpossiblePromiseGivesAPlanThatSaysHowLate) {
  SiteByHand site = sound_site();
  site.job.trip.home_by = feb(10, 12);  // nobody walls a strip of Monday and is home by Tuesday noon
  const Case c = small(std::move(site));
  const PlanResult result = c.plan();
  ASSERT_TRUE(result.plan.home.has_value());
  EXPECT_TRUE(result.plan.all_musts_placed(c.list));
  EXPECT_GT(*result.plan.home, c.job.trip.home_by);
  EXPECT_EQ(result.plan.in_hand, c.job.trip.home_by - *result.plan.home);
  EXPECT_LT(result.plan.in_hand.count(), 0);
  EXPECT_EQ(text_of(result.objections), "");
}

TEST(Planner, WorkBeyondTheForecastIsMarkedAndWhatStandsInIsTold) {
  SiteByHand site = sound_site();
  site.hours(feb(10, 9), feb(14, 0), [](sky::Hour& hour) { hour.rain.reset(); });
  const PlanResult result = small(std::move(site)).plan();
  EXPECT_EQ(text_of(result.objections), "");
  EXPECT_EQ(result.plan.forecast_until, feb(10, 9));
  EXPECT_THAT(result.plan.assumptions, Contains(HasSubstr("the same hour of the day before")));
  int beyond = 0;
  for (const PlannedTask& task : result.plan.tasks) {
    for (const PlannedRun& run : task.runs) {
      EXPECT_EQ(run.beyond_forecast, run.span.to > feb(10, 9)) << task.task;
      beyond += run.beyond_forecast ? 1 : 0;
    }
  }
  EXPECT_GT(beyond, 0);
}

TEST(Planner, MissingGustsAreTold) {
  SiteByHand site = sound_site();
  site.hours(feb(9, 0), feb(14, 0), [](sky::Hour& hour) { hour.gust.reset(); });
  const PlanResult result = small(std::move(site)).plan();
  EXPECT_EQ(text_of(result.objections), "");
  EXPECT_THAT(result.plan.assumptions, Contains(HasSubstr("Gusts")));
}

TEST(Planner, TwoAreNoSlowerThanOneAndBothAreKeptWithinTheirHours) {
  SiteByHand site = sound_site();
  const PlanResult alone = small(site).plan();
  site.job.crew.push_back({"mate", false, 1.0});
  const PlanResult both = small(std::move(site)).plan();
  EXPECT_EQ(text_of(both.objections), "");
  ASSERT_TRUE(alone.plan.home && both.plan.home);
  EXPECT_LE(*both.plan.home, *alone.plan.home);
}

TEST(Planner, WorkThatWantsTwoIsDoneByTwo) {
  SiteByHand site = sound_site();
  site.task("plates").people = 2;
  site.job.crew.push_back({"mate", false, 1.0});
  const PlanResult result = small(std::move(site)).plan();
  ASSERT_TRUE(planned(result.plan, "plates").placed()) << text_of(result.plan);
  EXPECT_EQ(planned(result.plan, "plates").people, 2);
  EXPECT_EQ(text_of(result.objections), "");
}

TEST(Planner, InFrostWithoutCoversMasonryIsLeftOutAndNotExposed) {
  SiteByHand site = sound_site();
  for (const unsigned night : {9U, 10U, 11U, 12U, 13U})
    site.temperature(feb(night, 0), feb(night, 8), -3);
  for (const unsigned night : {9U, 10U, 11U, 12U, 13U})
    site.temperature(feb(night, 18), feb(night, 23, 30), -3);
  site.job.kit.canopy.reset();
  site.job.kit.hessian = site.job.kit.sheet = base::SquareMetres(0);
  const PlanResult result = small(std::move(site)).plan();
  EXPECT_THAT(result.plan.left_out, Contains("pour"));
  EXPECT_THAT(result.plan.left_out, Contains("facing"));
  EXPECT_TRUE(planned(result.plan, "dig").placed()) << "frost stops no spade";
  EXPECT_EQ(codes(result), std::set<std::string>{"left-out"});
  EXPECT_THAT(reasons_of(result.plan, "pour"), Contains(HasSubstr("cover: ")));
  EXPECT_FALSE(result.plan.all_musts_placed(small().list));
}

TEST(Planner, TheCanopyLetsFacingGoOnInTheRain) {
  SiteByHand site = sound_site();
  site.job.kit.canopy.reset();
  site.rain(feb(10, 6), feb(12, 20), 1.2);
  site.task("facing").length = base::Metres(3);
  const Plan without = small(site).plan().plan;
  site.job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  const PlanResult with = small(std::move(site)).plan();
  ASSERT_TRUE(planned(with.plan, "facing").placed());
  EXPECT_TRUE(planned(with.plan, "facing").runs.front().under_canopy);
  EXPECT_THAT(with.plan.canopy, Not(IsEmpty()));
  EXPECT_TRUE(!planned(without, "facing").placed() ||
              planned(without, "facing").finish() > planned(with.plan, "facing").finish());
  for (const std::string& code : codes(with))
    EXPECT_EQ(code, "left-out") << text_of(with.objections);
}

// All day drizzle, light enough to lay in, and no canopy. The lower lift, left at half past eight, is soft
// for four hours and more: at 0.5 mm/h it has seen the 2 mm that it bears by half past twelve. The facing
// laid on it meanwhile does not end its care. (Weather invented; 2 mm is the limits table's.)
TEST(Planner, RainOnALiftCountsOnWhileTheNextIsLaid) {
  for (const double drizzle : {0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.5}) {
    SiteByHand site = sound_site();
    site.job.kit.canopy.reset();
    for (int day = 9; day <= 12; ++day)
      site.rain(feb(static_cast<unsigned>(day), 8), feb(static_cast<unsigned>(day), 16), drizzle);
    const PlanResult result = small(std::move(site)).plan();
    EXPECT_THAT(codes(result), Not(Contains("soft-in-rain"))) << drizzle << "\n"
                                                              << text_of(result.objections);
  }
}

// ------------------------------------------------------------------------------------------- properties

SiteByHand any_weather() {
  SiteByHand site = sound_site();
  const auto rain =
      *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(0, 100));
  const int mild = *rc::gen::inRange(-30, 90);
  const auto air = *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(0, 50));
  const auto gust =
      *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(0, 200));
  for (std::size_t i = 0; i < site.weather.hours.size(); ++i) {
    sky::Hour& hour = site.weather.hours[i];
    hour.rain->value = base::Millimetres(std::max(0, rain[i] - 70) / 10.0);
    hour.temperature->value = base::Celsius((mild + air[i]) / 10.0);
    hour.gust->value = base::MetresPerSecond(gust[i] / 10.0);
  }
  return site;
}

// Whatever the weather: what is placed may be followed. What cannot be done is left out, and that is all that
// either checker has to say; where not even the drive home has a place, work may also lie past the promise.
RC_GTEST_PROP(PlannerProperty, NoWeatherMakesAPlanThatBreaksARule, ()) {
  SiteByHand site = any_weather();
  if (*rc::gen::arbitrary<bool>()) site.job.kit.canopy.reset();
  if (*rc::gen::arbitrary<bool>()) site.job.kit.hessian = base::SquareMetres(0);
  if (*rc::gen::arbitrary<bool>()) site.job.crew.push_back({"mate", *rc::gen::arbitrary<bool>(), 0.8});
  site.task("facing").length = base::Metres(3);
  Case c = small(std::move(site));
  c.schedules = 20;
  const PlanResult result = c.plan();
  for (const Objection& o : result.objections) {
    const bool told = o.code == "left-out" || (o.code == "outside-trip" && !result.plan.home);
    if (!told) RC_FAIL(text_of(result.objections));
  }
}

// A search within a budget need not find the better plan that a drier week allows, so "never later" does not
// hold. What holds: a plan that may be followed in rain may be followed without it.
RC_GTEST_PROP(PlannerProperty, APlanForRainHoldsInTheDry, ()) {
  Case c = small(any_weather());
  c.schedules = 20;
  const PlanResult in_rain = c.plan();
  for (sky::Hour& hour : c.weather.hours)
    hour.rain->value = base::Millimetres(0);
  const auto limits = trade::limits_for(c.job.limits.set, c.job.limits.cold_rule);
  const auto in_the_dry = check_on_site(c.job, c.list, c.weather, limits.values, in_rain.plan);
  RC_ASSERT(in_the_dry.size() <= in_rain.objections.size());
  for (const Objection& o : in_the_dry)
    RC_ASSERT(codes(in_rain).count(o.code) == 1);
}

TEST(Planner, AWetWeekBringsHimHomeLaterThanADryOne) {
  SiteByHand site = sound_site();
  const Plan dry = small(site).plan().plan;
  site.rain(feb(9, 0), feb(10, 15), 4);
  const Plan wet = small(std::move(site)).plan().plan;
  ASSERT_TRUE(dry.home && wet.home);
  EXPECT_GT(*wet.home, *dry.home);
}

}  // namespace
}  // namespace weatherstruck::programme
