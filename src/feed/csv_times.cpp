#include "csv_times.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "weatherstruck/base/text.h"

namespace weatherstruck::feed {
namespace {

// Takes 1 to `most` digits off the front.
std::optional<int> take_number(std::string_view& text, std::size_t most) {
  int value = 0;
  std::size_t digits = 0;
  while (digits < text.size() && digits < most && text[digits] >= '0' && text[digits] <= '9') {
    value = value * 10 + (text[digits] - '0');
    ++digits;
  }
  if (digits == 0) return std::nullopt;
  text.remove_prefix(digits);
  return value;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

std::optional<unsigned> take_month(std::string_view& text) {
  constexpr std::array<std::string_view, 12> names{"jan", "feb", "mar", "apr", "may", "jun",
                                                   "jul", "aug", "sep", "oct", "nov", "dec"};
  if (text.size() < 3) return std::nullopt;
  std::string three;
  for (const char c : text.substr(0, 3))
    three += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == three) {
      text.remove_prefix(3);
      return static_cast<unsigned>(i + 1);
    }
  }
  return std::nullopt;
}

// "13", "13:05", "13:05:00", or nothing for midnight.
std::optional<std::chrono::seconds> read_clock(std::string_view text) {
  if (text.empty()) return std::chrono::seconds(0);
  const auto hour = take_number(text, 2);
  std::optional<int> minute = 0;
  std::optional<int> second = 0;
  if (take(text, ':')) minute = take_number(text, 2);
  if (take(text, ':')) second = take_number(text, 2);
  // 24:00 ends the day, in ISO 8601 and in tables whose hours go from 1 to 24.
  const bool day_over = hour && *hour == 24 && minute == 0 && second == 0;
  if (!text.empty() || !hour || !minute || !second || (*hour > 23 && !day_over) || *minute > 59 ||
      *second > 59)
    return std::nullopt;
  return std::chrono::hours(*hour) + std::chrono::minutes(*minute) + std::chrono::seconds(*second);
}

Stamp at_moment(base::Instant t) {
  return {Stamp::Kind::moment, t, {}};
}
Stamp at_local(base::LocalTime t) {
  return {Stamp::Kind::local, {}, t};
}

// "20260209", "2026020905", "202602090530", the first also with a clock behind it.
std::optional<base::LocalTime> read_packed(std::string_view text) {
  const auto digits = std::min(text.find_first_not_of("0123456789"), text.size());
  if (digits != 8 && digits != 10 && digits != 12) return std::nullopt;
  const std::string iso = fmt::format("{}-{}-{}", text.substr(0, 4), text.substr(4, 2), text.substr(6, 2));
  const auto day = base::parse_iso_day(iso);
  std::string clock(text.substr(8, digits - 8));
  if (clock.size() == 4) clock.insert(2, ":");
  if (digits == 8 && text.size() > 8 && text[8] == ' ')
    clock = text.substr(9);
  else if (digits != text.size())
    return std::nullopt;
  const auto time = read_clock(clock);
  if (!day || !time) return std::nullopt;
  return base::LocalTime(*day) + *time;
}

Stamp day_first(std::string_view text) {
  const auto day = take_number(text, 2);
  if (!day || text.empty()) return {};
  const char separator = text.front();
  if (separator == '/') return {Stamp::Kind::unclear, {}, {}};
  if (separator != '.' && separator != '-') return {};
  text.remove_prefix(1);
  std::optional<unsigned> month;
  if (separator == '.') {
    if (const auto number = take_number(text, 2)) month = static_cast<unsigned>(*number);
  } else {
    month = take_month(text);
  }
  if (!month || !take(text, separator)) return {};
  const std::size_t before = text.size();
  auto year = take_number(text, 4);
  if (!year) return {};
  if (before - text.size() == 2) *year += 2000;
  if (*year < 1900) return {};
  const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(*month),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return {};
  while (take(text, ' ') || take(text, ',')) {
  }
  const auto clock = read_clock(text);
  if (!clock) return {};
  return at_local(base::LocalTime(base::LocalDay(date)) + *clock);
}

}  // namespace

std::string without_fraction(std::string_view text) {
  constexpr std::size_t point = 19;  // behind "2026-02-09T10:00:00"
  std::string out(text);
  if (out.size() <= point || out[point] != '.' || out[4] != '-') return out;
  const auto end = std::min(out.find_first_not_of("0123456789", point + 1), out.size());
  if (end > point + 1) out.erase(point, end - point);
  return out;
}

Stamp read_stamp(std::string_view text, bool epoch) {
  if (epoch) {
    if (text.empty() || text.size() > 11) return {};
    std::int64_t value = 0;
    for (const char c : text) {
      if (c < '0' || c > '9') return {};
      value = value * 10 + (c - '0');
    }
    return at_moment(base::Instant(std::chrono::seconds(value)));
  }
  const std::string plain = without_fraction(text);
  text = plain;
  if (const auto instant = base::parse_iso_instant(text)) return at_moment(*instant);
  if (const auto local = base::parse_iso_local(text)) return at_local(*local);
  if (const auto day = base::parse_iso_day(text)) return at_local(base::LocalTime(*day));
  if (const auto packed = read_packed(text)) return at_local(*packed);
  if (text.size() > 11 &&
      (text[10] == ' ' || text[10] == 'T')) {  // "2026-02-09 13": an hour column joined on
    const auto day = base::parse_iso_day(text.substr(0, 10));
    const auto clock = read_clock(text.substr(11));
    if (day && clock) return at_local(base::LocalTime(*day) + *clock);
  }
  return day_first(text);
}

}  // namespace weatherstruck::feed
