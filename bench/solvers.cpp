// Writes jobs in weather and published projects as models for general-purpose solvers, and says what the
// engine finds for each, verified by the checker. bench/compare runs the solvers on them.
//
//   build/release/bench/bench_solvers OUT [FILE.sm ...]
//
// One line a model: name, its bound, then for a plan's budget and for ten seconds: finish and seconds.
#include <algorithm>
#include <ctime>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "minizinc.h"
#include "psplib.h"
#include "weather_jobs.h"
#include "weatherstruck/engine/bound.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace {

namespace fs = std::filesystem;
using namespace weatherstruck;
using namespace weatherstruck::engine;

constexpr double long_enough = 10;  // seconds

double processor_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

void write(const fs::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  if (!out.flush()) throw std::runtime_error(path.string() + ": cannot be written");
}

void verify(const Network& network, const Schedule& schedule) {
  if (const auto broken = check(network, schedule); !broken.empty())
    throw std::logic_error("the checker refuses a plan: " + broken.front().what);
}

// All must be done, and soon: nothing else counts.
Network for_least_finish(int tasks, std::uint64_t seed) {
  Network network = bench::weather_job({tasks, seed, 1, false, false});
  for (Task& task : network.tasks) {
    task.importance = Importance::must;
    task.due = never;
    for (Way& way : task.ways)
      way.costs.clear();
  }
  for (Link& link : network.links)
    link.waived_if_left_out = false;
  return network;
}

void job(const fs::path& folder, int tasks, std::uint64_t seed) {
  const Network network = for_least_finish(tasks, seed);
  const std::string name = fmt::format("job{}-{}", tasks, seed);
  write(folder / (name + ".mzn"), bench::minizinc_of(network));
  fmt::print("{} {}", name, least_finish(network));
  const double before = processor_seconds();
  Tick best = never;
  for (std::uint64_t start = 1; start == 1 || processor_seconds() - before < long_enough; ++start) {
    ListOptions options;
    options.schedules = start == 1 ? 600 : 3000;
    options.seed = start;
    const ListPlan plan = plan_by_list(network, options);
    verify(network, plan.best.schedule);
    if (plan.best.value.must_unplaced == 0) best = std::min(best, plan.best.value.finish);
    if (start == 1) fmt::print(" {} {:.3f}", best == never ? -1 : best, processor_seconds() - before);
  }
  fmt::print(" {} {:.1f}\n", best == never ? -1 : best, processor_seconds() - before);
}

void project(const fs::path& folder, const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  const Project project = bench::read_sm(std::string{std::istreambuf_iterator<char>(in), {}});
  write(folder / (file.stem().string() + ".mzn"), bench::minizinc_of(project));
  ProjectOptions options;
  options.schedules = 5000;
  double before = processor_seconds();
  ProjectPlan plan = plan_project(project, options);
  fmt::print("{} {} {} {:.3f}", file.stem().string(), plan.bound, plan.makespan,
             processor_seconds() - before);
  verify(network_of(project, plan.makespan + 1), schedule_of(project, plan.start));
  // As many as fit into ten seconds, by what the first took.
  const double each = std::max(1e-7, (processor_seconds() - before) / std::max(1, plan.schedules));
  before = processor_seconds();
  if (plan.makespan > plan.bound) {
    options.schedules = static_cast<int>(std::clamp(long_enough / each, 5000.0, 5e6));
    const ProjectPlan longer = plan_project(project, options);
    verify(network_of(project, longer.makespan + 1), schedule_of(project, longer.start));
    plan.makespan = std::min(plan.makespan, longer.makespan);
  }
  fmt::print(" {} {:.1f}\n", plan.makespan, processor_seconds() - before);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    fmt::print("bench_solvers OUT [FILE.sm ...]\n");
    return 2;
  }
  try {
    fs::create_directories(argv[1]);
    for (const int tasks : {20, 40, 60}) {
      for (const std::uint64_t seed : {1U, 2U})
        job(argv[1], tasks, seed);
    }
    for (int k = 2; k < argc; ++k)
      project(argv[1], argv[k]);
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return 0;
}
