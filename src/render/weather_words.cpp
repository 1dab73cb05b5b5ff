#include "weatherstruck/render/weather_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

namespace limit = trade::limit;
using std::chrono::hours;

// Groups of work that share a limit, as they are said in a table with little room.
struct Group {
  std::string_view words;
  trade::Operation operation;
};
constexpr std::array<Group, 6> groups{{{"pointing", trade::Operation::point},
                                       {"facework", trade::Operation::lay_facing},
                                       {"flags", trade::Operation::lay_flags},
                                       {"laying below", trade::Operation::lay_below},
                                       {"pours", trade::Operation::pour},
                                       {"digging", trade::Operation::dig}}};

template <class T>
void keep_least(std::optional<T>& kept, T value) {
  if (!kept || value < *kept) kept = value;
}
template <class T>
void keep_greatest(std::optional<T>& kept, T value) {
  if (!kept || *kept < value) kept = value;
}

bool too_cold(const trade::OperationRow& row, base::Celsius low, const trade::LimitValues& limits) {
  switch (row.temperature) {
    case trade::TemperatureRule::none:
      return false;
    case trade::TemperatureRule::brickwork:
      if (low <= limits.temperature(limit::brick_cold_hard_stop)) return true;
      return limits.at(limit::brick_cold_protected) == 0 && low < limits.temperature(limit::brick_cold_stop);
    case trade::TemperatureRule::concrete:
      return low < limits.temperature(limit::pour_cold_start);
    case trade::TemperatureRule::flags:
      return low < limits.temperature(limit::flags_cold_stop);
  }
  return false;
}

bool too_wet(const trade::OperationRow& row, base::Millimetres in_one_hour,
             const trade::LimitValues& limits) {
  return !row.rain_stop.empty() && in_one_hour.value() >= limits.at(row.rain_stop);
}

// A stretch of hours with rain in each.
struct Wet {
  base::Instant from;
  base::Instant to;
  base::Millimetres depth{0};
};

std::vector<Wet> wet_stretches(const sky::Series& series, programme::Span span) {
  std::vector<Wet> out;
  for (const sky::Hour& hour : series.hours) {
    if (hour.start + hours(1) <= span.from || hour.start >= span.to) continue;
    if (!hour.rain || hour.rain->value.value() <= 0) continue;
    // One dry hour between two wet ones is no break that anybody plans by.
    if (out.empty() || hour.start - out.back().to > hours(1))
      out.push_back({hour.start, hour.start, base::Millimetres(0)});
    out.back().to = hour.start + hours(1);
    out.back().depth += hour.rain->value;
  }
  return out;
}

std::string clock_of(base::Instant t, const base::Zone& zone) {
  return base::clock_time(zone.to_local(t));
}

// At most three, the wettest, in order of time.
std::string rain_words(std::vector<Wet> wet, const base::Zone& zone, Units units) {
  constexpr std::size_t most = 3;
  if (wet.empty()) return "dry";
  const bool more = wet.size() > most;
  if (more) {
    std::stable_sort(wet.begin(), wet.end(), [](const Wet& a, const Wet& b) { return a.depth > b.depth; });
    wet.resize(most);
    std::sort(wet.begin(), wet.end(), [](const Wet& a, const Wet& b) { return a.from < b.from; });
  }
  std::string words = "rain ";
  for (std::size_t i = 0; i < wet.size(); ++i) {
    if (i > 0) words += ", ";
    words += fmt::format("{}-{} {}", clock_of(wet[i].from, zone), clock_of(wet[i].to, zone),
                         rain(wet[i].depth, units));
  }
  if (more) words += ", and showers";
  return words;
}

}  // namespace

WeatherSum sum_up(const sky::Series& series, programme::Span span) {
  WeatherSum sum;
  double cloud = 0;
  int cloudy = 0;
  std::array<bool, 6> met{};
  const auto mark = [&](const auto& value) {
    if (value) met[static_cast<std::size_t>(value->origin)] = true;
  };
  for (const sky::Hour& hour : series.hours) {
    if (hour.start + hours(1) <= span.from || hour.start >= span.to) continue;
    ++sum.hours;
    mark(hour.temperature);
    mark(hour.rain);
    mark(hour.wind);
    mark(hour.gust);
    if (hour.temperature) {
      keep_least(sum.low, hour.temperature->value);
      keep_greatest(sum.high, hour.temperature->value);
    }
    if (hour.rain) {
      sum.rain = sum.rain.value_or(base::Millimetres(0)) + hour.rain->value;
      keep_greatest(sum.heaviest, hour.rain->value);
    } else {
      ++sum.without_rain_value;
    }
    if (hour.rain_chance) {
      keep_greatest(sum.chance, hour.rain_chance->value);
      sum.chance_reckoned = sum.chance_reckoned || hour.rain_chance->origin == sky::Origin::derived;
    }
    if (hour.wind) keep_greatest(sum.wind, hour.wind->value);
    if (hour.gust) keep_greatest(sum.gust, hour.gust->value);
    if (hour.cloud) {
      cloud += hour.cloud->value.value();
      ++cloudy;
    }
  }
  if (cloudy > 0) sum.cloud = base::Fraction(cloud / cloudy);
  for (std::size_t i = 0; i < met.size(); ++i) {
    if (met[i]) sum.origins.push_back(static_cast<sky::Origin>(i));
  }
  return sum;
}

std::string stopped_work(const WeatherSum& sum, const trade::LimitValues& limits) {
  std::vector<std::string> words;
  std::size_t stopped = 0;
  std::string running;
  for (const Group& group : groups) {
    const trade::OperationRow& row = trade::row_for(group.operation);
    if ((sum.heaviest && too_wet(row, *sum.heaviest, limits)) ||
        (sum.low && too_cold(row, *sum.low, limits))) {
      words.emplace_back(group.words);
      ++stopped;
    } else {
      running = std::string(group.words);
    }
  }
  if (stopped == groups.size()) words = {"everything"};
  if (stopped + 1 == groups.size()) words = {"all but " + running};
  if (sum.gust && *sum.gust >= limits.speed(limit::canopy_gust)) words.emplace_back("canopy down");
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string weather_line(const sky::Series& series, programme::Span span, const base::Zone& zone,
                         Units units) {
  const WeatherSum sum = sum_up(series, span);
  if (!sum.low && !sum.rain && !sum.wind) return "no forecast";
  std::vector<std::string> parts;
  if (sum.low) parts.push_back(temperatures(*sum.low, *sum.high, units));
  if (sum.rain) {
    std::string words = rain_words(wet_stretches(series, span), zone, units);
    if (sum.without_rain_value > 0) words += ", not known for every hour";
    parts.push_back(std::move(words));
  } else {
    parts.emplace_back("rain not known");
  }
  if (sum.wind) {
    std::string words = "wind to " + wind(*sum.wind);
    if (sum.gust) words += ", gusts " + wind_number(*sum.gust);
    parts.push_back(std::move(words));
  }
  std::string text;
  for (const std::string& part : parts)
    text += (text.empty() ? "" : "; ") + part;
  return text;
}

}  // namespace weatherstruck::render
