// Rain, cold, heat, dark and noise.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using testing::Contains;
using testing::ElementsAre;
using namespace std::chrono_literals;

TEST(SiteCheck, FaceworkStopsAtOneMillimetre) {
  SiteByHand site = sound_site();
  site.rain(feb(10, 10), feb(10, 11), 0.9);
  site.place("facing", feb(10, 9, 30), feb(10, 12, 40));  // a little slower in thin rain
  EXPECT_SOUND(site);
  site.rain(feb(10, 10), feb(10, 11), 1.0);
  EXPECT_ONLY(site, "rain");
}

TEST(SiteCheck, UnderTheCanopyRainDoesNotStopHim) {
  SiteByHand site = under_canopy();
  EXPECT_SOUND(site);
  site.rain(feb(10, 10), feb(10, 11), 3);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, EachColdRuleStopsBricksAtItsOwnTemperature) {
  // NHBC 3.2.5: below 3 C and falling, from 1 C rising if more than 3 C is expected. BDA: 3 C either way.
  // NBS F30: below 3 C only with warm mortar and cover. Falling or rising is argued only where it is plain.
  const auto on_tuesday = [](trade::ColdRule rule, double celsius) {
    SiteByHand site = sound_site();
    site.cold_rule = rule;
    site.place("facing", feb(10, 9, 30), feb(10, 13));
    site.plan.covers[1].span.from = feb(10, 13);
    site.temperature(feb(10, 9), feb(10, 10), celsius);
    return site;
  };
  EXPECT_SOUND(on_tuesday(trade::ColdRule::nhbc, 1.0));
  EXPECT_ONLY(on_tuesday(trade::ColdRule::nhbc, 0.6), "cold");
  EXPECT_SOUND(on_tuesday(trade::ColdRule::bda, 2.7));
  EXPECT_ONLY(on_tuesday(trade::ColdRule::bda, 2.6), "cold");
  EXPECT_SOUND(on_tuesday(trade::ColdRule::nbs, 0.6));
  EXPECT_THAT(on_tuesday(trade::ColdRule::nbs, -0.4).codes(), Contains("cold"));  // and never below 0 C
}

TEST(SiteCheck, APlainFallBelowTheStopIsCold) {
  SiteByHand site = sound_site();
  site.cold_rule = trade::ColdRule::nhbc;
  // 4.0 and down by 0.4 an hour from six: 2.4 at ten, and 1.2 and rising would be another matter.
  for (int h = 0; h < 8; ++h)
    site.temperature(feb(10, 6 + h), feb(10, 7 + h), 4.0 - 0.4 * h);
  site.place("below", feb(10, 8), feb(10, 9, 30));
  site.place("facing", feb(10, 9, 30), feb(10, 13));
  EXPECT_ONLY(site, "cold");
}

TEST(SiteCheck, InTheColdADayMustStillBecomeWarmEnough) {
  SiteByHand site = sound_site();
  site.cold_rule = trade::ColdRule::nhbc;
  site.temperature(feb(10, 0), feb(11, 0), 2.5);
  site.place("facing", feb(10, 9, 30), feb(10, 13));
  const auto codes = site.codes();
  EXPECT_THAT(codes, Contains("cold")) << site.said();  // nothing above 3 C on that day
}

TEST(SiteCheck, ProtectedWorkInTheColdNeedsItsCover) {
  SiteByHand site = sound_site();
  site.temperature(feb(11, 9), feb(11, 10), 0.5);
  site.place("point", feb(11, 9), feb(11, 10, 30));
  site.place("plates", feb(11, 10, 40), feb(11, 11, 30));
  EXPECT_SOUND(site);
  site.uncover(2);
  EXPECT_THAT(site.codes(), ElementsAre("bare-night", "cold")) << site.said();
}

TEST(SiteCheck, NoPourIsBegunInTheCold) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 10), feb(9, 11), 1.6);
  EXPECT_ONLY(site, "cold");
}

TEST(SiteCheck, HeatStopsBricks) {
  SiteByHand site = sound_site();
  site.temperature(feb(10, 9), feb(10, 13), 31);
  EXPECT_ONLY(site, "heat");
}

/// Facing on Tuesday evening from five; dusk is at about ten to six in mid-February at 52 N.
SiteByHand in_the_evening() {
  SiteByHand site = sound_site();
  site.job.trip.working_day.to = 22h;
  site.place("facing", feb(10, 17), feb(10, 20, 45));
  site.planned("facing").runs.front().floodlit = true;
  site.plan.covers[1].span.from = feb(10, 21);
  return site;
}

TEST(SiteCheck, LightsCarryHimIntoTheEvening) {
  EXPECT_SOUND(in_the_evening());
}

TEST(SiteCheck, WithoutLightsDuskIsTheEnd) {
  SiteByHand site = in_the_evening();
  site.job.kit.floodlights = false;
  site.planned("facing").runs.front().floodlit = false;
  EXPECT_ONLY(site, "dark");
}

TEST(SiteCheck, LightsThatAreNeededAreSaid) {
  SiteByHand site = in_the_evening();
  site.planned("facing").runs.front().floodlit = false;
  EXPECT_ONLY(site, "mark");
}

TEST(SiteCheck, LinesAreNotSetUnderLights) {
  SiteByHand site = in_the_evening();
  site.task("facing").operation = trade::Operation::true_lines;
  EXPECT_THAT(site.codes(), Contains("dark"));
}

TEST(SiteCheck, TheMixerIsQuietInQuietHours) {
  SiteByHand site = sound_site();
  site.job.site.noisy.monday_to_friday = {{8h, 11h}};
  EXPECT_ONLY(site, "quiet-hours");
  site.job.site.noisy.monday_to_friday = {{8h, 11h}, {11h, 12h}};
  EXPECT_SOUND(site);
}

TEST(SiteCheck, OnADayWithoutNoisyHoursThereAreNone) {
  SiteByHand site = sound_site();
  site.job.site.noisy.monday_to_friday.clear();
  EXPECT_ONLY(site, "quiet-hours");
}

}  // namespace
}  // namespace weatherstruck::programme
