// The weather of the demonstration's first morning, written out: the same numbers as
// fixtures/demo/forecast-day1.json (invented), so that this floor can plan with them without reading a file.
#include <array>
#include <vector>

#include "programme/demo_week.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::programme {
namespace {

struct Reading {
  int hour;  // after 05:00 on Monday
  double celsius;
  double humidity;  // percent
  double wind;      // m/s
  int rain_hours;   // length of the interval whose rain follows
  double rain;      // mm
  double cloud;     // percent
};
// A table reads by rows.
// clang-format off
constexpr std::array<Reading, 75> readings{{
    {0, 5.6, 82.3, 4.5, 1, 0, 73.5}, {1, 5.6, 84.7, 4.6, 1, 0, 71.2}, {2, 6, 82.5, 5.2, 1, 0, 69.9},
    {3, 6.4, 80.1, 5.4, 1, 0, 76}, {4, 6.7, 81, 5.3, 1, 0, 82.1}, {5, 7, 77, 5.3, 1, 0, 80.6}, {6, 7.6, 75.3, 5.2, 1, 0, 82.5},
    {7, 8.1, 82.1, 4.4, 1, 0, 90.8}, {8, 7.4, 84.4, 4, 1, 0.3, 100}, {9, 6.9, 90.3, 4.3, 1, 0.8, 96.4},
    {10, 6.7, 93.2, 4.1, 1, 0.5, 91.1}, {11, 6.3, 91, 4, 1, 0, 93.1}, {12, 5.7, 92.9, 4.8, 1, 0, 98.2},
    {13, 5.4, 93.8, 5.1, 1, 0, 97.3}, {14, 5.4, 91.7, 5.1, 1, 0.4, 93.8}, {15, 5.1, 95, 5.5, 1, 0.9, 96.7},
    {16, 4.7, 95.7, 5.8, 1, 1.3, 100}, {17, 4.6, 94.3, 5.5, 1, 1.7, 100}, {18, 4.7, 97.5, 5.6, 1, 2, 96.9},
    {19, 4.4, 96.3, 6.1, 1, 2.1, 96.8}, {20, 4.2, 94.4, 6.2, 1, 1.7, 100}, {21, 4.4, 96.6, 6.1, 1, 1.2, 99.8},
    {22, 4.4, 94.5, 6.6, 1, 0.7, 94.1}, {23, 4.2, 94.4, 6.5, 1, 0, 94}, {24, 4.7, 95.1, 6, 1, 0, 90.5},
    {25, 5.3, 90.9, 6, 1, 0, 82.9}, {26, 5.6, 89.3, 6, 1, 0, 69.7}, {27, 5.7, 88.5, 5.6, 1, 0, 60.5},
    {28, 6.1, 82.7, 5.8, 1, 0, 68.7}, {29, 6.6, 80.6, 6.6, 1, 0, 72.8}, {30, 6.8, 78.7, 6.8, 1, 0.4, 69.8},
    {31, 7, 73.4, 6.9, 1, 0.2, 58.5}, {32, 7.6, 73.4, 7.5, 1, 0, 53.7}, {33, 7.4, 71.5, 7.8, 1, 0, 46.7},
    {34, 6.8, 71.4, 7.6, 1, 0, 36.6}, {35, 6.4, 75.7, 6.9, 1, 0, 29}, {36, 5.7, 76.3, 6.4, 1, 0, 29.1},
    {37, 4.7, 75.9, 5.3, 1, 0, 28.1}, {38, 3.6, 80.4, 4.6, 1, 0, 20}, {39, 2.7, 81.2, 4.5, 1, 0, 12.3},
    {40, 2.3, 82, 3.8, 1, 0, 15.7}, {41, 1.6, 86.3, 2.9, 1, 0, 18.1}, {42, 0.9, 85.2, 2.6, 1, 0, 12.9},
    {43, 0.6, 85.9, 2, 1, 0, 7.1}, {44, 0.1, 88.4, 1.5, 1, 0, 8.5}, {45, -0.7, 86.1, 1.5, 1, 0, 11.3},
    {46, -1.1, 87.9, 1.7, 1, 0, 7.7}, {47, -1.2, 90.8, 1.5, 1, 0, 3.2}, {48, -1.6, 89.7, 1.3, 1, 0, 6.1},
    {49, -2.2, 93.2, 1.7, 1, 0, 11.3}, {50, -1.7, 90.2, 1.7, 1, 0, 11.5}, {51, -1, 83.6, 1.3, 1, 0, 8.5},
    {52, 0.4, 81.6, 1.8, 1, 0, 11.5}, {53, 1.8, 76.9, 2.1, 1, 0, 17.1}, {54, 3, 71, 2, 1, 0, 15.9},
    {55, 4.1, 70.5, 2.3, 1, 0, 11.1}, {56, 4.8, 66.2, 2.9, 1, 0, 12.5}, {57, 5.6, 68, 2.6, 1, 0, 18.7},
    {58, 5, 73.3, 2.3, 1, 0, 21.3}, {59, 4.3, 73.3, 2.5, 1, 0, 19.7}, {60, 3.2, 74.7, 2.3, 1, 0, 23.8},
    {61, 2.7, 79, 1.8, 6, 0, 32.9}, {67, 0.1, 90.6, 1.8, 6, 0, 43.6}, {73, -0.2, 93, 2.1, 6, 0, 70.8},
    {79, 5.9, 82.8, 3.7, 6, 1.2, 90.5}, {85, 6.1, 91.5, 4.4, 6, 1.6, 98}, {91, 5.9, 92.4, 5.3, 6, 2.4, 96},
    {97, 7, 93.5, 6.8, 6, 0.8, 95.9}, {103, 8.1, 93.1, 6.7, 6, 0, 96.7}, {109, 7, 92.9, 6.7, 6, 1.1, 94.2},
    {115, 6, 94, 6.8, 6, 3.7, 97}, {121, 5.1, 94.1, 6.8, 6, 0.5, 93.2}, {127, 7.5, 89.4, 6.6, 6, 0, 87.8},
    {133, 6.5, 84.7, 6, 6, 0, 75.4}, {139, 4.9, 82.1, 4.9, 6, 0, 69.3},
}};
// clang-format on

}  // namespace

sky::Series demo_week() {
  using std::chrono::hours;
  const base::Instant start =
      std::chrono::sys_days(std::chrono::year(2026) / std::chrono::February / 9) + hours(5);
  sky::SeriesBuilder builder(start, start + hours(readings.back().hour));
  std::vector<sky::Moment> temperature;
  std::vector<sky::Moment> humidity;
  std::vector<sky::Moment> wind;
  std::vector<sky::Moment> cloud;
  std::vector<sky::Stretch> rain;
  for (const Reading& r : readings) {
    const base::Instant at = start + hours(r.hour);
    temperature.push_back({at, r.celsius});
    humidity.push_back({at, r.humidity / 100});
    wind.push_back({at, r.wind});
    cloud.push_back({at, r.cloud / 100});
    if (r.rain_hours > 0) rain.push_back({at, at + hours(r.rain_hours), r.rain});
  }
  builder.moments(sky::Layer::temperature, temperature, hours(6));
  builder.moments(sky::Layer::humidity, humidity, hours(6));
  builder.moments(sky::Layer::wind, wind, hours(6));
  builder.moments(sky::Layer::cloud, cloud, hours(6));
  builder.rain_totals(rain);
  builder.derive_gusts(sky::GustFactor::inland);
  sky::Series heading;
  heading.source = "invented";
  return builder.finish(heading);
}

}  // namespace weatherstruck::programme
