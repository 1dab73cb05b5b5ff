#pragma once
// What the tests of the job document share.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/zone_source.h"

namespace weatherstruck::files {

inline std::string file_text(const std::string& path_in_source) {
  std::ifstream in(std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / path_in_source, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path_in_source);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline std::string demo_text() {
  return file_text("fixtures/demo/job.json");
}
inline std::string complete_text() {
  return file_text("tests/files/complete_job.json");
}

inline JobRead read(std::string_view text) {
  return read_job(text, SystemZones());
}

inline Json as_json(std::string_view text) {
  return parse_json(text, JsonLimits::job_document()).value.value();
}

inline std::string all_texts(const base::Faults& faults) {
  std::string out;
  for (const auto& fault : faults)
    out += base::to_text(fault) + "\n";
  return out;
}

}  // namespace weatherstruck::files
