// Starts the commands of a built weatherstruck as a person would and prints, for each, the median and worst
// wall time and the most memory of some runs, and the ratio to a process that does nothing (/bin/true),
// measured in turn with it so that a busy machine shows in both. No test: nothing fails here.
//
//   build/release/bench/bench_commands [runs]
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/format.h>

extern char** environ;

namespace {

struct Sample {
  double milliseconds = 0;
  long kilobytes = 0;
  int status = 0;
};

Sample run(const std::vector<std::string>& words) {
  std::vector<char*> argv;
  for (const std::string& word : words)
    argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  const auto before = std::chrono::steady_clock::now();
  pid_t child = 0;
  Sample sample;
  if (posix_spawn(&child, argv.front(), &actions, nullptr, argv.data(), environ) != 0) {
    sample.status = -1;
    posix_spawn_file_actions_destroy(&actions);
    return sample;
  }
  rusage usage{};
  wait4(child, &sample.status, 0, &usage);
  const auto after = std::chrono::steady_clock::now();
  posix_spawn_file_actions_destroy(&actions);
  sample.milliseconds = std::chrono::duration<double, std::milli>(after - before).count();
  sample.kilobytes = usage.ru_maxrss;
  return sample;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

}  // namespace

int main(int argc, char** argv) {
  const int runs = argc > 1 ? std::max(1, std::atoi(argv[1])) : 15;
  const std::string program = std::string(WEATHERSTRUCK_BINARY_DIR) + "/weatherstruck";
  const std::string demo = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/";
  const std::string job = demo + "job.json";
  const std::vector<std::string> weather{"--forecast", demo + "forecast-day1.json", "--now",
                                         "2026-02-09T05:00"};
  const auto with_weather = [&](std::vector<std::string> words) {
    words.insert(words.end(), weather.begin(), weather.end());
    return words;
  };
  const std::vector<std::vector<std::string>> commands{
      {program, "--help"},
      {program, "job", "check", job},
      {program, "quantities", job},
      with_weather({program, "plan", job}),
      with_weather({program, "morning", job}),
  };
  fmt::print("{:<12} {:>10} {:>10} {:>12} {:>10}   {} runs each\n", "command", "median ms", "worst ms",
             "x /bin/true", "memory MB", runs);
  for (const auto& words : commands) {
    std::vector<double> times;
    std::vector<double> empty;
    long memory = 0;
    int failed = 0;
    for (int i = 0; i < runs; ++i) {
      const Sample sample = run(words);
      times.push_back(sample.milliseconds);
      memory = std::max(memory, sample.kilobytes);
      failed += sample.status != 0 ? 1 : 0;
      empty.push_back(run({"/bin/true"}).milliseconds);
    }
    const std::string name = words[1] == "job" ? "job check" : words[1];
    fmt::print("{:<12} {:>10.1f} {:>10.1f} {:>12.1f} {:>10.1f}{}\n", name, median(times),
               *std::max_element(times.begin(), times.end()), median(times) / median(empty),
               static_cast<double>(memory) / 1024.0,
               failed > 0 ? fmt::format("   {} did not end with 0", failed) : "");
  }
}
