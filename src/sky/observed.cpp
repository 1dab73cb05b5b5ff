#include "weatherstruck/sky/observed.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>

#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr std::chrono::seconds full_within = hours(1);
constexpr std::chrono::seconds nothing_from = hours(6);
constexpr hours most_off = hours(24 * 31);
constexpr double half_a_tenth = 0.05;

double seconds_of(std::chrono::seconds s) {
  return static_cast<double>(s.count());
}

Instant hour_of(Instant t) {
  return std::chrono::floor<hours>(t);
}

/// From a reading to the nearest moment of the hour.
std::chrono::seconds distance(Instant at, Instant hour) {
  if (at < hour) return hour - at;
  const Instant end = hour + hours(1);
  return at < end ? std::chrono::seconds(0) : at - end;
}

/// Adds records so that every hour of [from, to) has one.
void reach(Series& series, Instant from, Instant to) {
  const auto blank = [](Instant start) {
    Hour hour;
    hour.start = start;
    return hour;
  };
  if (series.empty()) series.hours.push_back(blank(hour_of(from)));
  std::vector<Hour> before;
  for (Instant t = hour_of(from); t < series.begin_time(); t += hours(1))
    before.push_back(blank(t));
  series.hours.insert(series.hours.begin(), before.begin(), before.end());
  while (series.end_time() < to)
    series.hours.push_back(blank(series.end_time()));
}

Hour& record(Series& series, Instant t) {
  return series.hours[static_cast<std::size_t>((hour_of(t) - series.begin_time()) / hours(1))];
}

// ------------------------------------------------------------------------------------------- temperature

void shift_temperatures(Series& series, std::vector<TemperatureReading> readings) {
  std::stable_sort(readings.begin(), readings.end(),
                   [](const TemperatureReading& a, const TemperatureReading& b) { return a.at < b.at; });
  // One for each hour: where, how far off the forecast, and the mean of what was read.
  struct Shift {
    Instant first, last;
    Instant hour;
    double off = 0;
    double read = 0;
    bool known = false;
  };
  std::vector<Shift> shifts;
  for (std::size_t i = 0; i < readings.size();) {
    Shift shift;
    shift.hour = hour_of(readings[i].at);
    shift.first = readings[i].at;
    double sum = 0;
    int count = 0;
    for (; i < readings.size() && hour_of(readings[i].at) == shift.hour; ++i) {
      shift.last = readings[i].at;
      sum += readings[i].air.value();
      ++count;
    }
    shift.read = sum / count;
    const auto& forecast = record(series, shift.hour).temperature;
    shift.known = forecast.has_value();
    if (shift.known) shift.off = shift.read - forecast->value.value();
    shifts.push_back(shift);
  }
  for (const Shift& shift : shifts) {
    if (shift.known) series.seen = SeenError{shift.last, base::Kelvins(shift.off)};
  }
  for (Hour& hour : series.hours) {
    const auto here = std::find_if(shifts.begin(), shifts.end(),
                                   [&](const Shift& shift) { return shift.hour == hour.start; });
    if (here != shifts.end()) {
      hour.temperature = {quantised(base::Celsius(here->read)), Origin::measured};
      continue;
    }
    if (!hour.temperature) continue;
    double weights = 0;
    double off = 0;
    const auto add = [&](const Shift& shift, Instant at) {
      const double w = shift.known ? share_of_reading(distance(at, hour.start)) : 0;
      weights += w;
      off += w * shift.off;
    };
    // Only the nearest on either side: what came before it is told by it.
    const auto after = std::find_if(shifts.begin(), shifts.end(),
                                    [&](const Shift& shift) { return shift.hour > hour.start; });
    if (after != shifts.begin()) add(*(after - 1), (after - 1)->last);
    if (after != shifts.end()) add(*after, after->first);
    if (weights <= 0) continue;
    const bool whole = weights >= 1;
    const double shift = whole ? off / weights : off;
    Origin origin = whole ? Origin::measured : Origin::derived;
    if (!whole && hour.temperature->origin == Origin::climate) origin = Origin::climate;
    hour.temperature = {quantised(hour.temperature->value + base::Kelvins(shift)), origin};
  }
}

// -------------------------------------------------------------------------------------------------- rain

/// A stretch within one hour of which the rain is known by a gauge.
struct Caught {
  Instant from;
  Instant to;
  double rain = 0;
};

double overlap_seconds(Instant from, Instant to, const Caught& caught) {
  const auto span = std::min(to, caught.to) - std::max(from, caught.from);
  return std::max(0.0, seconds_of(span));
}

/// The stretches of [from, to), cut at whole hours, for which nothing is known yet.
std::vector<Caught> gaps(Instant from, Instant to, const std::vector<Caught>& known) {
  std::vector<Caught> open;
  Instant t = from;
  while (t < to) {
    Instant until = std::min<Instant>(to, hour_of(t) + hours(1));
    const Caught* within = nullptr;
    for (const Caught& caught : known) {
      if (caught.from <= t && t < caught.to) within = &caught;
      if (caught.from > t) until = std::min(until, caught.from);
    }
    if (within != nullptr) {
      t = within->to;
      continue;
    }
    open.push_back({t, until, 0});
    t = until;
  }
  return open;
}

/// In proportion to the forecast; what it does not know weighs as the mean of what it does.
std::vector<double> shape(const Series& forecast, const std::vector<Caught>& open) {
  double rain = 0;
  double time = 0;
  for (const Caught& part : open) {
    const Hour* hour = forecast.at(part.from);
    if (hour == nullptr || !hour->rain) continue;
    rain += hour->rain->value.value() * seconds_of(part.to - part.from);
    time += seconds_of(part.to - part.from);
  }
  const double usual = rain > 0 ? rain / time : 1;
  std::vector<double> weights;
  for (const Caught& part : open) {
    const Hour* hour = forecast.at(part.from);
    const bool known = rain > 0 && hour != nullptr && hour->rain;
    weights.push_back((known ? hour->rain->value.value() : usual) * seconds_of(part.to - part.from));
  }
  return weights;
}

void put_rain(Series& series, std::vector<RainReading> readings, std::vector<RainReading>& left_out) {
  std::stable_sort(readings.begin(), readings.end(), [](const RainReading& a, const RainReading& b) {
    return a.to != b.to ? a.to < b.to : a.from > b.from;
  });
  std::vector<Caught> known;
  for (const RainReading& reading : readings) {
    double rest = quantised(reading.rain).value();
    for (const Caught& caught : known) {
      rest -= caught.rain * overlap_seconds(reading.from, reading.to, caught) /
              seconds_of(caught.to - caught.from);
    }
    std::vector<Caught> open = gaps(reading.from, reading.to, known);
    if (rest < -half_a_tenth || (open.empty() && rest > half_a_tenth)) {
      left_out.push_back(reading);
      continue;
    }
    if (open.empty()) continue;
    const auto parts = split_total(base::Millimetres(std::max(0.0, rest)), shape(series, open));
    for (std::size_t i = 0; i < open.size(); ++i)
      open[i].rain = parts[i].value();
    known.insert(known.end(), open.begin(), open.end());
  }
  for (Hour& hour : series.hours) {
    double caught_here = 0;
    double covered = 0;
    for (const Caught& caught : known) {
      if (hour_of(caught.from) != hour.start) continue;
      caught_here += caught.rain;
      covered += seconds_of(caught.to - caught.from);
    }
    if (covered <= 0) continue;
    const double open_share = 1 - covered / seconds_of(hours(1));
    const double forecast = hour.rain ? hour.rain->value.value() : 0;
    const base::Millimetres rest = quantised(base::Millimetres(forecast * open_share));
    hour.rain = {quantised(base::Millimetres(caught_here) + rest), Origin::measured};
  }
}

}  // namespace

double share_of_reading(std::chrono::seconds off) {
  if (off < full_within) return 1;
  if (off >= nothing_from) return 0;
  return seconds_of(nothing_from - off) / seconds_of(nothing_from - full_within);
}

Observed observe(const Series& forecast, std::span<const TemperatureReading> temperatures,
                 std::span<const RainReading> rain) {
  Observed out{forecast, {}, {}};
  Series& series = out.series;
  std::vector<TemperatureReading> readings;
  std::vector<RainReading> caught;
  const auto near = [&](Instant from, Instant to) {
    return forecast.empty() ||
           (to > forecast.begin_time() - most_off && from < forecast.end_time() + most_off);
  };
  for (const TemperatureReading& reading : temperatures) {
    if (!near(reading.at, reading.at) || !std::isfinite(reading.air.value())) {
      out.temperatures_left_out.push_back(reading);
    } else {
      readings.push_back(reading);
    }
  }
  for (const RainReading& reading : rain) {
    const bool sane = reading.from < reading.to && reading.to - reading.from <= most_off &&
                      std::isfinite(reading.rain.value()) && reading.rain.value() >= 0;
    if (!sane || !near(reading.from, reading.to)) {
      out.rain_left_out.push_back(reading);
    } else {
      caught.push_back(reading);
    }
  }
  for (const TemperatureReading& reading : readings)
    reach(series, reading.at, reading.at + std::chrono::seconds(1));
  for (const RainReading& reading : caught)
    reach(series, reading.from, reading.to);
  if (!readings.empty()) shift_temperatures(series, readings);
  const std::size_t refused = out.rain_left_out.size();
  if (!caught.empty()) put_rain(series, caught, out.rain_left_out);
  if (!readings.empty() || out.rain_left_out.size() - refused < caught.size()) {
    series.notes.push_back({"measured", "Readings on site stand in place of the forecast for their hours."});
  }
  return out;
}

}  // namespace weatherstruck::sky
