#pragma once
// What the last program left behind in the write-ahead log. Opening a file throws away what is not whole at
// the end of its log, without a word; this looks before. Formats: sqlite.org/fileformat2.html section 4 (log)
// and sqlite.org/walformat.html (index).
#include <cstdint>
#include <filesystem>
#include <string_view>

namespace weatherstruck::record {

struct WalTail {
  bool left_open = false;       ///< a log with pages in it: the last program did not close the file
  std::int64_t whole = 0;       ///< pages up to the end of the last whole write
  std::int64_t unfinished = 0;  ///< pages after that, of a write that was never acknowledged, or torn
  /// Pages that the index says had been written and that are gone: what a person noted is missing. Known only
  /// as long as the index (record.db-shm) is there, that is, until the machine is restarted or the file
  /// opened.
  std::int64_t lost = 0;
};

/// Judges the bytes of a log and of its index (either may be empty).
[[nodiscard]] WalTail read_wal_tail(std::string_view log, std::string_view index);

/// The same for the files beside `database`; nothing at all where another program has it open, for then
/// nobody left it. Files that are not there or cannot be read count as empty. Not while this process has the
/// database open: closing any descriptor of a file drops all the process's locks on it (POSIX fcntl).
[[nodiscard]] WalTail wal_tail_of(const std::filesystem::path& database);

}  // namespace weatherstruck::record
