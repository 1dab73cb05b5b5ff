#include <algorithm>
#include <chrono>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "series_notes.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/basis.h"

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

std::vector<Part> parts_of(const Series& series) {
  return series.parts.empty() ? std::vector<Part>{{series.source, series.attribution, series.issued}}
                              : series.parts;
}

std::uint16_t place_of(const Part& part, std::vector<Part>& parts) {
  const auto found = std::find(parts.begin(), parts.end(), part);
  const auto place = static_cast<std::uint16_t>(found - parts.begin());
  if (found == parts.end()) parts.push_back(part);
  return place;
}

// The newer hour over the older one, value by value. What was measured is not forecast anew.
void lay_over(Hour& under, const Hour& over) {
  if (!has_any(over)) return;
  const Hour older = under;
  under = over;
  bool filled_up = false;
  const auto stands = [](const auto& newer, const auto& from) {
    return from && (!newer || (from->origin == Origin::measured && newer->origin != Origin::measured));
  };
  const auto fill = [&](auto& newer, const auto& from) {
    if (!stands(newer, from)) return false;
    newer = from;
    filled_up = true;
    return true;
  };
  if (fill(under.temperature, older.temperature)) under.temperature_error = older.temperature_error;
  fill(under.dew_point, older.dew_point);
  fill(under.humidity, older.humidity);
  // A gust belongs with its wind: an older gust beside a newer wind would be a mixture nobody forecast.
  if (fill(under.wind, older.wind)) {
    under.wind_error = older.wind_error;
    under.gust = older.gust;
  } else if (!over.wind && !over.gust) {
    fill(under.gust, older.gust);
  }
  fill(under.cloud, older.cloud);
  // A chance that was reckoned from an amount goes with that amount.
  if (fill(under.rain, older.rain) && over.rain) under.rain_chance = older.rain_chance;
  fill(under.rain_chance, older.rain_chance);
  if (filled_up && !under.filled_from) under.filled_from = older.part;
}

// What each part that something is left of asks to be said, the first part's first.
std::string attribution_of(const Series& series) {
  std::vector<bool> used(series.parts.size(), false);
  for (const Hour& hour : series.hours) {
    if (!has_any(hour)) continue;
    used.at(hour.part) = true;
    if (hour.filled_from) used.at(*hour.filled_from) = true;
  }
  std::vector<std::string> said;
  std::string out;
  for (std::size_t i = 0; i < used.size(); ++i) {
    const std::string& words = series.parts[i].attribution;
    if (!used[i] || words.empty() || std::find(said.begin(), said.end(), words) != said.end()) continue;
    said.push_back(words);
    out += (out.empty() ? "" : "; ") + words;
  }
  return out;
}

}  // namespace

Series join(const Series& a, const Series& b) {
  // A station's readings forecast nothing, however new they are: they fill up.
  const bool readings_last = only_readings(b) && !only_readings(a);
  const bool first_wins = readings_last || (a.issued && b.issued && *a.issued > *b.issued &&
                                            !(only_readings(a) && !only_readings(b)));
  const Series& winner = first_wins ? a : b;
  const Series& other = first_wins ? b : a;
  if (winner.empty()) return other;
  if (other.empty()) return winner;
  Series out = winner;
  out.parts = parts_of(winner);
  // Of each part of the other: where it now stands.
  std::vector<std::uint16_t> moved;
  for (const Part& part : parts_of(other))
    moved.push_back(place_of(part, out.parts));
  std::map<Instant, Hour> by_start;
  for (const Hour& hour : other.hours) {
    Hour& placed = by_start.insert_or_assign(hour.start, hour).first->second;
    placed.part = moved.at(hour.part);
    if (hour.filled_from) placed.filled_from = moved.at(*hour.filled_from);
  }
  for (const Hour& hour : winner.hours) {
    const auto [place, fresh] = by_start.emplace(hour.start, hour);
    if (!fresh) lay_over(place->second, hour);
  }
  out.hours = filled(by_start);
  out.attribution = attribution_of(out);
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
