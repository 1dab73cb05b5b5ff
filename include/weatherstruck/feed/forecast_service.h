#pragma once
// The services that are asked, which of them for which place, and how their terms want to be asked. Sources:
// MET Norway, Locationforecast 2.0 documentation and Terms of Service; US National Weather Service, API
// documentation (weather.gov/documentation/services-web-api); Deutscher Wetterdienst, opendata.dwd.de
// (MOSMIX, no key, its data licence asks for the source); Open-Meteo (open-meteo.com/en/docs, en/terms: the
// free service is not for trade use, so it is asked with a key of the user's own only).
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/feed/http.h"

namespace weatherstruck::feed {

struct ForecastPlace {
  double latitude = 0;   ///< degrees north, -90..90
  double longitude = 0;  ///< degrees east, -180..180
  /// Above sea level, -500..9000. MET Norway corrects the temperature by it; without, it takes the mean
  /// ground of about a kilometre round.
  std::optional<base::Metres> altitude;
};

enum class ForecastService { met_norway, nws, mosmix, open_meteo };

/// "MET Norway", "the US National Weather Service", "the Deutscher Wetterdienst", "Open-Meteo".
[[nodiscard]] std::string_view name_of(ForecastService service);

/// A service by the user's choice.
struct ServiceChoice {
  ForecastService service = ForecastService::met_norway;
  std::string station;  ///< of mosmix: capitals and digits, at most six; empty: the nearest known
  friend bool operator==(const ServiceChoice&, const ServiceChoice&) = default;
};
/// "met-norway", "nws", "mosmix", "mosmix:10315", "open-meteo"; nullopt for other words.
[[nodiscard]] std::optional<ServiceChoice> read_choice(std::string_view words);
/// As read.
[[nodiscard]] std::string words_of(const ServiceChoice& choice);

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
  std::string dwd = "https://opendata.dwd.de";
  std::string open_meteo = "https://customer-api.open-meteo.com";  ///< of those who have a key
};

/// All services under one address in place of their own: a mirror or a relay that keeps their paths.
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
/// The stations near the square, the nearest first.
[[nodiscard]] HttpRequest nws_stations_request(const GridSquare& square, const ServiceAddresses& addresses);
/// Identifier of the first station of that answer; nullopt where it is none.
[[nodiscard]] std::optional<std::string> read_nws_station(std::string_view body);
/// What the station reported from then on.
[[nodiscard]] HttpRequest nws_observations_request(std::string_view station, base::Instant from,
                                                   const ServiceAddresses& addresses);

/// The newest MOSMIX_L of one station, KMZ.
[[nodiscard]] HttpRequest mosmix_request(std::string_view station, const ServiceAddresses& addresses);

/// Ten days by the hour in m/s and UTC. The key goes beside the address: `url` may be kept.
/// @param key letters, digits, - and _, at most 100
/// @throws std::invalid_argument where the place is none; base::InputError "bad-key"
[[nodiscard]] HttpRequest open_meteo_request(const ForecastPlace& place, std::string_view key,
                                             const ServiceAddresses& addresses);

}  // namespace weatherstruck::feed
