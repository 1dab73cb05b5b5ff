#include "weatherstruck/programme/departures.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/programme/possible_trips.h"
#include "weatherstruck/sky/possible.h"
#include "weatherstruck/sky/sun.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using base::LocalDay;
using std::chrono::days;
using std::chrono::hours;

constexpr int schedules = 60;            // of each search: a quick look (assumption)
constexpr std::size_t orders = 2;        // found on so many years, far apart
constexpr hours before{24};              // of leaving: what the ground is like
constexpr days after{2};                 // the promise: how late one may be
constexpr double least_known = 0.95;     // of the hours of a year's trip; gaps are held over
constexpr double wet = 0.1;              // mm in the hour
constexpr std::uint64_t stream = 0x3e4;  // of the seed

Instant moved(const base::Zone& zone, Instant t, days by) {
  return zone.to_instant_earliest(zone.to_local(t) + by);
}

bool is_known(const sky::Hour* hour) {
  return hour != nullptr && hour->temperature && hour->rain && hour->wind;
}

class Trip {
 public:
  Trip(const DepartureRequest& request, LocalDay day)
      : r_(request),
        job_(moved_by_days(request.job, day - request.job.site.zone.day_of(request.job.trip.leave_home))),
        list_(works::derive_tasks(job_)) {
    out_.day = day;
  }

  Departure judge() {
    find_years();
    out_.years = static_cast<int>(years_.size());
    light();
    if (years_.size() < orders + 1) {
      out_.years = 0;
      return out_;
    }
    const std::vector<std::size_t> found_on = far_apart();
    std::vector<engine::Genes> genes;
    std::optional<Programme> base;
    for (const std::size_t y : found_on) {
      Programme programme = build_programme(job_, list_, years_[y], r_.limits, job_.trip.leave_home);
      engine::ListOptions options;
      options.schedules = schedules;
      options.seed = r_.seed;
      genes.push_back(settled(engine::plan_by_list(programme.network, options)));
      if (!base) base = std::move(programme);
    }
    const sky::Series& first = years_[found_on.front()];
    PossibleTrips trips({job_, list_, first, r_.limits, job_.trip.leave_home, *base, r_.seed});
    std::vector<std::vector<char>> well(years_.size(), std::vector<char>(genes.size(), 0));
    for (std::size_t y = 0; y < years_.size(); ++y) {
      const int number = static_cast<int>(y);
      sky::PossibleWeather weather =
          sky::draw_weather(years_[y], job_.trip.leave_home, r_.seed + stream, number);
      weather.comes = years_[y];
      trips.put(weather, number);
      for (std::size_t g = 0; g < genes.size(); ++g)
        well[y][g] = trips.ends_well(genes[g]) ? 1 : 0;
      conditions(years_[y]);
    }
    for (std::size_t y = 0; y < years_.size(); ++y)
      out_.good += well[y][best_elsewhere(well, found_on, y)];
    out_.frost_nights /= out_.years;
    out_.wet_hours /= out_.years;
    return out_;
  }

 private:
  // The same days of each year of the past, as if they came now.
  void find_years() {
    const Instant from = std::chrono::floor<hours>(job_.trip.leave_home - before);
    const Instant to = job_.trip.home_by + after;
    if (r_.past.empty()) return;
    const std::chrono::year_month_day date(out_.day);
    const auto year_of = [](Instant t) {
      return std::chrono::year_month_day(std::chrono::floor<days>(t)).year();
    };
    for (auto year = year_of(r_.past.begin_time()); year <= year_of(r_.past.end_time()); ++year) {
      std::chrono::year_month_day then = year / date.month() / date.day();
      if (!then.ok()) then = year / date.month() / std::chrono::last;
      const auto back = out_.day - LocalDay(then);
      if (back <= days(0)) continue;  // not over yet
      sky::Series series;
      series.source = r_.past.source;
      series.latitude = r_.past.latitude;
      series.longitude = r_.past.longitude;
      series.issued = job_.trip.leave_home;
      std::size_t known = 0;
      for (Instant t = from; t < to; t += hours(1)) {
        const sky::Hour* was = r_.past.at(t - back);
        sky::Hour hour = was != nullptr ? *was : sky::Hour{};
        hour.start = t;
        known += is_known(was) ? 1U : 0U;
        series.hours.push_back(hour);
      }
      if (static_cast<double>(known) >= least_known * static_cast<double>(series.hours.size()) &&
          is_known(&series.hours.front()))
        years_.push_back(std::move(series));
    }
  }

  [[nodiscard]] std::vector<std::size_t> far_apart() const {
    std::vector<std::size_t> list;
    for (std::size_t k = 0; k < orders; ++k)
      list.push_back((2 * k + 1) * years_.size() / (2 * orders));
    return list;
  }

  // Of the orders that were not found on this year the one that did best in all others; the first of equals.
  [[nodiscard]] static std::size_t best_elsewhere(const std::vector<std::vector<char>>& well,
                                                  const std::vector<std::size_t>& found_on,
                                                  std::size_t year) {
    std::optional<std::size_t> best;
    int most = -1;
    for (std::size_t g = 0; g < found_on.size(); ++g) {
      if (found_on[g] == year) continue;
      int good = 0;
      for (std::size_t y = 0; y < well.size(); ++y)
        good += y != year ? well[y][g] : 0;
      if (good > most) {
        most = good;
        best = g;
      }
    }
    return best.value();
  }

  void light() {
    const works::DaySpan& working = job_.trip.working_day;
    const base::Zone& zone = job_.site.zone;
    int count = 0;
    for (LocalDay day = zone.day_of(job_.trip.leave_home); day <= zone.day_of(job_.trip.home_by);
         day += days(1)) {
      ++count;
      const Instant from = zone.to_instant_earliest(base::LocalTime(day) + working.from);
      const Instant to = zone.to_instant_earliest(base::LocalTime(day) + working.to);
      const sky::DayLight light =
          sky::day_light(job_.site.latitude, job_.site.longitude, zone.start_of(day), zone.end_of(day));
      for (const sky::LightSpan& span : light.civil.spans) {
        const auto lit = std::min(to, span.to) - std::max(from, span.from);
        out_.light_hours += std::max(0.0, std::chrono::duration<double, std::ratio<3600>>(lit).count());
      }
    }
    out_.light_hours /= std::max(1, count);
  }

  void conditions(const sky::Series& series) {
    const base::Zone& zone = job_.site.zone;
    std::optional<LocalDay> counted;
    for (const sky::Hour& hour : series.hours) {
      if (hour.start < job_.trip.leave_home || hour.start >= job_.trip.home_by) continue;
      const base::LocalTime local = zone.to_local(hour.start);
      const LocalDay day = std::chrono::floor<days>(local);
      const auto clock = local - base::LocalTime(day);
      const bool at_work = clock >= job_.trip.working_day.from && clock < job_.trip.working_day.to;
      if (at_work && hour.rain && hour.rain->value.value() >= wet) out_.wet_hours += 1;
      // A night is that of the day on which it began.
      const LocalDay night = clock < hours(12) ? day - days(1) : day;
      if (!at_work && hour.temperature && hour.temperature->value.value() <= 0 && counted != night) {
        counted = night;
        out_.frost_nights += 1;
      }
    }
  }

  const DepartureRequest& r_;
  works::Job job_;
  works::TaskList list_;
  std::vector<sky::Series> years_;
  Departure out_;
};

}  // namespace

double Departure::chance() const {
  return years == 0 ? 0 : static_cast<double>(good) / years;
}

double Departure::error() const {
  const double n = years + 4.0;
  const double p = (good + 2.0) / n;
  return std::sqrt(p * (1 - p) / n);
}

works::Job moved_by_days(works::Job job, days by) {
  const base::Zone& site = job.site.zone;
  job.trip.leave_home = moved(job.trip.home_zone, job.trip.leave_home, by);
  job.trip.home_by = moved(job.trip.home_zone, job.trip.home_by, by);
  for (works::Delivery& delivery : job.supplies.deliveries)
    delivery.at = moved(site, delivery.at, by);
  for (auto& fixed : job.fixed) {
    fixed.from = moved(site, fixed.from, by);
    fixed.to = moved(site, fixed.to, by);
  }
  return job;
}

std::vector<Departure> departures(const DepartureRequest& request) {
  std::vector<Departure> out(request.days.size());
  request.lanes.each(out.size(),
                     [&](std::size_t k, std::size_t) { out[k] = Trip(request, request.days[k]).judge(); });
  return out;
}

}  // namespace weatherstruck::programme
