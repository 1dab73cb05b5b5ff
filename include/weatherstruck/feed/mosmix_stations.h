#pragma once
// Some of the stations that the Deutscher Wetterdienst makes MOSMIX forecasts for: those that serve when none
// is named. Any other is asked for by its number.
#include <span>
#include <string_view>

namespace weatherstruck::feed {

struct MosmixStation {
  std::string_view number;
  std::string_view name;
  double latitude, longitude;  ///< degrees, to a tenth or better
};

/// Numbers and places are from memory. The forecast itself says where its station is, and that is what is
/// told.
[[nodiscard]] std::span<const MosmixStation> mosmix_stations();

struct NearStation {
  const MosmixStation& station;
  double kilometres;
};
/// @throws std::invalid_argument for a place that is none
[[nodiscard]] NearStation nearest_mosmix_station(double latitude, double longitude);

/// Great-circle distance on a sphere of 6,371 km, kilometres. Degrees.
[[nodiscard]] double great_circle_km(double latitude_a, double longitude_a, double latitude_b,
                                     double longitude_b);

}  // namespace weatherstruck::feed
