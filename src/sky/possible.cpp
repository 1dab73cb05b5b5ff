#include "weatherstruck/sky/possible.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "usual_error.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/observed.h"

namespace weatherstruck::sky {
namespace {

// What a later forecast of the same hour still has of the error of today's (successive issues: 0.77 to 0.86,
// docs/chance.md), and the lead that it has on average when the day's decisions are taken.
constexpr double kept_of_the_error = 0.84;
constexpr double lead_of_a_morning = 6.0 / 24;

// A standard normal number that remembers: hour to hour with a correlation.
class Memory {
 public:
  /// @param doubt standard deviation of the first, 1 where nothing is known of it
  Memory(base::Random& random, double memory, double doubt)
      : random_(random), memory_(memory), value_(doubt * random.normal()) {}
  double next() {
    const double now = value_;
    value_ = memory_ * value_ + std::sqrt(1 - memory_ * memory_) * random_.normal();
    return now;
  }

 private:
  base::Random& random_;
  double memory_;
  double value_;
};

double chance_below(double normal) {
  return 0.5 * std::erfc(-normal / std::sqrt(2.0));
}

// What is drawn for an hour, in standard normals.
struct Draw {
  double temperature = 0;
  double wind = 0;
  double wet = 0;
  double amount = 0;
};

// One set for what comes, one for the further error of the mornings.
std::vector<Draw> draw_hours(base::Random& random, std::size_t hours, const ForecastError& error,
                             double temperature_doubt) {
  std::vector<Draw> draws(hours);
  // One after the other: a longer forecast begins like a shorter one does not matter, that each quantity has
  // a memory of its own does.
  const auto fill = [&](double Draw::*member, double memory, double doubt) {
    Memory process(random, memory, doubt);
    for (Draw& draw : draws)
      draw.*member = process.next();
  };
  fill(&Draw::temperature, error.temperature_memory, temperature_doubt);
  fill(&Draw::wind, error.wind_memory, 1);
  fill(&Draw::wet, error.rain_memory, 1);
  fill(&Draw::amount, error.rain_memory, 1);
  return draws;
}

// The chance that an hour is wet, from what the forecast says of it and how far ahead it is. One that was
// derived is reckoned anew, by these errors and this lead.
double wet_chance(const Hour& hour, double days, const ForecastError& error) {
  if (hour.rain_chance && hour.rain_chance->origin != Origin::derived) {
    const double said = hour.rain_chance->value.value();
    // Said of a longer interval: about three hours of it hang together (mean wet spell, docs/chance.md).
    return hour.rain_chance->origin == Origin::split ? 1 - std::sqrt(1 - said) : said;
  }
  return usual_chance(hour.rain ? hour.rain->value : base::Millimetres(0), days, error.wet_hours);
}

// How far the hour misses, by its own source where that says so.
double temperature_error_of(const Hour& hour, double days, const ForecastError& error) {
  return hour.temperature_error ? hour.temperature_error->value.value() : temperature_error(days, error);
}

// Of the logarithm: a lognormal factor with this standard deviation has the one given over the mean wind.
double wind_error_of(const Hour& hour, double days, const ForecastError& error) {
  if (!hour.wind_error || !hour.wind || hour.wind->value.value() <= 0) return wind_error(days, error);
  const double share = hour.wind_error->value.value() / hour.wind->value.value();
  return std::min(std::sqrt(std::log1p(share * share)), error.wind_most);
}

// What is left of the source's own error with the lead of a morning: as much as our model leaves of its own.
double shrunk(double own, double model_now, double model_soon) {
  return model_now > 0 ? own * model_soon / model_now : own;
}

class Drawer {
 public:
  Drawer(const Series& forecast, base::Instant now, base::Random random, const ForecastError& error)
      : forecast_(forecast), error_(error), random_(random), from_(0) {
    while (from_ < forecast.hours.size() && forecast.hours[from_].start + std::chrono::hours(1) <= now)
      ++from_;
    issued_ = std::max(forecast.issued.value_or(now), now - std::chrono::hours(24));
    draws_ = draw_hours(random_, forecast.hours.size() - from_, error, doubt_of_the_first());
    further_ = draw_hours(random_, forecast.hours.size() - from_, error, 1);
    shift_ = random_.normal();
    further_shift_ = random_.normal();
  }

  PossibleWeather draw() {
    PossibleWeather made{forecast_, forecast_};
    for (std::size_t i = from_; i < forecast_.hours.size(); ++i) {
      heat_and_wind(i, made.comes.hours[i], made.foreseen.hours[i]);
      rain(i, made.comes.hours[i], made.foreseen.hours[i]);
    }
    return made;
  }

 private:
  [[nodiscard]] double days_ahead(std::size_t i) const { return days_ahead(forecast_.hours[i].start); }
  [[nodiscard]] double days_ahead(base::Instant when) const {
    const auto ahead = std::chrono::duration<double, std::ratio<86400>>(when - issued_);
    return std::max(0.0, ahead.count());
  }

  // Of the error that a thermometer on site has shown, what is expected to be left of it in an hour: it is
  // forgotten hour by hour, like all errors of temperature.
  [[nodiscard]] double remembered(std::size_t i) const {
    if (!forecast_.seen) return 0;
    const std::chrono::duration<double, std::ratio<3600>> since =
        forecast_.hours[i].start - forecast_.seen->at;
    return std::pow(error_.temperature_memory, std::max(0.0, since.count()));
  }
  // ... and what is left of not knowing it.
  [[nodiscard]] double doubt_of_the_first() const {
    if (from_ >= forecast_.hours.size()) return 1;
    const double kept = remembered(from_);
    return std::sqrt(1 - kept * kept);
  }
  // Kelvins by which the series has been shifted for that reading.
  [[nodiscard]] double shifted_already(std::size_t i) const {
    if (!forecast_.seen) return 0;
    const std::chrono::seconds since = forecast_.hours[i].start - forecast_.seen->at;
    return share_of_reading(std::max(std::chrono::seconds(0), since)) * forecast_.seen->off.value();
  }
  // A morning's lead, but no longer than today's.
  static double soon(double days) { return std::min(days, lead_of_a_morning); }
  // Of two normals the one that has so much of the first.
  static double still(double first, double other) {
    return kept_of_the_error * first + std::sqrt(1 - kept_of_the_error * kept_of_the_error) * other;
  }

  void heat_and_wind(std::size_t i, Hour& comes, Hour& foreseen) const {
    const Draw& draw = draws_[i - from_];
    const Draw& further = further_[i - from_];
    const double days = days_ahead(i);
    const Hour& hour = forecast_.hours[i];
    const double kelvins = temperature_error_of(hour, days, error_);
    const double seen = forecast_.seen ? remembered(i) * forecast_.seen->off.value() : 0;
    const double miss = seen + kelvins * draw.temperature;  // of the forecast as the service made it
    const double off = miss - shifted_already(i);
    const double off_soon =
        shrunk(kelvins, temperature_error(days, error_), temperature_error(soon(days), error_)) *
        still(kelvins > 0 ? miss / kelvins : 0, further.temperature);
    const auto warmer = [](Maybe<base::Celsius>& value, double by) {
      if (value) value->value = quantised(base::Celsius(value->value.value() + by));
    };
    // Damp air stays as damp: the dew point goes with the temperature.
    warmer(comes.temperature, off);
    warmer(comes.dew_point, off);
    warmer(foreseen.temperature, off - off_soon);
    warmer(foreseen.dew_point, off - off_soon);
    const double sigma = wind_error_of(hour, days, error_);
    const double sigma_soon = shrunk(sigma, wind_error(days, error_), wind_error(soon(days), error_));
    const double factor = std::exp(sigma * draw.wind - sigma * sigma / 2);
    const double factor_soon = factor * std::exp(-sigma_soon * still(draw.wind, further.wind));
    const auto times = [](Maybe<base::MetresPerSecond>& value, double by) {
      if (value) value->value = quantised(base::MetresPerSecond(value->value.value() * by));
    };
    times(comes.wind, factor);
    times(comes.gust, factor);
    times(foreseen.wind, factor_soon);
    times(foreseen.gust, factor_soon);
  }

  // Which hour of the forecast comes at this one: a whole band of rain is early or late. Never one from
  // before now, and none beyond the end.
  [[nodiscard]] std::size_t shifted(std::size_t i, double hours) const {
    const auto moved = static_cast<std::ptrdiff_t>(i) - std::lround(hours);
    return static_cast<std::size_t>(std::clamp(moved, static_cast<std::ptrdiff_t>(from_),
                                               static_cast<std::ptrdiff_t>(forecast_.hours.size()) - 1));
  }
  [[nodiscard]] double hours_off(double days) const {
    return error_.rain_early_or_late.value() + error_.rain_early_or_late_each_day.value() * days;
  }

  void rain(std::size_t i, Hour& comes, Hour& foreseen) const {
    if (!forecast_.hours[i].rain) return;
    const Draw& draw = draws_[i - from_];
    const Draw& further = further_[i - from_];
    const double days = days_ahead(i);
    const auto put = [&](Hour& hour, double hours, double wet, double amount, double lead) {
      const Hour& source = forecast_.hours[shifted(i, hours)];
      const double said = source.rain ? source.rain->value.value() : 0;
      double falls = 0;
      if (chance_below(wet) < wet_chance(source, lead, error_)) {
        const double sigma = error_.rain_amount;
        const double mean = said > 0 ? said : error_.rain_of_a_wet_hour.value() / 2;
        falls = std::max(0.1, mean * std::exp(sigma * amount - sigma * sigma / 2));
      }
      hour.rain->value = quantised(base::Millimetres(falls));
    };
    put(comes, shift_ * hours_off(days), draw.wet, draw.amount, days);
    // The morning sees the band nearer to where it will be, and mostly the same showers.
    const double off = shift_ * hours_off(days);
    const double off_soon = hours_off(soon(days)) * further_shift_;
    put(foreseen, off + off_soon, still(draw.wet, further.wet), still(draw.amount, further.amount), days);
  }

  const Series& forecast_;
  const ForecastError& error_;
  base::Random random_;
  std::size_t from_;
  base::Instant issued_;
  std::vector<Draw> draws_;
  std::vector<Draw> further_;
  double shift_ = 0;
  double further_shift_ = 0;
};

}  // namespace

PossibleWeather draw_weather(const Series& forecast, base::Instant now, std::uint64_t seed, int number,
                             const ForecastError& error) {
  if (forecast.empty()) return {forecast, forecast};
  return Drawer(forecast, now, base::Random(seed, static_cast<std::uint64_t>(number)), error).draw();
}

}  // namespace weatherstruck::sky
