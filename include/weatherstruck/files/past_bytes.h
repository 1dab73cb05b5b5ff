#pragma once
// Years of hourly weather in a few bytes an hour, as the record keeps them.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/sky/series.h"

namespace weatherstruck::files {

/// Seven numbers of two bytes for each hour, low byte first: temperature, dew point, wind, gust and rain in
/// tenths, humidity and cloud in hundredths; 0x8000 for what is not given. Origins and chances of rain are
/// not kept.
/// @pre the hours follow one another
[[nodiscard]] std::string pack_past(const sky::Series& series);

/// Back again, as measured values from `from` on. nullopt where the bytes are not of that form.
[[nodiscard]] std::optional<std::vector<sky::Hour>> unpack_past(std::string_view bytes, base::Instant from);

}  // namespace weatherstruck::files
