#include "weatherstruck/engine/outcome.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace weatherstruck::engine {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// One wall laid over ticks 0 to 3, that frost may harm for twelve ticks; a cover that keeps it out.
struct Wall {
  Network network;
  Schedule schedule;

  explicit Wall(std::vector<std::int32_t> frost) {
    network.slots = static_cast<int>(frost.size());
    const auto slots = static_cast<std::size_t>(network.slots);
    network.clocks.emplace_back("time", 1, std::vector<std::int32_t>(slots, 1));
    network.clocks.emplace_back("frost", 1, std::move(frost));
    Keep keep;
    keep.hazards.push_back({"frost", 12, 0});
    CoverWay bare;
    bare.until = {0};
    bare.exposure = {1};
    CoverWay sheet = bare;
    sheet.exposure = {no_clock};
    keep.ways = {bare, sheet};
    network.keeps.push_back(keep);
    Task task;
    task.ways.push_back({});
    task.ways.back().amount = 3;
    task.touches.push_back({0, 1, false, 0});
    network.tasks.push_back(task);
    schedule.tasks.push_back({true, 0, {{0, 3, 3}}});
    schedule.spells.resize(1);
  }
};

TEST(Outcome, FreshWorkIsSpoiltByWhatItSuffersBeforeItIsSafe) {
  std::vector<std::int32_t> frost(30, 0);
  frost[20] = 5;
  EXPECT_THAT(damaged_keeps(Wall(frost).network, Wall(frost).schedule), IsEmpty());
  frost[14] = 5;
  const Wall wall(frost);
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), ElementsAre(0));
}

TEST(Outcome, ACoverThatLiesThereSavesIt) {
  std::vector<std::int32_t> frost(30, 0);
  frost[10] = 5;
  Wall wall(frost);
  wall.schedule.spells[0] = {{1, 8, 12}};
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), IsEmpty());
  wall.schedule.spells[0] = {{1, 11, 14}};
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), ElementsAre(0));
}

TEST(Outcome, WhatCanBePutUpWithSpoilsNothing) {
  std::vector<std::int32_t> frost(30, 0);
  frost[10] = 5;
  Wall wall(frost);
  // Only in the first six ticks, or more than five.
  wall.network.keeps[0].hazards[0].spoils = Hazard::Spoils{6, 0};
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), IsEmpty());
  wall.network.keeps[0].hazards[0].spoils = Hazard::Spoils{12, 5};
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), IsEmpty());
  wall.network.keeps[0].hazards[0].spoils = Hazard::Spoils{12, 4};
  EXPECT_THAT(damaged_keeps(wall.network, wall.schedule), ElementsAre(0));
}

TEST(Outcome, ATaskThatOverrunsAGuardOrComesTooLateIsNamed) {
  std::vector<std::int32_t> frost(30, 0);
  frost[5] = 2;
  Wall wall(frost);
  wall.network.tasks[0].touches.clear();
  wall.network.tasks[0].ways[0].guards.push_back({0, 4, 1, 1, false});
  EXPECT_THAT(overrun_tasks(wall.network, wall.schedule), ElementsAre(0));
  wall.network.tasks[0].ways[0].guards[0].most = 2;
  EXPECT_THAT(overrun_tasks(wall.network, wall.schedule), IsEmpty());
  wall.network.tasks.push_back(wall.network.tasks[0]);
  wall.schedule.tasks.push_back({true, 0, {{8, 11, 3}}});
  Link link;
  link.from = 0;
  link.to = 1;
  link.most_clock = 0;
  link.most = 4;
  wall.network.links.push_back(link);
  EXPECT_THAT(overrun_tasks(wall.network, wall.schedule), ElementsAre(1));
}

}  // namespace
}  // namespace weatherstruck::engine
