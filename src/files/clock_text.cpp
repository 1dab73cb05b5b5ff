#include "weatherstruck/files/clock_text.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdint>

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// "hh:mm", 00:00 to 24:00.
std::optional<minutes> parse_clock(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return {};
  for (const std::size_t i : {0U, 1U, 3U, 4U}) {
    if (!is_digit(text[i])) return {};
  }
  const int hour = (text[0] - '0') * 10 + (text[1] - '0');
  const int minute = (text[3] - '0') * 10 + (text[4] - '0');
  if (minute > 59 || hour > 24 || (hour == 24 && minute > 0)) return {};
  return hours(hour) + minutes(minute);
}

std::string clock_text(minutes of_day) {
  return fmt::format("{:02}:{:02}", of_day.count() / 60, of_day.count() % 60);
}

std::string offset_text(seconds offset) {
  const auto total = std::chrono::duration_cast<minutes>(offset).count();
  const auto size = total < 0 ? -total : total;
  return fmt::format("{}{:02}:{:02}", total < 0 ? '-' : '+', size / 60, size % 60);
}

std::string local_text(base::LocalTime time) {
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(day);
  const auto of_day = time - day;
  const auto whole = std::chrono::floor<minutes>(of_day);
  const auto rest = (of_day - whole).count();
  auto out =
      fmt::format("{:04}-{:02}-{:02}T{}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                  static_cast<unsigned>(date.day()), clock_text(whole));
  if (rest != 0) out += fmt::format(":{:02}", rest);
  return out;
}

}  // namespace

std::optional<works::DaySpan> parse_span(std::string_view text) {
  if (text.size() != 11 || text[5] != '-') return {};
  const auto from = parse_clock(text.substr(0, 5));
  const auto to = parse_clock(text.substr(6));
  if (!from || !to || *from >= *to) return {};
  return works::DaySpan{*from, *to};
}

std::string span_text(works::DaySpan span) {
  return clock_text(span.from) + "-" + clock_text(span.to);
}

std::optional<base::Hours> parse_duration(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > 4 || text.size() != colon + 3) return {};
  int hour = 0;
  for (const char c : text.substr(0, colon)) {
    if (!is_digit(c)) return {};
    hour = hour * 10 + (c - '0');
  }
  if (!is_digit(text[colon + 1]) || !is_digit(text[colon + 2])) return {};
  const int minute = (text[colon + 1] - '0') * 10 + (text[colon + 2] - '0');
  if (minute > 59) return {};
  return base::Hours((hour * 60 + minute) / 60.0);
}

std::optional<std::string> duration_text(base::Hours value) {
  const double whole = std::round(value.value() * 60);
  if (!(whole >= 0 && whole < 600000) || whole / 60.0 != value.value()) return {};
  const auto total = static_cast<int>(whole);
  return fmt::format("{}:{:02}", total / 60, total % 60);
}

std::optional<base::Money> parse_money(std::string_view text) {
  const auto space = text.find(' ');
  if (space == std::string_view::npos || space == 0 || space > 14) return {};
  const auto currency = base::Currency::from_code(text.substr(space + 1));
  if (!currency) return {};
  const auto number = text.substr(0, space);
  std::int64_t minor = 0;
  int decimals = -1;
  for (const char c : number) {
    if (c == '.' && decimals < 0) {
      decimals = 0;
    } else if (is_digit(c)) {
      minor = minor * 10 + (c - '0');
      if (decimals >= 0) ++decimals;
    } else {
      return {};
    }
  }
  if (number.front() == '.' || decimals == 0 || decimals > currency->decimals()) return {};
  for (int i = decimals < 0 ? 0 : decimals; i < currency->decimals(); ++i)
    minor *= 10;
  return base::Money(minor, *currency);
}

MomentRead read_moment(std::string_view text, const base::Zone& zone) {
  const auto fault = [](std::string code, std::string found, std::string expected, std::string remedy) {
    return MomentRead{
        {}, base::Fault{std::move(code), "", std::move(found), std::move(expected), std::move(remedy)}};
  };
  // The zone data behind every reading covers these years and no others.
  using namespace std::chrono_literals;
  const base::Instant first = std::chrono::sys_days(1970y / 1 / 1);
  const base::Instant last = std::chrono::sys_days(2101y / 1 / 1);

  std::optional<base::Instant> moment = base::parse_iso_instant(text);
  if (!moment) {
    const auto local = base::parse_iso_local(text);
    if (!local) {
      return fault("bad-time", fmt::format("\"{}\"", text),
                   "a date and clock time that exist, such as 2026-02-09T05:30",
                   "Write year, month, day, T, hour and minute.");
    }
    const auto meaning = zone.meaning(*local);
    const auto change = meaning.first;
    if (meaning.kind == base::LocalMeaning::Kind::nonexistent) {
      const auto before = zone.offset_at(change - seconds(1));
      const auto after = zone.offset_at(change);
      return fault("nonexistent-time",
                   fmt::format("{}, which no clock in {} shows: clocks go from {} {} to {} {}",
                               local_text(*local), zone.name(),
                               clock_text(std::chrono::floor<minutes>(zone.time_of_day(change - seconds(1))) +
                                          minutes(1)),
                               zone.abbreviation_at(change - seconds(1)),
                               clock_text(std::chrono::floor<minutes>(zone.time_of_day(change))),
                               zone.abbreviation_at(change)),
                   "a clock time that comes once",
                   fmt::format("Write {} or {}, whichever is meant.", local_text(*local - (after - before)),
                               local_text(*local + (after - before))));
    }
    if (meaning.kind == base::LocalMeaning::Kind::ambiguous) {
      const auto with_offset = [&](base::Instant at) {
        return fmt::format("{}{} ({})", local_text(*local), offset_text(zone.offset_at(at)),
                           zone.abbreviation_at(at));
      };
      return fault("ambiguous-time",
                   fmt::format("{}, which comes twice in {}", local_text(*local), zone.name()),
                   "a clock time that comes once, or one with its offset",
                   fmt::format("Write {} for the first, or {} for the second.", with_offset(meaning.first),
                               with_offset(meaning.second)));
    }
    moment = meaning.first;
  }
  if (*moment < first || *moment >= last) {
    return fault("out-of-range", fmt::format("\"{}\"", text), "the years 1970 to 2100", "Check the year.");
  }
  return {moment, {}};
}

std::string moment_text(base::Instant moment, const base::Zone& zone) {
  const auto local = zone.to_local(moment);
  auto out = local_text(local);
  if (zone.meaning(local).kind == base::LocalMeaning::Kind::ambiguous)
    out += offset_text(zone.offset_at(moment));
  return out;
}

}  // namespace weatherstruck::files
