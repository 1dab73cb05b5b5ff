#pragma once
// The steps by which a file of an older version becomes one of this version.
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string_view>

#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {

/// One step, from migrations/NNNN_name.sql. A file that has taken step n has user_version n.
struct Migration {
  std::int64_t number = 0;  ///< 1, 2, 3 ... without a gap
  std::string_view name;
  std::string_view sql;  ///< must not begin or end a transaction
};

/// The steps built into the program, in order.
[[nodiscard]] std::span<const Migration> embedded_migrations();

/// Marks a file as ours: application_id, "WStr" in ASCII.
inline constexpr std::int64_t application_id = 0x57537472;

struct Migrated {
  std::int64_t from = 0;  ///< user_version before; 0 for a new file
  std::int64_t to = 0;
  std::optional<std::filesystem::path> copy;  ///< kept beside the file, as it was before; none for a new file
};

/// Whether the file may be opened at all. Reads only.
/// @throws RecordError from_the_future, not_ours
void refuse_strange_file(Connection& connection, std::span<const Migration> steps);

/// Takes every step the file still lacks in one transaction; all of them hold or none. A file with a version
/// of its own is copied before ("record.db" to "record.db.version-1", with "-2" and so on where that is
/// taken); the copy has been checked and is on the disk before the first step. Safe beside other programs:
/// the copy is made while they may not write.
/// @throws RecordError
Migrated migrate(Connection& connection, std::span<const Migration> steps);

/// Takes the steps after `version` in a database in memory, without a copy and without asking what it is.
/// @throws RecordError
void take_steps(Connection& connection, std::span<const Migration> steps, std::int64_t version);

}  // namespace weatherstruck::record
