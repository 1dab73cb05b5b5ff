#include "weatherstruck/works/clock_words.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <iterator>
#include <string_view>
#include <tuple>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

using std::chrono::days;
using std::chrono::minutes;

constexpr int noon = 12 * 60;
constexpr int day_long = 24 * 60;
constexpr int evening_from = 17 * 60;
constexpr double day_reckoned = 0.7;   ///< where it must have been yesterday
constexpr double half_reckoned = 0.8;  ///< confidence where the half of the day follows from the working day

constexpr std::array<std::string_view, 7> weekdays{
    {"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"}};

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

}  // namespace

ClockReader::ClockReader(const Job& job, base::Instant now)
    : job_(job), now_(std::chrono::floor<minutes>(now)) {}

ClockReader::DayWords ClockReader::take_day(WordList& words) const {
  const base::LocalDay today = job_.site.zone.day_of(now_);
  DayWords day;
  const auto half_of = [&words](std::size_t i) {
    if (words.is(i, {"morning"})) return Half::morning;
    if (words.is(i, {"afternoon"})) return Half::afternoon;
    if (words.is(i, {"evening", "night"})) return Half::evening;
    return Half::unsaid;
  };
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::size_t count = 0;
    std::optional<base::LocalDay> which;
    if (words.is(i, {"today"})) {
      which = today;
      count = 1;
    } else if (words.is(i, {"yesterday"})) {
      which = today - days(1);
      count = 1;
    } else if (words.is(i, {"this", "last", "in"})) {
      // "this morning", "last night", "in the afternoon"
      const bool in_the = words.is(i, {"in"}) && words.is(i + 1, {"the"});
      const std::size_t at = in_the ? i + 2 : i + 1;
      if (half_of(at) == Half::unsaid || (words.is(i, {"in"}) && !in_the)) continue;
      day.half = half_of(at);
      if (words.is(i, {"last"})) day.day = today - days(1);
      if (words.is(i, {"this"})) day.day = today;
      day.said = true;
      words.use(i, at + 1 - i);
      continue;
    } else if (words.is(i, {"tonight"})) {
      day.half = Half::evening;
      which = today;
      count = 1;
    } else {
      for (std::size_t k = 0; k < weekdays.size(); ++k) {
        if (words.text(i) != weekdays[k]) continue;
        const auto back =
            (std::chrono::weekday(today) - std::chrono::weekday(static_cast<unsigned>(k))).count() % 7;
        which = today - days(back);
        count = 1;
      }
    }
    if (!which) continue;
    day.day = which;
    day.said = true;
    if (half_of(i + count) != Half::unsaid) {
      day.half = half_of(i + count);
      ++count;
    }
    words.use(i, count);
  }
  return day;
}

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
  if (words.is(i + 1, {"mm",   "m",      "m2",    "m3",     "%",       "percent", "course", "courses",
                       "bag",  "bags",   "brick", "bricks", "degrees", "loads",   "load",   "pounds",
                       "quid", "metres", "c",     "flags",  "steps",   "straps"})) {
    return std::nullopt;
  }
  const bool half_known = hour == 0 || hour > 12 || (in_figures && (text[0] == '0' || text.size() == 4));
  return finish(hour * 60 + minute, half_known && !(text.size() == 4 && text.find_first_of(":.") == 1),
                i + 1);
}

std::vector<base::Instant> ClockReader::moments(const Spoken& spoken, const DayWords& day) const {
  if (spoken.exact) return {*spoken.exact};
  std::vector<base::Instant> found;
  const auto add = [&found, this](const base::LocalMeaning& meaning) {
    if (meaning.kind == base::LocalMeaning::Kind::nonexistent) return;
    if (meaning.first <= now_) found.push_back(meaning.first);
    if (meaning.kind == base::LocalMeaning::Kind::ambiguous && meaning.second <= now_)
      found.push_back(meaning.second);
  };
  if (spoken.of_date) {
    add(*spoken.of_date);
    return found;
  }
  const auto on = [&](base::LocalDay date) {
    for (const int minute : spoken.minutes) {
      if (day.half == Half::morning && minute >= noon) continue;
      if (day.half == Half::afternoon && minute < noon) continue;
      if (day.half == Half::evening && minute < evening_from && minute != 0) continue;
      const bool past_midnight = minute == day_long || (day.half == Half::evening && minute == 0);
      const base::LocalDay shifted = past_midnight ? date + days(1) : date;
      add(job_.site.zone.meaning(base::LocalTime(shifted) + minutes(minute % day_long)));
    }
  };
  const base::LocalDay today = job_.site.zone.day_of(now_);
  on(day.day.value_or(today));
  if (found.empty() && !day.day) on(today - days(1));
  return found;
}

bool ClockReader::in_working_day(base::Instant t) const {
  const auto of_day = job_.site.zone.time_of_day(t);
  return of_day >= job_.trip.working_day.from && of_day <= job_.trip.working_day.to;
}

ClockDoubt ClockReader::doubt(const std::string& words, const std::vector<base::Instant>& which) const {
  if (which.empty()) {
    return {"\"" + words + "\" has not been yet, or does not exist on that day. When was it?", {}};
  }
  ClockDoubt asked{"Which \"" + words + "\" was it?", {}};
  for (const base::Instant t : which) {
    const base::LocalTime local = job_.site.zone.to_local(t);
    const bool twice = job_.site.zone.meaning(local).kind == base::LocalMeaning::Kind::ambiguous;
    asked.candidates.push_back(base::day_and_time(local) +
                               (twice ? " " + job_.site.zone.abbreviation_at(t) : ""));
  }
  return asked;
}

std::variant<ClockRead, ClockDoubt> ClockReader::resolve(const Spoken& spoken, const DayWords& day,
                                                         ClockUse use) const {
  const std::vector<base::Instant> found = moments(spoken, day);
  if (found.size() == 1) {
    const bool dated = day.day || spoken.exact || spoken.of_date;
    const bool today = job_.site.zone.day_of(found.front()) == job_.site.zone.day_of(now_);
    return ClockRead{found.front(), dated || today ? 1 : day_reckoned};
  }
  if (found.size() > 1 && use == ClockUse::work) {
    std::vector<base::Instant> working;
    std::copy_if(found.begin(), found.end(), std::back_inserter(working),
                 [this](base::Instant t) { return in_working_day(t); });
    if (working.size() == 1) return ClockRead{working.front(), half_reckoned};
  }
  return doubt(spoken.words, found);
}

std::variant<std::pair<ClockRead, ClockRead>, ClockDoubt> ClockReader::resolve_span(const Spoken& from,
                                                                                    const Spoken& to,
                                                                                    const DayWords& day,
                                                                                    ClockUse use) const {
  using Span = std::pair<base::Instant, base::Instant>;
  std::vector<Span> spans;
  for (const base::Instant a : moments(from, day)) {
    for (const base::Instant b : moments(to, day)) {
      if (a < b) spans.emplace_back(a, b);
    }
  }
  double confidence = 1;
  if (spans.size() > 1 && use == ClockUse::work) {
    std::vector<Span> working;
    std::copy_if(spans.begin(), spans.end(), std::back_inserter(working), [this](const Span& span) {
      return in_working_day(span.first) && in_working_day(span.second);
    });
    if (!working.empty()) spans = std::move(working);
    confidence = half_reckoned;
  }
  // Of "8 to 10" and "8 to 22" the short one is meant.
  const auto length = [](const Span& span) { return span.second - span.first; };
  const auto shortest = std::min_element(
      spans.begin(), spans.end(), [&length](const Span& a, const Span& b) { return length(a) < length(b); });
  if (shortest == spans.end()) return doubt(from.words + " to " + to.words, {});
  const auto as_short = [&](const Span& span) { return length(span) == length(*shortest); };
  if (std::count_if(spans.begin(), spans.end(), as_short) > 1) {
    std::vector<base::Instant> begins;
    for (const Span& span : spans) {
      if (as_short(span)) begins.push_back(span.first);
    }
    return doubt(from.words + " to " + to.words, begins);
  }
  return std::pair(ClockRead{shortest->first, confidence}, ClockRead{shortest->second, confidence});
}

ClockTimes ClockReader::take(WordList& words, ClockUse use) const {
  const DayWords day = take_day(words);
  ClockTimes times;
  for (std::size_t i = 0; i < words.size(); ++i) {
    // "from 8 to 10", "2 to 3:30", "8-10:30"
    const std::size_t begin = words.is(i, {"from", "between"}) ? i + 1 : i;
    if (!times.span) {
      const auto first = clock_at(words, begin);
      if (first && words.is(first->next, {"to", "till", "until", "-", "and"}) &&
          (begin != i || !words.is(first->next, {"and"}))) {
        if (const auto second = clock_at(words, first->next + 1)) {
          times.span = resolve_span(*first, *second, day, use);
          words.use(i, second->next - i);
          continue;
        }
      }
    }
    const bool since = words.is(i, {"since", "from"});
    if (since && !times.since) {
      if (const auto spoken = clock_at(words, i + 1)) {
        times.since = resolve(*spoken, day, use);
        words.use(i, spoken->next - i);
        continue;
      }
    }
    if (words.is(i, {"at", "by", "till", "until", "about"}) && !times.at) {
      const std::size_t next = words.is(i + 1, {"about"}) ? i + 2 : i + 1;
      if (const auto spoken = clock_at(words, next)) {
        times.at = resolve(*spoken, day, use);
        words.use(i, spoken->next - i);
        continue;
      }
    }
  }
  if (day.said && !times.at && !times.since && !times.span) {
    // "this morning" in the morning is about now; otherwise the day alone does not say when.
    const auto local = std::chrono::duration_cast<minutes>(job_.site.zone.time_of_day(now_)).count();
    const bool today = !day.day || *day.day == job_.site.zone.day_of(now_);
    const bool fits = day.half == Half::unsaid || (day.half == Half::morning && local < noon) ||
                      (day.half == Half::afternoon && local >= noon) ||
                      (day.half == Half::evening && local >= evening_from);
    if (today && fits) {
      times.at = ClockRead{now_, half_reckoned, false};
    } else {
      times.at = ClockDoubt{"At what time was that?", {}};
    }
  }
  return times;
}

}  // namespace weatherstruck::works
