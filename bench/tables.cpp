// What it costs to make the tables of the demo's job, its trip drawn out to ten days, for one more weather:
// slots, clocks, where the canopy may stand; sixteen possible weathers of its forecast in turn. Beside it a
// plain loop that only writes and sums up as many numbers as the clocks hold, and the whole programme built
// anew.
#include <benchmark/benchmark.h>

#include <cstdint>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/sky/possible.h"
#include "weatherstruck/works/task_list.h"

namespace {

using namespace weatherstruck;

std::string text_of(const std::string& name) {
  std::ifstream in(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The demo's job with home ten days after leaving, and its forecast.
struct TenDays {
  works::Job job;
  sky::Series weather;
  works::TaskList list;
  trade::LimitValues limits;

  TenDays()
      : job(*files::read_job(text_of("job.json"), files::SystemZones()).job),
        weather(feed::read_forecast("forecast-day1.json", text_of("forecast-day1.json"))) {
    // The programme sees to the end of the third night after the promise.
    job.trip.home_by = job.trip.leave_home + std::chrono::hours(24 * 10 - 72);
    list = works::derive_tasks(job);
    limits = trade::limits_for(job.limits.set, job.limits.cold_rule).values;
  }
  [[nodiscard]] std::vector<sky::Series> possible() const {
    std::vector<sky::Series> weathers;
    for (int number = 0; number < 16; ++number)
      weathers.push_back(sky::draw_weather(weather, job.trip.leave_home, 1, number).comes);
    return weathers;
  }
  [[nodiscard]] programme::Programme build() const {
    return programme::build_programme(job, list, weather, limits, job.trip.leave_home);
  }
};

void tables_for_one_weather(benchmark::State& state) {
  const TenDays ten;
  programme::Programme programme = ten.build();
  const std::vector<sky::Series> weathers = ten.possible();
  std::size_t next = 0;
  for (auto _ : state)
    programme::put_weather(programme, ten.job, ten.limits, weathers[next++ % weathers.size()]);
  state.counters["days"] = static_cast<double>(programme.network.slots) / 96;
  state.counters["clocks"] = static_cast<double>(programme.network.clocks.size());
}
BENCHMARK(tables_for_one_weather)->Unit(benchmark::kMicrosecond);

void drawing_a_weather(benchmark::State& state) {
  const TenDays ten;
  int number = 0;
  for (auto _ : state)
    benchmark::DoNotOptimize(sky::draw_weather(ten.weather, ten.job.trip.leave_home, 1, number++));
}
BENCHMARK(drawing_a_weather)->Unit(benchmark::kMicrosecond);

void a_thousand_weathers_drawn_and_put(benchmark::State& state) {
  const TenDays ten;
  programme::Programme programme = ten.build();
  for (auto _ : state) {
    for (int number = 0; number < 1000; ++number) {
      programme::put_weather(programme, ten.job, ten.limits,
                             sky::draw_weather(ten.weather, ten.job.trip.leave_home, 1, number).comes);
    }
  }
}
BENCHMARK(a_thousand_weathers_drawn_and_put)->Unit(benchmark::kMillisecond);

void a_plain_loop_of_as_many_numbers(benchmark::State& state) {
  const TenDays ten;
  const programme::Programme programme = ten.build();
  const std::size_t clocks = programme.network.clocks.size();
  const std::size_t slots = programme.table.slots.size();
  std::vector<std::vector<std::int64_t>> sums(
      clocks, std::vector<std::int64_t>(slots * programme::kTicksPerSlot + 1));
  for (auto _ : state) {
    for (auto& sum : sums) {
      std::int64_t passed = 0;
      std::size_t tick = 0;
      for (const programme::Slot& slot : programme.table.slots) {
        const auto rate = static_cast<std::int64_t>(slot.air.value() * 50 + 500);
        for (int k = 0; k < programme::kTicksPerSlot; ++k, passed += rate)
          sum[tick++] = passed;
      }
      sum[tick] = passed;
      benchmark::DoNotOptimize(sum.data());
    }
    benchmark::ClobberMemory();
  }
}
BENCHMARK(a_plain_loop_of_as_many_numbers)->Unit(benchmark::kMicrosecond);

void the_whole_programme_anew(benchmark::State& state) {
  const TenDays ten;
  for (auto _ : state)
    benchmark::DoNotOptimize(ten.build());
}
BENCHMARK(the_whole_programme_anew)->Unit(benchmark::kMicrosecond);

}  // namespace
