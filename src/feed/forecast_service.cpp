#include "weatherstruck/feed/forecast_service.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::feed {
namespace {

using files::Json;

// MET Norway Terms of Service: more than four decimals are answered with 403; the US service asks for the
// same.
constexpr int most_decimals = 4;
// Locationforecast documentation.
constexpr double lowest_ground = -500;
constexpr double highest_ground = 9000;
// The US service's grids have some hundreds of squares a side (sample: TAE 58,65); a number far beyond is
// none.
constexpr int most_squares = 2000;

// Extremes of land from memory, to a tenth of a degree outwards.
constexpr std::array<PlaceBox, 7> boxes{{
    {"the states between Canada and Mexico", 24.3, 49.5, -124.9, -66.8},
    {"Alaska", 51.0, 71.6, -180.0, -129.8},
    {"the Aleutians beyond the date line", 51.0, 53.2, 172.2, 180.0},
    {"Hawaii", 18.7, 22.4, -160.7, -154.6},
    {"Puerto Rico and the Virgin Islands", 17.5, 18.7, -68.1, -64.4},
    {"Guam and the Northern Marianas", 13.1, 20.7, 144.5, 146.2},
    {"American Samoa", -14.7, -10.9, -171.2, -168.0},
}};

void check(const ForecastPlace& place) {
  const bool on_earth = std::abs(place.latitude) <= 90 && std::abs(place.longitude) <= 180;
  if (!on_earth) throw std::invalid_argument("no such place: latitude -90..90, longitude -180..180 degrees");
  if (!place.altitude) return;
  const double metres = place.altitude->value();
  if (!(metres >= lowest_ground && metres <= highest_ground)) {
    throw std::invalid_argument("no such altitude: -500..9000 m");
  }
}

constexpr std::size_t longest_address = 200;
constexpr std::size_t longest_shown = 60;
constexpr std::string_view plain_scheme = "http://";
constexpr std::string_view safe_scheme = "https://";

// "host", "host:8443", "[::1]:80": a name or number, and a port that is digits.
bool is_host(std::string_view text) {
  std::string_view name = text;
  std::string_view port;
  if (text.starts_with('[')) {
    const auto end = text.find(']');
    if (end == std::string_view::npos) return false;
    name = text.substr(1, end - 1);
    port = text.substr(end + 1);
  } else {
    const auto colon = text.find(':');
    name = text.substr(0, colon);
    if (colon != std::string_view::npos) port = text.substr(colon);
  }
  const auto digits = port.substr(port.empty() ? 0 : 1);
  return !name.empty() && (port.empty() || (port[0] == ':' && !digits.empty())) &&
         std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string degrees(double value) {
  return base::plain_number(value, most_decimals);
}

constexpr std::array<std::pair<std::string_view, ForecastService>, 4> choices{
    {{"met-norway", ForecastService::met_norway},
     {"nws", ForecastService::nws},
     {"mosmix", ForecastService::mosmix},
     {"open-meteo", ForecastService::open_meteo}}};

// DWD: five digits or letters (10315, K2226); the US service's have four, some more.
constexpr std::size_t longest_station = 6;
constexpr std::size_t longest_us_station = 12;
constexpr std::size_t longest_key = 100;

bool is_identifier(std::string_view text, std::size_t least, std::size_t most) {
  return text.size() >= least && text.size() <= most && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
         });
}

const Json* member(const Json* object, const char* key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(key);
  return found == object->end() ? nullptr : &*found;
}

std::optional<int> square_number(const Json* value) {
  if (value == nullptr || !value->is_number_integer()) return std::nullopt;
  const auto number = value->get<long long>();
  if (number < 0 || number > most_squares) return std::nullopt;
  return static_cast<int>(number);
}

}  // namespace

std::string_view name_of(ForecastService service) {
  switch (service) {
    case ForecastService::nws:
      return "the US National Weather Service";
    case ForecastService::mosmix:
      return "the Deutscher Wetterdienst";
    case ForecastService::open_meteo:
      return "Open-Meteo";
    case ForecastService::met_norway:
      break;
  }
  return "MET Norway";
}

std::optional<ServiceChoice> read_choice(std::string_view words) {
  for (const auto& [word, service] : choices) {
    if (words == word) return ServiceChoice{service, ""};
  }
  constexpr std::string_view with_station = "mosmix:";
  if (!words.starts_with(with_station)) return std::nullopt;
  const std::string_view station = words.substr(with_station.size());
  if (!is_identifier(station, 1, longest_station)) return std::nullopt;
  return ServiceChoice{ForecastService::mosmix, std::string(station)};
}

std::string words_of(const ServiceChoice& choice) {
  for (const auto& [word, service] : choices) {
    if (choice.service == service)
      return std::string(word) + (choice.station.empty() ? "" : ":" + choice.station);
  }
  return {};
}

std::span<const PlaceBox> us_boxes() {
  return boxes;
}

ForecastService service_for(const ForecastPlace& place) {
  check(place);
  const bool american = std::any_of(boxes.begin(), boxes.end(), [&](const PlaceBox& box) {
    return place.latitude >= box.south && place.latitude <= box.north && place.longitude >= box.west &&
           place.longitude <= box.east;
  });
  return american ? ForecastService::nws : ForecastService::met_norway;
}

bool on_this_machine(std::string_view address) {
  if (!address.starts_with(plain_scheme)) return false;
  const std::string_view rest = address.substr(plain_scheme.size());
  const std::string_view host = rest.substr(0, rest.find('/'));
  if (!is_host(host)) return false;
  return host.starts_with("[::1]") || host.substr(0, host.find(':')) == "127.0.0.1";
}

ServiceAddresses addresses_under(std::string_view address, std::string_view given_by) {
  if (address.empty()) return {};
  const bool plain = std::all_of(address.begin(), address.end(), [](char c) {
    return c > ' ' && c < 0x7f && std::string_view("@?#\\\"<>").find(c) == std::string_view::npos;
  });
  const std::string_view rest =
      address.starts_with(safe_scheme) ? address.substr(safe_scheme.size()) : std::string_view();
  const bool good = plain && address.size() <= longest_address &&
                    (on_this_machine(address) || is_host(rest.substr(0, rest.find('/'))));
  if (!good) {
    std::string found = without_queries(address).substr(0, longest_shown);
    std::replace_if(
        found.begin(), found.end(), [](char c) { return c < ' ' || c > '~'; }, '?');
    throw base::InputError("the forecast service",
                           {{"bad-address", std::string(given_by), std::move(found),
                             "https://host, or http://127.0.0.1:port on this machine",
                             "Put the address right, or leave it out: then the service itself is asked."}});
  }
  while (address.ends_with('/'))
    address.remove_suffix(1);
  const std::string all(address);
  return {all, all, all, all};
}

HttpRequest met_norway_request(const ForecastPlace& place, const ServiceAddresses& addresses) {
  check(place);
  HttpRequest out;
  out.url = addresses.met_norway + "/weatherapi/locationforecast/2.0/complete?";
  if (place.altitude) out.url += fmt::format("altitude={}&", std::lround(place.altitude->value()));
  out.url += "lat=" + degrees(place.latitude) + "&lon=" + degrees(place.longitude);
  out.accept = "application/json";
  return out;
}

HttpRequest nws_points_request(const ForecastPlace& place, const ServiceAddresses& addresses) {
  check(place);
  HttpRequest out;
  out.url = addresses.nws + "/points/" + degrees(place.latitude) + "," + degrees(place.longitude);
  out.accept = "application/geo+json";
  return out;
}

std::optional<GridSquare> read_nws_points(std::string_view body) {
  const files::ParsedJson parsed = files::parse_json(body, files::JsonLimits::forecast());
  if (!parsed.value) return std::nullopt;
  const Json* properties = member(&*parsed.value, "properties");
  const Json* office = member(properties, "gridId");
  const auto x = square_number(member(properties, "gridX"));
  const auto y = square_number(member(properties, "gridY"));
  if (office == nullptr || !office->is_string() || !x || !y) return std::nullopt;
  GridSquare out{office->get<std::string>(), *x, *y};
  const bool three = out.office.size() == 3 && std::all_of(out.office.begin(), out.office.end(), [](char c) {
                       return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
                     });
  if (!three) return std::nullopt;
  return out;
}

HttpRequest nws_grid_request(const GridSquare& square, const ServiceAddresses& addresses) {
  HttpRequest out;
  out.url = fmt::format("{}/gridpoints/{}/{},{}", addresses.nws, square.office, square.x, square.y);
  out.accept = "application/geo+json";
  return out;
}

HttpRequest nws_stations_request(const GridSquare& square, const ServiceAddresses& addresses) {
  HttpRequest out = nws_grid_request(square, addresses);
  out.url += "/stations";
  return out;
}

std::optional<std::string> read_nws_station(std::string_view body) {
  const files::ParsedJson parsed = files::parse_json(body, files::JsonLimits::forecast());
  if (!parsed.value) return std::nullopt;
  const Json* features = member(&*parsed.value, "features");
  if (features == nullptr || !features->is_array() || features->empty()) return std::nullopt;
  const Json* name = member(member(&features->front(), "properties"), "stationIdentifier");
  if (name == nullptr || !name->is_string()) return std::nullopt;
  std::string station = name->get<std::string>();
  if (!is_identifier(station, 3, longest_us_station)) return std::nullopt;
  return station;
}

HttpRequest nws_observations_request(std::string_view station, base::Instant from,
                                     const ServiceAddresses& addresses) {
  HttpRequest out;
  out.url = fmt::format("{}/stations/{}/observations?start={}", addresses.nws, station, base::iso_utc(from));
  out.accept = "application/geo+json";
  return out;
}

HttpRequest mosmix_request(std::string_view station, const ServiceAddresses& addresses) {
  HttpRequest out;
  out.url =
      fmt::format("{}/weather/local_forecasts/mos/MOSMIX_L/single_stations/{}/kml/MOSMIX_L_LATEST_{}.kmz",
                  addresses.dwd, station, station);
  return out;
}

HttpRequest open_meteo_request(const ForecastPlace& place, std::string_view key,
                               const ServiceAddresses& addresses) {
  check(place);
  const bool good =
      !key.empty() && key.size() <= longest_key && std::all_of(key.begin(), key.end(), [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
               c == '_';
      });
  if (!good) {
    throw base::InputError(
        "Open-Meteo", {{"bad-key", "WEATHERSTRUCK_OPEN_METEO_KEY", fmt::format("{} characters", key.size()),
                        "1 to 100 letters, digits, - and _", "Put the key as Open-Meteo gave it to you."}});
  }
  HttpRequest out;
  out.url = addresses.open_meteo + "/v1/forecast?latitude=" + degrees(place.latitude) +
            "&longitude=" + degrees(place.longitude);
  if (place.altitude) out.url += fmt::format("&elevation={}", std::lround(place.altitude->value()));
  out.url +=
      "&hourly=temperature_2m,relative_humidity_2m,dew_point_2m,precipitation,precipitation_probability,"
      "cloud_cover,wind_speed_10m,wind_gusts_10m&wind_speed_unit=ms&timezone=UTC&forecast_days=10";
  out.key = "apikey=" + std::string(key);
  out.accept = "application/json";
  return out;
}

}  // namespace weatherstruck::feed
