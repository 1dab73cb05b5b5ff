#include "weatherstruck/programme/turns.h"

#include <algorithm>
#include <chrono>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "programme/site_by_hand.h"
#include "weatherstruck/programme/planner.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using namespace std::chrono_literals;
using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

/// The small job by hand, its Tuesday moved to the afternoon: the two lowest courses from noon, the facing
/// courses from half past one to half past four. Without the canopy, so that rain has no answer but to wait.
SiteByHand wet_tuesday() {
  SiteByHand site = sound_site();
  site.job.kit.canopy.reset();
  for (const char* laid : {"below", "facing"})
    site.task(laid).length = base::Metres(3);
  site.place("below", feb(10, 12), feb(10, 13, 30));
  site.place("facing", feb(10, 13, 30), feb(10, 16, 30));
  site.plan.covers[0].span.to = feb(10, 12);
  site.plan.covers[1].span.from = feb(10, 16, 45);
  // Nothing is done after clearing up, and the weather reaches as far as the plan does.
  site.link("point", "clear-up");
  site.link("fill", "clear-up");
  while (site.weather.end_time() < feb(15, 20)) {
    site.weather.hours.push_back(site.weather.hours.back());
    site.weather.hours.back().start += 1h;
  }
  return site;
}

std::vector<Turn> turns(const SiteByHand& site, base::Instant now,
                        const works::Progress* progress = nullptr) {
  const auto limits = trade::limits_for(site.job.limits.set, site.job.limits.cold_rule);
  return turns_of({site.job, site.list, site.weather, limits.values, site.plan, now,
                   site.job.site.zone.day_of(now), progress});
}
std::vector<Turn> of_kind(const std::vector<Turn>& all, Turn::Kind kind) {
  std::vector<Turn> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out),
               [&](const Turn& t) { return t.kind == kind; });
  return out;
}
std::vector<works::Name> tasks_of(const std::vector<Turn::Deed>& deeds) {
  std::vector<works::Name> names;
  for (const Turn::Deed& deed : deeds)
    names.push_back(deed.task);
  return names;
}

TEST(Turns, RainStopsTheLayingAndTheRestOfTheDayIsLost) {
  // Laying in engineering brick stops at 2 mm/h, facework at 1 (limits table), so the rain is of 2 mm/h. It
  // comes with the first of it, at noon, for six hours: an hour is left before the working day ends at seven,
  // too little for either: the lowest courses take 0.25 h to set up and 0.55 h each, but a second one and the
  // facing are still to do by then.
  const std::vector<Turn> rain = of_kind(turns(wet_tuesday(), feb(10, 7)), Turn::Kind::rain);
  ASSERT_FALSE(rain.empty());
  EXPECT_EQ(rain[0].at, feb(10, 12));
  EXPECT_EQ(rain[0].until, feb(10, 18));
  EXPECT_DOUBLE_EQ(rain[0].rain.value(), 2);
  EXPECT_THAT(rain[0].stops, Contains("facing"));
  for (const Turn::Deed& deed : rain[0].then)
    EXPECT_GE(deed.span.from, feb(10, 18)) << deed.task;
}

TEST(Turns, RainInTheMiddleOfTheWorkCoversWhatIsFresh) {
  // Four and a half hours of laying from noon: the middle is a quarter past two, said as two. The courses
  // laid by half past one are soft then, and by the plan nothing lies on them before a quarter to five.
  const std::vector<Turn> rain = of_kind(turns(wet_tuesday(), feb(10, 7)), Turn::Kind::rain);
  ASSERT_EQ(rain.size(), 2U);
  EXPECT_EQ(rain[1].at, feb(10, 14));
  ASSERT_EQ(rain[1].covers.size(), 1U);
  EXPECT_EQ(rain[1].covers[0].part, "wall");
  EXPECT_FALSE(rain[1].covers[0].concrete);
  EXPECT_GE(rain[1].covers[0].span.from, feb(10, 14));
  EXPECT_THAT(rain[1].stops, ElementsAre("facing"));
}

TEST(Turns, UnderTheCanopyRainStopsNothing) {
  SiteByHand site = wet_tuesday();
  site.job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  const std::vector<Turn> rain = of_kind(turns(site, feb(10, 7)), Turn::Kind::rain);
  ASSERT_FALSE(rain.empty());
  ASSERT_EQ(rain[0].canopy.size(), 1U);
  EXPECT_EQ(rain[0].canopy[0].part, "wall");
  ASSERT_GE(rain[0].then.size(), 2U);
  EXPECT_EQ(rain[0].then[0].task, "below");
  EXPECT_EQ(rain[0].then[1].task, "facing");
  EXPECT_TRUE(rain[0].then[1].under_canopy);
  EXPECT_THAT(rain[0].stops, IsEmpty());
}

TEST(Turns, GustsTakeTheCanopyDownAndTheFaceworkWithIt) {
  // Rain of 1.5 mm/h all Tuesday, in which facework stops and engineering brick does not; the canopy stands
  // over the facework from half past one. Without it nothing of that is laid.
  SiteByHand site = wet_tuesday();
  site.job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  site.rain(feb(10, 13), feb(10, 22), 1.5);
  site.plan.canopy = {{"wall", feb(10, 13, 20), {feb(10, 13, 30), feb(10, 16, 30)}, feb(10, 16, 40)}};
  site.planned("facing").runs.front().under_canopy = true;
  const std::vector<Turn> down = of_kind(turns(site, feb(10, 7)), Turn::Kind::canopy_down);
  ASSERT_EQ(down.size(), 1U);
  EXPECT_EQ(down[0].at, feb(10, 13));
  EXPECT_EQ(down[0].until, feb(10, 19));
  EXPECT_THAT(down[0].stops, ElementsAre("facing"));
  EXPECT_THAT(down[0].canopy, IsEmpty());
}

TEST(Turns, WithoutACanopyUpGustsChangeNothing) {
  EXPECT_THAT(of_kind(turns(wet_tuesday(), feb(10, 7)), Turn::Kind::canopy_down), IsEmpty());
}

TEST(Turns, AThirdLongerRunsIntoTheEndOfTheDay) {
  // The working day ends at half past four, with the facework: of its four courses one is not laid by then.
  SiteByHand site = wet_tuesday();
  site.job.trip.working_day.to = 16h + 30min;
  const std::vector<Turn> late = of_kind(turns(site, feb(10, 7)), Turn::Kind::overrun);
  ASSERT_EQ(late.size(), 1U);
  EXPECT_EQ(late[0].task, "facing");
  EXPECT_EQ(late[0].at, feb(10, 16, 30));
  EXPECT_THAT(late[0].stops, ElementsAre("facing"));
}

TEST(Turns, AThirdLongerIsNotWorthALineWhereTheDayIsLongEnough) {
  // Half past four and three quarters of an hour more: the day ends at seven, and nothing else is planned in
  // it.
  EXPECT_THAT(of_kind(turns(wet_tuesday(), feb(10, 7)), Turn::Kind::overrun), IsEmpty());
}

TEST(Turns, BricksThatMayRunOutCostADriveToTheMerchant) {
  // 126 wanted, 126 delivered: nothing over. An hour and twenty minutes on the road from one o'clock (25 min
  // each way and half an hour there) leave no time for the facework before the day ends at half past four.
  SiteByHand site = wet_tuesday();
  site.job.trip.working_day.to = 16h + 30min;
  site.task("facing").materials = {{"facing-brick", 126}};
  site.job.supplies.merchant = works::Merchant{base::Hours(25 / 60.0), {{7h + 30min, 17h}}, {}};
  site.job.supplies.deliveries = {{"facing-brick", 126, feb(9, 8)}};
  const std::vector<Turn> shortage = of_kind(turns(site, feb(10, 7)), Turn::Kind::short_of);
  ASSERT_EQ(shortage.size(), 1U);
  EXPECT_EQ(shortage[0].material, "facing-brick");
  EXPECT_EQ(shortage[0].task, "facing");
  EXPECT_THAT(shortage[0].stops, Contains("facing"));

  // A pack of 500 is enough, whatever breaks.
  site.job.supplies.deliveries = {{"facing-brick", 500, feb(9, 8)}};
  EXPECT_THAT(of_kind(turns(site, feb(10, 7)), Turn::Kind::short_of), IsEmpty());

  // ... unless somebody counted 100 of them this morning.
  works::Progress counted;
  works::Stock stock;
  stock.material = "facing-brick";
  stock.left = 100;
  counted.stock = {stock};
  EXPECT_EQ(of_kind(turns(site, feb(10, 7), &counted), Turn::Kind::short_of).size(), 1U);
}

TEST(Turns, AMildNightThatTurnsThreeDegreesColderIsStillMild) {
  EXPECT_THAT(of_kind(turns(wet_tuesday(), feb(10, 7)), Turn::Kind::frost), IsEmpty());
}

TEST(Turns, AFrostNotForecastPutsMoreOnTheFreshWall) {
  // 1 degree forecast for the night, -2 if it turns: a hessian alone keeps 1 K (covers table), so the wall of
  // the afternoon would freeze under it; the kit has a sheet to lay over it.
  SiteByHand site = wet_tuesday();
  site.temperature(feb(10, 19), feb(11, 8), 1);
  const std::vector<Turn> frost = of_kind(turns(site, feb(10, 7)), Turn::Kind::frost);
  ASSERT_EQ(frost.size(), 1U);
  ASSERT_TRUE(frost[0].low.has_value());
  EXPECT_DOUBLE_EQ(frost[0].low->value(), -2);
  ASSERT_EQ(frost[0].covers.size(), 1U);
  EXPECT_EQ(frost[0].covers[0].part, "wall");
  EXPECT_EQ(frost[0].covers[0].kind, trade::CoverKind::hessian_and_sheet);
}

TEST(Turns, NoneIsLeftOnceTheWorkingDayIsOver) {
  EXPECT_THAT(turns(wet_tuesday(), feb(10, 20)), IsEmpty());
}

TEST(Turns, OfTheDemoAreOnTheHourLookAheadAndSayTheSameTwice) {
  const works::Job job = works::demo_job();
  const works::TaskList list = works::derive_tasks(job);
  const sky::Series weather = demo_week();
  const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  PlanRequest request{job, list, weather, limits.values, job.trip.leave_home};
  request.schedules = 200;
  const Plan plan = make_plan(request).plan;
  const base::Instant now = feb(10, 6);
  const TurnRequest ask{job, list, weather, limits.values, plan, now, job.site.zone.day_of(now), nullptr};
  const std::vector<Turn> first = turns_of(ask);
  EXPECT_THAT(first, Not(IsEmpty()));
  const std::vector<Turn> second = turns_of(ask);
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i].home, second[i].home);
    EXPECT_EQ(tasks_of(first[i].then), tasks_of(second[i].then));
    EXPECT_GE(first[i].at, now);
    for (const Turn::Deed& deed : first[i].then)
      EXPECT_GE(deed.span.from, first[i].at);
    if (first[i].kind == Turn::Kind::rain) {
      EXPECT_EQ(first[i].at, std::chrono::floor<std::chrono::hours>(first[i].at));
    }
  }
}

}  // namespace
}  // namespace weatherstruck::programme
