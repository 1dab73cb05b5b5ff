#include "weatherstruck/record/daily_copy.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view name_begins = "record-";
constexpr std::string_view name_ends = ".db";
constexpr std::size_t day_length = 10;  // 2026-02-09
constexpr std::chrono::milliseconds patience{1000};

std::string day_of(base::Instant now) {
  const std::chrono::year_month_day day(std::chrono::floor<std::chrono::days>(now));
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

fs::path copy_of(const fs::path& record, base::Instant now) {
  return copies_folder(record) / fmt::format("{}{}{}", name_begins, day_of(now), name_ends);
}

// The day in a copy's name; nothing for another file.
std::optional<std::string> day_in(const fs::path& file) {
  const std::string name = file.filename().string();
  if (name.size() != name_begins.size() + day_length + name_ends.size()) return std::nullopt;
  if (name.rfind(name_begins, 0) != 0 || fs::path(name).extension() != name_ends) return std::nullopt;
  const std::string day = name.substr(name_begins.size(), day_length);
  for (std::size_t i = 0; i < day.size(); ++i) {
    const bool dash = i == 4 || i == 7;
    if (dash != (day[i] == '-') || (!dash && (day[i] < '0' || day[i] > '9'))) return std::nullopt;
  }
  return day;
}

bool is_good(const fs::path& copy) {
  try {
    Connection connection(copy, Connection::Open::existing, patience);
    refuse_strange_file(connection, embedded_migrations());
    if (connection.number("PRAGMA user_version") == 0) return false;
    connection.quick_check();
    return true;
  } catch (const RecordError&) {
    return false;
  }
}

// For a shell: in single quotes, and any such quote by itself.
std::string quoted(const fs::path& path) {
  std::string out = "'";
  for (const char c : path.string()) {
    if (c == '\'') {
      out += "'\\''";
    } else {
      out += c;
    }
  }
  return out + "'";
}

fs::path free_folder(const fs::path& folder) {
  fs::path name = "damaged";
  for (int next = 2; fs::exists(folder / name); ++next)
    name = fmt::format("damaged-{}", next);
  return name;
}

}  // namespace

fs::path copies_folder(const fs::path& record) {
  return record.parent_path() / "copies";
}

std::vector<fs::path> daily_copies(const fs::path& record) {
  std::vector<fs::path> found;
  std::error_code none;
  for (const fs::directory_entry& entry : fs::directory_iterator(copies_folder(record), none)) {
    if (day_in(entry.path())) found.push_back(entry.path());
  }
  std::sort(found.rbegin(), found.rend());
  return found;
}

bool is_copied(const fs::path& record, base::Instant now) {
  std::error_code ignored;
  return fs::exists(copy_of(record, now), ignored);
}

bool keep_daily_copy(Store& store, base::Instant now) {
  if (!store.wrote()) return false;
  if (is_copied(store.path(), now) && !store.issued()) return false;
  const fs::path copy = copy_of(store.path(), now);
  std::error_code ignored;
  make_private_folder(copies_folder(store.path()));
  const fs::path unfinished = copy.string() + ".unfinished";
  fs::remove(unfinished, ignored);  // of a program that was killed
  store.copy_to(unfinished);
  std::error_code failure;
  fs::rename(unfinished, copy, failure);
  if (failure) {
    fs::remove(unfinished, ignored);
    throw RecordError(RecordError::Kind::io, copy,
                      fmt::format("the copy could not be given its name ({})", failure.message()));
  }
  flush_to_disk(copy);
  const std::vector<fs::path> all = daily_copies(store.path());
  for (std::size_t i = daily_copies_kept; i < all.size(); ++i)
    fs::remove(all[i], ignored);
  return true;
}

std::optional<fs::path> latest_good_copy(const fs::path& record) {
  for (const fs::path& copy : daily_copies(record)) {
    if (is_good(copy)) return copy;
  }
  return std::nullopt;
}

std::string way_back(const fs::path& record) {
  const fs::path folder = record.parent_path();
  const std::optional<fs::path> copy = latest_good_copy(record);
  if (!copy) {
    return fmt::format(
        "There is no good copy in {}. Do not write to the record any more; put a copy of your own in its "
        "place, "
        "without the files {}-wal and {}-shm.",
        copies_folder(record).string(), record.filename().string(), record.filename().string());
  }
  const std::string name = record.filename().string();
  const fs::path aside = free_folder(folder);
  // The log of the damaged file must not be played into the copy, so it goes with it.
  return fmt::format(
      "The copy of {} is good. It is taken back with\n\n  cd {} && mkdir {} && mv {}* {} && cp {} {}\n\nWhat "
      "was "
      "noted after it is not in it; look at the last day sheets and log that again.",
      day_in(*copy).value_or(""), quoted(folder), aside.string(), name, aside.string(),
      (copies_folder(record).filename() / copy->filename()).string(), name);
}

}  // namespace weatherstruck::record
