#include "weatherstruck/record/wal_tail.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <bit>
#include <cstring>
#include <fstream>
#include <iterator>
#include <string>

namespace weatherstruck::record {
namespace {

// sqlite.org/fileformat2.html, 4.1 to 4.4.
constexpr std::size_t log_head = 32;
constexpr std::size_t frame_head = 24;
constexpr std::uint32_t magic_little = 0x377F0682;
constexpr std::uint32_t magic_big = 0x377F0683;
// sqlite.org/walformat.html, 2.1: where the index says how many pages are valid, and of which log.
constexpr std::size_t index_head = 136;
constexpr std::size_t index_copy = 48;
constexpr std::size_t index_ready_at = 12;
constexpr std::size_t index_pages_at = 16;
constexpr std::size_t index_salt_at = 32;
constexpr std::size_t index_carried_over_at = 96;
// Where the locks of the index lie, the last being held by every program that has the file open (os_unix.c of
// SQLite 3.40, from memory).
constexpr off_t index_locks_at = 120;
constexpr off_t index_locks = 9;

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::uint32_t big(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 24U | byte_at(bytes, at + 1) << 16U | byte_at(bytes, at + 2) << 8U |
         byte_at(bytes, at + 3);
}

std::uint32_t little(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at + 3) << 24U | byte_at(bytes, at + 2) << 16U | byte_at(bytes, at + 1) << 8U |
         byte_at(bytes, at);
}

// The index is in the order of the machine that made it.
std::uint32_t native(std::string_view bytes, std::size_t at) {
  return std::endian::native == std::endian::little ? little(bytes, at) : big(bytes, at);
}

struct Sum {
  std::uint32_t first = 0;
  std::uint32_t second = 0;
  void add(std::string_view bytes, bool big_endian) {
    for (std::size_t at = 0; at + 8 <= bytes.size(); at += 8) {
      first += (big_endian ? big(bytes, at) : little(bytes, at)) + second;
      second += (big_endian ? big(bytes, at + 4) : little(bytes, at + 4)) + first;
    }
  }
  [[nodiscard]] bool stands_at(std::string_view bytes, std::size_t at) const {
    return big(bytes, at) == first && big(bytes, at + 4) == second;
  }
};

// What the index holds for written, and how much of that is in the database already.
struct Claim {
  std::int64_t pages = 0;
  std::int64_t carried_over = 0;
};

// Nothing where the index cannot be trusted or speaks of another log.
Claim claim_of(std::string_view index, std::string_view log) {
  if (index.size() < index_head) return {};
  if (index.substr(0, index_copy) != index.substr(index_copy, index_copy)) return {};
  if (index[index_ready_at] == 0) return {};
  const bool head_is_there = log.size() >= log_head;
  if (head_is_there && index.substr(index_salt_at, 8) != log.substr(16, 8)) return {};
  return {native(index, index_pages_at), native(index, index_carried_over_at)};
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

bool held_by_another(const std::filesystem::path& index) {
  const int descriptor = ::open(index.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return false;
  struct flock lock {};
  lock.l_type = F_WRLCK;
  lock.l_whence = SEEK_SET;
  lock.l_start = index_locks_at;
  lock.l_len = index_locks;
  const bool held = ::fcntl(descriptor, F_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
  ::close(descriptor);
  return held;
}

}  // namespace

WalTail read_wal_tail(std::string_view log, std::string_view index) {
  WalTail tail;
  std::int64_t pages = 0;
  const bool known = log.size() >= log_head && (big(log, 0) == magic_little || big(log, 0) == magic_big);
  if (known) {
    const bool big_endian = big(log, 0) == magic_big;
    const std::size_t page = big(log, 8) == 1 ? 65536 : big(log, 8);
    Sum sum;
    sum.add(log.substr(0, 24), big_endian);
    const bool head_whole = sum.stands_at(log, 24) && page >= 512;
    for (std::size_t at = log_head; head_whole && at + 16 <= log.size(); at += frame_head + page) {
      // Pages with another salt are left over from an earlier round of the log.
      if (log.substr(at + 8, 8) != log.substr(16, 8)) break;
      ++pages;
      if (log.size() - at < frame_head + page) break;
      sum.add(log.substr(at, 8), big_endian);
      sum.add(log.substr(at + frame_head, page), big_endian);
      if (!sum.stands_at(log, at + 16)) break;
      if (big(log, at + 4) != 0) tail.whole = pages;
    }
  }
  const Claim claim = claim_of(index, log);
  tail.unfinished = pages - tail.whole;
  tail.lost = std::max<std::int64_t>(0, claim.pages - std::max(tail.whole, claim.carried_over));
  tail.left_open = pages > 0 || tail.lost > 0;
  return tail;
}

WalTail wal_tail_of(const std::filesystem::path& database) {
  const std::string log = database.string() + "-wal";
  const std::string index = database.string() + "-shm";
  if (held_by_another(index)) return {};
  return read_wal_tail(bytes_of(log), bytes_of(index));
}

}  // namespace weatherstruck::record
