#include "series_notes.h"

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

namespace weatherstruck::sky {

bool has_any(const Hour& hour) {
  return hour.temperature || hour.dew_point || hour.humidity || hour.wind || hour.gust || hour.cloud ||
         hour.rain || hour.rain_chance;
}

std::string moment_text(base::Instant t) {
  const auto day = std::chrono::floor<std::chrono::days>(t);
  const std::chrono::year_month_day date(day);
  const auto hour = std::chrono::floor<std::chrono::hours>(t - day).count();
  return fmt::format("{:04}-{:02}-{:02} {:02}:00 UTC", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), hour);
}

std::optional<SeriesNote> gap_note(const std::vector<Hour>& all) {
  const auto empty = [](const Hour& hour) { return !has_any(hour); };
  const auto count = std::count_if(all.begin(), all.end(), empty);
  if (count == 0) return std::nullopt;
  const auto first = std::find_if(all.begin(), all.end(), empty);
  return SeriesNote{"gap", fmt::format("{} {} without any value, the first from {}", count,
                                       count == 1 ? "hour" : "hours", moment_text(first->start))};
}

}  // namespace weatherstruck::sky
