#include "site_check_view.h"

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
using std::chrono::hours;

constexpr base::Metres work_height{0.5};
constexpr hours one_day{24};
// More than this before or after the trip is nothing to do with it; it bounds the walk through a wild plan.
constexpr hours most_margin{24 * 14};

Instant whole_hour_before(Instant t) {
  return std::chrono::floor<hours>(t);
}
Instant whole_hour_after(Instant t) {
  return std::chrono::ceil<hours>(t);
}

/// The value of a layer at t, or of the same hour of the nearest day before, else after, that has one.
template <class Get>
auto nearest(const sky::Series& weather, Instant t, const Get& get) -> decltype(get(weather.hours.front())) {
  if (weather.empty()) return {};
  Instant back = t;
  if (back >= weather.end_time()) {
    // Whole days back into the series at once.
    const auto days = (back - weather.end_time()) / one_day + 1;
    back -= one_day * days;
  }
  for (; back >= weather.begin_time(); back -= one_day) {
    const sky::Hour* hour = weather.at(back);
    if (hour != nullptr) {
      if (auto value = get(*hour)) return value;
    }
  }
  for (Instant on = t + one_day; on < weather.end_time(); on += one_day) {
    const sky::Hour* hour = weather.at(on);
    if (hour != nullptr) {
      if (auto value = get(*hour)) return value;
    }
  }
  return {};
}

template <class T>
bool forecast(const sky::Maybe<T>& value) {
  return value && value->origin != sky::Origin::climate;
}

}  // namespace

void walk(Span span, const std::function<bool(Instant, base::Hours)>& look) {
  for (Instant t = span.from; t < span.to; t += step) {
    const Instant next = std::min<Instant>(t + step, span.to);
    if (!look(t, base::Hours(hours_between(t, next)))) return;
  }
}

View::View(const works::Job& the_job, const works::TaskList& the_list, const sky::Series& the_weather,
           const trade::LimitValues& the_limits, const Plan& the_plan)
    : job_(the_job), list_(the_list), limits_(the_limits), plan_(the_plan) {
  for (const works::Task& task : list_.tasks) {
    const auto found = std::find_if(plan_.tasks.begin(), plan_.tasks.end(),
                                    [&](const PlannedTask& p) { return p.task == task.name; });
    entries_.push_back(
        {&task, found == plan_.tasks.end() ? nullptr : &*found, &trade::row_for(task.operation)});
  }
  for (const Entry& entry : entries_) {
    if (!entry.drives()) continue;
    if (out_ == nullptr && &entry == &entries_.front()) {
      out_ = &entry;
    } else {
      back_ = &entry;
    }
  }

  Instant first = std::min(job_.trip.leave_home, job_.trip.home_by);
  Instant last = std::max(job_.trip.home_by, plan_.horizon_to);
  for (const PlannedTask& task : plan_.tasks) {
    for (const PlannedRun& run : task.runs) {
      first = std::min({first, run.span.from, run.span.to});
      last = std::max({last, run.span.from, run.span.to});
    }
  }
  first = std::max<Instant>(first, job_.trip.leave_home - most_margin);
  last = std::min<Instant>(last, job_.trip.home_by + most_margin);
  begin_ = whole_hour_before(first - one_day);
  end_ = whole_hour_after(last + one_day);
  fill_air(the_weather);
  fill_light();
}

void View::fill_air(const sky::Series& weather) {
  has_weather_ = !weather.empty() && nearest(weather, begin_, [](const sky::Hour& h) { return h.rain; }) &&
                 nearest(weather, begin_, [](const sky::Hour& h) { return h.temperature; });
  for (Instant t = begin_; t < end_; t += hours(1)) {
    AirHour air;
    if (has_weather_) {
      if (const auto v = nearest(weather, t, [](const sky::Hour& h) { return h.temperature; })) {
        air.temperature = v->value;
      }
      if (const auto v = nearest(weather, t, [](const sky::Hour& h) { return h.rain; })) {
        air.rain = base::MillimetresPerHour(v->value.value());
      }
      const auto humidity = [](const sky::Hour& h) -> std::optional<base::Fraction> {
        if (h.humidity) return h.humidity->value;
        if (!h.dew_point || !h.temperature) return std::nullopt;
        const double part = matter::saturation_pressure(h.dew_point->value) /
                            matter::saturation_pressure(h.temperature->value);
        return base::Fraction(std::min(part, 1.0));
      };
      if (const auto v = nearest(weather, t, humidity)) air.humidity = *v;
      if (const auto v = nearest(weather, t, [](const sky::Hour& h) { return h.wind; })) {
        air.wind = v->value;
        has_wind_ = true;
      }
      const auto gust = [](const sky::Hour& h) -> std::optional<base::MetresPerSecond> {
        if (h.gust) return h.gust->value;
        if (h.wind) return h.wind->value * sky::GustFactor::inland;
        return std::nullopt;
      };
      if (const auto v = nearest(weather, t, gust)) {
        air.gust = *v;
        has_wind_ = true;
      }
      air.near_wind = matter::wind_at_height(air.wind, work_height);
      const sky::Hour* here = weather.at(t);
      if (here != nullptr && here->cloud) air.cloud = here->cloud->value;
      air.forecast = here != nullptr && forecast(here->temperature) && forecast(here->rain) &&
                     (forecast(here->wind) || forecast(here->gust));
    }
    hours_.push_back(air);
  }
}

void View::fill_light() {
  for (base::LocalDay day = zone().day_of(begin_); day <= zone().day_of(end_); day += std::chrono::days(1)) {
    const Instant from = zone().start_of(day);
    const Instant to = zone().end_of(day);
    if (from >= to) continue;
    const sky::DayLight light = sky::day_light(job_.site.latitude, job_.site.longitude, from, to);
    for (const sky::LightSpan& s : light.sun.spans)
      sun_up_.push_back({s.from, s.to});
    for (const sky::LightSpan& s : light.civil.spans)
      civil_.push_back({s.from, s.to});
  }
}

const Entry* View::find(const works::Name& task) const {
  const auto found =
      std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) { return e.task->name == task; });
  return found == entries_.end() ? nullptr : &*found;
}

const AirHour& View::air(Instant t) const {
  const auto last = static_cast<std::ptrdiff_t>(hours_.size()) - 1;
  const std::ptrdiff_t at_hour = (t - begin_) / hours(1);
  return hours_[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(at_hour, 0, last))];
}

trade::Light View::light(Instant t) const {
  const auto holds = [&](const Span& s) { return s.from <= t && t < s.to; };
  if (std::any_of(sun_up_.begin(), sun_up_.end(), holds)) return trade::Light::day;
  return std::any_of(civil_.begin(), civil_.end(), holds) ? trade::Light::twilight : trade::Light::dark;
}

bool View::plainly_falling(Instant t) const {
  for (int i = -3; i < 3; ++i) {
    if (air(t + hours(i)).temperature < air(t + hours(i + 1)).temperature) return false;
  }
  return (air(t - hours(3)).temperature - air(t + hours(3)).temperature).value() >= 1.0;
}

bool View::plainly_rising(Instant t) const {
  for (int i = -3; i < 3; ++i) {
    if (air(t + hours(i)).temperature > air(t + hours(i + 1)).temperature) return false;
  }
  return (air(t + hours(3)).temperature - air(t - hours(3)).temperature).value() >= 1.0;
}

Instant View::watched_until() const {
  return std::min(end_, std::max(plan_.horizon_to, job_.trip.home_by));
}

base::Celsius View::warmest_of_day(Instant t) const {
  const base::LocalDay day = zone().day_of(t);
  base::Celsius warmest = air(t).temperature;
  for (Instant h = zone().start_of(day); h < zone().end_of(day); h += hours(1)) {
    warmest = std::max(warmest, air(h).temperature);
  }
  return warmest;
}

Instant View::at(base::LocalDay day, std::chrono::minutes time_of_day) const {
  return zone().to_instant_earliest(base::LocalTime(day) + time_of_day);
}

std::string View::clock(Instant t) const {
  return base::day_and_time(zone().to_local(t));
}

const CanopySitting* View::sitting_over(const works::Name& part, Instant t) const {
  for (const CanopySitting& sitting : plan_.canopy) {
    if (sitting.part == part && sitting.over.from <= t && t < sitting.over.to) return &sitting;
  }
  return nullptr;
}

bool stands_on(const View& view, const works::Name& part, const works::Name& strip) {
  for (const works::Link& link : view.list().links) {
    if (link.wait != works::Wait::concrete_to_lay && link.wait != works::Wait::concrete_to_lay_box &&
        link.wait != works::Wait::concrete_to_lay_high) {
      continue;
    }
    const Entry* from = view.find(link.from);
    const Entry* to = view.find(link.to);
    if (from == nullptr || to == nullptr || from->task->part != strip || to->task->part != part) continue;
    if (is_concrete(*from->task)) return true;
  }
  return false;
}

const PlannedCover* cover_on(const View& view, const works::Task& task, Instant t) {
  const bool concrete = is_concrete(task);
  const PlannedCover* best = nullptr;
  for (const PlannedCover& cover : view.plan().covers) {
    if (t < cover.span.from || t >= cover.span.to || cover.kind == trade::CoverKind::bare) continue;
    const bool own = cover.part == task.part && cover.concrete == concrete;
    // What hangs over a wall hangs down to its strip.
    if (!own && !(concrete && !cover.concrete && stands_on(view, cover.part, task.part))) continue;
    if (best == nullptr || view.cover(cover.kind).lift > view.cover(best->kind).lift) best = &cover;
  }
  return best;
}

}  // namespace weatherstruck::programme::site
