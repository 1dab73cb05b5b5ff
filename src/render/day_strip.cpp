#include "day_strip.h"

#include <algorithm>

namespace weatherstruck::render {
namespace {

namespace limit = trade::limit;
using std::chrono::minutes;

constexpr long most_hours_by_quarters = 16;

bool within(const std::vector<sky::LightSpan>& spans, base::Instant at) {
  return std::any_of(spans.begin(), spans.end(),
                     [&](const sky::LightSpan& s) { return s.from <= at && at < s.to; });
}

}  // namespace

minutes into_day(const TripDay& day, base::Instant t, const base::Zone& zone) {
  if (t >= day.span.to) return std::chrono::hours(24);
  if (t <= day.span.from) return minutes(0);
  return std::chrono::duration_cast<minutes>(zone.time_of_day(t));
}

Strip strip_of(const TripFacts& facts, const std::vector<TripDay>& days) {
  Strip strip;
  for (const TripDay& day : days) {
    for (const DayTask& task : day.tasks) {
      strip.first_hour =
          std::min(strip.first_hour, into_day(day, task.start(), facts.job.site.zone).count() / 60);
      strip.last_hour =
          std::max(strip.last_hour, (into_day(day, task.finish(), facts.job.site.zone).count() + 59) / 60);
    }
  }
  if (strip.first_hour >= strip.last_hour) strip = {6, 18, minutes(15)};
  if (strip.last_hour - strip.first_hour > most_hours_by_quarters) strip.cell = minutes(30);
  return strip;
}

char light_mark(const sky::DayLight& light, base::Instant at) {
  if (within(light.sun.spans, at)) return '.';
  return within(light.civil.spans, at) ? ':' : ' ';
}

char weather_mark(const TripFacts& facts, base::Instant at) {
  const sky::Hour* hour = facts.series.at(at);
  if (hour == nullptr || !hour->rain || !hour->temperature) return '?';
  const double rain = hour->rain->value.value();
  if (rain >= facts.limits.at(limit::rain_facework_stop)) return 'R';
  if (rain > 0) return 'r';
  if (hour->temperature->value.value() <= 0) return 'f';
  const bool blows = hour->gust && hour->gust->value >= facts.limits.speed(limit::canopy_gust);
  return facts.job.kit.canopy && blows ? 'w' : ' ';
}

bool left_alone_at(const TripFacts& facts, const TripDay& day, base::Instant at) {
  return std::any_of(facts.plan.waits.begin(), facts.plan.waits.end(), [&](const auto& wait) {
    const bool all_day = wait.span.from <= day.span.from && wait.span.to >= day.span.to;
    return !all_day && wait.span.from <= at && at < wait.span.to;
  });
}

}  // namespace weatherstruck::render
