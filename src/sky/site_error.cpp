#include "weatherstruck/sky/site_error.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <set>

#include "usual_error.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;

// Below these a factor of the wind means nothing.
constexpr double least_wind_forecast = 2;
constexpr double least_wind_measured = 0.5;
constexpr hours half_a_day{12};

double days_between(Instant from, Instant to) {
  return std::max(0.0, std::chrono::duration<double, std::ratio<86400>>(to - from).count());
}

template <class T>
bool measured(const Maybe<T>& value) {
  return value && value->origin == Origin::measured;
}

// What was told of an hour by the newest forecast made before it.
struct Told {
  const Hour* hour = nullptr;
  double days = 0;
};

class Learner {
 public:
  Learner(std::span<const Series> issues, const ForecastError& usual) : issues_(issues), usual_(usual) {}

  SiteError learn(std::span<const TemperatureReading> temperatures) {
    for (const TemperatureReading& reading : temperatures)
      air(reading.at, reading.air.value());
    for (const Series& series : issues_) {
      for (const Hour& hour : series.hours)
        station(hour);
    }
    out_.temperature = told(air_);
    out_.wind = told(wind_);
    return out_;
  }

 private:
  struct Pair {
    double off = 0;
    double usual = 1;
  };

  [[nodiscard]] Told told_of(Instant at) const {
    Told out;
    Instant newest = Instant::min();
    for (const Series& series : issues_) {
      if (!series.issued || *series.issued > at || *series.issued < newest) continue;
      const Hour* hour = series.at(at);
      if (hour == nullptr || measured(hour->temperature)) continue;
      newest = *series.issued;
      out = {hour, days_between(*series.issued, at)};
    }
    return out;
  }

  void air(Instant at, double celsius) {
    const Told told = told_of(at);
    if (told.hour == nullptr || !told.hour->temperature) return;
    air_.insert_or_assign(std::chrono::floor<hours>(at), Pair{celsius - told.hour->temperature->value.value(),
                                                              temperature_error(told.days, usual_)});
  }

  void station(const Hour& hour) {
    if (measured(hour.temperature)) air(hour.start, hour.temperature->value.value());
    const Told told = told_of(hour.start);
    if (told.hour == nullptr) return;
    if (measured(hour.wind) && told.hour->wind) {
      const double was = hour.wind->value.value();
      const double said = told.hour->wind->value.value();
      if (was >= least_wind_measured && said >= least_wind_forecast)
        wind_.insert_or_assign(hour.start, Pair{std::log(was / said), wind_error(told.days, usual_)});
    }
    if (!measured(hour.rain) || !told.hour->rain) return;
    const bool came_wet = hour.rain->value.value() > 0;
    if (told.hour->rain->value.value() > 0) {
      ++out_.told_wet;
      out_.told_wet_came_dry += came_wet ? 0 : 1;
    } else {
      ++out_.told_dry;
      out_.told_dry_came_wet += came_wet ? 1 : 0;
    }
  }

  static Miss told(const std::map<Instant, Pair>& pairs) {
    Miss out;
    if (pairs.empty()) return out;
    std::set<long> stretches;
    double sum = 0;
    double squares = 0;
    for (const auto& [at, pair] : pairs) {
      stretches.insert(at.time_since_epoch() / half_a_day);
      sum += pair.off;
      squares += pair.off / pair.usual * (pair.off / pair.usual);
    }
    const auto count = static_cast<double>(pairs.size());
    out.readings = static_cast<int>(pairs.size());
    out.half_days = static_cast<int>(stretches.size());
    out.bias = sum / count;
    out.of_usual = std::sqrt(squares / count);
    if (!out.counts()) return out;
    const double own = out.half_days;
    const double square =
        (LearningRule::usual_weighs + own * squares / count) / (LearningRule::usual_weighs + own);
    out.times = std::clamp(std::sqrt(square), LearningRule::least_times, LearningRule::most_times);
    return out;
  }

  std::span<const Series> issues_;
  const ForecastError& usual_;
  std::map<Instant, Pair> air_, wind_;
  SiteError out_;
};

}  // namespace

bool Miss::counts() const {
  return readings >= LearningRule::least_readings && half_days >= LearningRule::least_half_days;
}

SiteError learn_site(std::span<const Series> issues, std::span<const TemperatureReading> temperatures,
                     const ForecastError& usual) {
  return Learner(issues, usual).learn(temperatures);
}

Series with_errors_of(Series series, const SiteError& site, Instant now, const ForecastError& usual) {
  if (!site.temperature.counts() && !site.wind.counts()) return series;
  const Instant issued = std::max(series.issued.value_or(now), now - hours(24));
  for (Hour& hour : series.hours) {
    if (hour.start + hours(1) <= now) continue;
    const double days = days_between(issued, hour.start);
    if (site.temperature.counts() && hour.temperature) {
      const double own =
          hour.temperature_error ? hour.temperature_error->value.value() : temperature_error(days, usual);
      hour.temperature_error = {base::Kelvins(own * site.temperature.times), Origin::derived};
    }
    if (site.wind.counts() && hour.wind && hour.wind->value.value() > 0) {
      // As a share of the wind: of a lognormal factor with this deviation of its logarithm.
      const double sigma = wind_error(days, usual) * site.wind.times;
      const double own = hour.wind_error ? hour.wind_error->value.value() * site.wind.times
                                         : hour.wind->value.value() * std::sqrt(std::expm1(sigma * sigma));
      hour.wind_error = {base::MetresPerSecond(own), Origin::derived};
    }
  }
  return series;
}

}  // namespace weatherstruck::sky
