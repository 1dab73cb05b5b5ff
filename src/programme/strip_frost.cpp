// The clocks' side: tops of strips by the fast filter, whenever they were poured.
#include "weatherstruck/programme/strip_frost.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "weatherstruck/programme/fitted_strips.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::programme {
namespace {

using matter::StripTops;
using trade::CoverKind;
namespace limit = trade::limit;

constexpr std::array<CoverKind, 4> covers{CoverKind::hessian, CoverKind::sheet, CoverKind::hessian_and_sheet,
                                          CoverKind::mat};

base::Metres down_to(base::Metres value, double step, double least, double most) {
  const double rounded = std::floor(value.value() / step + 1e-6) * step;
  return base::Metres(std::clamp(rounded, least, most));
}

// Within the limits of the filter (heat_filter.h), or down to 0.3 m wide, where it errs on the cold side.
matter::StripShape like(const matter::StripShape& shape) {
  matter::StripShape made;
  made.thickness = down_to(shape.thickness, 0.05, 0.1, 0.4);
  made.width = down_to(shape.width, 0.15, 0.3, 1.5);
  made.trench_depth = made.thickness + down_to(shape.trench_depth - shape.thickness, 0.05, 0, 0.6);
  return made;
}

bool same(const matter::StripCase& a, const matter::StripCase& b) {
  return a.shape.thickness == b.shape.thickness && a.shape.width == b.shape.width &&
         a.shape.trench_depth == b.shape.trench_depth && a.ground.conductivity == b.ground.conductivity &&
         a.ground.capacity == b.ground.capacity && a.ground.mean == b.ground.mean &&
         a.ground.amplitude == b.ground.amplitude && a.ground.coldest_day == b.ground.coldest_day &&
         a.mix.cement == b.mix.cement && a.mix.water_cement == b.mix.water_cement &&
         a.day_of_year == b.day_of_year;
}

std::vector<FittedStrip>& kept() {
  thread_local std::vector<FittedStrip> strips;
  return strips;
}

const matter::HeatFilter* find_fitted(const matter::StripCase& strip) {
  const auto found =
      std::find_if(kept().begin(), kept().end(), [&](const FittedStrip& k) { return same(k.strip, strip); });
  return found == kept().end() ? nullptr : &found->filter;
}

void keep(const FittedStrip& strip) {
  constexpr std::size_t most_kept = 16;
  if (kept().size() == most_kept) kept().erase(kept().begin());
  kept().push_back(strip);
}

const matter::HeatFilter& filter_of(const matter::StripCase& strip) {
  if (const matter::HeatFilter* known = find_fitted(strip)) return *known;
  keep({strip, matter::fit_heat_filter(strip)});
  return kept().back().filter;
}

// Covered, a young strip is kept warm by what it gives off at the least. Bare, none of it is counted on.
StripTops::Row young_heat(const matter::HeatMix& mix) {
  constexpr double seconds_an_hour = 3600;
  StripTops::Row row{};
  for (const CoverKind kind : covers)
    row[lane_of(kind)] =
        mix.cement.value() * matter::heat::cement_heat * matter::heat::young_share / seconds_an_hour;
  return row;
}

bool unlit(const Slot& slot) {
  return slot.light == trade::Light::dark || slot.light == trade::Light::floodlit;
}

double day_of_year(const base::Zone& zone, base::Instant when) {
  const base::LocalDay day = zone.day_of(when);
  const std::chrono::year_month_day date(day);
  return static_cast<double>((day - base::LocalDay(date.year() / std::chrono::January / 1)).count() + 1);
}

// What each lane has on it in an hour.
class Lanes {
 public:
  explicit Lanes(const works::Job& job) {
    const works::Kit& kit = job.kit;
    for (std::size_t c = 0; c < covers.size(); ++c) {
      const trade::CoverRow& row = job.covers.at(covers[c]);
      gust_[c] = row.gust_limit;
      resistance_[c] = matter::cover_resistance(heat_cover(covers[c]));
      in_kit_[c] = (!row.uses_hessian || kit.hessian.value() > 0) &&
                   (!row.uses_sheet || kit.sheet.value() > 0) && (!row.uses_mat || kit.mats.value() > 0);
    }
  }

  [[nodiscard]] StripTops::Row at(const Slot& slot) const {
    StripTops::Row row{};
    const bool dark = unlit(slot);
    for (std::size_t c = 0; c < covers.size(); ++c) {
      if (slot.gust > gust_[c]) continue;
      row[lane_of(covers[c])] = resistance_[c];
      if (dark && in_kit_[c]) row[lane_bare_day] = std::max(row[lane_bare_day], resistance_[c]);
    }
    return row;
  }

 private:
  std::array<base::MetresPerSecond, covers.size()> gust_{};
  std::array<double, covers.size()> resistance_{};
  std::array<bool, covers.size()> in_kit_{};
};

// Makes the tops of strips in the weather of a table.
class Tops {
 public:
  Tops(const SlotTable& table, const works::Job& job, const trade::LimitValues& limits)
      : table_(table), job_(job), above_(limits.at(limit::strip_top_above)) {
    for (const matter::OpenAir& open : table.open)
      coldest_ = std::min(coldest_, open.air - std::max(open.sky, 0.0));
  }

  void put(StripHours& strip) {
    strip.tops.clear();
    // No face comes below the coldest of what it begins with and what draws it (matter/strip_tops.h).
    if (std::min(coldest_, strip.begins.value()) > above_) return;
    if (!strip.filter) strip.filter = filter_of(strip.strip);
    if (on_.empty()) cover();
    StripTops run(*strip.filter, strip.start, young_heat(strip.strip.mix));
    strip.tops.reserve(table_.open.size());
    for (std::size_t h = 0; h < table_.open.size(); ++h) {
      run.step(table_.open[h], on_[h]);
      strip.tops.push_back(run.tops());
    }
  }

 private:
  // By the first slot of each whole hour; of the first hour, the first there is.
  void cover() {
    const Lanes lanes(job_);
    for (const SlotTable::HourOf& hour : table_.hours)
      on_.push_back(lanes.at(table_.slots[hour.from]));
  }

  const SlotTable& table_;
  const works::Job& job_;
  double above_;
  double coldest_ = 1000;
  std::vector<StripTops::Row> on_;
};

}  // namespace

int fitting_day(const base::Zone& zone, base::Instant poured) {
  constexpr int week = 7;
  const int day = static_cast<int>(day_of_year(zone, poured)) - 1;
  return std::min(365, day / week * week + 4);
}

std::vector<FittedStrip> fitted_strips() {
  return kept();
}

void know_fitted(const std::vector<FittedStrip>& strips) {
  for (const FittedStrip& strip : strips) {
    if (find_fitted(strip.strip) == nullptr) keep(strip);
  }
}

matter::HeatCover heat_cover(CoverKind kind) {
  switch (kind) {
    case CoverKind::hessian:
      return matter::HeatCover::hessian;
    case CoverKind::sheet:
      return matter::HeatCover::sheet;
    case CoverKind::hessian_and_sheet:
      return matter::HeatCover::hessian_and_sheet;
    case CoverKind::mat:
      return matter::HeatCover::mat;
    case CoverKind::bare:
    case CoverKind::canopy:
      break;
  }
  return matter::HeatCover::bare;
}

std::size_t lane_of(CoverKind cover) {
  const auto* const found = std::find(covers.begin(), covers.end(), cover);
  if (found == covers.end()) throw std::logic_error("a lane of tops is asked for of no cover");
  return 2 + static_cast<std::size_t>(found - covers.begin());
}

matter::StripCase strip_case(const works::Job& job, const trade::LimitValues& limits,
                             const matter::StripShape& shape, base::Instant placed,
                             base::Celsius air_before) {
  matter::StripCase strip;
  strip.shape = shape;
  const trade::ConcreteRow& mix = trade::row_for(job.practice.concrete);
  if (mix.cement_per_m3.value() > 0) {
    strip.mix.water_cement = std::clamp(mix.water_litres_per_m3 / mix.cement_per_m3.value(), 0.3, 1.0);
    strip.mix.cement = base::KilogramsPerCubicMetre(mix.cement_per_m3.value());
  }
  if (job.practice.cement == trade::CementSpeed::slow) strip.mix.cement = base::KilogramsPerCubicMetre(0);
  if (job.site.soil == trade::Soil::sand || job.site.soil == trade::Soil::gravel) {
    strip.ground.conductivity = matter::heat::sand_conductivity;
    strip.ground.capacity = matter::heat::sand_capacity;
  }
  strip.ground.mean = limits.temperature(limit::ground_mean);
  strip.ground.amplitude = base::Kelvins(limits.at(limit::ground_swing));
  constexpr double half_a_year = 182.5;
  if (job.site.latitude < 0) strip.ground.coldest_day += half_a_year;
  strip.day_of_year = day_of_year(job.site.zone, placed);
  strip.placed = std::max(air_before, limits.temperature(limit::concrete_cold));
  return strip;
}

std::size_t strip_like(SlotTable& table, const works::Job& job, const trade::LimitValues& limits,
                       const matter::StripShape& shape) {
  StripHours hours;
  const base::Celsius least = limits.temperature(limit::concrete_cold);
  hours.strip = strip_case(job, limits, like(shape), table.begin_time(), least);
  hours.strip.day_of_year = fitting_day(job.site.zone, table.begin_time());
  const auto found = std::find_if(table.strips.begin(), table.strips.end(),
                                  [&](const StripHours& known) { return same(known.strip, hours.strip); });
  if (found != table.strips.end()) return static_cast<std::size_t>(found - table.strips.begin());
  const matter::StripShape& made = hours.strip.shape;
  hours.start =
      std::min(least, matter::ground_temperature(hours.strip.ground, made.trench_depth - made.thickness / 2,
                                                 hours.strip.day_of_year));
  hours.begins = coldest_start(matter::unfitted_heat_filter(hours.strip), hours.start);
  table.strips.push_back(std::move(hours));
  Tops(table, job, limits).put(table.strips.back());
  return table.strips.size() - 1;
}

void put_tops(SlotTable& table, const works::Job& job, const trade::LimitValues& limits) {
  Tops tops(table, job, limits);
  for (StripHours& strip : table.strips)
    tops.put(strip);
}

}  // namespace weatherstruck::programme
