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
#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "weatherstruck/record/store.h"

extern char** environ;

namespace {

namespace fs = std::filesystem;

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

struct Timed {
  std::string name;
  std::vector<std::string> words;
  std::vector<std::string>
      before{};  ///< run each time before it, not timed; {run} in the last stands for its number
};

constexpr std::string_view kept = "valley-shelter";

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

constexpr int jobs = 100;
constexpr int lines = 500;
constexpr int years = 5;
constexpr int lines_of_a_round = 5;  ///< of line_of_book; the last is a note

/// What a line of the book says: mostly work begun and done, then what is noted and read.
std::pair<std::string, std::string> line_of_book(int number) {
  constexpr std::array<std::string_view, 4> tasks{"strip-turf", "set-out", "unload", "bed-lay"};
  const std::string_view task = tasks.at(static_cast<std::size_t>(number / lines_of_a_round) % tasks.size());
  switch (number % lines_of_a_round) {
    case 0:
      return {"begin", fmt::format(R"({{"task": "{}"}})", task)};
    case 1:
      return {"done", fmt::format(R"({{"task": "{}", "amount": {{"share": {:.3f}}}}})", task,
                                  static_cast<double>(number) / lines)};
    case 2:
      return {"thermometer", fmt::format(R"({{"air": {}}})", number % 9)};
    case 3:
      return {"expense",
              fmt::format(R"({{"what": "cement, lot {0}", "money": "{0}.50 GBP"}})", number % 90 + 1)};
    default:
      return {"note", fmt::format(R"({{"text": "line {} of the week"}})", number)};
  }
}

// A record as five years make it at ten thousand lines a year: a hundred jobs of a working week each, five
// hundred lines in the book of every one, the last of them the job that is timed.
void five_years(const fs::path& file, const std::string& document) {
  weatherstruck::record::Store store(file);
  const weatherstruck::base::Instant start(std::chrono::seconds(1612828800));  // 2021-02-09
  store.in_one([&] {
    for (int j = 0; j < jobs; ++j) {
      const bool last = j + 1 == jobs;
      const std::string name = last ? std::string(kept) : fmt::format("job-{}", j);
      std::string text = document;
      text.replace(text.find(kept), kept.size(), name);
      const weatherstruck::record::JobId id = store.add_job(name, text, 1, start);
      for (int i = 0; i < lines; ++i) {
        const auto at = start + std::chrono::hours(438 * j) + std::chrono::minutes(10 * i);
        // The job that is timed has only notes: with work that no trip would do, its plan would be another.
        auto [kind, body] = line_of_book(j + 1 < jobs ? i : lines_of_a_round - 1);
        store.append(id, {fmt::format("line-{}", i), std::move(kind), at, "Europe/London", at,
                          std::move(body), std::nullopt});
      }
    }
  });
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
  const fs::path folder = fs::temp_directory_path() / fmt::format("weatherstruck-bench-{}", getpid());
  setenv("XDG_DATA_HOME", folder.c_str(), 1);
  const fs::path record = folder / "weatherstruck" / "record.db";
  { const weatherstruck::record::Store made(record); }
  const auto empty_record = static_cast<double>(fs::file_size(record));
  five_years(record, text_of(job));
  const auto full = static_cast<double>(fs::file_size(record));
  const std::string tuesday = "2026-02-10T06:00";
  const std::vector<Timed> commands{
      {"--help", {program, "--help"}},
      {"job check", {program, "job", "check", job}},
      {"quantities", {program, "quantities", job}},
      {"plan", with_weather({program, "plan", job})},
      {"morning", with_weather({program, "morning", job})},
      {"helps", with_weather({program, "helps", job})},
      {"second morning",
       {program, "morning", job, "--forecast", demo + "forecast-day1.json", "--forecast",
        demo + "forecast-day2.json", "--now", tuesday}},
      {"log, 5 years",
       {program, "log", std::string(kept), "--yes", "--now", "2026-02-09T18:00", "note: bench"}},
      // A line logged since the plan of before makes it plan anew.
      {"anew, 5 years",
       {program, "morning", std::string(kept), "--offline", "--now", tuesday},
       {program, "log", std::string(kept), "--yes", "--now", tuesday, "note: before run {run}"}},
      {"again, 5 years", {program, "morning", std::string(kept), "--offline", "--now", tuesday}},
  };
  (void)run(
      {program, "morning", std::string(kept), "--forecast", demo + "forecast-day1.json", "--now", tuesday});
  fmt::print("{:<15} {:>10} {:>10} {:>12} {:>10}   {} runs each\n", "command", "median ms", "worst ms",
             "x /bin/true", "memory MB", runs);
  for (const auto& [name, words, before] : commands) {
    std::vector<double> times;
    std::vector<double> empty;
    long memory = 0;
    int failed = 0;
    for (int i = 0; i < runs; ++i) {
      if (!before.empty()) {
        std::vector<std::string> numbered = before;
        numbered.back() = fmt::format(fmt::runtime(numbered.back()), fmt::arg("run", i));
        (void)run(numbered);
      }
      const Sample sample = run(words);
      times.push_back(sample.milliseconds);
      memory = std::max(memory, sample.kilobytes);
      failed += sample.status != 0 ? 1 : 0;
      empty.push_back(run({"/bin/true"}).milliseconds);
    }
    fmt::print("{:<15} {:>10.1f} {:>10.1f} {:>12.1f} {:>10.1f}{}\n", name, median(times),
               *std::max_element(times.begin(), times.end()), median(times) / median(empty),
               static_cast<double>(memory) / 1024.0,
               failed > 0 ? fmt::format("   {} did not end with 0", failed) : "");
  }
  const auto megabytes = [](double bytes) { return bytes / (1024.0 * 1024.0); };
  fmt::print("record of {} jobs and {} lines: {:.1f} MB after five years, {:.2f} MB a year\n", jobs,
             jobs * lines, megabytes(full), megabytes((full - empty_record) / years));
  fs::remove_all(folder);
}
