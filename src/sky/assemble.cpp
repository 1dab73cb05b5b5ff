#include "weatherstruck/sky/assemble.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include <fmt/format.h>

#include "series_notes.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::seconds;

Instant hour_floor(Instant t) {
  return std::chrono::floor<hours>(t);
}

struct LayerName {
  Layer layer;
  const char* name;
};
constexpr std::array<LayerName, kLayers> kNames{{{Layer::temperature, "temperature"},
                                                 {Layer::dew_point, "dew point"},
                                                 {Layer::humidity, "humidity"},
                                                 {Layer::wind, "wind"},
                                                 {Layer::gust, "gusts"},
                                                 {Layer::cloud, "cloud"}}};

std::optional<Origin> origin_in(const Hour& hour, Layer layer) {
  const auto of = [](const auto& maybe) { return maybe ? std::optional(maybe->origin) : std::nullopt; };
  switch (layer) {
    case Layer::temperature:
      return of(hour.temperature);
    case Layer::dew_point:
      return of(hour.dew_point);
    case Layer::humidity:
      return of(hour.humidity);
    case Layer::wind:
      return of(hour.wind);
    case Layer::gust:
      return of(hour.gust);
    case Layer::cloud:
      return of(hour.cloud);
  }
  return std::nullopt;
}

seconds overlap(Instant from_a, Instant to_a, Instant from_b, Instant to_b) {
  return std::max(seconds(0), std::min(to_a, to_b) - std::max(from_a, from_b));
}

void sort_by_time(std::vector<Stretch>& stretches) {
  std::stable_sort(stretches.begin(), stretches.end(),
                   [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
}

}  // namespace

std::vector<base::Millimetres> split_total(base::Millimetres total, std::span<const double> weights) {
  if (!std::isfinite(total.value()) || total.value() < 0) {
    throw std::invalid_argument("a total to split must be finite and not negative");
  }
  double sum = 0;
  for (const double w : weights) {
    if (!std::isfinite(w) || w < 0) throw std::invalid_argument("weights must be finite and not negative");
    sum += w;
  }
  if (!(sum > 0)) throw std::invalid_argument("at least one weight must be positive");
  const std::int64_t tenths = std::llround(quantised(total).value() * 10.0);
  std::vector<std::int64_t> parts;
  std::vector<double> remainders;
  std::int64_t left = tenths;
  for (const double w : weights) {
    const double share = static_cast<double>(tenths) * w / sum;
    // A share a rounding error below a whole number is that number, or it would take the remainder's place.
    const double whole = std::floor(share + 1e-9);
    parts.push_back(std::llround(whole));
    remainders.push_back(std::max(0.0, share - whole));
    left -= parts.back();
  }
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b] + 1e-9; });
  for (std::size_t i = 0; left > 0; i = (i + 1) % order.size()) {
    if (weights[order[i]] > 0) {
      ++parts[order[i]];
      --left;
    }
  }
  std::vector<base::Millimetres> out;
  for (const std::int64_t part : parts)
    out.emplace_back(static_cast<double>(part) / 10.0);
  return out;
}

SeriesBuilder::SeriesBuilder(Instant begin, Instant end) : begin_(hour_floor(begin)) {
  if (!(begin < end) || end - begin > kLongestSeries) {
    throw std::invalid_argument("a series must be longer than nothing and at most 50 years");
  }
  for (Instant t = begin_; t < end; t += hours(1)) {
    Hour hour;
    hour.start = t;
    hours_.push_back(hour);
  }
}

std::size_t SeriesBuilder::index_of(Instant hour_start) const {
  return static_cast<std::size_t>((hour_start - begin_) / hours(1));
}

void SeriesBuilder::put(Layer layer, Hour& hour, double value, Origin origin) const {
  switch (layer) {
    case Layer::temperature:
      hour.temperature = {quantised(base::Celsius(value)), origin};
      break;
    case Layer::dew_point:
      hour.dew_point = {quantised(base::Celsius(value)), origin};
      break;
    case Layer::humidity:
      hour.humidity = {quantised(base::Fraction(value)), origin};
      break;
    case Layer::wind:
      hour.wind = {quantised(base::MetresPerSecond(value)), origin};
      break;
    case Layer::gust:
      hour.gust = {quantised(base::MetresPerSecond(value)), origin};
      break;
    case Layer::cloud:
      hour.cloud = {quantised(base::Fraction(value)), origin};
      break;
  }
}

void SeriesBuilder::at_hours(const std::vector<Moment>& readings, seconds longest_step,
                             const std::function<void(Hour&, double, Origin)>& take) {
  std::map<Instant, double> by_time;
  for (const Moment& reading : readings)
    by_time.insert_or_assign(reading.at, reading.value);
  auto next = by_time.begin();
  for (Hour& hour : hours_) {
    while (next != by_time.end() && next->first < hour.start)
      ++next;
    if (next == by_time.end()) break;
    if (next->first == hour.start) {
      take(hour, next->second, Origin::given);
      continue;
    }
    if (next == by_time.begin()) continue;
    const auto before = std::prev(next);
    const seconds step = next->first - before->first;
    if (step > longest_step) continue;
    const double share =
        static_cast<double>((hour.start - before->first).count()) / static_cast<double>(step.count());
    take(hour, before->second + share * (next->second - before->second), Origin::held);
  }
}

void SeriesBuilder::moments(Layer layer, const std::vector<Moment>& readings, seconds longest_step) {
  at_hours(readings, longest_step,
           [&](Hour& hour, double value, Origin origin) { put(layer, hour, value, origin); });
}

void SeriesBuilder::errors(Layer layer, const std::vector<Moment>& readings, seconds longest_step) {
  if (layer != Layer::temperature && layer != Layer::wind)
    throw std::invalid_argument("errors are known of temperature and wind only");
  at_hours(readings, longest_step, [&](Hour& hour, double value, Origin origin) {
    if (layer == Layer::temperature)
      hour.temperature_error = {base::Kelvins(value), origin};
    else
      hour.wind_error = {base::MetresPerSecond(value), origin};
  });
}

void SeriesBuilder::holding(Layer layer, const std::vector<Stretch>& stretches) {
  std::vector<Stretch> sorted = stretches;
  sort_by_time(sorted);
  std::vector<seconds> most(hours_.size(), seconds(0));
  for (const Stretch& stretch : sorted) {
    const Instant last = std::min(stretch.to, hours_.back().start + hours(1));
    for (Instant t = std::max(hour_floor(stretch.from), begin_); t < last; t += hours(1)) {
      const std::size_t i = index_of(t);
      const seconds covered = overlap(t, t + hours(1), stretch.from, stretch.to);
      if (covered <= most[i]) continue;
      most[i] = covered;
      put(layer, hours_[i], stretch.value,
          stretch.to - stretch.from == hours(1) ? Origin::given : Origin::held);
    }
  }
}

void SeriesBuilder::rain_totals(std::vector<Stretch> stretches) {
  sort_by_time(stretches);
  if (first_overlap(stretches)) throw std::invalid_argument("rain totals overlap");
  struct Fallen {
    std::int64_t tenths = 0;
    double short_pieces = 0;  // not yet rounded: ten-minute rain rounded one by one would vanish
    seconds covered{0};
    Origin origin = Origin::given;
  };
  std::vector<Fallen> fallen(hours_.size());
  const Instant end = hours_.back().start + hours(1);
  for (const Stretch& stretch : stretches) {
    if (!std::isfinite(stretch.value) || stretch.value < 0)
      throw std::invalid_argument("rain is negative or not finite");
    if (!(stretch.from < stretch.to)) throw std::invalid_argument("a rain interval ends before it begins");
    const double length = static_cast<double>((stretch.to - stretch.from).count());
    const bool whole_hour = stretch.to - stretch.from == hours(1) && hour_floor(stretch.from) == stretch.from;
    std::vector<double> weights;
    for (Instant t = hour_floor(stretch.from); t < stretch.to; t += hours(1)) {
      weights.push_back(static_cast<double>(overlap(t, t + hours(1), stretch.from, stretch.to).count()));
    }
    const bool brief = stretch.to - stretch.from < hours(1);
    std::vector<base::Millimetres> parts;
    if (!brief) parts = split_total(base::Millimetres(stretch.value), weights);
    for (std::size_t k = 0; k < weights.size(); ++k) {
      const Instant t = hour_floor(stretch.from) + hours(k);
      if (t < begin_ || t >= end) continue;
      Fallen& f = fallen[index_of(t)];
      f.covered += seconds(std::llround(weights[k]));
      if (brief) {
        f.short_pieces += stretch.value * weights[k] / length;
      } else {
        f.tenths += std::llround(parts[k].value() * 10.0);
        if (!whole_hour) f.origin = Origin::split;
      }
    }
  }
  for (std::size_t i = 0; i < hours_.size(); ++i) {
    const Fallen& f = fallen[i];
    if (f.covered < hours(1)) continue;
    const double sum = static_cast<double>(f.tenths) / 10.0 + f.short_pieces;
    hours_[i].rain = {quantised(base::Millimetres(sum)), f.origin};
  }
}

void SeriesBuilder::rain_chances(const std::vector<Stretch>& stretches) {
  std::vector<Stretch> sorted = stretches;
  sort_by_time(sorted);
  std::vector<seconds> most(hours_.size(), seconds(0));
  for (const Stretch& stretch : sorted) {
    const Instant last = std::min(stretch.to, hours_.back().start + hours(1));
    for (Instant t = std::max(hour_floor(stretch.from), begin_); t < last; t += hours(1)) {
      const std::size_t i = index_of(t);
      const seconds covered = overlap(t, t + hours(1), stretch.from, stretch.to);
      if (covered <= most[i]) continue;
      most[i] = covered;
      hours_[i].rain_chance = {quantised(base::Fraction(stretch.value)),
                               stretch.to - stretch.from <= hours(1) ? Origin::given : Origin::split};
    }
  }
}

void SeriesBuilder::note(std::string code, std::string text) {
  notes_.push_back({std::move(code), std::move(text)});
}

Series SeriesBuilder::finish(Series heading) const {
  Series out = std::move(heading);
  auto first = std::find_if(hours_.begin(), hours_.end(), has_any);
  auto last = hours_.end();
  while (last != first && !has_any(*(last - 1)))
    --last;
  out.hours.assign(first, last);
  out.notes.insert(out.notes.end(), notes_.begin(), notes_.end());
  if (out.hours.empty()) return out;

  if (auto gap = gap_note(out.hours)) out.notes.push_back(*gap);
  const auto tell_early_end = [&](const char* name, auto has) {
    const auto end = std::find_if(out.hours.rbegin(), out.hours.rend(), has);
    if (end == out.hours.rend()) return;
    const auto begin = std::find_if(out.hours.begin(), end.base(), has);
    const auto hole =
        std::find_if(begin, end.base(), [&](const Hour& hour) { return !has(hour) && has_any(hour); });
    if (hole != end.base()) {
      const auto holes =
          std::count_if(hole, end.base(), [&](const Hour& hour) { return !has(hour) && has_any(hour); });
      out.notes.push_back({"gap", fmt::format("{} missing in {} {}, the first from {}", name, holes,
                                              holes == 1 ? "hour" : "hours", moment_text(hole->start))});
    }
    if (end == out.hours.rbegin()) return;
    out.notes.push_back(
        {"ends-early", fmt::format("{} known only until {}, the series runs until {}", name,
                                   moment_text(end->start + hours(1)), moment_text(out.end_time()))});
  };
  for (const LayerName& named : kNames) {
    tell_early_end(named.name, [&](const Hour& hour) { return origin_in(hour, named.layer).has_value(); });
  }
  tell_early_end("rain", [](const Hour& hour) { return hour.rain.has_value(); });
  tell_early_end("chance of rain", [](const Hour& hour) { return hour.rain_chance.has_value(); });
  const auto tell_absent = [&](const char* name, auto has) {
    if (std::any_of(out.hours.begin(), out.hours.end(), has)) return;
    out.notes.push_back({"absent", fmt::format("{} not given at all", name)});
  };
  tell_absent("temperature", [](const Hour& hour) { return hour.temperature.has_value(); });
  tell_absent("wind", [](const Hour& hour) { return hour.wind.has_value(); });
  tell_absent("rain", [](const Hour& hour) { return hour.rain.has_value(); });

  const auto tell_first = [&](const char* code, const char* what, auto is) {
    const auto found = std::find_if(out.hours.begin(), out.hours.end(), is);
    if (found != out.hours.end()) {
      out.notes.push_back({code, fmt::format("from {} {}", moment_text(found->start), what)});
    }
  };
  tell_first("split", "rain is given for several hours together and shared out evenly",
             [](const Hour& hour) { return hour.rain && hour.rain->origin == Origin::split; });
  tell_first("held", "temperature is given less often than hourly and carried between",
             [](const Hour& hour) { return hour.temperature && hour.temperature->origin == Origin::held; });
  return out;
}

std::optional<Stretch> first_overlap(std::vector<Stretch> stretches) {
  sort_by_time(stretches);
  for (std::size_t i = 1; i < stretches.size(); ++i) {
    if (stretches[i].from < stretches[i - 1].to) return stretches[i];
  }
  return std::nullopt;
}

}  // namespace weatherstruck::sky
