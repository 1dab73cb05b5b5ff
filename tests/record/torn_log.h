#pragma once
// A record as a machine that stopped leaves it, its log cut short or spoilt.
#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/record/rows.h"

namespace weatherstruck::record {

// Sizes from sqlite.org/fileformat2.html, 4.1 and 4.2.
inline constexpr std::size_t log_head = 32;
inline constexpr std::size_t log_frame = 24 + 4096;
inline constexpr std::int64_t entry_count = 20;

/// The files while they are open, and the length of the log after each entry.
struct Left {
  std::string database;
  std::string log;
  std::string index;
  std::vector<std::size_t> log_after;
  JobId job{};
};

Left leave_entries();
/// Entries whose last page ends within so many bytes of the log.
std::int64_t whole_entries(const Left& left, std::size_t length);
/// Lengths at, just before and just after every page of the log.
std::set<std::size_t> cuts_of(const Left& left);
/// Opens what was left with this log, with or without its index. The entries must be the first `count`,
/// whole, the file sound, and what is missing told where the index still knew of it.
void expect_prefix(const Left& left, const std::string& log, std::int64_t count, bool with_index);

}  // namespace weatherstruck::record
