#pragma once
// Which records this process has open. Needed because looking into a file's index closes a descriptor of it,
// and that would drop the locks of any other connection of the process (POSIX fcntl).
#include <filesystem>
#include <string>

#include "weatherstruck/record/wal_tail.h"

namespace weatherstruck::record {

/// Counts the file as open for as long as it lives; to be made before, and destroyed after, its connection.
class OpenFile {
 public:
  explicit OpenFile(const std::filesystem::path& file);
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile();
  /// What the last program left; nothing where this process or another has the file open already.
  [[nodiscard]] const WalTail& tail() const { return tail_; }

 private:
  std::string key_;
  WalTail tail_;
};

}  // namespace weatherstruck::record
