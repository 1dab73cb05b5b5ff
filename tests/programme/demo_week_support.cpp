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
};
// A table reads by rows.
// clang-format off
constexpr std::array<Reading, 75> readings{{
    {0, 5.6, 82.3, 4.5, 1, 0}, {1, 5.6, 84.7, 4.6, 1, 0}, {2, 6, 82.5, 5.2, 1, 0},
    {3, 6.4, 80.1, 5.4, 1, 0}, {4, 6.7, 81, 5.3, 1, 0}, {5, 7, 77, 5.3, 1, 0}, {6, 7.6, 75.3, 5.2, 1, 0},
    {7, 8.1, 82.1, 4.4, 1, 0}, {8, 7.4, 84.4, 4, 1, 0.3}, {9, 6.9, 90.3, 4.3, 1, 0.8},
    {10, 6.7, 93.2, 4.1, 1, 0.5}, {11, 6.3, 91, 4, 1, 0}, {12, 5.7, 92.9, 4.8, 1, 0},
    {13, 5.4, 93.8, 5.1, 1, 0}, {14, 5.4, 91.7, 5.1, 1, 0.4}, {15, 5.1, 95, 5.5, 1, 0.9},
    {16, 4.7, 95.7, 5.8, 1, 1.3}, {17, 4.6, 94.3, 5.5, 1, 1.7}, {18, 4.7, 97.5, 5.6, 1, 2},
    {19, 4.4, 96.3, 6.1, 1, 2.1}, {20, 4.2, 94.4, 6.2, 1, 1.7}, {21, 4.4, 96.6, 6.1, 1, 1.2},
    {22, 4.4, 94.5, 6.6, 1, 0.7}, {23, 4.2, 94.4, 6.5, 1, 0}, {24, 4.7, 95.1, 6, 1, 0},
    {25, 5.3, 90.9, 6, 1, 0}, {26, 5.6, 89.3, 6, 1, 0}, {27, 5.7, 88.5, 5.6, 1, 0},
    {28, 6.1, 82.7, 5.8, 1, 0}, {29, 6.6, 80.6, 6.6, 1, 0}, {30, 6.8, 78.7, 6.8, 1, 0.4},
    {31, 7, 73.4, 6.9, 1, 0.2}, {32, 7.6, 73.4, 7.5, 1, 0}, {33, 7.4, 71.5, 7.8, 1, 0},
    {34, 6.8, 71.4, 7.6, 1, 0}, {35, 6.4, 75.7, 6.9, 1, 0}, {36, 5.7, 76.3, 6.4, 1, 0},
    {37, 4.7, 75.9, 5.3, 1, 0}, {38, 3.6, 80.4, 4.6, 1, 0}, {39, 2.7, 81.2, 4.5, 1, 0},
    {40, 2.3, 82, 3.8, 1, 0}, {41, 1.6, 86.3, 2.9, 1, 0}, {42, 0.9, 85.2, 2.6, 1, 0},
    {43, 0.6, 85.9, 2, 1, 0}, {44, 0.1, 88.4, 1.5, 1, 0}, {45, -0.7, 86.1, 1.5, 1, 0},
    {46, -1.1, 87.9, 1.7, 1, 0}, {47, -1.2, 90.8, 1.5, 1, 0}, {48, -1.6, 89.7, 1.3, 1, 0},
    {49, -2.2, 93.2, 1.7, 1, 0}, {50, -1.7, 90.2, 1.7, 1, 0}, {51, -1, 83.6, 1.3, 1, 0},
    {52, 0.4, 81.6, 1.8, 1, 0}, {53, 1.8, 76.9, 2.1, 1, 0}, {54, 3, 71, 2, 1, 0},
    {55, 4.1, 70.5, 2.3, 1, 0}, {56, 4.8, 66.2, 2.9, 1, 0}, {57, 5.6, 68, 2.6, 1, 0},
    {58, 5, 73.3, 2.3, 1, 0}, {59, 4.3, 73.3, 2.5, 1, 0}, {60, 3.2, 74.7, 2.3, 1, 0},
    {61, 2.7, 79, 1.8, 6, 0}, {67, 0.1, 90.6, 1.8, 6, 0}, {73, -0.2, 93, 2.1, 6, 0},
    {79, 5.9, 82.8, 3.7, 6, 1.2}, {85, 6.1, 91.5, 4.4, 6, 1.6}, {91, 5.9, 92.4, 5.3, 6, 2.4},
    {97, 7, 93.5, 6.8, 6, 0.8}, {103, 8.1, 93.1, 6.7, 6, 0}, {109, 7, 92.9, 6.7, 6, 1.1},
    {115, 6, 94, 6.8, 6, 3.7}, {121, 5.1, 94.1, 6.8, 6, 0.5}, {127, 7.5, 89.4, 6.6, 6, 0},
    {133, 6.5, 84.7, 6, 6, 0}, {139, 4.9, 82.1, 4.9, 6, 0},
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
  std::vector<sky::Stretch> rain;
  for (const Reading& r : readings) {
    const base::Instant at = start + hours(r.hour);
    temperature.push_back({at, r.celsius});
    humidity.push_back({at, r.humidity / 100});
    wind.push_back({at, r.wind});
    if (r.rain_hours > 0) rain.push_back({at, at + hours(r.rain_hours), r.rain});
  }
  builder.moments(sky::Layer::temperature, temperature, hours(6));
  builder.moments(sky::Layer::humidity, humidity, hours(6));
  builder.moments(sky::Layer::wind, wind, hours(6));
  builder.rain_totals(rain);
  builder.derive_gusts(sky::GustFactor::inland);
  sky::Series heading;
  heading.source = "invented";
  return builder.finish(heading);
}

}  // namespace weatherstruck::programme
