// What must be so of the least finish whatever the network is: found by trying everything on two hundred
// random ones, each changed in a way of which the effect is known. Of each it is said how it was seen to
// fail.
#include <gtest/gtest.h>

#include <functional>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "engine/brute_force_support.h"
#include "engine/random_network_support.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/bound.h"

namespace weatherstruck::engine::brute {
namespace {

constexpr std::uint64_t networks = 200;

using Least = std::tuple<int, std::int64_t, Tick>;  // must-tasks without a place, late, last finish

// None where it is too much to try.
std::optional<Least> least_of(const Network& network) {
  const auto faults = faults_of(network);
  EXPECT_TRUE(faults.empty()) << (faults.empty() ? "" : faults.front());
  const Answer answer = brute_force(network);
  if (!answer.settled) return std::nullopt;
  return Least{answer.must_unplaced, answer.must_late, answer.finish};
}

ClockId named(const Network& network, const std::string& name) {
  for (std::size_t c = 0; c < network.clocks.size(); ++c) {
    if (network.clocks[c].name() == name) return static_cast<ClockId>(c);
  }
  ADD_FAILURE() << "no clock " << name;
  return no_clock;
}

std::vector<std::int32_t> rates_of(const Network& network, ClockId clock) {
  std::vector<std::int32_t> rates;
  for (int slot = 0; slot < network.slots; ++slot)
    rates.push_back(network.clocks[static_cast<std::size_t>(clock)].rate(slot * network.ticks_per_slot));
  return rates;
}

void put_rates(Network& network, ClockId clock, const std::vector<std::int32_t>& rates) {
  Clock& it = network.clocks[static_cast<std::size_t>(clock)];
  it = Clock(it.name(), network.ticks_per_slot, rates);
}

// Links of which rain would rather help: "when so much rain has fallen", or "not more than an hour of working
// weather later".
void without_links_that_like_rain(Network& network) {
  const ClockId time = named(network, "time");
  for (Link& link : network.links) {
    if (link.least_clock == named(network, "rain")) link.least_clock = time;
    if (link.most_clock == named(network, "hours") || link.most_clock == named(network, "brisk"))
      link.most_clock = time;
  }
}

// More falls in some slots, and nobody works in them.
Network wetter(Network network, base::Random& dice) {
  auto rain = rates_of(network, named(network, "rain"));
  auto hours = rates_of(network, named(network, "hours"));
  auto brisk = rates_of(network, named(network, "brisk"));
  for (std::size_t slot = 0; slot < rain.size(); ++slot) {
    if (!dice.chance(0.25)) continue;
    rain[slot] += dice.between(1, 2);
    hours[slot] = brisk[slot] = 0;
  }
  put_rates(network, named(network, "rain"), rain);
  put_rates(network, named(network, "hours"), hours);
  put_rates(network, named(network, "brisk"), brisk);
  return network;
}

Network with_one_more(Network network, ResourceId who) {
  for (int& there : network.resources[static_cast<std::size_t>(who)].capacity)
    ++there;
  for (Bucket& bucket : network.buckets) {
    for (std::size_t day = 0; day < bucket.limit.size() && bucket.resource == who; ++day)
      bucket.limit[day] += network.horizon();
  }
  return network;
}

// A task that leaves nothing fresh (what is laid or closed ends the care of what lies below) and on which no
// other hangs.
std::optional<TaskId> droppable(const Network& network) {
  for (std::size_t i = network.tasks.size(); i-- > 0;) {
    bool hung_on = !network.tasks[i].touches.empty();
    for (const Task& task : network.tasks)
      hung_on = hung_on || (task.presence && task.presence->task == static_cast<TaskId>(i));
    for (const CureLink& link : network.cure_links)
      hung_on = hung_on || link.to == static_cast<TaskId>(i);
    if (!hung_on) return static_cast<TaskId>(i);
  }
  return std::nullopt;
}

Network without(Network network, TaskId gone) {
  network.tasks.erase(network.tasks.begin() + gone);
  const auto touches = [&](const Link& link) { return link.from == gone || link.to == gone; };
  std::erase_if(network.links, touches);
  const auto renumber = [&](TaskId& id) { id -= id > gone ? 1 : 0; };
  for (Link& link : network.links) {
    renumber(link.from);
    renumber(link.to);
  }
  for (CureLink& link : network.cure_links)
    renumber(link.to);
  for (Task& task : network.tasks) {
    if (task.presence) renumber(task.presence->task);
  }
  return network;
}

// A day before the first on which nothing goes by, nobody is there and nothing may change.
Network later(Network network, int slots) {
  const Tick ticks = slots * network.ticks_per_slot;
  const auto count = static_cast<std::size_t>(slots);
  std::vector<std::vector<std::int32_t>> rates;
  for (std::size_t c = 0; c < network.clocks.size(); ++c) {
    rates.push_back(rates_of(network, static_cast<ClockId>(c)));
    rates.back().insert(rates.back().begin(), count, 0);
  }
  network.slots += slots;
  for (std::size_t c = 0; c < network.clocks.size(); ++c)
    put_rates(network, static_cast<ClockId>(c), rates[c]);
  for (int& day : network.day_of_slot)
    ++day;
  network.day_of_slot.insert(network.day_of_slot.begin(), count, 0);
  for (Bucket& bucket : network.buckets)
    bucket.limit.insert(bucket.limit.begin(), 0);
  for (Resource& resource : network.resources)
    resource.capacity.insert(resource.capacity.begin(), count, 0);
  for (Stateful& stateful : network.statefuls) {
    for (std::size_t state = 0; state < stateful.allowed.size(); ++state)
      stateful.allowed[state].insert(stateful.allowed[state].begin(), count, state == 0 ? 1 : 0);
  }
  for (Task& task : network.tasks) {
    task.release += ticks;
    if (task.due != never) task.due += ticks;
  }
  return network;
}

struct Seen {
  int compared = 0;
  int moved = 0;  // the least finish is another
};

// Both are found, and `judge` says whether they may stand so.
Seen hold_against(const std::function<std::optional<Network>(Network&, base::Random&)>& change,
                  const std::function<bool(const Least& before, const Least& after)>& judge) {
  Seen seen;
  for (std::uint64_t number = 1; number <= networks; ++number) {
    Network network = random_network(number);
    base::Random dice(number, 41);
    const std::optional<Network> changed = change(network, dice);
    if (!changed) continue;
    const auto before = least_of(network);
    const auto after = least_of(*changed);
    if (!before || !after) continue;
    ++seen.compared;
    seen.moved += *before != *after ? 1 : 0;
    EXPECT_TRUE(judge(*before, *after))
        << "network " << number << ": " << std::get<0>(*before) << " unplaced, " << std::get<1>(*before)
        << " late, done at " << std::get<2>(*before) << "; changed: " << std::get<0>(*after) << ", "
        << std::get<1>(*after) << ", " << std::get<2>(*after);
  }
  return seen;
}

// Seen to fail in 19 of 200 with rain taken away where it is added here.
TEST(LeastFinish, IsNeverBroughtForwardByMoreRain) {
  const Seen seen = hold_against(
      [](Network& network, base::Random& dice) -> std::optional<Network> {
        without_links_that_like_rain(network);
        return wetter(network, dice);
      },
      [](const Least& dry, const Least& wet) { return wet >= dry; });
  EXPECT_GT(seen.compared, 190);
  EXPECT_GT(seen.moved, 60);
}

// Seen to fail in 124 of 200 with one taken away where one is added.
TEST(LeastFinish, IsNeverPutBackByASecondMason) {
  const Seen seen = hold_against([](Network& network, base::Random&) { return with_one_more(network, 0); },
                                 [](const Least& alone, const Least& two) { return two <= alone; });
  EXPECT_GT(seen.compared, 190);
  EXPECT_GT(seen.moved, 40);
}

// Seen to fail in 83 of 156 with the comparison turned round, and in 1 of 96 where tasks that touch a keep
// were dropped: what is laid or closed ends the care of what lies below.
TEST(LeastFinish, IsNeverPutBackByDroppingATask) {
  const Seen seen = hold_against(
      [](Network& network, base::Random&) -> std::optional<Network> {
        const auto task = droppable(network);
        if (!task) return std::nullopt;
        return without(network, *task);
      },
      [](const Least& all, const Least& less) { return less <= all; });
  EXPECT_GT(seen.compared, 120);
  EXPECT_GT(seen.moved, 50);
}

// Seen to fail in 4 of 200 where things might change state on the day before.
TEST(LeastFinish, IsShiftedByAsMuchAsTheCalendar) {
  int ticks = 0;
  const Seen seen = hold_against(
      [&](Network& network, base::Random& dice) -> std::optional<Network> {
        const int slots = dice.between(1, 3);
        ticks = slots * network.ticks_per_slot;
        return later(network, slots);
      },
      [&](const Least& before, const Least& after) {
        const auto [unplaced, late, finish] = before;
        return after == Least{unplaced, late, finish == 0 ? 0 : finish + ticks};
      });
  EXPECT_GT(seen.compared, 190);
  EXPECT_GT(seen.moved, 120);
}

// The same of the bound, on four thousand. Seen to fail in all with the comparisons turned round.
TEST(LeastFinish, HasABoundThatMovesInTheSameWays) {
  for (std::uint64_t number = 1; number <= 4000; ++number) {
    Network network = random_network(number);
    base::Random dice(number, 43);
    without_links_that_like_rain(network);
    const Tick bound = least_finish(network);
    EXPECT_GE(least_finish(wetter(network, dice)), bound) << "wetter: network " << number;
    EXPECT_LE(least_finish(with_one_more(network, 0)), bound) << "one more: network " << number;
    const Tick shifted = least_finish(later(network, 2));
    const Tick ticks = 2 * network.ticks_per_slot;
    EXPECT_EQ(shifted, bound == never || bound == 0 ? bound : bound + ticks) << "later: network " << number;
  }
}

}  // namespace
}  // namespace weatherstruck::engine::brute
