#include "weatherstruck/feed/mosmix_stations.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace weatherstruck::feed {
namespace {

// From memory: numbers of the World Meteorological Organization, places of the airports and observatories.
constexpr std::array stations{
    MosmixStation{"10035", "Schleswig", 54.53, 9.55},
    MosmixStation{"10147", "Hamburg-Fuhlsbuettel", 53.63, 9.99},
    MosmixStation{"10170", "Rostock-Warnemuende", 54.18, 12.08},
    MosmixStation{"10224", "Bremen", 53.05, 8.80},
    MosmixStation{"10315", "Muenster/Osnabrueck", 52.13, 7.70},
    MosmixStation{"10338", "Hannover", 52.46, 9.68},
    MosmixStation{"10361", "Magdeburg", 52.10, 11.58},
    MosmixStation{"10384", "Berlin-Tempelhof", 52.47, 13.40},
    MosmixStation{"10400", "Duesseldorf", 51.30, 6.77},
    MosmixStation{"10444", "Goettingen", 51.50, 9.95},
    MosmixStation{"10469", "Leipzig/Halle", 51.44, 12.24},
    MosmixStation{"10488", "Dresden-Klotzsche", 51.13, 13.75},
    MosmixStation{"10513", "Koeln/Bonn", 50.86, 7.16},
    MosmixStation{"10554", "Erfurt-Weimar", 50.98, 10.96},
    MosmixStation{"10637", "Frankfurt am Main", 50.03, 8.52},
    MosmixStation{"10655", "Wuerzburg", 49.77, 9.96},
    MosmixStation{"10708", "Saarbruecken-Ensheim", 49.21, 7.11},
    MosmixStation{"10738", "Stuttgart-Echterdingen", 48.69, 9.22},
    MosmixStation{"10763", "Nuernberg", 49.50, 11.05},
    MosmixStation{"10776", "Regensburg", 49.04, 12.10},
    MosmixStation{"10852", "Augsburg", 48.43, 10.94},
    MosmixStation{"10870", "Muenchen-Flughafen", 48.35, 11.81},
    MosmixStation{"10948", "Oberstdorf", 47.40, 10.28},
    MosmixStation{"06180", "Kobenhavn", 55.61, 12.65},
    MosmixStation{"06240", "Amsterdam", 52.32, 4.79},
    MosmixStation{"06447", "Uccle", 50.80, 4.36},
    MosmixStation{"06660", "Zuerich", 47.38, 8.57},
    MosmixStation{"07150", "Paris-Le Bourget", 48.97, 2.43},
    MosmixStation{"11035", "Wien Hohe Warte", 48.25, 16.36},
    MosmixStation{"11518", "Praha-Ruzyne", 50.10, 14.26},
    MosmixStation{"03772", "London Heathrow", 51.48, -0.45},
    MosmixStation{"03969", "Dublin", 53.43, -6.24},
};

}  // namespace

std::span<const MosmixStation> mosmix_stations() {
  return stations;
}

double great_circle_km(double latitude_a, double longitude_a, double latitude_b, double longitude_b) {
  constexpr double radius = 6371;
  constexpr double degree = std::numbers::pi / 180.0;
  const double up = std::sin((latitude_b - latitude_a) * degree / 2);
  const double across = std::sin((longitude_b - longitude_a) * degree / 2);
  const double h = up * up + std::cos(latitude_a * degree) * std::cos(latitude_b * degree) * across * across;
  return 2 * radius * std::asin(std::sqrt(std::fmin(1.0, h)));
}

NearStation nearest_mosmix_station(double latitude, double longitude) {
  if (!(std::abs(latitude) <= 90 && std::abs(longitude) <= 180))
    throw std::invalid_argument("no such place: latitude -90..90, longitude -180..180 degrees");
  const auto away = [&](const MosmixStation& station) {
    return great_circle_km(latitude, longitude, station.latitude, station.longitude);
  };
  const auto* near = std::min_element(stations.begin(), stations.end(),
                                      [&](const auto& a, const auto& b) { return away(a) < away(b); });
  return {*near, away(*near)};
}

}  // namespace weatherstruck::feed
