// Networks that are not sound, each with one fault.
#include "weatherstruck/engine/network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "engine/random_network_support.h"
#include "engine/sketch_support.h"

namespace weatherstruck::engine::brute {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// A little of everything, sound.
Sketch sound_job() {
  Sketch job(6);
  const auto work = job.clock("work", "111111");
  const auto mason = job.people("mason", 1);
  job.hours_a_day(mason, 3, {3, 3});
  const auto canopy = job.stateful("canopy", {{0, 1}, {1, 0}}, {"111111", "110011"}, {{mason}});
  const auto wall = job.keep("garden wall", work)
                        .harmed_by("rain", work, 2, work, 1)
                        .cover("canopy", work, {{mason}})
                        .stands_while(canopy, 1);
  const auto pour = job.task("pour strip", work, 2).by(mason).lays(wall);
  const auto lay = job.task("lay wall", work, 3).may_stop_at_every_course().by(mason).under(canopy, 1);
  job.task("point", work, 1).guard(work, 1, work, 2).costs(work, 1).only_if(lay, 0);
  job.after(pour, lay);
  job.cured(wall, lay, 1);
  return job;
}

/// The wall, begun before hour 2.
History& begun(Network& network, std::vector<Run> runs) {
  network.now = 2;
  network.tasks[1].history.runs = std::move(runs);
  return network.tasks[1].history;
}

struct Fault {
  std::string about;
  std::function<void(Network&)> break_it;
};

TEST(Network, ASoundOneHasNoFaults) {
  EXPECT_THAT(faults_of(sound_job().network), IsEmpty());
  Network network = sound_job().network;
  begun(network, {{0, 1, 1}, {1, 4, 2}});
  EXPECT_THAT(faults_of(network), IsEmpty());
}

TEST(Network, RandomOnesAreSound) {
  for (std::uint64_t number = 0; number < 500; ++number) {
    EXPECT_THAT(faults_of(random_network(number)), IsEmpty()) << number;
  }
}

TEST(Network, EveryFaultIsFoundAndSaysWhere) {
  const std::vector<Fault> faults = {
      {"horizon", [](Network& it) { it.slots = 0; }},
      {"horizon", [](Network& it) { it.ticks_per_slot = 0; }},
      {"now", [](Network& it) { it.now = -1; }},
      {"now", [](Network& it) { it.now = 7; }},
      {"days", [](Network& it) { it.day_of_slot.pop_back(); }},
      {"days", [](Network& it) { it.day_of_slot.push_back(1); }},
      {"days", [](Network& it) { it.day_of_slot = {1, 1, 1, 1, 1, 1}; }},
      {"days", [](Network& it) { it.day_of_slot = {-1, 0, 0, 1, 1, 1}; }},
      {"days", [](Network& it) { it.day_of_slot = {0, 0, 1, 0, 1, 1}; }},
      {"brisk",
       [](Network& it) {
         it.clocks.emplace_back("brisk", 1, std::vector<std::int32_t>{1, 1});
       }},
      {"mason", [](Network& it) { it.resources[0].capacity.pop_back(); }},
      {"bucket", [](Network& it) { it.buckets[0].resource = 3; }},
      {"bucket", [](Network& it) { it.buckets[0].limit.pop_back(); }},
      {"canopy", [](Network& it) { it.statefuls[0].change[1].pop_back(); }},
      {"canopy", [](Network& it) { it.statefuls[0].change.pop_back(); }},
      {"canopy", [](Network& it) { it.statefuls[0].change[0][1] = -1; }},
      {"canopy", [](Network& it) { it.statefuls[0].allowed[1].pop_back(); }},
      {"canopy", [](Network& it) { it.statefuls[0].allowed[0].pop_back(); }},
      {"canopy", [](Network& it) { it.statefuls[0].allowed[0].push_back(1); }},
      {"canopy", [](Network& it) { it.statefuls[0].allowed[0][2] = 0; }},
      {"canopy", [](Network& it) { it.statefuls[0].allowed.clear(); }},
      {"canopy", [](Network& it) { it.statefuls[0].hands[0].resource = 9; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways.clear(); }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[0].cure = -1; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].cure = 5; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].until.clear(); }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].until[0] = no_clock; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].exposure[0] = 8; }},
      {"garden wall", [](Network& it) { it.keeps[0].hazards[0].under_shelter = 8; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].area[0].quantity = 0; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].on = -1; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[1].state->state = 2; }},
      {"garden wall", [](Network& it) { it.keeps[0].ways[0].on = 1; }},
      {"garden wall",
       [](Network& it) {
         it.keeps[0].green = Green{4, 1, 1};
       }},
      {"pour strip", [](Network& it) { it.tasks[0].ways.clear(); }},
      {"pour strip", [](Network& it) { it.tasks[0].ways[0].clock = 2; }},
      {"pour strip", [](Network& it) { it.tasks[0].ways[0].clock = no_clock; }},
      {"pour strip", [](Network& it) { it.tasks[0].ways[0].amount = 0; }},
      {"pour strip", [](Network& it) { it.tasks[0].ways[0].setup = -1; }},
      {"pour strip", [](Network& it) { it.tasks[0].ways[0].needs[0].resource = -1; }},
      {"pour strip", [](Network& it) { it.tasks[0].touches[0].keep = 1; }},
      {"pour strip", [](Network& it) { it.tasks[0].touches[0].lays = -1; }},
      {"pour strip", [](Network& it) { it.tasks[0].touches[0].layer = -1; }},
      {"pour strip", [](Network& it) { it.tasks[0].touches[0].layer = max_layers; }},
      {"lay wall",
       [](Network& it) {
         it.tasks[1].ways[0].breaks = {2, 1};
       }},
      {"lay wall",
       [](Network& it) {
         it.tasks[1].ways[0].breaks = {1, 3};
       }},
      {"lay wall", [](Network& it) { it.tasks[1].ways[0].state->stateful = 1; }},
      {"point", [](Network& it) { it.tasks[2].ways[0].guards[0].until = 7; }},
      {"point", [](Network& it) { it.tasks[2].ways[0].guards[0].exposure = 7; }},
      {"point", [](Network& it) { it.tasks[2].ways[0].costs[0].clock = 7; }},
      {"point", [](Network& it) { it.tasks[2].presence->task = 2; }},
      {"point", [](Network& it) { it.tasks[2].presence->task = -1; }},
      {"point",
       [](Network& it) {
         it.tasks[2].presence->ways = {0, 1};
       }},
      {"point", [](Network& it) { it.tasks[2].presence->ways = {-1}; }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 1, 1}}).way = 1;
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 1, 1}}).way = -1;
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 0, 1}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{-1, 1, 1}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{1, 7, 1}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{2, 3, 1}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 1, 0}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 1, 4}});
       }},
      {"lay wall",
       [](Network& it) {
         begun(it, {{0, 2, 1}, {1, 3, 1}});
       }},
      {"link", [](Network& it) { it.links[0].to = 9; }},
      {"link", [](Network& it) { it.links[0].from = -1; }},
      {"link", [](Network& it) { it.links[0].least_clock = 9; }},
      {"link", [](Network& it) { it.links[0].most_clock = -2; }},
      {"cure link", [](Network& it) { it.cure_links[0].keep = 1; }},
      {"cure link", [](Network& it) { it.cure_links[0].to = 3; }},
  };
  for (std::size_t n = 0; n < faults.size(); ++n) {
    Network network = sound_job().network;
    faults[n].break_it(network);
    EXPECT_THAT(faults_of(network), Contains(HasSubstr(faults[n].about))) << "fault " << n;
  }
}

TEST(Network, LinksInACircleAreNamedInOrder) {
  Sketch job(6);
  const auto work = job.clock("work", "111111");
  const auto dig = job.task("dig", work, 1);
  const auto pour = job.task("pour", work, 1);
  const auto lay = job.task("lay", work, 1);
  job.task("sweep", work, 1);
  job.after(dig, pour);
  job.after(pour, lay);
  EXPECT_THAT(faults_of(job.network), IsEmpty());
  job.after(lay, dig);
  const auto faults = faults_of(job.network);
  EXPECT_THAT(faults, Contains(AllOf(HasSubstr("dig"), HasSubstr("pour"), HasSubstr("lay"),
                                     Not(HasSubstr("sweep")))));
}

TEST(Network, ATaskAfterItselfIsACircle) {
  Sketch job(6);
  const auto dig = job.task("dig", job.clock("work", "111111"), 1);
  job.after(dig, dig);
  EXPECT_THAT(faults_of(job.network), Contains(HasSubstr("dig")));
}

TEST(Network, TasksThatStartTogetherAreNoCircle) {
  Sketch job(6);
  const auto work = job.clock("work", "111111");
  const auto mix = job.task("mix", work, 1);
  const auto lay = job.task("lay", work, 1);
  job.after(mix, lay).from_edge = Edge::start;
  job.after(lay, mix).from_edge = Edge::start;
  EXPECT_THAT(faults_of(job.network), IsEmpty());
  job.network.links[1].least_clock = work;
  job.network.links[1].least = 1;
  EXPECT_THAT(faults_of(job.network), Contains(AllOf(HasSubstr("mix"), HasSubstr("lay"))));
}

TEST(Network, ATaskThatSpansAnotherIsNoCircle) {
  Sketch job(6);
  const auto work = job.clock("work", "111111");
  const auto watch = job.task("watch", work, 3);
  const auto lay = job.task("lay", work, 1);
  job.after(watch, lay).from_edge = Edge::start;
  job.after(lay, watch).to_edge = Edge::finish;
  EXPECT_THAT(faults_of(job.network), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::engine::brute
