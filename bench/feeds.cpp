// Forecasts and histories read, each beside a bare parse of the same bytes: the general JSON library's own,
// and a loop that cuts lines at commas and turns every field into a number. Real files, from the folder that
// WEATHERSTRUCK_SHARED names.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include <benchmark/benchmark.h>
#include <zlib.h>
#include <nlohmann/json.hpp>

#include "weatherstruck/feed/forecast_file.h"

namespace {

namespace feed = weatherstruck::feed;

std::filesystem::path shared() {
  const char* folder = std::getenv("WEATHERSTRUCK_SHARED");
  return folder != nullptr ? std::filesystem::path(folder)
                           : std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / ".." / "shared";
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

const std::string& grid() {
  static const std::string bytes =
      bytes_of(shared() / "data/forecasts/nws/grid_OHX_14_55_tennessee_20240108_storm_then_cold.json");
  return bytes;
}

// The first ten years of De Bilt, unpacked: header and 87,672 rows.
const std::string& ten_years() {
  static const std::string text = [] {
    const std::string path = (shared() / "data/history/norm_260_hourly.csv.gz").string();
    gzFile file = gzopen(path.c_str(), "rb");
    if (file == nullptr) throw std::runtime_error("cannot read " + path);
    std::string all;
    std::string piece(1 << 16, '\0');
    for (int n = 0; (n = gzread(file, piece.data(), static_cast<unsigned>(piece.size()))) > 0;)
      all.append(piece, 0, static_cast<std::size_t>(n));
    gzclose(file);
    return all.substr(0, all.find("2021-01-01T00:00:00Z"));
  }();
  return text;
}

void read_grid(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(feed::read_forecast("grid", grid()));
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(grid().size()));
}
void parse_grid_only(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(nlohmann::json::parse(grid()));
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(grid().size()));
}

void read_ten_years(benchmark::State& state) {
  feed::ReadOptions options;
  options.longest = std::chrono::days(366 * 50);
  for (auto _ : state) {
    const auto series = feed::read_forecast("years", ten_years(), options);
    if (series.hours.size() != 87'672) state.SkipWithError("not ten years of hours");
    benchmark::DoNotOptimize(series);
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(ten_years().size()));
}
void parse_ten_years_only(benchmark::State& state) {
  for (auto _ : state) {
    double sum = 0;
    std::istringstream in(ten_years());
    std::string line;
    std::string field;
    while (std::getline(in, line)) {
      std::istringstream fields(line);
      while (std::getline(fields, field, ','))
        sum += std::strtod(field.c_str(), nullptr);
    }
    benchmark::DoNotOptimize(sum);
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(ten_years().size()));
}

}  // namespace

BENCHMARK(read_grid)->Unit(benchmark::kMillisecond);
BENCHMARK(parse_grid_only)->Unit(benchmark::kMillisecond);
BENCHMARK(read_ten_years)->Unit(benchmark::kMillisecond);
BENCHMARK(parse_ten_years_only)->Unit(benchmark::kMillisecond);
