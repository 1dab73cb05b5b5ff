#include <algorithm>
#include <chrono>
#include <map>

#include "series_notes.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;

// A record without values for every missing hour between the first and the last.
std::vector<Hour> filled(const std::map<Instant, Hour>& by_start) {
  std::vector<Hour> out;
  for (const auto& [start, hour] : by_start) {
    while (!out.empty() && out.back().start + hours(1) < start) {
      Hour nothing;
      nothing.start = out.back().start + hours(1);
      out.push_back(nothing);
    }
    out.push_back(hour);
  }
  return out;
}

}  // namespace

Series join(const Series& a, const Series& b) {
  const bool first_wins = a.issued && b.issued && *a.issued > *b.issued;
  const Series& winner = first_wins ? a : b;
  const Series& other = first_wins ? b : a;
  if (winner.empty()) return other;
  std::map<Instant, Hour> by_start;
  for (const Hour& hour : other.hours)
    by_start.insert_or_assign(hour.start, hour);
  for (const Hour& hour : winner.hours) {
    const auto [place, fresh] = by_start.emplace(hour.start, hour);
    if (fresh) continue;
    const auto lay = [](auto& under, const auto& over) {
      if (over) under = over;
    };
    // A gust belongs with its wind: an older gust beside a newer wind would be a mixture nobody forecast.
    if (hour.wind || hour.gust) place->second.gust = hour.gust;
    lay(place->second.temperature, hour.temperature);
    lay(place->second.dew_point, hour.dew_point);
    lay(place->second.humidity, hour.humidity);
    lay(place->second.wind, hour.wind);
    lay(place->second.cloud, hour.cloud);
    lay(place->second.rain, hour.rain);
    lay(place->second.rain_chance, hour.rain_chance);
  }
  Series out = winner;
  out.hours = filled(by_start);
  out.notes.clear();
  for (const SeriesNote& note : winner.notes) {
    if (note.code != "gap") out.notes.push_back(note);
  }
  if (auto gap = gap_note(out.hours)) out.notes.push_back(*gap);
  return out;
}

Series cut(const Series& series, Instant from, Instant to) {
  Series out = series;
  out.hours.clear();
  for (const Hour& hour : series.hours) {
    if (hour.start < to && hour.start + hours(1) > from) out.hours.push_back(hour);
  }
  return out;
}

}  // namespace weatherstruck::sky
