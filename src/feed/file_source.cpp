#include "weatherstruck/feed/file_source.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include <fmt/format.h>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& path, std::string code, std::string found,
                         std::string expected, std::string remedy) {
  throw base::InputError(path.string(), {{std::move(code), path.string(), std::move(found),
                                          std::move(expected), std::move(remedy)}});
}

}  // namespace

std::string read_forecast_bytes(const std::filesystem::path& path) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) {
    refuse(path, "no-such-file", "no such file", "a saved forecast", "Check the path.");
  }
  if (status.type() == fs::file_type::none || status.type() == fs::file_type::unknown) {
    refuse(path, "unreadable", error.message(), "a file that can be read", "Check who may read it.");
  }
  if (status.type() != fs::file_type::regular) {
    const bool folder = status.type() == fs::file_type::directory;
    refuse(path, "not-a-file", folder ? "a folder" : "something that is not a plain file", "a file",
           folder ? "Name the forecast file in the folder." : "Save the forecast to a file first.");
  }
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    const int reason = errno;
    refuse(path, "unreadable", reason != 0 ? std::strerror(reason) : "cannot be opened",
           "a file that can be read", "Check who may read it.");
  }
  // Counted while reading and not taken from the size: a file may grow, and some have no honest size.
  std::string bytes;
  std::string piece(std::size_t{1} << 16, '\0');
  while (in) {
    in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
    bytes.append(piece, 0, static_cast<std::size_t>(in.gcount()));
    if (bytes.size() > kMostForecastBytes) {
      refuse(path, "too-big", "more than 16 MiB", "at most 16 MiB", "Save the forecast of one place only.");
    }
  }
  if (in.bad())
    refuse(path, "unreadable", "reading stopped half way", "a file that can be read", "Try again.");
  if (bytes.empty())
    refuse(path, "empty-input", "an empty file", "a saved forecast", "Fetch the forecast again.");
  return bytes;
}

sky::Series read_forecast_file(const std::filesystem::path& path, const ReadOptions& options) {
  return read_forecast(path.string(), read_forecast_bytes(path), options);
}

}  // namespace weatherstruck::feed
