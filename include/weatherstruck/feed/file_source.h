#pragma once
// Forecast bytes from disk.
#include <cstddef>
#include <filesystem>
#include <string>

#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

inline constexpr std::size_t kMostForecastBytes = std::size_t{16}
                                                  << 20;  ///< 16 MiB; real answers have 0.1-0.3 MB

/// The whole file.
/// @throws base::InputError "no-such-file", "not-a-file" (a folder, a device), "unreadable", "too-big",
/// "empty-input"
[[nodiscard]] std::string read_forecast_bytes(const std::filesystem::path& path);

/// read_forecast over read_forecast_bytes.
[[nodiscard]] sky::Series read_forecast_file(const std::filesystem::path& path,
                                             const ReadOptions& options = {});

}  // namespace weatherstruck::feed
