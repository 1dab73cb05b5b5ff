#pragma once
// Archives made by hand, to be unpacked.
#include <string>
#include <utility>
#include <vector>

namespace weatherstruck::feed {

/// gzip of the text (RFC 1952), by zlib.
[[nodiscard]] std::string gzip_of(const std::string& text);

struct ZipEntry {
  std::string name;
  std::string text;
  bool deflated = true;
  unsigned flags = 0;  ///< general purpose bits, e.g. 1: locked
  bool wrong_checksum = false;
};
/// A zip archive as its specification has it (PKWARE APPNOTE 6.3: local headers, central directory, end),
/// written here byte by byte.
[[nodiscard]] std::string zip_of(const std::vector<ZipEntry>& entries);

}  // namespace weatherstruck::feed
