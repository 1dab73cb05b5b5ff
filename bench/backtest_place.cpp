#include "backtest_place.h"

#include <algorithm>
#include <cstdlib>

namespace weatherstruck::bench {
namespace {

using base::Instant;
using std::chrono::hours;

struct When {
  int year;
  std::size_t month;  // from 0
  std::size_t hour;
};

When when(Instant moment) {
  const auto day = std::chrono::floor<std::chrono::days>(moment);
  const std::chrono::year_month_day date(day);
  return {static_cast<int>(date.year()), static_cast<unsigned>(date.month()) - 1U,
          static_cast<std::size_t>(std::chrono::floor<hours>(moment - day).count())};
}

}  // namespace

PlaceDifference PlaceDifference::none() {
  PlaceDifference same;
  same.windier.fill(1);
  same.gustier.fill(1);
  return same;
}

PlaceDifference PlaceDifference::between(const History& place, const History& neighbour, int tested_year) {
  PlaceDifference found;
  std::array<std::array<double, 24>, 12> counted{};
  std::array<std::array<double, 4>, 12> sums{};  // wind here and there, gusts here and there
  const Instant end = std::min(place.end(), neighbour.end());
  for (Instant hour = std::max(place.first(), neighbour.first()); hour < end; hour += hours(1)) {
    const When at = when(hour);
    if (std::abs(at.year - tested_year) <= 1) continue;
    const ObservedHour& here = place.at(hour);
    const ObservedHour& there = neighbour.at(hour);
    counted[at.month][at.hour] += 1;
    found.warmer[at.month][at.hour] += here.temperature - there.temperature;
    found.damper[at.month][at.hour] += here.dew_point - there.dew_point;
    sums[at.month][0] += here.wind;
    sums[at.month][1] += there.wind;
    sums[at.month][2] += here.gust;
    sums[at.month][3] += there.gust;
  }
  for (std::size_t m = 0; m < 12; ++m) {
    for (std::size_t h = 0; h < 24; ++h) {
      const double count = std::max(1.0, counted[m][h]);
      found.warmer[m][h] /= count;
      found.damper[m][h] /= count;
    }
    found.windier[m] = sums[m][1] > 0 ? sums[m][0] / sums[m][1] : 1;
    found.gustier[m] = sums[m][3] > 0 ? sums[m][2] / sums[m][3] : 1;
  }
  return found;
}

ObservedHour PlaceDifference::put(const ObservedHour& seen, Instant hour) const {
  const When at = when(hour);
  ObservedHour moved = seen;
  moved.temperature += warmer[at.month][at.hour];
  moved.dew_point = std::min(moved.temperature, moved.dew_point + damper[at.month][at.hour]);
  moved.wind *= windier[at.month];
  moved.gust *= gustier[at.month];
  return moved;
}

}  // namespace weatherstruck::bench
