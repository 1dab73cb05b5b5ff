#include "weatherstruck/programme/build.h"

#include <algorithm>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "programme/site_by_hand.h"
#include "weatherstruck/matter/mortar.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using testing::IsEmpty;
using trade::CoverKind;

constexpr std::size_t slots_an_hour = 4;

/// A programme with the names of its tasks to look things up by.
struct Built {
  works::TaskList list;
  Programme programme;

  [[nodiscard]] const engine::Network& net() const { return programme.network; }
  [[nodiscard]] std::size_t index(const std::string& name) const {
    for (std::size_t i = 0; i < list.tasks.size(); ++i) {
      if (list.tasks[i].name == name) return i;
    }
    throw std::logic_error("no task " + name);
  }
  [[nodiscard]] const engine::Task& task(const std::string& name) const { return net().tasks[index(name)]; }
  [[nodiscard]] const std::vector<WayMeaning>& ways(const std::string& name) const {
    return programme.ways[index(name)];
  }
  [[nodiscard]] const engine::Link& link(const std::string& from, const std::string& to) const {
    for (const engine::Link& l : net().links) {
      if (static_cast<std::size_t>(l.from) == index(from) && static_cast<std::size_t>(l.to) == index(to))
        return l;
    }
    throw std::logic_error("no link " + from + " to " + to);
  }
  [[nodiscard]] const engine::Clock& clock(engine::ClockId id) const {
    return net().clocks[static_cast<std::size_t>(id)];
  }
  [[nodiscard]] const engine::Touch* touch(const std::string& name, std::size_t keep) const {
    for (const engine::Touch& t : task(name).touches) {
      if (static_cast<std::size_t>(t.keep) == keep) return &t;
    }
    return nullptr;
  }
  [[nodiscard]] std::size_t keep(const std::string& part, bool concrete) const {
    for (std::size_t k = 0; k < programme.keeps.size(); ++k) {
      if (programme.keeps[k].part == part && programme.keeps[k].concrete == concrete) return k;
    }
    throw std::logic_error("no keep on " + part);
  }
  [[nodiscard]] std::size_t slot(base::Instant t) const {
    return static_cast<std::size_t>(programme.table.tick_down(t) / kTicksPerSlot);
  }
};

Built built(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
            base::Instant now) {
  const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  return {list, build_programme(job, list, weather, limits.values, now)};
}
Built built(const SiteByHand& site) {
  return built(site.job, site.list, site.weather, site.job.trip.leave_home);
}
Built demo() {
  const works::Job job = works::demo_job();
  return built(job, works::derive_tasks(job), demo_week(), job.trip.leave_home);
}

TEST(Build, TheNetworkIsSound) {
  EXPECT_THAT(engine::faults_of(demo().net()), IsEmpty());
  EXPECT_THAT(engine::faults_of(built(sound_site()).net()), IsEmpty());
  EXPECT_THAT(engine::faults_of(built(under_canopy()).net()), IsEmpty());
}

// Promised for Thursday at nine in the evening; sixty hours later is Sunday morning, past the start of work.
TEST(Build, TheTableReachesToTheEndOfANightSixtyHoursBeyondThePromise) {
  const Built b = demo();
  EXPECT_EQ(b.programme.table.begin_time(), feb(9, 5));
  EXPECT_EQ(b.programme.table.end_time(), feb(16, 7));
  EXPECT_EQ(b.net().day_of_slot.back(), 7);
}

// ------------------------------------------------------------------------------------------------ keeps

TEST(Build, FreshWorkOfOnePartSharesItsKeep) {
  const Built b = built(sound_site());
  ASSERT_EQ(b.programme.keeps.size(), 2U);
  const std::size_t wall = b.keep("wall", false);
  for (const char* name : {"below", "facing", "point", "plates"}) {
    ASSERT_NE(b.touch(name, wall), nullptr) << name;
    EXPECT_GT(b.touch(name, wall)->lays, 0) << name;
    EXPECT_FALSE(b.touch(name, wall)->closes) << name;
  }
  EXPECT_NE(b.touch("below", wall)->layer, b.touch("facing", wall)->layer) << "rain counts for each kind";
  EXPECT_EQ(b.programme.keeps[wall].area, base::SquareMetres(3)) << "the greatest of its tasks";
  ASSERT_NE(b.touch("straps", wall), nullptr);
  EXPECT_EQ(b.touch("straps", wall)->lays, 0) << "needs the cover off and leaves nothing fresh";
  EXPECT_EQ(b.touch("pour", wall), nullptr);
  EXPECT_NE(b.touch("pour", b.keep("strip", true)), nullptr);
}

TEST(Build, ThereIsNoSecondKeepForThePartAndKind) {
  const Built b = demo();
  std::set<std::pair<std::string, bool>> seen;
  for (const KeepMeaning& meaning : b.programme.keeps) {
    EXPECT_TRUE(seen.emplace(meaning.part, meaning.concrete).second) << meaning.part;
    EXPECT_GT(meaning.area.value(), 0) << meaning.part;
  }
  EXPECT_EQ(b.programme.keeps.size(), b.net().keeps.size());
}

TEST(Build, LinesUncoverTheStripsAndTheFirstBricksEndTheirCare) {
  const Built b = demo();
  for (const char* side : {"north", "east", "south", "west"}) {
    const std::size_t strip = b.keep(std::string("shelter-") + side + "-footing", true);
    ASSERT_NE(b.touch("shelter-lines", strip), nullptr) << side;
    EXPECT_FALSE(b.touch("shelter-lines", strip)->closes) << "a strip with lines on it is as bare as before";
    for (const char* lift : {"shelter-below", "shelter-lay"}) {
      ASSERT_NE(b.touch(lift, strip), nullptr) << lift << side;
      EXPECT_TRUE(b.touch(lift, strip)->closes) << lift << side;
      EXPECT_EQ(b.touch(lift, strip)->lays, 0) << lift << side;
    }
  }
}

TEST(Build, NobodyBaresAYoungStripInFrostToLayOnIt) {
  const Built b = demo();
  for (const engine::Way& way : b.task("shelter-below").ways) {
    const auto frost = std::find_if(way.guards.begin(), way.guards.end(), [&](const engine::Guard& guard) {
      return guard.from_start && guard.most == 0 && b.clock(guard.exposure).name() == "below 0, bare";
    });
    ASSERT_NE(frost, way.guards.end());
    EXPECT_EQ(b.clock(frost->until).advance(0, frost->until_amount), 36) << "three hours";
  }
}

TEST(Build, CoversAreThoseOfTheKitAndHoldTheirArea) {
  SiteByHand site = sound_site();
  site.task("facing").fresh->cover = base::SquareMetres(3.01);
  site.job.kit.mats = base::SquareMetres(2);
  Built b = built(site);
  const std::size_t wall = b.keep("wall", false);
  EXPECT_THAT(b.programme.keeps[wall].ways,
              testing::ElementsAre(CoverKind::bare, CoverKind::sheet, CoverKind::hessian_and_sheet,
                                   CoverKind::mat, CoverKind::hessian));
  const auto& ways = b.net().keeps[wall].ways;
  EXPECT_THAT(ways[0].area, IsEmpty());
  ASSERT_EQ(ways[2].area.size(), 2U);
  EXPECT_EQ(ways[2].area[0].quantity, 31) << "tenths of a square metre, rounded up";
  for (std::size_t w = 1; w < ways.size(); ++w) {
    EXPECT_GE(ways[w].on, 1);
    EXPECT_THAT(ways[w].hands, testing::Not(IsEmpty()));
  }
  site.job.kit.mats = site.job.kit.hessian = site.job.kit.sheet = base::SquareMetres(0);
  b = built(site);
  EXPECT_THAT(b.programme.keeps[wall].ways, testing::ElementsAre(CoverKind::bare));
}

TEST(Build, OnlyAWallHigherThanADayMayLayHasAGreenHeight) {
  SiteByHand site = sound_site();
  EXPECT_FALSE(built(site).net().keeps[1].green.has_value());
  site.task("facing").courses.assign(20, 6);  // 20 x 75 mm and two courses below: 1.65 m
  const Built b = built(site);
  const std::size_t wall = b.keep("wall", false);
  ASSERT_TRUE(b.net().keeps[wall].green.has_value());
  // One millimetre of wall is a million units, whatever the task's own amount.
  const double facing = static_cast<double>(b.touch("facing", wall)->lays) *
                        static_cast<double>(b.task("facing").ways.front().amount);
  EXPECT_NEAR(facing / 1e6, 1500, 1);
}

// ------------------------------------------------------------------------------------------------- ways

TEST(Build, JointsToBeStruckMustBeHardBeforeDark) {
  const Built b = built(sound_site());
  const auto& ways = b.ways("facing");
  ASSERT_EQ(ways.size(), b.task("facing").ways.size());
  for (std::size_t w = 0; w < ways.size(); ++w) {
    const auto& guards = b.task("facing").ways[w].guards;
    const auto dark = std::find_if(guards.begin(), guards.end(), [&](const engine::Guard& guard) {
      return b.clock(guard.exposure).name() == "darkness";
    });
    if (ways[w].key != "strike") {
      EXPECT_EQ(dark, guards.end()) << ways[w].key;
      continue;
    }
    ASSERT_NE(dark, guards.end());
    EXPECT_EQ(dark->most, 0);
    EXPECT_FALSE(dark->from_start);
    const double hours = static_cast<double>(dark->until_amount) / (12.0 * kReferenceTick);
    EXPECT_NEAR(hours, matter::thumbprint_hours(matter::Suction::quick).usual.value(), 1e-3);
  }
}

TEST(Build, PointingIsThereOnlyWhereJointsAreRaked) {
  const Built b = built(sound_site());
  const engine::Task& point = b.task("point");
  ASSERT_TRUE(point.presence.has_value());
  EXPECT_EQ(static_cast<std::size_t>(point.presence->task), b.index("facing"));
  const auto& ways = b.ways("facing");
  std::vector<int> raked;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    if (ways[w].key == "rake") raked.push_back(static_cast<int>(w));
  }
  ASSERT_FALSE(raked.empty());
  EXPECT_EQ(point.presence->ways, raked);
  EXPECT_FALSE(b.task("facing").presence.has_value());
}

TEST(Build, TwoPeopleAreAWayOfTheirOwnAndATenthIsLost) {
  const Built b = built(under_canopy());  // mason and mate
  const auto& ways = b.ways("dig");
  ASSERT_EQ(ways.size(), 2U);
  EXPECT_EQ(ways[0].people, 1);
  EXPECT_EQ(ways[1].people, 2);
  const auto& dig = b.task("dig").ways;
  EXPECT_NEAR(static_cast<double>(dig[0].amount) / static_cast<double>(dig[1].amount), 2 / 1.1, 1e-3);
  EXPECT_EQ(dig[1].needs.front().quantity, 2);
  // The mate lays no bricks: two at the wall are one bricklayer.
  for (std::size_t w = 0; w < b.ways("below").size(); ++w) {
    for (const engine::Need& need : b.task("below").ways[w].needs) {
      if (b.net().resources[static_cast<std::size_t>(need.resource)].name == "bricklayers") {
        EXPECT_EQ(need.quantity, 1);
      }
    }
  }
}

// Half-brick facing: 2.0 h/m2 of a mason and 0.5 of a labourer (scribd 617796324): of 2.5 h alone the mate
// takes over a fifth. A second who lays is worth as much as in any work.
TEST(Build, AMateWhoServesTakesAFifthOffTheLayingAndOneWhoLaysAsMuchAsInOtherWork) {
  const auto times = [](const Built& b) {
    const auto& below = b.task("below").ways;
    return static_cast<double>(below.front().amount) / static_cast<double>(below.back().amount);
  };
  SiteByHand site = under_canopy();
  site.job.kit.canopy.reset();
  EXPECT_NEAR(times(built(site)), 1 / 0.8, 1e-3);
  site.job.crew.back().lays_bricks = true;
  EXPECT_NEAR(times(built(site)), 2 / 1.1, 1e-3);
}

TEST(Build, CoursesAreWhereLayingMayStopAndPoursNeverDo) {
  const Built b = built(sound_site());
  const engine::Way& facing = b.task("facing").ways.front();
  EXPECT_EQ(facing.pause, engine::Pause::at_breaks);
  EXPECT_EQ(facing.breaks.size(), 3U) << "four courses have three stops between them";
  EXPECT_EQ(b.task("pour").ways.front().pause, engine::Pause::none);
  EXPECT_EQ(b.task("dig").ways.front().pause, engine::Pause::anywhere);
}

// ----------------------------------------------------------------------------------------------- canopy

// Limits table: down before gusts of 11 m/s, not left up in a night with 8.9 m/s (20 mph).
TEST(Build, TheCanopyStandsByWindAndByNight) {
  SiteByHand site = sound_site();
  site.task("facing").length = base::Metres(3);
  site.gust(feb(10, 11), feb(10, 12), 11);
  site.gust(feb(10, 13), feb(10, 14), 10.9);
  site.gust(feb(10, 22), feb(10, 23), 8.9);
  site.gust(feb(11, 22), feb(11, 23), 8.8);
  const Built b = built(site);
  ASSERT_THAT(b.programme.canopy_places, testing::ElementsAre("wall"));
  const engine::Stateful& canopy = b.net().statefuls.front();
  ASSERT_EQ(canopy.allowed.size(), 2U);
  const auto over = [&](base::Instant t) { return canopy.allowed[1][b.slot(t)] != 0; };
  EXPECT_TRUE(over(feb(10, 10, 45)));
  EXPECT_FALSE(over(feb(10, 11)));
  EXPECT_FALSE(over(feb(10, 11, 45)));
  EXPECT_TRUE(over(feb(10, 12)));
  EXPECT_TRUE(over(feb(10, 13, 30)));
  for (int hour = 19; hour < 31; ++hour) {
    const base::Instant t = feb(10, 0) + std::chrono::hours(hour);
    EXPECT_FALSE(over(t)) << "one gust takes the whole night, hour " << hour;
    EXPECT_TRUE(over(t + std::chrono::hours(24))) << "8.8 does not, hour " << hour;
  }
  EXPECT_TRUE(over(feb(10, 18, 45)));
  EXPECT_TRUE(over(feb(11, 7)));
  for (std::size_t s = 0; s < canopy.allowed[0].size(); ++s)
    EXPECT_EQ(canopy.allowed[0][s], 1) << "down is always allowed";
  EXPECT_TRUE(std::any_of(b.ways("facing").begin(), b.ways("facing").end(),
                          [](const WayMeaning& way) { return way.under_canopy; }));
  EXPECT_FALSE(std::any_of(b.ways("dig").begin(), b.ways("dig").end(),
                           [](const WayMeaning& way) { return way.under_canopy; }));
}

TEST(Build, TheCanopysOwnLimitCountsWhereItIsLower) {
  SiteByHand site = sound_site();
  site.task("facing").length = base::Metres(3);
  site.job.kit.canopy->gust_limit = base::MetresPerSecond(7);
  site.gust(feb(10, 11), feb(10, 12), 7);
  const Built b = built(site);
  const auto& allowed = b.net().statefuls.front().allowed[1];
  EXPECT_EQ(allowed[b.slot(feb(10, 11))], 0);
  EXPECT_EQ(allowed[b.slot(feb(10, 12))], 1);
}

TEST(Build, WithoutACanopyNothingGoesOnUnderIt) {
  SiteByHand site = sound_site();
  site.task("facing").length = base::Metres(3);
  site.job.kit.canopy.reset();
  const Built b = built(site);
  EXPECT_THAT(b.net().statefuls, IsEmpty());
  for (const auto& ways : b.programme.ways) {
    for (const WayMeaning& way : ways)
      EXPECT_FALSE(way.under_canopy);
  }
}

// ------------------------------------------------------------------------------------------ people, time

TEST(Build, ADayHoldsHisHoursAndNoMoreThanTheRedLine) {
  for (const bool mate : {false, true}) {
    const Built b = built(mate ? under_canopy() : sound_site());
    const int crew = mate ? 2 : 1;
    ASSERT_EQ(b.net().buckets.size(), 2U);
    EXPECT_EQ(b.net().buckets[0].resource, b.programme.hands);
    const auto limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs);
    const int red = static_cast<int>(limits.values.hours(trade::limit::day_red_line).value() * 12);
    for (const engine::Tick most : b.net().buckets[0].limit)
      EXPECT_EQ(most, 10 * 12 * crew) << "longest day ten hours";
    for (const engine::Tick most : b.net().buckets[1].limit)
      EXPECT_EQ(most, red * crew);
    EXPECT_EQ(b.net().buckets[0].limit.size(), static_cast<std::size_t>(b.net().day_of_slot.back() + 1));
  }
}

TEST(Build, HandsAreThereInTheWorkingDayAndALittleRoundIt) {
  const Built b = built(under_canopy());
  const auto& hands = b.net().resources[static_cast<std::size_t>(b.programme.hands)].capacity;
  EXPECT_EQ(hands[b.slot(feb(10, 6, 15))], 0);
  EXPECT_EQ(hands[b.slot(feb(10, 6, 30))], 2);
  EXPECT_EQ(hands[b.slot(feb(10, 19, 45))], 2);
  EXPECT_EQ(hands[b.slot(feb(10, 20))], 0);
}

// Limits table: a quarter of an hour's rest for every two hours at the wheel.
TEST(Build, DrivesHaveTheirRests) {
  const trade::LimitValues limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values;
  EXPECT_DOUBLE_EQ(drive_with_rests(base::Hours(1), limits).value(), 1);
  EXPECT_DOUBLE_EQ(drive_with_rests(base::Hours(2), limits).value(), 2);
  EXPECT_DOUBLE_EQ(drive_with_rests(base::Hours(3), limits).value(), 3.25);
  EXPECT_DOUBLE_EQ(drive_with_rests(base::Hours(4), limits).value(), 4.25);
  EXPECT_DOUBLE_EQ(drive_with_rests(base::Hours(5), limits).value(), 5.5);
  const Built b = built(sound_site());
  ASSERT_TRUE(b.programme.drive_out && b.programme.drive_home);
  const engine::Way& home = b.task("drive-back").ways.front();
  EXPECT_EQ(home.amount, 39 * kReferenceTick) << "three and a quarter hours";
  EXPECT_EQ(b.net().tasks[static_cast<std::size_t>(*b.programme.drive_home)].due,
            b.programme.table.tick_down(feb(12, 20)));
}

TEST(Build, NothingStartsBeforeNowNorBeforeItsMaterialIsThere) {
  SiteByHand site = sound_site();
  site.task("below").materials = {{"engineering-brick", 60}};
  site.job.supplies.deliveries = {{"engineering-brick", 60, feb(10, 9, 2)}};
  const Built b = built(site.job, site.list, site.weather, feb(9, 7));
  EXPECT_EQ(b.task("dig").release, b.programme.table.tick_up(feb(9, 7)));
  EXPECT_EQ(b.task("below").release, b.programme.table.tick_up(feb(10, 9, 5)));
}

// ------------------------------------------------------------------------------------------------ links

TEST(Build, WaitsRunOnTheClockOfTheirKind) {
  const Built b = built(sound_site());
  EXPECT_EQ(b.clock(b.link("pour", "below").least_clock).name(), "strip until built on");
  EXPECT_EQ(b.link("pour", "below").least, ClockMaker::kWaitWhole);
  EXPECT_EQ(b.clock(b.link("facing", "fill").least_clock).name(), "wall until half filled");
  const engine::Link& straps = b.link("plates", "straps");
  EXPECT_EQ(b.clock(straps.least_clock).name(), "time");
  EXPECT_EQ(straps.least, 12 * 12 * kReferenceTick) << "strap wait of the limits table: 12 h";
  EXPECT_EQ(b.link("dig", "pour").least_clock, engine::no_clock);
  for (std::size_t l = 0; l < b.net().links.size(); ++l) {
    const works::Link& listed = b.list.links[b.programme.list_links[l]];
    EXPECT_EQ(b.index(listed.from), static_cast<std::size_t>(b.net().links[l].from));
    EXPECT_EQ(b.index(listed.to), static_cast<std::size_t>(b.net().links[l].to));
  }
}

TEST(Build, WhatNeedNotBeDoneHoldsUpNobodyElseWhenLeftOut) {
  SiteByHand site = sound_site();
  site.link("fill", "clear-up");
  const Built b = built(site);
  EXPECT_TRUE(b.link("fill", "clear-up").waived_if_left_out);
  EXPECT_FALSE(b.link("straps", "clear-up").waived_if_left_out);
}

// ---------------------------------------------------------------------------------------------- history

Built followed(const SiteByHand& site, base::Instant now) {
  const auto limits = trade::limits_for(site.job.limits.set, site.job.limits.cold_rule);
  return {site.list, build_programme(site.job, site.list, site.weather, limits.values, now, &site.plan)};
}

TEST(Build, WhatWasDoneBeforeNowIsHistory) {
  const SiteByHand site = sound_site();
  const base::Instant now = feb(10, 6);
  const Built b = followed(site, now);
  EXPECT_THAT(engine::faults_of(b.net()), IsEmpty());
  EXPECT_EQ(b.net().now, b.programme.table.tick_down(now));
  int whole = 0;
  for (const PlannedTask& planned : site.plan.tasks) {
    const engine::Task& task = b.task(planned.task);
    EXPECT_EQ(task.history.runs.empty(), !planned.placed() || planned.start() >= now) << planned.task;
    if (planned.placed() && planned.finish() <= now) {
      EXPECT_EQ(task.history.done(), task.ways.front().amount) << planned.task;
      ++whole;
    }
  }
  EXPECT_GE(whole, 3);
}

// A site book is written in minutes, by somebody who looks at his watch now and then.
TEST(Build, HoursFromTheBookMakeASoundHistory) {
  SiteByHand site = sound_site();
  const base::Instant now = feb(10, 15);
  const auto run = [](base::Instant from, base::Instant to, double share) {
    PlannedRun it;
    it.span = {from, to};
    it.share = share;
    return it;
  };
  site.planned("dig").runs = {run(feb(9, 9), feb(9, 9, 2), 0.25), run(feb(9, 9, 3), feb(9, 9, 4), 0.25),
                              run(feb(9, 9, 4), feb(9, 11), 0.5)};
  // Begun, by the book, before he left; and two runs in the five minutes before now.
  site.planned("pour").runs = {run(feb(9, 4, 55), feb(9, 5, 10), 1)};
  site.planned("below").runs = {run(feb(10, 14, 56), feb(10, 14, 58), 0.5),
                                run(feb(10, 14, 58), feb(10, 14, 59), 0.5)};
  const Built b = followed(site, now);
  EXPECT_THAT(engine::faults_of(b.net()), IsEmpty());
  for (const char* name : {"dig", "pour", "below"})
    EXPECT_EQ(b.task(name).history.done(), b.task(name).ways.front().amount) << name;
}

TEST(Build, NowMayLieFarBeyondTheTrip) {
  EXPECT_THAT(engine::faults_of(followed(sound_site(), feb(25, 12)).net()), IsEmpty());
}

TEST(Build, EveryCauseThatAClockNamesHasItsWords) {
  const Built b = demo();
  for (const engine::Clock& clock : b.net().clocks) {
    for (engine::Tick t = 0; t < clock.horizon(); t += kTicksPerSlot)
      ASSERT_LT(clock.cause(t), b.programme.causes.size()) << clock.name();
  }
  ASSERT_FALSE(b.programme.causes.empty());
  EXPECT_TRUE(b.programme.causes.front().code.empty());
  EXPECT_EQ(b.programme.table.slots.size() % slots_an_hour, 0U);
}

}  // namespace
}  // namespace weatherstruck::programme
