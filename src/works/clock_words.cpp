#include "weatherstruck/works/clock_words.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <iterator>
#include <string_view>

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

ClockDoubt ClockReader::doubt(const std::string& words, const std::vector<Span>& which) const {
  if (which.empty()) {
    return {"\"" + words + "\" has not been yet, or does not exist on that day. When was it?", {}};
  }
  ClockDoubt asked{"Which \"" + words + "\" was it?", {}};
  for (const auto& [t, end] : which) {
    const base::LocalTime local = job_.site.zone.to_local(t);
    const bool twice = job_.site.zone.meaning(local).kind == base::LocalMeaning::Kind::ambiguous;
    asked.candidates.push_back(base::day_and_time(local) +
                               (twice ? " " + job_.site.zone.abbreviation_at(t) : ""));
    asked.meant.emplace_back(t, end);
  }
  return asked;
}

std::variant<ClockRead, ClockDoubt> ClockReader::resolve(const Spoken& spoken, const DayWords& day,
                                                         ClockUse use, bool since) const {
  std::vector<base::Instant> found = moments(spoken, day);
  // Nothing has gone on since this very minute.
  if (since) found.erase(std::remove(found.begin(), found.end(), now_), found.end());
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
  std::vector<Span> which;
  for (const base::Instant t : found)
    which.emplace_back(t, t);
  return doubt(spoken.words, which);
}

std::variant<std::pair<ClockRead, ClockRead>, ClockDoubt> ClockReader::resolve_span(const Spoken& from,
                                                                                    const Spoken& to,
                                                                                    const DayWords& day,
                                                                                    ClockUse use) const {
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
    std::vector<Span> which;
    std::copy_if(spans.begin(), spans.end(), std::back_inserter(which), as_short);
    return doubt(from.words + " to " + to.words, which);
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
        times.since = resolve(*spoken, day, use, true);
        words.use(i, spoken->next - i);
        continue;
      }
    }
    const bool until = words.is(i, {"till", "until"});
    auto& place = until ? times.until : times.at;
    if (place) continue;
    if (until || words.is(i, {"at", "by", "about"})) {
      const std::size_t next = words.is(i + 1, {"about"}) ? i + 2 : i + 1;
      if (const auto spoken = clock_at(words, next)) {
        times.by = times.by || until || words.is(i, {"by"});
        place = resolve(*spoken, day, use);
        words.use(i, spoken->next - i);
        continue;
      }
    }
    if (const auto spoken = bare_clock_at(words, i)) {
      times.at = resolve(*spoken, day, use);
      words.use(i, spoken->next - i);
    }
  }
  if (day.said && !times.at && !times.since && !times.span && !times.until) {
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
