// Plans every instance of a published set of project benchmarks, has the checker verify every schedule, and
// prints how far they are from what is known, beside published methods.
//
//   build/release/bench/bench_projects FOLDER KNOWN.csv [SCHEDULES ...] [--seeds N]
//
// FOLDER holds .sm or .sch files, KNOWN.csv the best known values. docs/projects.md holds what it printed.
#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "psplib.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace {

namespace fs = std::filesystem;
using namespace weatherstruck;
using namespace weatherstruck::engine;

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error(path.string() + ": cannot be read");
  return {std::istreambuf_iterator<char>(in), {}};
}

// Of this process, so that a busy machine does not count.
double processor_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

struct Instance {
  std::string name;
  std::optional<Project> project;  // .sm
  Network network;                 // .sch
  bench::Known known;
};

std::vector<Instance> instances_in(const fs::path& folder, const std::map<std::string, bench::Known>& known) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<Instance> list;
  for (const fs::path& file : files) {
    const auto row = known.find(file.stem().string());
    if (row == known.end()) throw std::runtime_error(file.string() + ": no row of known values");
    Instance it;
    it.name = file.stem().string();
    it.known = row->second;
    try {
      if (file.extension() == ".sm") {
        it.project = bench::read_sm(text_of(file));
      } else {
        it.network = bench::read_sch(text_of(file));
      }
    } catch (const std::runtime_error& error) {
      throw std::runtime_error(file.string() + ": " + error.what());
    }
    list.push_back(std::move(it));
  }
  return list;
}

struct Sum {
  double percent = 0;  // above the optimum where it is known of all, else above the critical path
  int runs = 0;
  int best_known = 0;
  int proved = 0;
  int wrong = 0;     // below what is proved, or refused by the checker
  int unsolved = 0;  // of those that have a schedule
  int unsaid = 0;    // of those, what the model cannot say
  std::int64_t schedules = 0;
  double seconds = 0;
};

void judge(const Instance& it, const Network& network, const Schedule& schedule, Tick makespan, bool optima,
           Sum& sum) {
  const auto broken = check(network, schedule);
  if (!broken.empty() || makespan < it.known.least || it.known.best < 0) {
    ++sum.wrong;
    fmt::print("  WRONG {}: {} {}\n", it.name, makespan, broken.empty() ? "" : broken.front().what);
  }
  const double base = optima ? it.known.best : it.known.critical_path;
  sum.percent += 100.0 * (makespan - base) / base;
  sum.best_known += makespan <= it.known.best ? 1 : 0;
}

void run_project(const Instance& it, int schedules, std::uint64_t seed, bool optima, Sum& sum) {
  const double before = processor_seconds();
  const ProjectPlan plan = plan_project(*it.project, {schedules, seed});
  sum.seconds += processor_seconds() - before;
  sum.schedules += plan.schedules;
  sum.proved += plan.makespan == plan.bound ? 1 : 0;
  if (plan.bound > it.known.best) {
    ++sum.wrong;
    fmt::print("  WRONG {}: bound {} above {}\n", it.name, plan.bound, it.known.best);
  }
  judge(it, network_of(*it.project, plan.makespan + 1), schedule_of(*it.project, plan.start), plan.makespan,
        optima, sum);
  ++sum.runs;
}

void run_network(const Instance& it, int schedules, std::uint64_t seed, Sum& sum) {
  if (!faults_of(it.network).empty()) {
    // Lags in a circle that no times can meet; or a most between two tasks of which either may come first,
    // which a link, whose `to` is never before its `from`, cannot say.
    ++(it.known.best < 0 ? sum.proved : sum.unsaid);
    return;
  }
  ListOptions options;
  options.schedules = schedules;
  options.seed = seed;
  const double before = processor_seconds();
  const ListPlan plan = plan_by_list(it.network, options);
  sum.seconds += processor_seconds() - before;
  sum.schedules += plan.schedules;
  if (plan.best.value.must_unplaced > 0) {
    sum.unsolved += it.known.best >= 0 ? 1 : 0;
    return;
  }
  judge(it, it.network, plan.best.schedule, plan.best.schedule.tasks.back().start(), true, sum);
  ++sum.runs;
}

// The least that a placement must do, without a search: reads and writes each tick of each task once.
double seconds_of_a_plain_loop(const Project& project, int times) {
  std::vector<std::vector<int>> used(project.capacity.size());
  Tick horizon = 0;
  for (const Tick length : project.duration)
    horizon += length;
  for (auto& row : used)
    row.assign(static_cast<std::size_t>(horizon) + 1, 0);
  const double before = processor_seconds();
  for (int round = 0; round < times; ++round) {
    Tick t = 0;
    for (std::size_t i = 0; i < project.duration.size(); ++i) {
      for (std::size_t r = 0; r < used.size(); ++r) {
        for (Tick k = 0; k < project.duration[i]; ++k)
          used[r][static_cast<std::size_t>(t + k)] += project.demand[i][r];
      }
      t = (t + 7) % (horizon / 2 + 1);
    }
    asm volatile("" : : "r"(used.front().data()) : "memory");
  }
  return processor_seconds() - before;
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<std::string> words(argv + 1, argv + argc);
  int seeds = 3;
  if (const auto at = std::find(words.begin(), words.end(), "--seeds"); at != words.end()) {
    if (at + 1 != words.end()) seeds = std::max(1, std::atoi((at + 1)->c_str()));
    words.erase(at, std::min(at + 2, words.end()));
  }
  if (words.size() < 2) {
    fmt::print("bench_projects FOLDER KNOWN.csv [SCHEDULES ...] [--seeds N]\n");
    return 2;
  }
  std::vector<int> budgets;
  for (std::size_t k = 2; k < words.size(); ++k)
    budgets.push_back(std::max(1, std::atoi(words[k].c_str())));
  if (budgets.empty()) budgets = {1000, 5000, 50000};
  int wrong = 0;
  try {
    const auto instances = instances_in(words[0], bench::read_known(text_of(words[1])));
    const bool optima = std::all_of(instances.begin(), instances.end(),
                                    [](const Instance& it) { return it.known.least == it.known.best; });
    fmt::print("{} instances, {} seeds; per cent above the {}\n", instances.size(), seeds,
               optima ? "optimum" : "critical path");
    fmt::print("{:>9} {:>9} {:>12} {:>9} {:>9} {:>14} {:>13}\n", "schedules", "per cent", "best known",
               "proved", "wrong", "thousand a s", "x plain loop");
    for (const int budget : budgets) {
      Sum sum;
      double plain = 0;
      for (const Instance& it : instances) {
        for (int seed = 1; seed <= seeds; ++seed) {
          const std::int64_t made = sum.schedules;
          if (it.project) {
            run_project(it, budget, static_cast<std::uint64_t>(seed), optima, sum);
            // As many times as it placed the project, so that the two sums are of the same instances.
            plain += seconds_of_a_plain_loop(*it.project, static_cast<int>(sum.schedules - made));
          } else {
            run_network(it, budget, static_cast<std::uint64_t>(seed), sum);
          }
        }
      }
      fmt::print("{:>9} {:>9.3f} {:>12} {:>9} {:>9} {:>14.0f} {:>13}\n", budget,
                 sum.percent / std::max(1, sum.runs), fmt::format("{}/{}", sum.best_known, sum.runs),
                 sum.proved, sum.wrong, static_cast<double>(sum.schedules) / sum.seconds / 1000,
                 plain > 0 ? fmt::format("{:.1f}", sum.seconds / plain) : "-");
      if (sum.unsolved > 0) fmt::print("          {} that have a schedule found none\n", sum.unsolved);
      wrong += sum.wrong;
    }
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
  return wrong > 0 ? 1 : 0;
}
