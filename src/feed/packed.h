#pragma once
// Packed files, unpacked in memory: never to disk, never more than asked for.
#include <cstddef>
#include <string>
#include <string_view>

namespace weatherstruck::feed {

struct Unpacked {
  std::string bytes;    ///< empty where it could not be done
  std::string trouble;  ///< what was found, in words; empty where all is well
};

/// The first file of a zip archive whose name ends so, letters of either case. Its checksum is compared.
/// @param most bytes once unpacked; beyond it "trouble" says so, whatever the archive claims of its size
[[nodiscard]] Unpacked unzipped(std::string_view archive, std::string_view ending, std::size_t most);

/// A gzip file (RFC 1952), of several parts too; checksums are compared. Zeros behind the last part are
/// passed over.
[[nodiscard]] Unpacked gunzipped(std::string_view bytes, std::size_t most);

[[nodiscard]] inline bool is_zip(std::string_view bytes) {
  return bytes.starts_with("PK\x03\x04");
}
[[nodiscard]] inline bool is_gzip(std::string_view bytes) {
  return bytes.starts_with("\x1f\x8b\x08");
}

}  // namespace weatherstruck::feed
