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
  return service == ForecastService::nws ? "the US National Weather Service" : "MET Norway";
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
  return {std::string(address), std::string(address)};
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

}  // namespace weatherstruck::feed
