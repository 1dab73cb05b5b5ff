#pragma once
// Reads the check values that lie beside the source, where they do.
#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

namespace weatherstruck::reference {

using Row = std::vector<std::string>;

inline std::string path_of(const std::string& file) {
  const char* folder = std::getenv("WEATHERSTRUCK_SHARED");
  return (folder != nullptr ? std::string(folder) : std::string(WEATHERSTRUCK_SOURCE_DIR "/../shared")) +
         "/reference/" + file;
}

/// Fields of one line of RFC 4180 CSV; no field of these files holds a newline.
inline Row split(const std::string& line) {
  Row fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      fields.emplace_back();
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  return fields;
}

/// Rows after the heading; nullopt where the file is not there.
inline std::optional<std::vector<Row>> rows_of(const std::string& file) {
  std::ifstream in(path_of(file));
  if (!in) return std::nullopt;
  std::vector<Row> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    if (!line.empty()) rows.push_back(split(line));
  }
  return rows;
}

inline double number(const std::string& text) {
  return std::stod(text);
}

}  // namespace weatherstruck::reference

/// Skips the test with a clear line where the file is absent.
#define WS_REFERENCE_ROWS(name, file)                                \
  const auto name##_read = weatherstruck::reference::rows_of(file);  \
  if (!name##_read) {                                                \
    GTEST_SKIP() << "no " << weatherstruck::reference::path_of(file) \
                 << "; set WEATHERSTRUCK_SHARED to the data folder"; \
  }                                                                  \
  const std::vector<weatherstruck::reference::Row>& name = *name##_read
