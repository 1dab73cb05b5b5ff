// The other side: strips of a plan by the full balance of heat, from the pour on, under the covers that are
// on.
#include <algorithm>
#include <chrono>

#include "site_check_view.h"
#include "weatherstruck/programme/strip_frost.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::programme {
namespace site {
namespace {

using base::Instant;
namespace limit = trade::limit;

// A strip has had its nights of hessian and sheet at this hour of the morning after the last of them.
constexpr std::chrono::hours morning_after{12};
constexpr int hours_before = 24;

matter::StripCase case_of(const View& view, const matter::StripShape& shape, Instant poured) {
  double mean = 0;
  for (int h = 1; h <= hours_before; ++h)
    mean += view.air(poured - std::chrono::hours(h)).temperature.value() / hours_before;
  return strip_case(view.job(), view.limits(), shape, poured, base::Celsius(mean));
}

}  // namespace

StripBalance::StripBalance(const View& view, const matter::StripShape& shape, Instant poured)
    : view_(view), heat_(case_of(view, shape, poured)) {}

void StripBalance::step(Instant t, base::Hours dt, trade::CoverKind cover, bool roofed) {
  const AirHour& air = view_.air(t);
  matter::Outside outside{air.temperature, air.wind, air.cloud, air.humidity};
  // By day the sun gives back what a clear sky takes (strip_frost.h).
  if (roofed || view_.light(t) == trade::Light::day) outside.cloud = base::Fraction(1);
  outside.cover = heat_cover(cover);
  heat_.advance(outside, dt);
}

trade::CoverKind holding_cover(const View& view, const works::Task& task, Instant t) {
  const PlannedCover* cover = cover_on(view, task, t);
  if (cover == nullptr || view.air(t).gust > view.cover(cover->kind).gust_limit)
    return trade::CoverKind::bare;
  return cover->kind;
}

Instant walled_over(const View& view, const works::Task& strip) {
  Instant first = Instant::max();
  for (const Entry& entry : view.entries()) {
    if (!entry.placed() || !entry.task->fresh || is_concrete(*entry.task)) continue;
    if (entry.task->part == strip.part || stands_on(view, entry.task->part, strip.part)) {
      first = std::min(first, entry.planned->start());
    }
  }
  return first;
}

Instant strip_watched_until(const View& view, const works::Task& strip, Instant poured) {
  const auto nights = static_cast<int>(view.limit(limit::strip_frost_nights));
  const base::LocalDay day = view.zone().day_of(poured);
  // So many nights: till the morning after the last, or so many times round the clock.
  const Instant through =
      std::min<Instant>(view.zone().start_of(day + std::chrono::days(nights)) + morning_after,
                        poured + std::chrono::hours(24 * nights));
  return std::min(through, walled_over(view, strip));
}

}  // namespace site

namespace {

constexpr base::Celsius frosty_air{1};
constexpr base::Celsius cold_top{2};

StripNight look_at(const site::View& view, const works::Task& strip, base::Instant poured,
                   const Span& night) {
  StripNight found;
  found.task = strip.name;
  found.part = strip.part;
  found.air = view.air(std::max(night.from, poured)).temperature;
  site::StripBalance planned(view, *strip.fresh->strip, poured);
  site::StripBalance bared(view, *strip.fresh->strip, poured);
  bool any = false;
  site::walk({poured, night.to}, [&](base::Instant t, base::Hours dt) {
    const trade::CoverKind cover = site::holding_cover(view, strip, t);
    const bool roofed = view.sitting_over(strip.of, t) != nullptr;
    planned.step(t, dt, cover, roofed);
    bared.step(t, dt, t < night.from ? cover : trade::CoverKind::bare, roofed);
    if (t < night.from) return true;
    found.air = std::min(found.air, view.air(t).temperature);
    if (!any || planned.top() < found.coldest) {
      found.coldest = planned.top();
      found.when = t;
      found.cover = cover;
    }
    if (!any || bared.top() < found.left_bare) found.left_bare = bared.top();
    any = true;
    return true;
  });
  return found;
}

}  // namespace

std::vector<StripNight> strip_nights(const works::Job& job, const works::TaskList& list,
                                     const sky::Series& weather, const trade::LimitValues& limits,
                                     const Plan& plan, const Span& night) {
  std::vector<StripNight> nights;
  if (weather.empty()) return nights;
  const site::View view(job, list, weather, limits, plan);
  if (!view.has_weather() || !view.has_wind()) return nights;
  for (const site::Entry& entry : view.entries()) {
    if (!entry.placed() || !site::is_concrete(*entry.task) || !entry.task->fresh->strip) continue;
    const base::Instant poured = entry.planned->finish();
    const base::Instant until = site::strip_watched_until(view, *entry.task, poured);
    if (poured >= night.to || until <= night.from) continue;
    StripNight found = look_at(view, *entry.task, poured, {night.from, std::min(night.to, until)});
    if (found.air <= frosty_air || found.coldest <= cold_top) nights.push_back(std::move(found));
  }
  return nights;
}

}  // namespace weatherstruck::programme
