// Links and waits; the canopy.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::minutes;
using testing::Contains;
using namespace std::chrono_literals;
using trade::CoverKind;
using works::Wait;

TEST(SiteCheck, WhatComesAfterComesAfter) {
  SiteByHand site = sound_site();
  site.link("fill", "point");
  EXPECT_ONLY(site, "link");
}

TEST(SiteCheck, StartsAndFinishesAreTiedAsTheListSays) {
  SiteByHand site = sound_site();
  site.link("dig", "pour");
  site.list.links.back().kind = works::Link::Kind::start_start;
  site.list.links.back().wait = Wait::hours;
  site.list.links.back().hours = base::Hours(1.5);
  EXPECT_SOUND(site);  // 8:30 and an hour and a half
  site.list.links.back().hours = base::Hours(1.8);
  EXPECT_ONLY(site, "wait");
  site.list.links.back().kind = works::Link::Kind::finish_finish;
  site.list.links.back().hours = base::Hours(1.5);
  EXPECT_SOUND(site);  // 10:00 to 11:20 and a quarter of an hour's grace
  site.list.links.back().hours = base::Hours(1.6);
  EXPECT_ONLY(site, "wait");
}

/// Bricks on Monday evening, under lights, this long after the pour has ended at 11:20.
SiteByHand laid_after(int hours_and, int minute) {
  SiteByHand site = sound_site();
  site.job.trip.working_day.to = 24h;
  site.plan.covers.front().span.to = feb(9, 17);
  const auto start = feb(9, 11, 20) + std::chrono::hours(hours_and) + minutes(minute);
  site.place("below", start, start + minutes(105));
  site.planned("below").runs.front().floodlit = true;
  site.plan.covers.insert(site.plan.covers.begin() + 1, {"wall",
                                                         "",
                                                         false,
                                                         CoverKind::hessian,
                                                         base::SquareMetres(3),
                                                         {start + minutes(110), feb(10, 7, 45)},
                                                         false});
  site.plan.covers.insert(site.plan.covers.begin() + 1, {"strip",
                                                         "",
                                                         true,
                                                         CoverKind::hessian,
                                                         base::SquareMetres(2),
                                                         {start + minutes(110), feb(10, 7, 45)},
                                                         false});
  return site;
}

TEST(SiteCheck, AMildStripBearsBricksAfterEightHours) {
  EXPECT_SOUND(laid_after(7, 45));  // a quarter of an hour's grace
  EXPECT_ONLY(laid_after(7, 35), "wait");
}

TEST(SiteCheck, AColdStripTakesTwelve) {
  // 3 h 40 at 8 C are 0.458 of it; the rest at 4 C takes 6 h 30 from three o'clock: half past nine, less the
  // grace.
  SiteByHand site = laid_after(9, 55);
  site.temperature(feb(9, 15), feb(10, 4), 4);
  EXPECT_SOUND(site);
  site = laid_after(9, 50);
  site.temperature(feb(9, 15), feb(10, 4), 4);
  EXPECT_ONLY(site, "wait");
}

TEST(SiteCheck, BelowTwoDegreesNoTimeCountsForAStrip) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 12), feb(10, 6), 1.9);  // then 0.08 and two hours at 8 C
  EXPECT_ONLY(site, "wait");
}

TEST(SiteCheck, AHighWallWaitsTwoDaysInTheCold) {
  SiteByHand site = sound_site();
  site.link("pour", "facing", Wait::concrete_to_lay_high);
  EXPECT_ONLY(site, "wait");  // 22 h at 8 C of 48
  site.temperature(feb(9, 0), feb(14, 0), 10);
  EXPECT_ONLY(site, "wait");  // of 24
  site.list.links.pop_back();
  site.link("pour", "plates", Wait::concrete_to_lay_high);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, ABoxMayBeBegunAfterFiveHours) {
  SiteByHand site = laid_after(4, 50);
  site.list.links[2].wait = Wait::concrete_to_lay_box;
  site.plan.covers.front().span.to = feb(9, 16);
  EXPECT_SOUND(site);
  site = laid_after(4, 40);
  site.list.links[2].wait = Wait::concrete_to_lay_box;
  site.plan.covers.front().span.to = feb(9, 15, 55);
  EXPECT_ONLY(site, "wait");
}

TEST(SiteCheck, SoilWaitsADayAndTwiceThatInTheCold) {
  SiteByHand site = sound_site();
  site.place("fill", feb(11, 12, 30), feb(11, 13, 30));  // 24 h
  EXPECT_SOUND(site);
  site.temperature(feb(10, 13), feb(10, 15), 4.9);  // two hours that count for one
  EXPECT_ONLY(site, "wait");
  site.place("fill", feb(11, 13, 30), feb(11, 14, 30));
  EXPECT_SOUND(site);
}

TEST(SiteCheck, FillToTheTopWaitsTwoDays) {
  SiteByHand site = sound_site();
  site.list.links[7].wait = Wait::mortar_to_fill;
  EXPECT_ONLY(site, "wait");  // 45 h 30 from Tuesday half past twelve
  site.place("fill", feb(12, 12, 30), feb(12, 13, 10));
  site.place("straps", feb(12, 11, 45), feb(12, 12, 20));
  site.place("clear-up", feb(12, 13, 10), feb(12, 13, 40));
  drives_home(site, feb(12, 13, 40), feb(12, 16, 55));
  EXPECT_SOUND(site);
}

TEST(SiteCheck, RakedJointsArePointedWhenTheyAreFirm) {
  // Facing: 1.5 h at 20 C. At 8 C FHP 0.415, damp air 0.75, wind 1.45 m/s near the ground 1.045: 0.325 of
  // it, 4.6 h.
  SiteByHand site = sound_site();
  site.place("point", feb(10, 15, 30), feb(10, 17));
  site.plan.covers[1].span.from = feb(10, 17, 30);
  EXPECT_ONLY(site, "wait");
  site.place("point", feb(10, 17, 5), feb(10, 18, 50));
  site.planned("point").runs.front().floodlit = true;
  site.plan.covers[1].span.from = feb(10, 19);
  EXPECT_SOUND(site);
}

TEST(SiteCheck, PlatesAreStrappedAfterANight) {
  // Strap wait of the limits table: 12 h. Bedded on Wednesday at half past three in the afternoon.
  SiteByHand site = sound_site();
  site.place("plates", feb(11, 14, 30), feb(11, 15, 30));
  site.plan.covers.back().span.from = feb(11, 16);
  EXPECT_SOUND(site);
  site.job.limits.overrides = {{"strap-wait", 20}};
  EXPECT_SOUND(site);  // till half past eleven
  site.place("straps", feb(12, 11, 10), feb(12, 11, 50));
  EXPECT_ONLY(site, "wait");
  site.job.limits.overrides.clear();
  EXPECT_SOUND(site);
}

TEST(SiteCheck, FlagsAreJointedTwelveHoursAfterBedding) {
  SiteByHand site = sound_site();
  site.link("clear-up", "drive-back", Wait::bed_to_grout);
  EXPECT_ONLY(site, "wait");
}

TEST(SiteCheck, AWaitIsNotToldTooShort) {
  SiteByHand site = sound_site();
  PlannedWait wait;
  wait.part = "strip";
  wait.next = "below";
  wait.wait = Wait::concrete_to_lay;
  wait.span = {feb(9, 11, 20), feb(9, 19, 20)};
  site.plan.waits = {wait};
  EXPECT_SOUND(site);
  site.plan.waits.front().span.to = feb(9, 19);
  EXPECT_ONLY(site, "wait");
}

TEST(SiteCheck, WorkUnderTheCanopyIsUnderIt) {
  SiteByHand site = under_canopy();
  site.plan.canopy.front().part = "strip";
  EXPECT_ONLY(site, "canopy-place");
  site = under_canopy();
  site.plan.canopy.front().over.to = feb(10, 12);
  EXPECT_ONLY(site, "canopy-place");
  site = under_canopy();
  site.job.kit.canopy.reset();
  EXPECT_ONLY(site, "canopy-place");
}

TEST(SiteCheck, PitchingAndStrikingTakeTheirMinutes) {
  SiteByHand site = under_canopy();
  site.plan.canopy.front().pitch_from = feb(10, 9, 25);
  EXPECT_ONLY(site, "canopy-time");
  site = under_canopy();
  site.plan.canopy.front().struck_by = feb(10, 12, 35);
  EXPECT_ONLY(site, "canopy-time");
}

TEST(SiteCheck, MovingTheCanopyTakesItsMinutes) {
  SiteByHand site = under_canopy();
  site.job.kit.canopy->move = 20min;
  site.plan.canopy.front().struck_by = feb(10, 12, 50);
  site.plan.canopy.push_back({"strip", feb(10, 12, 30), {feb(10, 12, 50), feb(10, 14)}, feb(10, 14, 10)});
  EXPECT_SOUND(site);
  site.plan.canopy[1].over.from = feb(10, 12, 45);
  EXPECT_ONLY(site, "canopy-time");
}

TEST(SiteCheck, TheCanopyStandsOverOnePlace) {
  SiteByHand site = under_canopy();
  site.plan.canopy.push_back({"strip", feb(10, 12), {feb(10, 12, 15), feb(10, 14)}, feb(10, 14, 10)});
  EXPECT_ONLY(site, "canopy-place");
}

TEST(SiteCheck, PitchingNeedsHands) {
  SiteByHand site = under_canopy();
  site.job.crew.pop_back();
  EXPECT_ONLY(site, "people");
}

TEST(SiteCheck, TheCanopyIsDownBeforeItsGust) {
  SiteByHand site = under_canopy();
  site.gust(feb(10, 11), feb(10, 12), 10.9);
  EXPECT_SOUND(site);
  site.gust(feb(10, 11), feb(10, 12), 11);  // 25 mph, common practice
  EXPECT_ONLY(site, "canopy-gust");
}

TEST(SiteCheck, AMissingGustIsMadeFromTheWind) {
  SiteByHand site = under_canopy();
  site.hours(feb(10, 11), feb(10, 12), [](sky::Hour& h) {
    h.gust.reset();
    h.wind->value = base::MetresPerSecond(4.7);  // 2.33 times: 10.95
  });
  EXPECT_SOUND(site);
  site.hours(feb(10, 11), feb(10, 12), [](sky::Hour& h) { h.wind->value = base::MetresPerSecond(4.8); });
  EXPECT_ONLY(site, "canopy-gust");
}

TEST(SiteCheck, TheCanopyIsNotLeftUpForAWindyNight) {
  SiteByHand site = under_canopy();
  site.plan.canopy.front().over.to = feb(11, 8);
  site.plan.canopy.front().struck_by = feb(11, 8, 10);
  EXPECT_SOUND(site);
  site.gust(feb(11, 2), feb(11, 3), 8.9);  // 20 mph, common practice
  EXPECT_ONLY(site, "canopy-night");
}

TEST(SiteCheck, TheCanopyGoesHomeWithHim) {
  SiteByHand site = under_canopy();
  site.plan.canopy.push_back({"wall", feb(12, 9), {feb(12, 9, 10), feb(12, 13, 30)}, feb(12, 13, 40)});
  EXPECT_THAT(site.codes(), Contains("canopy-left")) << site.said();
}

}  // namespace
}  // namespace weatherstruck::programme
