// What a clock costs beside the plain loop that it replaces, and a decode beside one pass over its tables.
#include <benchmark/benchmark.h>

#include <cstdint>
#include <numeric>
#include <vector>

#include "weatherstruck/engine/clock.h"
#include "weatherstruck/engine/decode.h"

namespace {

using namespace weatherstruck::engine;

constexpr int kSlots = 960;  // ten days of quarter hours
constexpr int kTicks = 3;

// A rate that stops at night and in showers; any numbers will do, these are fixed.
std::vector<std::int32_t> rates() {
  std::vector<std::int32_t> list(kSlots);
  for (int slot = 0; slot < kSlots; ++slot) {
    const int hour = slot / 4 % 24;
    const bool shower = slot * 7919 % 23 < 3;
    list[static_cast<std::size_t>(slot)] = hour >= 7 && hour < 20 && !shower ? 1000 - 50 * (slot % 5) : 0;
  }
  return list;
}

void advance_by_clock(benchmark::State& state) {
  const Clock clock("work", kTicks, rates());
  Tick from = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(clock.advance(from, 60'000));
    from = (from + 37) % 1500;
  }
}
BENCHMARK(advance_by_clock);

void advance_by_loop(benchmark::State& state) {
  const auto list = rates();
  Tick from = 0;
  for (auto _ : state) {
    Amount left = 60'000;
    Tick t = from;
    while (left > 0 && t < kSlots * kTicks)
      left -= list[static_cast<std::size_t>(t++ / kTicks)];
    benchmark::DoNotOptimize(t);
    from = (from + 37) % 1500;
  }
}
BENCHMARK(advance_by_loop);

// A chain of walls: each is dug, poured, waited for and built, by one pair of hands in ten days.
Network walls(int count) {
  Network net;
  net.ticks_per_slot = kTicks;
  net.slots = kSlots;
  net.clocks.emplace_back("work", kTicks, rates());
  net.clocks.emplace_back("time", kTicks, std::vector<std::int32_t>(kSlots, 1000));
  net.resources.push_back({"hands", std::vector<int>(kSlots, 1)});
  for (int slot = 0; slot < kSlots; ++slot)
    net.day_of_slot.push_back(slot / 96);
  net.buckets.push_back({0, std::vector<Tick>(10, 132)});
  const auto add = [&](Amount amount, Pause pause) {
    Task task;
    task.name = std::to_string(net.tasks.size());
    Way way;
    way.amount = amount;
    way.pause = pause;
    way.setup = 1000;
    way.needs = {{0, 1}};
    task.ways.push_back(way);
    net.tasks.push_back(task);
    return static_cast<TaskId>(net.tasks.size() - 1);
  };
  for (int wall = 0; wall < count; ++wall) {
    const TaskId dig = add(10'000, Pause::anywhere);
    const TaskId pour = add(8'000, Pause::none);
    const TaskId lay = add(20'000, Pause::anywhere);
    Link after;
    after.from = dig;
    after.to = pour;
    net.links.push_back(after);
    after.from = pour;
    after.to = lay;
    after.least_clock = 1;
    after.least = 96'000;
    net.links.push_back(after);
  }
  return net;
}

void one_decode(benchmark::State& state) {
  const Network net = walls(static_cast<int>(state.range(0)) / 3);
  const std::size_t tasks = net.tasks.size();
  Genes genes{std::vector<TaskId>(tasks), std::vector<int>(tasks, 0), std::vector<Tick>(tasks, 0),
              std::vector<char>(tasks, 0)};
  std::iota(genes.order.begin(), genes.order.end(), 0);
  for (auto _ : state)
    benchmark::DoNotOptimize(decode(net, genes));
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(one_decode)->Arg(15)->Arg(30)->Arg(60);

// The least that any decode must do: look at every tick of the table once.
void one_pass_over_the_table(benchmark::State& state) {
  const std::vector<int> used(kSlots * kTicks, 1);
  for (auto _ : state)
    benchmark::DoNotOptimize(std::accumulate(used.begin(), used.end(), 0));
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(one_pass_over_the_table);

}  // namespace
