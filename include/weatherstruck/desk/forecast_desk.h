#pragma once
// The forecast of a trip from the files given for it.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

/// Code of the note on a forecast for another place.
inline constexpr std::string_view far_away = "far-away";

/// Each file as a series, in the order given. Local times without an offset are of the site. A place more
/// than 50 km from the site gets a note.
/// @throws base::InputError for the first file that cannot be read as a forecast
[[nodiscard]] std::vector<sky::Series> read_forecasts(const std::vector<std::string>& paths,
                                                      const works::Site& site);

/// As one series: hour by hour the later issue wins, and the later named where two do not say; empty for
/// none.
[[nodiscard]] sky::Series joined(const std::vector<sky::Series>& forecasts);

/// Great-circle distance on a sphere of 6,371 km, kilometres. Degrees.
[[nodiscard]] double kilometres_between(double latitude_a, double longitude_a, double latitude_b,
                                        double longitude_b);

}  // namespace weatherstruck::desk
