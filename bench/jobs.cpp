// How many schedules of a whole job in weather the decoder makes in a second, on one core, for jobs of 20 to
// 240 tasks with every primitive of the engine. Every schedule of a sample is verified by the checker.
//
//   build/release/bench/bench_jobs [TASKS ...] [--seconds S] [--tight] [--only decode]
//
// Beside it a plain loop over the same tasks that asks nothing: each begins where the last that it follows
// ends, runs slot by slot on its work clock until its amount is done, and marks each tick of what it needs.
#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "counted.h"
#include "weather_jobs.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace {

using namespace weatherstruck;
using namespace weatherstruck::engine;

double processor_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// Schedules a second, going through `list` for `seconds`.
template <class Fn>
double rate(const std::vector<Genes>& list, double seconds, Fn&& fn) {
  std::size_t made = 0;
  const double before = processor_seconds();
  double spent = 0;
  while (spent < seconds) {
    for (std::size_t k = 0; k < 50; ++k)
      fn(list[made++ % list.size()]);
    spent = processor_seconds() - before;
  }
  return static_cast<double>(made) / spent;
}

class PlainLoop {
 public:
  explicit PlainLoop(const Network& network) : net_(network), into_(network.tasks.size()) {
    for (const Link& link : network.links)
      into_[static_cast<std::size_t>(link.to)].push_back(link.from);
    used_.assign(network.resources.size(), std::vector<int>(static_cast<std::size_t>(network.horizon()), 0));
    ends_.assign(network.tasks.size(), 0);
  }
  void place(const Genes& genes) {
    std::fill(ends_.begin(), ends_.end(), 0);
    for (const TaskId id : genes.order) {
      const auto i = static_cast<std::size_t>(id);
      const Way& way = net_.tasks[i].ways[static_cast<std::size_t>(genes.way[i])];
      Tick t = 0;
      for (const TaskId before : into_[i])
        t = std::max(t, ends_[static_cast<std::size_t>(before)]);
      const Clock& clock = net_.clocks[static_cast<std::size_t>(way.clock)];
      for (Amount left = way.setup + way.amount; left > 0 && t < net_.horizon(); ++t) {
        const std::int32_t goes_by = clock.rate(t);
        left -= goes_by;
        if (goes_by == 0) continue;
        for (const Need& need : way.needs)
          used_[static_cast<std::size_t>(need.resource)][static_cast<std::size_t>(t)] += need.quantity;
      }
      ends_[i] = t;
    }
    asm volatile("" : : "r"(used_.front().data()) : "memory");
  }

 private:
  const Network& net_;
  std::vector<std::vector<TaskId>> into_;
  std::vector<std::vector<int>> used_;
  std::vector<Tick> ends_;
};

// Of the first of them: how many the checker refuses.
int refused(const Network& network, StandingDecoder& decoder, const std::vector<Genes>& list,
            std::size_t sample, Value& best, double& placed) {
  int wrong = 0;
  std::size_t tasks = 0, there = 0;
  for (std::size_t k = 0; k < std::min(sample, list.size()); ++k) {
    const Decoded& decoded = decoder.decode(list[k]);
    const auto broken = check(network, decoded.schedule);
    if (!broken.empty() || decoded.value != value_of(network, decoded.schedule)) {
      ++wrong;
      fmt::print("  WRONG: {}\n", broken.empty() ? "another value" : broken.front().what);
    }
    if (k == 0 || decoded.value < best) best = decoded.value;
    for (const Placement& placement : decoded.schedule.tasks) {
      there += placement.present ? 1U : 0U;
      tasks += placement.placed() ? 1U : 0U;
    }
  }
  placed = 100.0 * static_cast<double>(tasks) / static_cast<double>(there);
  return wrong;
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<int> sizes;
  double seconds = 2;
  bool only_decode = false;
  bool tight = false;
  for (int k = 1; k < argc; ++k) {
    const std::string word = argv[k];
    if (word == "--seconds" && k + 1 < argc) {
      seconds = std::atof(argv[++k]);
    } else if (word == "--tight") {
      tight = true;
    } else if (word == "--only" && k + 1 < argc) {
      only_decode = std::string(argv[++k]) == "decode";
    } else {
      sizes.push_back(std::atoi(word.c_str()));
    }
  }
  if (sizes.empty()) sizes = {20, 40, 60, 120, 240};
  int wrong = 0;
  fmt::print("{:>5} {:>6} {:>10} {:>12} {:>8} {:>9} {:>10} {:>8} {:>9} {:>18}\n", "tasks", "days", "a second",
             "plain loop", "ratio", "KiB held", "new each", "refused", "placed %", "best: musts, late");
  for (const int tasks : sizes) {
    const Network network = bench::weather_job({tasks, 1, 3, true, tight});
    if (const auto faults = faults_of(network); !faults.empty()) {
      fmt::print(stderr, "{}\n", faults.front());
      return 1;
    }
    const auto list = bench::genes_for(network, 4000, 1);
    const std::size_t held = bench::memory().bytes_held;
    StandingDecoder decoder(network);
    Value best;
    double placed = 0;
    const int bad = only_decode ? 0 : refused(network, decoder, list, 100, best, placed);
    const std::size_t asked = bench::memory().times_asked;
    constexpr std::size_t warm = 400;
    for (std::size_t k = 0; k < warm; ++k)
      decoder.decode(list[k]);
    const double each = static_cast<double>(bench::memory().times_asked - asked) / warm;
    const std::size_t holds = bench::memory().bytes_held - held;
    const double ours =
        only_decode ? 1 : rate(list, seconds, [&](const Genes& genes) { decoder.decode(genes); });
    PlainLoop plain(network);
    const double loop =
        only_decode ? 1 : rate(list, seconds, [&](const Genes& genes) { plain.place(genes); });
    fmt::print("{:>5} {:>6} {:>10.0f} {:>12.0f} {:>8.1f} {:>9} {:>10.2f} {:>8} {:>9.1f} {:>18}\n", tasks,
               network.slots / 96, ours, loop, loop / ours, holds / 1024, each, bad, placed,
               fmt::format("{}, {}", best.must_unplaced, best.must_late));
    wrong += bad;
  }
  return wrong > 0 ? 1 : 0;
}
