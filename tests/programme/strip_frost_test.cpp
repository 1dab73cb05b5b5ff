#include "weatherstruck/programme/strip_frost.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/any_job.h"
#include "programme/site_by_hand.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::programme {
namespace {

using testing::ElementsAre;
using trade::CoverKind;

/// The strip of the site by hand, 0.15 x 0.45 m at 0.35, with a night from Monday to Tuesday down to `low`.
SiteByHand frosty_site(double low, CoverKind cover) {
  SiteByHand site = sound_site();
  site.task("pour").fresh->strip =
      matter::StripShape{base::Metres(0.15), base::Metres(0.45), base::Metres(0.35)};
  site.plan.covers.front().kind = cover;
  for (int hour = 0; hour < 14; ++hour) {
    const base::Instant t = feb(9, 18) + std::chrono::hours(hour);
    site.temperature(t, t + std::chrono::hours(1), hour < 10 ? 4 + (low - 4) * hour / 10 : low);
  }
  return site;
}

std::vector<StripNight> nights(const SiteByHand& site) {
  const auto limits = trade::limits_for(site.job.limits.set, site.cold_rule);
  return strip_nights(site.job, site.list, site.weather, limits.values, site.plan, {feb(9, 18), feb(10, 8)});
}

// docs/heat.md: on a night to -3 hessian alone hardly keeps such a strip, hessian under sheet does; at -12 no
// sheet does.
TEST(StripFrost, TheBalanceDecidesWhichCoverIsEnough) {
  SiteByHand site = frosty_site(-3, CoverKind::hessian_and_sheet);
  EXPECT_SOUND(site);
  site = frosty_site(-14, CoverKind::hessian);
  EXPECT_THAT(site.codes(), testing::Contains("frost")) << site.said();
}

TEST(StripFrost, AStripLeftBareInAFrostBreaksTheRuleOfPracticeHoweverWarmTheGround) {
  SiteByHand site = frosty_site(-0.4, CoverKind::hessian_and_sheet);
  site.uncover(0);
  EXPECT_THAT(site.codes(), testing::Contains("frost")) << site.said();
}

TEST(StripFrost, TheNightOfAStripTellsItsColdestHourItsCoverAndWhatBareWouldCome) {
  const auto found = nights(frosty_site(-3, CoverKind::hessian_and_sheet));
  ASSERT_EQ(found.size(), 1U);
  const StripNight& night = found.front();
  EXPECT_EQ(night.task, "pour");
  EXPECT_EQ(night.cover, CoverKind::hessian_and_sheet);
  EXPECT_EQ(night.air.value(), -3);
  EXPECT_GT(night.coldest.value(), 0);
  EXPECT_LT(night.coldest.value(), 6);
  EXPECT_LT(night.left_bare, night.coldest);
  EXPECT_GE(night.when, feb(10, 3));
  EXPECT_TRUE(nights(frosty_site(4, CoverKind::hessian_and_sheet)).empty()) << "no frost, nothing to tell";
}

TEST(StripFrost, MoreCoverIsNeverColderAtTheColdestHour) {
  const std::array kinds{CoverKind::hessian, CoverKind::sheet, CoverKind::hessian_and_sheet, CoverKind::mat};
  base::Celsius before(-100);
  for (const CoverKind kind : kinds) {
    const auto found = nights(frosty_site(-4, kind));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_GT(found.front().coldest, before) << trade::row_for(kind).title;
    before = found.front().coldest;
  }
}

// All that draws a face is warmer than the limit: then no filter is even fitted.
TEST(StripFrost, InMildWeatherNothingIsReckoned) {
  const SiteByHand site = sound_site();  // 8 degrees throughout
  SlotTable table = make_slots(site.job.site, site.job.kit, site.weather, feb(9, 0), feb(12, 0));
  const auto limits = trade::limits_for(site.job.limits.set, site.cold_rule);
  const std::size_t strip = strip_like(table, site.job, limits.values, matter::StripShape{});
  EXPECT_TRUE(table.strips[strip].tops.empty());
  EXPECT_FALSE(table.strips[strip].filter);
  EXPECT_EQ(strip_like(table, site.job, limits.values, matter::StripShape{}), strip) << "like shapes are one";
}

TEST(StripFrost, ColderWeatherNeverLetsACoverDo) {
  const SiteByHand site = frosty_site(-2, CoverKind::hessian_and_sheet);
  const auto limits = trade::limits_for(site.job.limits.set, site.cold_rule);
  const auto tops = [&](double colder) {
    sky::Series weather = site.weather;
    for (sky::Hour& hour : weather.hours)
      hour.temperature->value = hour.temperature->value - base::Kelvins(colder);
    SlotTable table = make_slots(site.job.site, site.job.kit, weather, feb(9, 0), feb(12, 0));
    const std::size_t strip = strip_like(table, site.job, limits.values, matter::StripShape{});
    return table.strips[strip].tops;
  };
  const auto warm = tops(0), cold = tops(3);
  ASSERT_FALSE(warm.empty());
  ASSERT_EQ(warm.size(), cold.size());
  for (std::size_t h = 0; h < warm.size(); ++h) {
    for (std::size_t lane = 0; lane < 6; ++lane)
      EXPECT_LE(cold[h][lane], warm[h][lane]);
  }
}

}  // namespace
}  // namespace weatherstruck::programme
