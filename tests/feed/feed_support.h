#pragma once
// Files and shortcuts for the tests of the feed floor.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/feed/forecast_file.h"

namespace weatherstruck::feed {

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

inline std::filesystem::path fixture(const std::string& name) {
  return std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / "fixtures" / "forecasts" / name;
}

inline std::filesystem::path shared_forecasts() {
  const char* folder = std::getenv("WEATHERSTRUCK_SHARED");
  const auto root = folder != nullptr ? std::filesystem::path(folder)
                                      : std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / ".." / "shared";
  return root / "data" / "forecasts";
}

inline base::Instant instant(const std::string& iso) {
  const auto parsed = base::parse_iso_instant(iso);
  if (!parsed) throw std::invalid_argument("not a time: " + iso);
  return *parsed;
}

inline nlohmann::json json_fixture(const std::string& name) {
  return nlohmann::json::parse(bytes_of(fixture(name)));
}

inline sky::Series read_json(const nlohmann::json& document, const ReadOptions& options = {}) {
  return read_forecast("test.json", document.dump(), options);
}

/// The faults of a text that must not be read; an empty list where it was.
inline base::Faults faults_of(const std::string& bytes, const ReadOptions& options = {}) {
  try {
    (void)read_forecast("test", bytes, options);
  } catch (const base::InputError& error) {
    return error.faults();
  }
  return {};
}

inline std::vector<std::string> codes(const base::Faults& faults) {
  std::vector<std::string> out;
  for (const base::Fault& fault : faults)
    out.push_back(fault.code);
  return out;
}

inline bool has_note(const sky::Series& series, const std::string& code) {
  return std::any_of(series.notes.begin(), series.notes.end(),
                     [&](const sky::SeriesNote& note) { return note.code == code; });
}

/// Rain hour by hour; -1 where there is no value.
inline std::vector<double> rain_of(const sky::Series& series) {
  std::vector<double> out;
  for (const sky::Hour& hour : series.hours)
    out.push_back(hour.rain ? hour.rain->value.value() : -1.0);
  return out;
}

/// Tenths of a millimetre that fell in all hours with a value.
inline long long tenths(const sky::Series& series) {
  long long sum = 0;
  for (const sky::Hour& hour : series.hours) {
    if (hour.rain) sum += std::llround(hour.rain->value.value() * 10.0);
  }
  return sum;
}

}  // namespace weatherstruck::feed
