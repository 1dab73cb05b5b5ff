#include "record/torn_log.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "record/scratch.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {

Left leave_entries() {
  const Scratch scratch;
  Left left;
  {
    Store store(scratch.file());
    left.job = add_wall(store);
  }
  const std::string file = scratch.file().string();
  Store store(scratch.file());
  for (std::int64_t number = 1; number <= entry_count; ++number) {
    store.append(left.job, numbered_entry(number));
    left.log_after.push_back(std::filesystem::file_size(file + "-wal"));
  }
  left.database = bytes_of(file);
  left.log = bytes_of(file + "-wal");
  left.index = bytes_of(file + "-shm");
  return left;
}

namespace {

void lay_out(const Scratch& scratch, const Left& left, const std::string& log, bool with_index) {
  const std::string file = scratch.file().string();
  std::filesystem::create_directories(scratch.file().parent_path());
  write_bytes(file, left.database);
  write_bytes(file + "-wal", log);
  std::filesystem::remove(file + "-shm");
  if (with_index) write_bytes(file + "-shm", left.index);
}

}  // namespace

void expect_prefix(const Left& left, const std::string& log, std::int64_t count, bool with_index) {
  const Scratch scratch;
  lay_out(scratch, left, log, with_index);
  {
    Store store(scratch.file());
    const std::vector<Entry> entries = store.entries(left.job);
    ASSERT_EQ(static_cast<std::int64_t>(entries.size()), count);
    for (const Entry& entry : entries)
      EXPECT_EQ(entry.body, numbered_entry(entry.revision).body);
    const Opening& opening = store.opening();
    EXPECT_EQ(opening.tail.lost > 0, with_index && count < entry_count);
    EXPECT_EQ(opening.last_entry.has_value(), opening.tail.lost > 0 && count > 0);
    if (opening.last_entry) {
      EXPECT_EQ(opening.last_entry->revision, count);
      EXPECT_EQ(opening.last_entry->at, numbered_entry(count).at);
    }
    store.append(left.job, numbered_entry(count + 1));
  }
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  EXPECT_EQ(connection.text("PRAGMA integrity_check"), "ok");
}

std::int64_t whole_entries(const Left& left, std::size_t length) {
  std::int64_t count = 0;
  while (count < entry_count && left.log_after[static_cast<std::size_t>(count)] <= length)
    ++count;
  return count;
}

std::set<std::size_t> cuts_of(const Left& left) {
  std::set<std::size_t> cuts{0, 1, 31, 32, 33};
  for (std::size_t at = log_head; at <= left.log.size(); at += log_frame) {
    for (const std::size_t cut : {at - 1, at, at + 1, at + 23, at + 24, at + 2000}) {
      if (cut <= left.log.size()) cuts.insert(cut);
    }
  }
  return cuts;
}

}  // namespace weatherstruck::record
