// One clock time as it is spoken: "half past four", "quarter to five", "8am", "0815", a date with a time.
#include <algorithm>
#include <cmath>
#include <string_view>
#include <tuple>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/clock_words.h"

namespace weatherstruck::works {
namespace {

constexpr int noon = 12 * 60;

/// "3:30", "3.30", "0815": hour and minute; nullopt where it is no clock time.
std::optional<std::pair<int, int>> figures(const std::string& text) {
  const auto digit = [&text](std::size_t i) { return text[i] - '0'; };
  const auto all_digits = [&text](std::size_t from, std::size_t to) {
    return std::all_of(text.begin() + static_cast<std::ptrdiff_t>(from),
                       text.begin() + static_cast<std::ptrdiff_t>(to),
                       [](char c) { return c >= '0' && c <= '9'; });
  };
  const std::size_t mark = text.find_first_of(":.");
  if (mark != std::string::npos) {
    if (mark < 1 || mark > 2 || text.size() != mark + 3 || !all_digits(0, mark) ||
        !all_digits(mark + 1, text.size())) {
      return std::nullopt;
    }
    const int hour = mark == 1 ? digit(0) : digit(0) * 10 + digit(1);
    return std::pair(hour, digit(mark + 1) * 10 + digit(mark + 2));
  }
  if (text.size() == 4 && all_digits(0, 4))
    return std::pair(digit(0) * 10 + digit(1), digit(2) * 10 + digit(3));
  if (text.size() <= 2 && !text.empty() && all_digits(0, text.size())) {
    return std::pair(text.size() == 1 ? digit(0) : digit(0) * 10 + digit(1), 0);
  }
  return std::nullopt;
}

/// Whether what stands there makes the number before it an amount.
bool is_measured(const WordList& words, std::size_t i) {
  return words.is(i, {"mm",   "m",      "m2",    "m3",     "%",       "percent", "course", "courses",
                      "bag",  "bags",   "brick", "bricks", "degrees", "loads",   "load",   "pounds",
                      "quid", "metres", "c",     "flags",  "steps",   "straps",  "thirds", "quarters"});
}

}  // namespace

std::optional<ClockReader::Spoken> ClockReader::clock_at(const WordList& words, std::size_t i) const {
  Spoken spoken;
  const auto finish = [&](int minute, bool half_known, std::size_t next) -> std::optional<Spoken> {
    spoken.next = next;
    while (words.is(spoken.next, {"o'clock", "oclock"}))
      ++spoken.next;
    const bool twelve = minute < 13 * 60 && minute >= 60;
    if (twelve && words.is(spoken.next, {"am", "pm"})) {
      minute = minute % noon + (words.is(spoken.next, {"pm"}) ? noon : 0);
      half_known = true;
      ++spoken.next;
    }
    spoken.minutes.push_back(minute);
    if (!half_known && twelve) {
      spoken.minutes = {minute % noon, minute % noon + noon};
    }
    for (std::size_t k = i; k < spoken.next; ++k)
      spoken.words += (k == i ? "" : " ") + words.at(k).text;
    return spoken;
  };
  const std::string text(words.text(i));
  if (text.empty()) return std::nullopt;
  if (text.size() >= 16) {
    if (const auto exact = base::parse_iso_instant(words.source().substr(words.at(i).begin, text.size()))) {
      spoken.exact = *exact;
    } else if (const auto local =
                   base::parse_iso_local(words.source().substr(words.at(i).begin, text.size()))) {
      spoken.of_date = job_.site.zone.meaning(*local);
    } else {
      return std::nullopt;
    }
    spoken.next = i + 1;
    spoken.words = text;
    return spoken;
  }
  if (words.is(i, {"noon", "midday"})) return finish(noon, true, i + 1);
  if (words.is(i, {"midnight"})) return finish(0, true, i + 1);
  // "half past four", "quarter to five", "twenty past 8", "5 to 9"
  const std::size_t lead = words.is(i, {"a"}) ? i + 1 : i;
  const std::optional<double> number = words.number(lead);
  const bool half = words.is(lead, {"half"});
  const bool quarter = words.is(lead, {"quarter"});
  const bool few = number && *number >= 1 && *number < 60 && *number == std::floor(*number);
  if (half || quarter || few) {
    std::size_t link = lead + 1;
    if (few && words.is(link, {"minutes"})) ++link;
    const bool past = words.is(link, {"past"});
    const bool to = words.is(link, {"to"}) && (quarter || (few && words.is(lead + 1, {"minutes"})));
    const std::optional<double> hour = words.number(link + 1);
    if ((past || to) && hour && *hour >= 1 && *hour <= 12 && *hour == std::floor(*hour)) {
      const int part = half ? 30 : (quarter ? 15 : static_cast<int>(*number));
      const int whole = static_cast<int>(*hour) * 60;
      const int minute = past ? whole + part : whole - part;
      return finish(minute < 60 ? minute + noon : minute, false, link + 2);
    }
    // "Half three" is half past three, unless it is half of three things.
    const std::optional<double> next = words.number(lead + 1);
    if (half && lead == i && next && *next >= 1 && *next <= 12 && *next == std::floor(*next) &&
        !is_measured(words, lead + 2)) {
      return finish(static_cast<int>(*next) * 60 + 30, false, lead + 2);
    }
    if (half || quarter) return std::nullopt;
  }
  if (lead != i || !number) {
    if (lead != i || text[0] < '0' || text[0] > '9') return std::nullopt;
  }
  int hour = 0;
  int minute = 0;
  const bool in_figures = text[0] >= '0' && text[0] <= '9';
  if (in_figures) {
    const auto read = figures(text);
    if (!read || read->first > 24 || read->second > 59 || (read->first == 24 && read->second > 0))
      return std::nullopt;
    std::tie(hour, minute) = *read;
  } else {
    if (*number < 1 || *number > 12) return std::nullopt;
    hour = static_cast<int>(*number);
  }
  // What is measured or counted is no time.
  if (is_measured(words, i + 1)) return std::nullopt;
  const bool half_known = hour == 0 || hour > 12 || (in_figures && (text[0] == '0' || text.size() == 4));
  return finish(hour * 60 + minute, half_known && !(text.size() == 4 && text.find_first_of(":.") == 1),
                i + 1);
}

/// "Half three" and "quarter past two" need no "at" where nothing but another time or the end follows.
std::optional<ClockReader::Spoken> ClockReader::bare_clock_at(const WordList& words, std::size_t i) const {
  if (!words.is(i, {"half", "quarter"})) return std::nullopt;
  auto spoken = clock_at(words, i);
  if (!spoken) return std::nullopt;
  const std::size_t next = spoken->next;
  const bool ends = next >= words.size() ||
                    words.is(next, {",", "today", "yesterday", "this", "in", "till", "until", "to"});
  return ends ? spoken : std::nullopt;
}

}  // namespace weatherstruck::works
