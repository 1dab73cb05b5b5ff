#include "weatherstruck/render/site_error_words.h"

#include <fmt/format.h>

#include <cmath>

namespace weatherstruck::render {
namespace {

constexpr double fahrenheit_per_kelvin = 1.8;
// Less is not told as a side.
constexpr double no_bias = 0.25;
constexpr double no_factor = 0.05;

std::string missed(const sky::Miss& miss) {
  return fmt::format(
      "the forecasts missed by {:.1f} times the usual: the weathers that the chance is drawn from miss by "
      "{:.1f} "
      "times it",
      miss.of_usual, miss.times);
}

std::string air(const sky::Miss& miss, Units units) {
  std::string side = "as forecast on average";
  if (std::abs(miss.bias) >= no_bias) {
    const double degrees = std::abs(miss.bias) * (units == Units::us ? fahrenheit_per_kelvin : 1);
    side = fmt::format("{:.1f} {} {} than forecast", degrees, units == Units::us ? "°F" : "°C",
                       miss.bias > 0 ? "warmer" : "colder");
  }
  return fmt::format("By {} readings here the air was {}, and {}.", miss.readings, side, missed(miss));
}

std::string wind_words(const sky::Miss& miss) {
  const double factor = std::exp(miss.bias);
  const std::string side = std::abs(factor - 1) >= no_factor
                               ? fmt::format("{:.1f} times that forecast", factor)
                               : std::string("as forecast on average");
  return fmt::format("The wind was {}, and {}.", side, missed(miss));
}

}  // namespace

std::vector<std::string> site_error_lines(const sky::SiteError& site, Units units) {
  std::vector<std::string> lines;
  if (site.temperature.counts()) lines.push_back(air(site.temperature, units));
  std::string rest;
  if (site.wind.counts()) rest = wind_words(site.wind);
  if (site.told_dry + site.told_wet >= sky::LearningRule::least_readings) {
    rest += fmt::format("{}Of {} hours told dry {} came wet, of {} told wet {} came dry.",
                        rest.empty() ? "" : " ", site.told_dry, site.told_dry_came_wet, site.told_wet,
                        site.told_wet_came_dry);
  }
  if (!rest.empty()) lines.push_back(rest);
  return lines;
}

}  // namespace weatherstruck::render
