// What ten days of a strip's heat cost, in full and by the fitted filter, beside the plain loop that they are
// weighed against: one rate of hardening for each quarter of an hour, which is what a curing clock costs
// anyhow.
#include <benchmark/benchmark.h>

#include <cmath>
#include <vector>

#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/heat_filter.h"
#include "weatherstruck/matter/strip_tops.h"

namespace {

using namespace weatherstruck;
using namespace weatherstruck::matter;

std::vector<Outside> ten_days() {
  std::vector<Outside> list;
  for (int hour = 0; hour < 240; ++hour) {
    const HeatCover cover = hour % 24 > 6 && hour % 24 < 22 ? HeatCover::hessian_and_sheet : HeatCover::bare;
    list.push_back({base::Celsius(1 + 4 * std::cos(hour * 0.2618)), base::MetresPerSecond(2 + hour % 5),
                    base::Fraction(0.1 * (hour % 10)), base::Fraction(0.8), 0, cover});
  }
  return list;
}

void plain_loop_of_rates(benchmark::State& state) {
  const auto outside = ten_days();
  for (auto _ : state) {
    double age = 0;
    for (std::size_t i = 0; i < 960; ++i)
      age += fhp_rate(outside[i / 4].air);
    benchmark::DoNotOptimize(age);
  }
}
BENCHMARK(plain_loop_of_rates);

void full_model_ten_days(benchmark::State& state) {
  const auto outside = ten_days();
  const StripCase strip;
  for (auto _ : state)
    benchmark::DoNotOptimize(top_course(strip, outside, base::Hours(1)));
}
BENCHMARK(full_model_ten_days);

void filter_ten_days(benchmark::State& state) {
  const auto outside = ten_days();
  const HeatFilter filter = fit_heat_filter(StripCase{});
  for (auto _ : state) {
    FilterRun run(filter, base::Celsius(10));
    for (const Outside& at : outside)
      benchmark::DoNotOptimize(run.step(at, base::Hours(1)));
  }
}
BENCHMARK(filter_ten_days);

void tops_for_clocks_ten_days_eight_covers(benchmark::State& state) {
  const auto outside = ten_days();
  const HeatFilter filter = fit_heat_filter(StripCase{});
  StripTops::Row covers{};
  covers[1] = cover_resistance(HeatCover::hessian);
  covers[2] = cover_resistance(HeatCover::mat);
  for (auto _ : state) {
    StripTops run(filter, base::Celsius(5));
    for (const Outside& at : outside) {
      run.step(open_air(at), covers);
      benchmark::DoNotOptimize(run.tops());
    }
  }
}
BENCHMARK(tops_for_clocks_ten_days_eight_covers);

void fitting_the_filter(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(fit_heat_filter(StripCase{}));
}
BENCHMARK(fitting_the_filter);

}  // namespace
