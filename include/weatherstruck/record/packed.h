#pragma once
// A job packed away: everything the record has of it in one file, to be kept or brought into another record.
// The file is an SQLite database with the record's own tables and the rows of that job, numbered from 1, a
// table "packed" that says what it holds, and a table "photograph_bytes" with the files of its photographs.
// Weather of past years (table "past") is of a region and not of a job: it
// stays.
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/migrate.h"
#include "weatherstruck/record/photographs.h"

namespace weatherstruck::record {

/// Marks a file as a packed job: application_id, "WStP" in ASCII. Its user_version is that of the record.
inline constexpr std::int64_t packed_application_id = 0x57537450;

/// How many rows of each sort.
struct PackedRows {
  std::int64_t documents = 0;
  std::int64_t entries = 0;
  std::int64_t forecasts = 0;
  std::int64_t plans = 0;
  std::int64_t sheets = 0;
  std::int64_t invoices = 0;
  std::int64_t photographs = 0;
  friend bool operator==(const PackedRows&, const PackedRows&) = default;
};

/// What a packed job says of itself.
struct PackedLabel {
  std::string job;      ///< its name
  std::string place;    ///< key of the site, under which its forecasts are kept; may be empty
  std::string program;  ///< version of the program that packed it
  base::Instant made_at{};
  /// SHA-256 of all rows and photographs in hexadecimal: the same for the same job, whichever record it lies
  /// in.
  std::string content;
  PackedRows rows;
};

struct PackedJob {
  PackedLabel label;
  std::string bytes;                 ///< of the file
  std::vector<LostPhotograph> lost;  ///< whose files are not in it
};

/// What to do with photographs whose files are missing or were changed.
enum class LostOnes { refuse, leave_out };

/// What bringing one in did. All zero and not `fresh`: the same job was there already.
struct Unpacked {
  PackedLabel label;
  bool fresh = false;  ///< the job was not in the record before
  PackedRows added;
  std::int64_t photograph_files = 0;  ///< written: they were not here, or were not what they had been
  /// In which this record gives no numbers from now on, since one of the invoices brought in was numbered
  /// elsewhere.
  std::vector<std::string> closed_series;
  /// Photographs whose files were lost where it was packed, and are not here either.
  std::vector<LostPhotograph> lost;
};

/// Reads the label after checking every byte that matters: structure, schema, and each row and
/// photograph against `content`.
/// @param source for messages
/// @throws RecordError not_ours, from_the_future, corrupt
[[nodiscard]] PackedLabel check_packed(std::string_view bytes, const std::filesystem::path& source,
                                       std::span<const Migration> steps = embedded_migrations());

}  // namespace weatherstruck::record
