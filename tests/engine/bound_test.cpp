#include "weatherstruck/engine/bound.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/history_support.h"
#include "engine/random_network_support.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine {
namespace {

TEST(Bound, NoPlanOfARandomNetworkEndsSooner) {
  int met = 0;
  int placed = 0;
  for (std::uint64_t number = 0; number < 1500; ++number) {
    const Network network = brute::random_network(number);
    const ListPlan plan = plan_by_list(network, {60, 1, 0, {}});
    if (plan.best.value.must_unplaced > 0) continue;
    const Tick least = least_finish(network);
    ASSERT_LE(least, plan.best.value.finish) << "network " << number;
    ++placed;
    met += least == plan.best.value.finish ? 1 : 0;
  }
  EXPECT_GT(placed, 500);
  EXPECT_GT(met, placed / 3) << "it says too little";
}

TEST(Bound, NorOfOneThatIsBegun) {
  base::Random dice(3);
  int placed = 0;
  for (std::uint64_t number = 0; number < 1500; ++number) {
    const Network fresh = brute::random_network(number);
    const ListPlan before = plan_by_list(fresh, {30, 1, 0, {}});
    const Network network = brute::with_history(fresh, before.best.schedule, dice.between(1, 6), dice);
    if (!faults_of(network).empty()) continue;
    const ListPlan plan = plan_by_list(network, {60, 1, 0, {}});
    if (plan.best.value.must_unplaced > 0) continue;
    ASSERT_LE(least_finish(network), plan.best.value.finish) << "network " << number;
    ++placed;
  }
  EXPECT_GT(placed, 500);
}

// Two hands for two days of four ticks, three of them workable; four tasks of three ticks: two on each day,
// and a drive of one tick after all.
TEST(Bound, CountsTheHoursOfEachDay) {
  Network network;
  network.slots = 12;
  for (int slot = 0; slot < 12; ++slot)
    network.day_of_slot.push_back(slot / 4);
  network.clocks.emplace_back("day", 1, std::vector<std::int32_t>{1, 1, 1, 0, 1, 1, 1, 0, 1, 1, 1, 0});
  network.resources.push_back({"hands", std::vector<int>(12, 2)});
  network.buckets.push_back({0, {6, 6, 6}});
  for (int i = 0; i < 5; ++i) {
    Task task;
    task.name = std::to_string(i);
    task.ways.push_back({});
    task.ways.back().amount = i < 4 ? 3 : 1;
    task.ways.back().needs.push_back({0, 1});
    network.tasks.push_back(task);
    Link link;
    link.from = i;
    link.to = 4;
    if (i < 4) network.links.push_back(link);
  }
  EXPECT_EQ(least_finish(network), 9);
  EXPECT_EQ(plan_by_list(network, {60, 1, 0, {}}).best.value.finish, 9);
  network.clocks.front() = Clock("never", 1, std::vector<std::int32_t>(12, 0));
  EXPECT_EQ(least_finish(network), never);
}

}  // namespace
}  // namespace weatherstruck::engine
