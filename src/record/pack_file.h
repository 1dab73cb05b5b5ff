#pragma once
// A packed job as a database in memory.
#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/record/packed.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {

class PackFile {
 public:
  /// Empty, with the tables of this version, for a job to be put into.
  explicit PackFile(std::span<const Migration> steps);
  /// Of a file's bytes, checked, and brought up to this version where it is older.
  /// @throws RecordError not_ours, from_the_future, corrupt
  PackFile(std::string_view bytes, const std::filesystem::path& source, std::span<const Migration> steps);

  [[nodiscard]] Connection& rows() { return connection_; }
  [[nodiscard]] const PackedLabel& label() const { return label_; }
  /// Puts in the file of a photograph; once for all lines that it goes with.
  void put_photograph(const std::string& content, std::string_view bytes);
  /// nullopt: it was lost where the job was packed.
  [[nodiscard]] std::optional<std::string> photograph(const std::string& content);

  /// Seals what was put in. @return the bytes of the file
  std::string seal(PackedLabel label);

 private:
  void check_photographs(const std::filesystem::path& source);
  void count();

  Connection connection_;
  PackedLabel label_;
};

}  // namespace weatherstruck::record
