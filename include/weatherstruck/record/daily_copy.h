#pragma once
// Copies of the record, one for each day on which something was kept, in the folder "copies" beside it. Days
// are those of UTC.
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::record {

/// So many of the newest stay; older ones go.
inline constexpr std::size_t daily_copies_kept = 10;

/// "copies" beside the record.
[[nodiscard]] std::filesystem::path copies_folder(const std::filesystem::path& record);

/// Newest first, by the day in their names ("record-2026-02-09.db"); none where there is no folder.
[[nodiscard]] std::vector<std::filesystem::path> daily_copies(const std::filesystem::path& record);

/// Whether the day's copy is there. Of such a record every page was read when it was made, so that opening it
/// again on that day need not (OpenOptions::Check::copied).
[[nodiscard]] bool is_copied(const std::filesystem::path& record, base::Instant now);

/// Keeps the day's copy where `store` has written and there is none yet, and writes it anew where it has
/// issued an invoice: a number once out must not be given again from a copy. The copy was read through, and
/// is whole under its name or not there.
/// @return whether one was kept
/// @throws RecordError; the record is as it was then
bool keep_daily_copy(Store& store, base::Instant now);

/// The newest copy that can be opened by this program and is sound from end to end.
[[nodiscard]] std::optional<std::filesystem::path> latest_good_copy(const std::filesystem::path& record);

/// What to do about a damaged record, in sentences, with a command for the shell that puts it aside and the
/// latest good copy in its place.
[[nodiscard]] std::string way_back(const std::filesystem::path& record);

}  // namespace weatherstruck::record
