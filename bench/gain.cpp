// What the search gains over the plan that rules of order alone give, over whole jobs in weather with every
// primitive of the engine. The second plan begins from the first, so it is never worse: that is counted too.
//
//   build/release/bench/bench_gain [JOBS] [SCHEDULES]
#include <algorithm>
#include <cstdint>
#include <cstdlib>

#include <fmt/format.h>

#include "weather_jobs.h"
#include "weatherstruck/engine/decode.h"

int main(int argc, char** argv) {
  using namespace weatherstruck;
  const int jobs = argc > 1 ? std::max(1, std::atoi(argv[1])) : 100;
  const int schedules = argc > 2 ? std::max(1, std::atoi(argv[2])) : 300;
  int better = 0, worse = 0, more_done = 0, sooner = 0;
  double hours = 0;
  for (int k = 0; k < jobs; ++k) {
    const int tasks = 20 + 10 * (k % 5);
    const engine::Network network =
        bench::weather_job({tasks, static_cast<std::uint64_t>(k + 1), 3, true, false});
    // One schedule asked for: the rules and their repairs are made all the same, and nothing else.
    const engine::Value listed = engine::plan_by_list(network, {1, 1, 0, {}}).best.value;
    const engine::Value found = engine::plan_by_list(network, {schedules, 1, 0, {}}).best.value;
    better += found < listed ? 1 : 0;
    worse += found > listed ? 1 : 0;
    const auto left = [](const engine::Value& v) {
      return v.must_unplaced + v.should_unplaced + v.may_unplaced;
    };
    if (left(found) < left(listed)) {
      ++more_done;
    } else if (left(found) == left(listed) && found.finish < listed.finish) {
      ++sooner;
      hours += (listed.finish - found.finish) / 12.0;
    }
  }
  fmt::print("{} jobs of 20 to 60 tasks, {} schedules each: better {}, worse {}, the same {}\n", jobs,
             schedules, better, worse, jobs - better - worse);
  fmt::print("of them: more of the work done {}, as much and home sooner {} (by {:.1f} h on average)\n",
             more_done, sooner, sooner > 0 ? hours / sooner : 0.0);
  return worse > 0 ? 1 : 0;
}
