#include "weatherstruck/render/drying_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>

#include "weatherstruck/base/text.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

constexpr base::Metres above_the_concrete{0.5};

constexpr base::Hours longest_set{24};  // in the cold it hardly dries

struct Drying {
  base::KilogramsPerSquareMetreHour rate{0};
  base::Instant when;
};

std::optional<base::KilogramsPerSquareMetreHour> rate_in(const sky::Hour& hour) {
  if (!hour.temperature || !hour.wind) return {};
  const base::Celsius air = hour.temperature->value;
  std::optional<base::Fraction> humidity;
  if (hour.humidity) {
    humidity = hour.humidity->value;
  } else if (hour.dew_point) {
    humidity =
        base::Fraction(matter::saturation_pressure(hour.dew_point->value) / matter::saturation_pressure(air));
  }
  if (!humidity) return {};
  return matter::evaporation(
      {air, air, *humidity, matter::wind_at_height(hour.wind->value, above_the_concrete)});
}

// From the first concrete until the last has set.
std::optional<Drying> fastest(const sky::Series& series, const DayTask& pour) {
  std::optional<Drying> most;
  base::Instant until = pour.finish();
  if (const sky::Hour* last = series.at(until); last != nullptr && last->temperature)
    until += std::chrono::minutes(
        std::lround(60 * std::min(longest_set, matter::initial_set(last->temperature->value)).value()));
  for (const sky::Hour& hour : series.hours) {
    if (hour.start + std::chrono::hours(1) <= pour.start() || hour.start >= until) continue;
    const auto rate = rate_in(hour);
    if (rate && (!most || *rate > most->rate)) most = Drying{*rate, std::max(hour.start, pour.start())};
  }
  return most;
}

std::string rate_words(base::KilogramsPerSquareMetreHour rate, Units units) {
  if (units == Units::us) return fmt::format("{:.2f} lb/ft2", matter::pounds_per_square_foot_hour(rate));
  return fmt::format("{:.1f} kg/m2", rate.value());
}

}  // namespace

std::vector<std::string> drying_lines(const TripFacts& facts, const TripDay& day) {
  const base::KilogramsPerSquareMetreHour limit(facts.limits.at(trade::limit::evaporation_precaution));
  const Units units = units_of(facts.job.limits.set);
  std::vector<std::string> lines;
  std::vector<Piece> pieces;
  std::optional<Drying> worst;
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    if (work.operation != trade::Operation::pour) continue;
    const std::optional<Drying> drying = fastest(facts.series, task);
    if (!drying || drying->rate < limit) continue;
    pieces.push_back(piece_of(facts.list, work.part, true));
    if (!worst || drying->rate > worst->rate) worst = drying;
  }
  if (!worst) return lines;
  lines.push_back(capital(fmt::format(
      "{} would dry at {} an hour about {} (it cracks from {}): wet hessian or sheet on as each part is "
      "finished, kept wet",
      together(pieces), rate_words(worst->rate, units), quarter(facts.job.site.zone.to_local(worst->when)),
      rate_words(limit, units))));
  return lines;
}

}  // namespace weatherstruck::render
