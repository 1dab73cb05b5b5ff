#pragma once
// The two public services that are asked, which of them for which place, and how their terms want to be
// asked. Sources: MET Norway, Locationforecast 2.0 documentation and Terms of Service; US National Weather
// Service, API documentation (weather.gov/documentation/services-web-api).
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/feed/http.h"

namespace weatherstruck::feed {

struct ForecastPlace {
  double latitude = 0;   ///< degrees north, -90..90
  double longitude = 0;  ///< degrees east, -180..180
  /// Above sea level, -500..9000. MET Norway corrects the temperature by it; without, it takes the mean
  /// ground of about a kilometre round.
  std::optional<base::Metres> altitude;
};

enum class ForecastService { met_norway, nws };

/// "MET Norway", "the US National Weather Service".
[[nodiscard]] std::string_view name_of(ForecastService service);

/// Degrees, edges included.
struct PlaceBox {
  std::string_view name;
  double south, north, west, east;
};

/// Where the US service is asked first: the fifty states and the territories, roughly, rounded outwards. They
/// take in much that lies across a border; the service's own 404 decides there, and MET Norway takes over.
[[nodiscard]] std::span<const PlaceBox> us_boxes();

/// @throws std::invalid_argument where the place is none
[[nodiscard]] ForecastService service_for(const ForecastPlace& place);

/// Where the services live. No slash at the end.
struct ServiceAddresses {
  std::string met_norway = "https://api.met.no";
  std::string nws = "https://api.weather.gov";
};

/// Both services under one address in place of their own: a mirror or a relay that keeps their paths.
/// @param address "https://host[:port][/path]", or plain http to this machine (on_this_machine), at most 200
/// characters; a slash at the end is dropped; empty: the services themselves
/// @param given_by where the address comes from, shown with the fault
/// @throws base::InputError "bad-address"
[[nodiscard]] ServiceAddresses addresses_under(std::string_view address, std::string_view given_by);
/// Whether that is plain http to 127.0.0.1 or [::1], which never leaves this machine.
[[nodiscard]] bool on_this_machine(std::string_view address);

/// Locationforecast 2.0 "complete": at most four decimals (more is answered with 403), whole metres.
/// @throws std::invalid_argument where the place is none
[[nodiscard]] HttpRequest met_norway_request(const ForecastPlace& place, const ServiceAddresses& addresses);
/// /points, which says which grid square the place lies in. At most four decimals, no trailing zeros (they
/// are answered with a redirect).
/// @throws std::invalid_argument where the place is none
[[nodiscard]] HttpRequest nws_points_request(const ForecastPlace& place, const ServiceAddresses& addresses);

/// A square of the US service's grid.
struct GridSquare {
  std::string office;  ///< three letters or digits
  int x = 0;
  int y = 0;
  friend bool operator==(const GridSquare&, const GridSquare&) = default;
};
/// gridId, gridX and gridY of a points answer; nullopt where it is none or they are not plausible.
[[nodiscard]] std::optional<GridSquare> read_nws_points(std::string_view body);
/// The grid data of the square. Made from its parts: an address inside an answer is never followed.
[[nodiscard]] HttpRequest nws_grid_request(const GridSquare& square, const ServiceAddresses& addresses);

}  // namespace weatherstruck::feed
