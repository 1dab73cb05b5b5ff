#include "weatherstruck/desk/forecast_desk.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "weatherstruck/feed/file_source.h"
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
  constexpr double radius = 6371;
  constexpr double degree = std::numbers::pi / 180.0;
  const double up = std::sin((latitude_b - latitude_a) * degree / 2);
  const double across = std::sin((longitude_b - longitude_a) * degree / 2);
  const double h = up * up + std::cos(latitude_a * degree) * std::cos(latitude_b * degree) * across * across;
  return 2 * radius * std::asin(std::sqrt(std::fmin(1.0, h)));
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
