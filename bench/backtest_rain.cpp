#include "backtest_rain.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "weatherstruck/sky/possible.h"

namespace weatherstruck::bench {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr double wet_from = 0.1;  // mm in the hour
constexpr int days = 1200;
constexpr int first_hour = 3;
constexpr int last_hour = 15;
constexpr int weathers = 10;

Instant morning(int k) {
  return std::chrono::sys_days(std::chrono::year(2012) / 1 / 1) + std::chrono::days(3 * k + 1) + hours(5);
}

class Count {
 public:
  /// One day, told and come by the hour.
  template <class Told, class Comes>
  void day(Told&& told, Comes&& comes) {
    int wet_told = 0;
    int wet = 0;
    for (int ahead = first_hour; ahead < last_hour; ++ahead) {
      const std::size_t row = told(ahead) ? 1 : 0;
      const bool is_wet = comes(ahead);
      all_[row] += 1;
      came_wet_[row] += is_wet ? 1 : 0;
      wet_told += row == 1 ? 1 : 0;
      wet += is_wet ? 1 : 0;
    }
    squares_ += (wet - wet_told) * (wet - wet_told);
    days_ += 1;
    dry_days_ += wet_told == 0 ? 1 : 0;
    dry_days_wet_ += wet_told == 0 && wet >= 2 ? 1 : 0;
  }
  [[nodiscard]] RainErrors errors() const {
    const auto share = [](double part, double whole) { return part / std::max(1.0, whole); };
    return {share(came_wet_[0], all_[0]), share(came_wet_[1], all_[1]), std::sqrt(share(squares_, days_)),
            share(dry_days_wet_, dry_days_)};
  }

 private:
  double all_[2] = {}, came_wet_[2] = {};
  double squares_ = 0, days_ = 0, dry_days_ = 0, dry_days_wet_ = 0;
};

}  // namespace

RainErrors errors_of_neighbour(const History& truth, const History& neighbour) {
  Count count;
  for (int k = 0; k < days; ++k) {
    const auto wet = [&](const History& station) {
      return [&station, k](int ahead) { return station.at(morning(k) + hours(ahead)).rain >= wet_from; };
    };
    count.day(wet(neighbour), wet(truth));
  }
  return count.errors();
}

RainErrors errors_of_outlook(const History& neighbour) {
  Count count;
  for (int k = 0; k < days; ++k) {
    const Instant now = morning(k);
    sky::Series forecast = as_observed(neighbour, {now - hours(2), now + hours(26)});
    forecast.issued = now;
    const auto told = [&](int ahead) { return neighbour.at(now + hours(ahead)).rain >= wet_from; };
    for (int w = 0; w < weathers; ++w) {
      const sky::PossibleWeather drawn =
          sky::draw_weather(forecast, now, static_cast<std::uint64_t>(k) + 1, w);
      count.day(told, [&](int ahead) {
        return drawn.comes.at(now + hours(ahead))->rain->value.value() >= wet_from;
      });
    }
  }
  return count.errors();
}

std::string rain_row(const std::string& title, const RainErrors& errors) {
  return fmt::format("| {} | {:.1f} % | {:.0f} % | {:.2f} | {:.1f} % |\n", title, 100 * errors.wet_after_dry,
                     100 * errors.wet_after_wet, errors.hours_off, 100 * errors.dry_day_wet_hours);
}

}  // namespace weatherstruck::bench
