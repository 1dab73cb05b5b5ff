#pragma once
// Photographs and scans that go with lines of the book: receipts, most of all. Each is a file in the folder
// "photographs" beside the record, named by the SHA-256 of its bytes; the record says which line it goes
// with.
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/rows.h"

namespace weatherstruck::record {

/// A larger file is not kept. Our own choice, from memory: a telephone's picture has 2 to 12 MB.
inline constexpr std::size_t most_photograph_bytes = 20'000'000;

enum class PhotographKind { jpeg, png, webp, heic, pdf };

/// By its first bytes, whatever its name; nullopt for anything else.
[[nodiscard]] std::optional<PhotographKind> photograph_kind(std::string_view bytes);
/// "jpeg": stable, as kept. Its inverse gives nullopt for another word.
[[nodiscard]] std::string_view word_of(PhotographKind kind);
[[nodiscard]] std::optional<PhotographKind> photograph_kind_named(std::string_view word);
/// "JPEG".
[[nodiscard]] std::string_view title_of(PhotographKind kind);
/// "JPEG, PNG, WebP, HEIC or PDF".
[[nodiscard]] std::string photograph_kinds_allowed();

struct Photograph {
  EntryId entry{};
  std::int64_t line = 0;  ///< of the book: the entry's revision
  std::string content;    ///< SHA-256 of the bytes, 64 hexadecimal figures
  PhotographKind kind = PhotographKind::jpeg;
  std::int64_t size = 0;  ///< bytes
  base::Instant kept_at{};
};

/// SHA-256 in hexadecimal, as in Photograph::content.
[[nodiscard]] std::string content_of_bytes(std::string_view bytes);
/// The first eight figures, by which a person knows it and finds the file.
[[nodiscard]] std::string mark_of(const Photograph& photograph);

/// "photographs" beside the record.
[[nodiscard]] std::filesystem::path photographs_folder(const std::filesystem::path& record);
/// "photographs/CONTENT.jpg" beside the record.
[[nodiscard]] std::filesystem::path photograph_file(const std::filesystem::path& record,
                                                    const Photograph& photograph);

enum class PhotographState { whole, missing, changed, unreadable };
/// "whole", "missing", "changed since it was kept", "cannot be read".
[[nodiscard]] std::string_view words_of(PhotographState state);
/// Reads the file through. Throws nothing for what it finds.
[[nodiscard]] PhotographState state_of(const std::filesystem::path& record, const Photograph& photograph);

struct LostPhotograph {
  Photograph photograph;
  PhotographState state = PhotographState::missing;
};

struct KeptPhotograph {
  Photograph photograph;
  bool added = false;  ///< false: it went with that line already; a file that was lost is there again
};

}  // namespace weatherstruck::record
