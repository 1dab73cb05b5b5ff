#include "weatherstruck/desk/forecast_desk.h"

#include <fmt/format.h>

#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/feed/mosmix_stations.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::desk {
namespace {

constexpr double far_kilometres = 50;

void note_distance(sky::Series& series, const std::string& path, const works::Site& site) {
  const double away = kilometres_between(series.latitude, series.longitude, site.latitude, site.longitude);
  if (away <= far_kilometres) return;
  series.notes.push_back(
      {std::string(far_away), fmt::format("{} is for a place {:.0f} km from the site.", path, away)});
}

}  // namespace

double kilometres_between(double latitude_a, double longitude_a, double latitude_b, double longitude_b) {
  return feed::great_circle_km(latitude_a, longitude_a, latitude_b, longitude_b);
}

std::vector<sky::Series> read_forecasts(const std::vector<std::string>& paths, const works::Site& site) {
  feed::ReadOptions options;
  options.zone = site.zone;
  options.latitude = site.latitude;
  options.longitude = site.longitude;
  std::vector<sky::Series> list;
  for (const std::string& path : paths) {
    list.push_back(feed::read_forecast_file(path, options));
    note_distance(list.back(), path, site);
  }
  return list;
}

sky::Series joined(const std::vector<sky::Series>& forecasts) {
  sky::Series all;
  for (const sky::Series& series : forecasts)
    all = all.empty() ? series : sky::join(all, series);
  return all;
}

}  // namespace weatherstruck::desk
