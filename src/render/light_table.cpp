#include "weatherstruck/render/light_table.h"

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using sky::LightBand;

std::string event(const LightBand& band, const std::optional<base::Instant>& at, const base::Zone& zone) {
  if (band.state == LightBand::State::always) return "all day";
  if (band.state == LightBand::State::never) return "none";
  if (!at) return "-";
  // Rounded to the minute, as almanacs print it.
  return base::clock_time(
      base::LocalTime(std::chrono::round<std::chrono::minutes>(zone.to_local(*at).time_since_epoch())));
}

}  // namespace

LightDay light_day(const works::Job& job, base::LocalDay day) {
  const base::Zone& zone = job.site.zone;
  const base::Instant begin = zone.start_of(day);
  const base::Instant end = zone.end_of(day);
  LightDay out;
  out.day = day;
  out.light = sky::day_light(job.site.latitude, job.site.longitude, begin, end);
  const base::Instant from = zone.to_instant_earliest(base::LocalTime(day) + job.trip.working_day.from);
  const base::Instant to = zone.to_instant_earliest(base::LocalTime(day) + job.trip.working_day.to);
  for (const sky::LightSpan& span : out.light.civil.spans) {
    const base::Instant first = std::max(from, span.from);
    const base::Instant last = std::min(to, span.to);
    if (first < last) out.working += last - first;
  }
  return out;
}

std::vector<LightDay> light_days(const works::Job& job) {
  std::vector<LightDay> days;
  const base::Zone& zone = job.site.zone;
  for (base::LocalDay day = zone.day_of(job.trip.leave_home); day <= zone.day_of(job.trip.home_by);
       day += std::chrono::days(1)) {
    if (zone.start_of(day) < zone.end_of(day)) days.push_back(light_day(job, day));
  }
  return days;
}

std::string light_table(const works::Job& job, const std::vector<LightDay>& days, Ink ink) {
  Page page(ink);
  page.title("Light", job.title);
  page.gap();
  Table table({{"", Table::Kind::left},
               {"first light", Table::Kind::right},
               {"sunrise", Table::Kind::right},
               {"sunset", Table::Kind::right},
               {"last light", Table::Kind::right},
               {"to work by", Table::Kind::right}});
  for (const LightDay& day : days) {
    const base::Zone& zone = job.site.zone;
    table.add({base::day_name(day.day), event(day.light.civil, day.light.dawn(), zone),
               event(day.light.sun, day.light.sunrise(), zone),
               event(day.light.sun, day.light.sunset(), zone), event(day.light.civil, day.light.dusk(), zone),
               duration_minutes(day.working)});
  }
  page.table(table);
  page.gap();
  const auto& hours = job.trip.working_day;
  const base::LocalDay any{};
  page.text(
      "First and last light are civil dawn and dusk. The last column is what falls within the working day, " +
      base::clock_time(base::LocalTime(any) + hours.from) + " to " +
      (hours.to >= std::chrono::hours(24) ? std::string("24:00")
                                          : base::clock_time(base::LocalTime(any) + hours.to)) +
      ". A hill or trees beside the site take from it; so does thick cloud.");
  return page.str();
}

}  // namespace weatherstruck::render
