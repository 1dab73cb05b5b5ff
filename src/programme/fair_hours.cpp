#include "fair_hours.h"

#include <algorithm>

namespace weatherstruck::programme {
namespace {

constexpr double mild_from = 12;
constexpr double mild_to = 18;
constexpr double calm = 3;
constexpr double moist = 0.7;
constexpr auto derived = sky::Origin::derived;

template <class Change>
sky::Series each_in(sky::Series weather, const Span& span, const Change& change) {
  for (sky::Hour& hour : weather.hours) {
    if (hour.start >= span.from && hour.start < span.to) change(hour);
  }
  return weather;
}

}  // namespace

sky::Series dry_in(sky::Series weather, const Span& span) {
  return each_in(std::move(weather), span, [](sky::Hour& hour) {
    if (hour.rain) hour.rain = {{base::Millimetres(0), derived}};
    if (hour.rain_chance) hour.rain_chance = {{base::Fraction(0), derived}};
  });
}

sky::Series mild_in(sky::Series weather, const Span& span) {
  return each_in(std::move(weather), span, [](sky::Hour& hour) {
    if (hour.temperature)
      hour.temperature = {
          {base::Celsius(std::clamp(hour.temperature->value.value(), mild_from, mild_to)), derived}};
    if (hour.dew_point)
      hour.dew_point = {{base::Celsius(std::min(hour.dew_point->value.value(), mild_from - 4)), derived}};
    if (hour.humidity) hour.humidity = {{base::Fraction(moist), derived}};
  });
}

sky::Series calm_in(sky::Series weather, const Span& span) {
  return each_in(std::move(weather), span, [](sky::Hour& hour) {
    if (hour.wind) hour.wind = {{base::MetresPerSecond(std::min(hour.wind->value.value(), calm)), derived}};
    if (hour.gust)
      hour.gust = {{base::MetresPerSecond(std::min(hour.gust->value.value(), calm * 2)), derived}};
  });
}

sky::Series fair_from(sky::Series weather, base::Instant from) {
  const Span on{from, base::Instant::max()};
  return calm_in(mild_in(dry_in(std::move(weather), on), on), on);
}

}  // namespace weatherstruck::programme
