#include "weatherstruck/programme/outlook.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "programme/site_by_hand.h"
#include "weatherstruck/programme/planner.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using testing::IsEmpty;

struct Case {
  works::Job job;
  works::TaskList list;
  sky::Series weather;

  [[nodiscard]] Outlook outlook(int weathers, std::uint64_t seed = 1) const {
    const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
    PlanRequest request{job, list, weather, limits.values, job.trip.leave_home};
    request.schedules = 60;
    request.seed = seed;
    request.weathers = weathers;
    return make_plan(request).outlook.value();
  }
};

/// The small job by hand, eleven tasks, with forecast enough.
Case small() {
  SiteByHand site = sound_site();
  site.link("point", "clear-up");
  site.link("fill", "clear-up");
  while (site.weather.end_time() < feb(16, 8)) {
    site.weather.hours.push_back(site.weather.hours.back());
    site.weather.hours.back().start += std::chrono::hours(1);
  }
  return {std::move(site.job), std::move(site.list), std::move(site.weather)};
}

Case warmer(Case it, double by) {
  for (sky::Hour& hour : it.weather.hours) {
    if (hour.temperature) hour.temperature->value = hour.temperature->value + base::Kelvins(by);
  }
  return it;
}

TEST(Outlook, IsNotAskedForUnlessWeathersAre) {
  const Case it = small();
  const auto limits = trade::limits_for(it.job.limits.set, it.job.limits.cold_rule);
  EXPECT_FALSE(make_plan({it.job, it.list, it.weather, limits.values, it.job.trip.leave_home}).outlook);
}

TEST(Outlook, CountsAddUpAndTheSameRequestGivesTheSame) {
  const Case it = small();
  const Outlook one = it.outlook(60);
  EXPECT_EQ(one.weathers, 60);
  EXPECT_LE(one.home_and_sound, one.home);
  EXPECT_LE(one.home_and_sound, one.weathers - one.spoilt);
  EXPECT_LE(one.less, one.home_and_sound);
  int late = 0;
  for (const Outlook::Decides& row : one.decides)
    late += row.times;
  EXPECT_LE(late, one.weathers - one.home);
  EXPECT_EQ(std::count(one.each.begin(), one.each.end(), 1), one.home_and_sound);
  EXPECT_TRUE(std::is_sorted(one.decides.begin(), one.decides.end(),
                             [](const auto& a, const auto& b) { return a.times > b.times; }));
  const Outlook again = it.outlook(60);
  EXPECT_EQ(again.home_and_sound, one.home_and_sound);
  EXPECT_EQ(again.starts, one.starts);
  EXPECT_EQ(again.decides, one.decides);
  EXPECT_EQ(again.spoils, one.spoils);
}

TEST(Outlook, TenthsOfAStartRise) {
  const Outlook it = small().outlook(60);
  ASSERT_EQ(it.starts.size(), small().list.tasks.size());
  std::size_t told = 0;
  for (const auto& start : it.starts) {
    if (!start) continue;
    ++told;
    EXPECT_LE(start->one, start->five);
    EXPECT_LE(start->five, start->nine);
  }
  EXPECT_GT(told, it.starts.size() / 2);
}

TEST(Outlook, AWarmDryWeekWithDaysInHandIsNearlySureAndAFrostyOneIsNot) {
  Case mild = warmer(small(), 6);
  for (sky::Hour& hour : mild.weather.hours) {
    if (hour.rain) hour.rain->value = base::Millimetres(0);
    hour.rain_chance = sky::Value<base::Fraction>{base::Fraction(0)};
  }
  mild.job.trip.home_by += std::chrono::hours(48);
  const Outlook good = mild.outlook(60);
  EXPECT_GT(good.chance(), 0.9);
  EXPECT_THAT(good.spoils, IsEmpty());
  EXPECT_LT(warmer(small(), -6).outlook(60).chance(), good.chance() - 0.2);
}

// What is said of one set of weathers is right for another, within the errors of both: the followed plan is
// the same, only the draws differ.
TEST(Outlook, TheChanceOfOneSetOfWeathersHoldsInAnother) {
  const Case it = small();
  const Outlook said = it.outlook(400, 1);
  const Outlook seen = it.outlook(400, 2);
  const double error = std::hypot(said.sampling_error(), seen.sampling_error());
  EXPECT_NEAR(said.chance(), seen.chance(), 3 * error);
}

// Agresti & Coull 1998: two of each kind added; 95 % of 100 with 80 hits: 0.71 to 0.87. Laplace's rule of
// succession, by hand: 81 of 102; nobody is told that he is sure, or that there is no hope, by a hundred
// weathers.
TEST(Outlook, ErrorIsThatOfTheSampleAndNeverZero) {
  Outlook it;
  EXPECT_EQ(it.chance(), 0);
  it.weathers = 100;
  it.home_and_sound = 80;
  EXPECT_NEAR(it.chance(), 0.79412, 0.00001);
  EXPECT_NEAR(it.sampling_error(), 0.0399, 0.0002);
  it.home_and_sound = 100;
  EXPECT_GT(it.sampling_error(), 0.01);
}

}  // namespace
}  // namespace weatherstruck::programme
