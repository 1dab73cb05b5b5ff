#include "hourly.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "weatherstruck/base/random.h"

namespace weatherstruck::bench {

std::vector<Hour> draw_hours(int days, std::uint64_t seed) {
  base::Random dice(seed, 101);
  std::vector<Hour> hours;
  double spell = 0;  // warm or cold for days
  double gust = 0;
  bool wet = false;
  for (int h = 0; h < days * 24; ++h) {
    spell = 0.985 * spell + 0.45 * dice.normal();
    gust = 0.92 * gust + 0.2 * dice.normal();
    wet = dice.chance(wet ? 0.72 : 0.035);
    const double by_day = std::cos((h % 24 - 15) * 3.14159265358979 / 12);
    Hour hour;
    hour.temperature = static_cast<int>(std::lround(10 * (6 + (wet ? 2 : 4.5) * by_day + spell)));
    hour.rain = wet ? static_cast<int>(std::lround(-12 * std::log(1 - dice.unit()))) : 0;
    hour.wind = static_cast<int>(std::lround(10 * 3.5 * std::exp(gust)));
    hours.push_back(hour);
  }
  return hours;
}

std::vector<engine::Clock> clocks_of(const std::vector<Hour>& hours, int ticks_per_slot) {
  const int minutes = 15 / ticks_per_slot;  // of a tick
  const int whole = 100 * minutes;
  std::vector<engine::Clock> clocks;
  const auto add = [&](const char* name, auto&& rate) {
    std::vector<std::int32_t> rates;
    std::vector<engine::CauseId> causes;
    for (std::size_t h = 0; h < hours.size(); ++h) {
      for (int quarter = 0; quarter < 4; ++quarter) {
        rates.push_back(rate(hours[h], static_cast<int>(h % 24) * 4 + quarter));
        causes.push_back(rates.back() > 0 ? 0 : hours[h].rain > 0 ? 1 : 2);
      }
    }
    clocks.emplace_back(name, ticks_per_slot, std::move(rates), std::move(causes));
  };
  // Quarters of the day: light from 6:15 to 18:45, the first and last half hour of it dim.
  const auto light = [](int q) { return q >= 25 && q < 75; };
  const auto dim = [](int q) { return q < 27 || q >= 73; };
  const auto maturity = [&](int tenths) { return std::max(0, tenths + 100) * whole / 300; };
  const auto below = [&](int tenths, int limit) { return std::max(0, limit - tenths) * 10 * minutes; };
  add("digging", [&](const Hour& it, int q) {
    return !light(q) || it.rain > 25 ? 0 : it.rain > 5 ? whole * 7 / 10 : whole;
  });
  add("concreting",
      [&](const Hour& it, int q) { return light(q) && it.temperature >= 30 && it.rain <= 3 ? whole : 0; });
  const auto laid = [&](const Hour& it, int q) {
    return !light(q) || it.temperature < 30 ? 0 : dim(q) ? whole * 8 / 10 : whole;
  };
  add("bricklaying", [&](const Hour& it, int q) { return it.rain > 4 ? 0 : laid(it, q); });
  add("bricklaying under the canopy", [&](const Hour& it, int q) { return laid(it, q) * 9 / 10; });
  add("pointing",
      [&](const Hour& it, int q) { return light(q) && it.temperature >= 40 && it.rain <= 1 ? whole : 0; });
  add("any weather", [&](const Hour&, int q) { return light(q) ? whole : 0; });
  add("time", [&](const Hour&, int) { return whole; });
  add("hardening", [&](const Hour& it, int) { return maturity(it.temperature); });
  add("hardening under a mat", [&](const Hour& it, int) { return maturity(it.temperature + 40); });
  add("rain", [&](const Hour& it, int) { return it.rain * 100 * minutes / 60; });
  add("driven rain", [&](const Hour& it, int) {
    return it.wind > 60 ? it.rain * 100 * minutes / 60 * (it.wind - 60) / 200 : 0;
  });
  add("frost", [&](const Hour& it, int) { return below(it.temperature, 5); });
  add("frost under a mat", [&](const Hour& it, int) { return below(it.temperature, -30); });
  add("dark", [&](const Hour&, int q) { return light(q) ? 0 : minutes; });
  add("wet minutes", [&](const Hour& it, int) { return it.rain > 0 ? minutes : 0; });
  add("late minutes", [&](const Hour&, int q) { return q < 32 || q >= 66 ? minutes : 0; });
  return clocks;
}

}  // namespace weatherstruck::bench
