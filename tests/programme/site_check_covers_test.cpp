// What weather does to fresh work, covers as stock, green height and materials.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using testing::Contains;
using testing::ElementsAre;
using trade::CoverKind;

/// The sound plan with the concrete as a slab of its own: nothing is built on it.
SiteByHand unwalled_strip() {
  SiteByHand site = sound_site();
  for (const char* name : {"dig", "pour"}) {
    site.task(name).part = "slab";
    site.task(name).of = "slab";
  }
  site.list.links[2].wait = works::Wait::none;
  site.plan.covers.front().part = "slab";
  site.plan.covers.front().span.to = feb(11, 8);
  return site;
}

TEST(SiteCheck, SoftJointsAreKeptFromTheRain) {
  SiteByHand site = sound_site();
  site.rain(feb(10, 13), feb(10, 18), 1.2);  // five hours under hessian: 1.8 mm
  EXPECT_SOUND(site);
  site.plan.covers[1].span.from = feb(10, 15);  // two of them bare: 3.5 mm
  EXPECT_ONLY(site, "soft-in-rain");
  site.plan.covers[1].span.from = feb(10, 13);
  site.rain(feb(10, 13), feb(10, 18), 2.0);  // 3 mm through hessian
  EXPECT_ONLY(site, "soft-in-rain");
  site.plan.covers[1].kind = CoverKind::sheet;
  EXPECT_SOUND(site);
}

TEST(SiteCheck, RainOnStiffFacingJointsDoesNoHarm) {
  SiteByHand site = sound_site();
  site.task("below").fresh->kind = works::FreshWork::Kind::mortar_facing;
  // Stiff 4.6 h after half past twelve.
  site.rain(feb(10, 17), feb(10, 22), 6);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, JointsOfEngineeringBricksStaySoftLonger) {
  SiteByHand site = sound_site();
  site.rain(feb(10, 19), feb(10, 22), 6);  // 5.4 mm through the hessian; 6.5 h at 20 C are 20 h at 8 C
  ASSERT_THAT(site.codes(), ElementsAre("soft-in-rain")) << site.said();
  for (const Objection& o : site.check())
    EXPECT_EQ(o.task, "below");
}

TEST(SiteCheck, AGaleTakesTheSheetOff) {
  SiteByHand site = sound_site();
  site.plan.covers[1].kind = CoverKind::sheet;
  site.rain(feb(10, 13), feb(10, 16), 2);
  EXPECT_SOUND(site);
  site.gust(feb(10, 13), feb(10, 16), 17);  // the sheet's limit in the table of covers
  EXPECT_SOUND(site);
  site.gust(feb(10, 13), feb(10, 16), 17.1);
  EXPECT_ONLY(site, "soft-in-rain");
}

TEST(SiteCheck, FreshConcreteIsKeptFromHeavyRainUntilItSets) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 13), feb(9, 14), 6);  // 1.8 mm/h through hessian
  EXPECT_SOUND(site);
  site.rain(feb(9, 13), feb(9, 14), 7);  // 2.1
  EXPECT_ONLY(site, "wet-concrete");
  // Initial set at 46.4 F is about 12 h: long over on Tuesday morning.
  site.rain(feb(9, 13), feb(9, 14), 0);
  site.rain(feb(10, 4), feb(10, 5), 7);
  site.plan.covers.front().kind = CoverKind::hessian_and_sheet;
  EXPECT_SOUND(site);
}

TEST(SiteCheck, MortarIsKeptFromFrostUntilItIsSafe) {
  // CRREL SR 97-16: 8 h at 5 C or more.
  SiteByHand site = sound_site();
  site.plan.covers.front().kind = CoverKind::hessian_and_sheet;
  site.job.limits.overrides = {{"strip-frost-nights", 0}};
  site.temperature(feb(10, 19), feb(10, 21), -0.9);  // 6.5 h old; hessian keeps one kelvin
  EXPECT_SOUND(site);
  site.temperature(feb(10, 19), feb(10, 21), -1.1);
  ASSERT_THAT(site.codes(), ElementsAre("frost")) << site.said();
  for (const Objection& o : site.check())
    EXPECT_EQ(o.task, "facing");                            // the courses below are 9.5 h old
  site.plan.covers[1].kind = CoverKind::hessian_and_sheet;  // three kelvins
  EXPECT_SOUND(site);
  site.plan.covers[1].kind = CoverKind::hessian;
  site.temperature(feb(10, 19), feb(10, 21), 8);
  site.temperature(feb(10, 22), feb(11, 0), -1.1);  // 9.5 h old
  EXPECT_SOUND(site);
}

TEST(SiteCheck, AStripIsKeptFromFrostForTwoNights) {
  SiteByHand site = sound_site();
  site.temperature(feb(10, 2), feb(10, 4), -1.5);
  EXPECT_ONLY(site, "frost");
  site.plan.covers.front().kind = CoverKind::hessian_and_sheet;
  EXPECT_SOUND(site);
  site = unwalled_strip();
  site.temperature(feb(11, 4), feb(11, 5), -1.5);  // the second night, hessian
  ASSERT_THAT(site.codes(), ElementsAre("frost")) << site.said();
  EXPECT_EQ(site.check().front().task, "pour");
  site.temperature(feb(11, 4), feb(11, 5), 8);
  site.temperature(feb(12, 4), feb(12, 5), -1.5);  // the third
  EXPECT_SOUND(site);
}

TEST(SiteCheck, AStripUnderItsWallIsPastFrost) {
  SiteByHand site = sound_site();  // walled on Tuesday at eight
  site.temperature(feb(10, 7), feb(10, 8), -1.5);
  EXPECT_THAT(site.codes(), Contains("frost")) << site.said();
  site.temperature(feb(10, 7), feb(10, 8), 8);
  site.temperature(feb(11, 4), feb(11, 5), -1.5);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, ACoverOverTheWallKeepsItsStripTooAndBricksKeepTheRainOffIt) {
  SiteByHand site = sound_site();
  site.job.limits.overrides = {{"strip-wait-mild", 1}};
  site.place("below", feb(9, 13), feb(9, 14, 30));
  site.plan.covers.front().span = {feb(9, 12), feb(9, 12, 45)};
  PlannedCover over_wall = site.plan.covers[1];
  over_wall.kind = CoverKind::sheet;
  over_wall.span = {feb(9, 15), feb(10, 9)};
  site.plan.covers.insert(site.plan.covers.begin() + 1, over_wall);
  site.rain(feb(9, 20), feb(9, 21), 7);  // the strip, poured by 11:20, sets in about twelve hours at 8 C
  EXPECT_SOUND(site);
  site.plan.covers[1].kind = CoverKind::hessian;  // 2.1 mm/h through it
  EXPECT_ONLY(site, "soft-in-rain");              // of the wall, not of the strip beneath it
}

TEST(SiteCheck, AStrongStripNeedsNoSecondNight) {
  SiteByHand site = unwalled_strip();
  site.temperature(feb(9, 11), feb(10, 20),
                   25);  // 1.26 h in the hour: over 40 h; C20/25 wants 18 h for 5 N/mm2
  site.temperature(feb(11, 4), feb(11, 5), -1.5);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, FreshWorkIsCoveredOnWinterNights) {
  for (const std::size_t cover : {0U, 1U, 2U}) {
    SiteByHand site = sound_site();
    site.uncover(cover);
    EXPECT_ONLY(site, "bare-night");
  }
  SiteByHand site = sound_site();
  site.plan.covers[1].span.to = feb(11, 5);  // two hours short; one may be dark and bare
  EXPECT_ONLY(site, "bare-night");
}

TEST(SiteCheck, InSummerNightsAreLeftToTheForecast) {
  SiteByHand site = sound_site();
  site.plan.covers.clear();
  site.job.limits.overrides = {{"night-cover-first-month", 11}, {"night-cover-last-month", 1}};
  EXPECT_SOUND(site);
}

TEST(SiteCheck, FlagsLieCoveredBelowTwoDegreesForADay) {
  SiteByHand site = sound_site();
  site.task("point").fresh->kind = works::FreshWork::Kind::flags;
  site.temperature(feb(11, 14), feb(11, 15), 1.9);
  EXPECT_SOUND(site);
  site.plan.covers[2].span.from = feb(11, 16);
  EXPECT_ONLY(site, "frost");
}

TEST(SiteCheck, OneSheetCoversOneThing) {
  SiteByHand site = sound_site();
  site.job.kit.hessian = base::SquareMetres(3);
  EXPECT_SOUND(site);
  site.plan.covers.push_back(
      {"strip", "", true, CoverKind::hessian, base::SquareMetres(2), {feb(10, 13), feb(11, 7)}, false});
  EXPECT_ONLY(site, "cover-stock");
  // Hessian and sheet takes both.
  site.plan.covers.back().kind = CoverKind::sheet;
  site.plan.covers[1].kind = CoverKind::hessian_and_sheet;
  site.job.kit.sheet = base::SquareMetres(4.9);
  EXPECT_ONLY(site, "cover-stock");
  site.job.kit.sheet = base::SquareMetres(5);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, ACoverReachesOverAllOfThePiece) {
  SiteByHand site = sound_site();
  site.plan.covers[1].area = base::SquareMetres(2.5);
  EXPECT_ONLY(site, "cover-short");
}

TEST(SiteCheck, NobodyWorksThroughACover) {
  SiteByHand site = sound_site();
  site.plan.covers[1].span.to = feb(11, 9, 15);
  EXPECT_ONLY(site, "under-cover");
  site = sound_site();
  site.plan.covers.front().span.to = feb(10, 8, 15);  // bricks are laid on the strip
  EXPECT_ONLY(site, "under-cover");
}

TEST(SiteCheck, NoMoreGreenWallThanADayBears) {
  SiteByHand site = sound_site();
  site.task("facing").fresh->course_height = base::Metres(0.3375);  // 1350 and two courses of 75: 1500 mm
  EXPECT_SOUND(site);
  site.task("facing").fresh->course_height = base::Metres(0.338);
  EXPECT_ONLY(site, "height");
  site = sound_site();
  site.task("below").fresh->course_height = base::Metres(0.551);  // 1102 mm of engineering brick
  EXPECT_ONLY(site, "height");
}

TEST(SiteCheck, WhatIsDeliveredIsNotUsedBefore) {
  SiteByHand site = sound_site();
  site.task("facing").materials = {{"facing-brick", 126}};
  site.job.supplies.deliveries = {{"facing-brick", 130, feb(10, 9, 30)}};
  EXPECT_SOUND(site);
  site.job.supplies.deliveries.front().at = feb(10, 10);
  EXPECT_ONLY(site, "material");
  site.job.supplies.on_site = {"facing-brick"};
  EXPECT_SOUND(site);
}

TEST(SiteCheck, NothingAtAllIsSafeToCheck) {
  SiteByHand site = sound_site();
  site.plan = {};
  EXPECT_THAT(site.codes(), Contains("left-out"));
  site.list = {};
  EXPECT_SOUND(site);
}

}  // namespace
}  // namespace weatherstruck::programme
