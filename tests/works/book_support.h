#pragma once
// Entries by hand for the tests of the site book: a week of February 2026 on the invented job.
#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/works/book.h"
#include "works/demo_job.h"

namespace weatherstruck::works {

/// A moment of February 2026, by the clock of Greenwich.
inline base::Instant feb(unsigned day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year_month_day(std::chrono::year(2026), std::chrono::February,
                                                           std::chrono::day(day))) +
         std::chrono::hours(hour) + std::chrono::minutes(minute);
}

inline base::Currency sterling() {
  return *base::Currency::from_code("GBP");
}

/// Noted when it happened.
inline Entry entry(std::string key, base::Instant at, What what,
                   std::optional<EntryKey> corrects = std::nullopt) {
  return {std::move(key), std::move(what), at, at, std::move(corrects)};
}

/// Noted later.
inline Entry late(Entry written, base::Instant noted_at) {
  written.noted_at = noted_at;
  return written;
}

inline Book book_of(const std::vector<Entry>& entries) {
  Book book;
  for (const Entry& written : entries)
    book.append(written);
  return book;
}

}  // namespace weatherstruck::works
