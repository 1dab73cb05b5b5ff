// People and the road: hands, hours of day, rests, the trip at both ends.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::minutes;
using testing::Contains;
using testing::ElementsAre;
using namespace std::chrono_literals;

TEST(SiteCheck, OneMasonIsInOnePlace) {
  SiteByHand site = sound_site();
  site.place("fill", feb(12, 11, 30), feb(12, 12, 30));
  EXPECT_ONLY(site, "people");
  site.job.crew.push_back({"mate", false, 1.0});
  EXPECT_SOUND(site);
}

TEST(SiteCheck, TwoAreNotOne) {
  SiteByHand site = sound_site();
  site.task("dig").people = 2;
  EXPECT_THAT(site.codes(), Contains("people"));
}

TEST(SiteCheck, EverybodyDrivesHomeTogether) {
  SiteByHand site = sound_site();
  site.job.crew.push_back({"mate", false, 1.0});
  EXPECT_SOUND(site);
  site.list.links.pop_back();
  site.place("clear-up", feb(12, 12, 35), feb(12, 13, 5));
  EXPECT_THAT(site.codes(), Contains("people"));
}

TEST(SiteCheck, ALabourerDoesNotLay) {
  SiteByHand site = sound_site();
  site.job.crew.push_back({"mate", false, 1.0});
  site.list.links.erase(site.list.links.begin() + 3);  // facing need not wait for the courses below
  site.place("facing", feb(10, 9), feb(10, 12));
  EXPECT_ONLY(site, "mason");
  site.job.crew.back().lays_bricks = true;
  EXPECT_SOUND(site);
}

TEST(SiteCheck, TheWorkingDayBindsBothEnds) {
  SiteByHand site = sound_site();
  site.job.trip.working_day.from = 8h + 5min;
  EXPECT_ONLY(site, "off-hours");
  site = sound_site();
  site.job.trip.working_day.to = 12h + 50min;
  EXPECT_ONLY(site, "off-hours");
}

TEST(SiteCheck, TheWorkingDayIsOfTheSitesClock) {
  SiteByHand site = sound_site();
  site.job.site.zone = base::Zone::fixed("one hour behind", -1h);
  site.job.site.noisy.monday_to_friday = {{7h, 18h}};
  site.job.trip.working_day.from = 7h;  // at the site the first bricks are laid at seven
  EXPECT_SOUND(site);
  site.job.trip.working_day.from = 7h + 5min;
  EXPECT_ONLY(site, "off-hours");
}

TEST(SiteCheck, ADayIsNoLongerThanAgreed) {
  SiteByHand site = sound_site();
  site.job.trip.longest_day = base::Hours(4);  // Tuesday has four and a half hours
  EXPECT_ONLY(site, "long-day");
}

TEST(SiteCheck, WorkAndDrivingKeepBelowTheRedLine) {
  SiteByHand site = sound_site();
  site.job.limits.overrides = {{"day-red-line", 6}};  // Monday: 3 h at the wheel, 2 h 50 of work
  EXPECT_SOUND(site);
  site.place("dig", feb(9, 8, 15), feb(9, 10));
  EXPECT_ONLY(site, "day-red-line");
}

TEST(SiteCheck, HeSleepsBeforeHeDrivesHome) {
  SiteByHand site = sound_site();
  site.job.limits.overrides = {{"rest-before-drive", 14}};
  // From Wednesday 13:00: nothing till the fill on Thursday at ten: 21 h off.
  EXPECT_SOUND(site);
  site.job.trip.working_day = {0h, 24h};
  auto& runs = site.planned("clear-up").runs;
  runs.push_back(runs.front());
  runs[0].span = {feb(12, 0), feb(12, 1)};
  runs[0].share = runs[1].share = 0.5;
  runs[0].floodlit = true;
  site.list.links.erase(site.list.links.end() - 2);
  EXPECT_ONLY(site, "rest-before-drive");
}

TEST(SiteCheck, NothingIsDoneInAFixedTime) {
  SiteByHand site = sound_site();
  site.job.fixed = {{"funeral next door", feb(11, 10), feb(11, 10, 15)}};
  EXPECT_ONLY(site, "fixed-time");
}

/// A trip to the merchant on Wednesday afternoon.
SiteByHand with_a_fetch(base::Instant from, base::Instant to) {
  SiteByHand site = sound_site();
  site.job.supplies.merchant = works::Merchant{base::Hours(0.5), {{7h + 30min, 17h}}, {{8h, 12h}}};
  works::Task task = site.task("clear-up");
  task.name = "fetch";
  task.operation = trade::Operation::fetch;
  task.hours = base::Hours(1.5);
  task.outdoors = false;
  site.list.tasks.push_back(task);
  PlannedTask planned;
  planned.task = "fetch";
  site.plan.tasks.push_back(planned);
  site.place("fetch", from, to);
  // The drive home stays the last drive of the list.
  std::swap(site.list.tasks.back(), *(site.list.tasks.end() - 2));
  std::swap(site.plan.tasks.back(), *(site.plan.tasks.end() - 2));
  return site;
}

TEST(SiteCheck, TheMerchantServesInHisHours) {
  EXPECT_SOUND(with_a_fetch(feb(11, 16), feb(11, 17, 30)));                 // there from 16:30 to 17:00
  EXPECT_ONLY(with_a_fetch(feb(11, 16, 15), feb(11, 17, 45)), "merchant");  // till 17:15
}

TEST(SiteCheck, NobodySetsOffBeforeTheTrip) {
  SiteByHand site = sound_site();
  site.place("drive-out", feb(9, 4, 45), feb(9, 8));
  EXPECT_ONLY(site, "outside-trip");
}

TEST(SiteCheck, NothingIsDoneBeforeHeIsThere) {
  SiteByHand site = sound_site();
  site.list.links.erase(site.list.links.begin());
  site.job.crew.push_back({"mate", true, 1.0});
  site.place("dig", feb(9, 8), feb(9, 9, 30));
  EXPECT_THAT(site.codes(), ElementsAre("outside-trip", "people")) << site.said();
}

TEST(SiteCheck, NothingIsDoneAfterHeHasLeft) {
  SiteByHand site = sound_site();
  site.list.links.erase(site.list.links.end() - 2, site.list.links.end());
  site.place("clear-up", feb(12, 17), feb(12, 17, 35));
  EXPECT_ONLY(site, "outside-trip");
}

TEST(SiteCheck, TheDriveHasItsRest) {
  // 3 h at the wheel and a quarter of an hour: common practice, a rest in every two hours.
  SiteByHand site = sound_site();
  site.place("drive-out", feb(9, 5), feb(9, 8));
  EXPECT_ONLY(site, "drive-short");
  site = sound_site();
  drives_home(site, feb(12, 13), feb(12, 16, 10));
  EXPECT_ONLY(site, "drive-short");
}

TEST(SiteCheck, HomeAndHoursInHandAgreeWithTheDrive) {
  SiteByHand site = sound_site();
  EXPECT_EQ(site.plan.in_hand, minutes(225));  // 16:15 to 20:00
  site.plan.in_hand += minutes(5);
  EXPECT_ONLY(site, "home");
  site = sound_site();
  site.plan.home = *site.plan.home - 15min;
  EXPECT_ONLY(site, "home");
  site = sound_site();
  site.plan.home.reset();
  EXPECT_ONLY(site, "home");
}

TEST(SiteCheck, LateIsNotUnsoundWhenItIsSaid) {
  SiteByHand site = sound_site();
  site.job.trip.home_by = feb(12, 16);
  site.plan.in_hand = -15min;
  EXPECT_SOUND(site);
}

}  // namespace
}  // namespace weatherstruck::programme
