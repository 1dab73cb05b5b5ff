#include "weatherstruck/works/answer_times.h"

#include <array>
#include <chrono>
#include <optional>
#include <utility>

#include "answer_tokens.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

using base::Instant;
using base::LocalDay;
using base::LocalTime;
using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;

constexpr days farthest{400};
constexpr minutes whole_day = hours(24);

/// Where a word of at least three letters opens `full`: "thu", "thur", "thurs" for "thursday".
bool opens(std::string_view word, std::string_view full) {
  return word.size() >= 3 && word.size() <= full.size() && full.substr(0, word.size()) == word;
}

constexpr std::array<std::string_view, 7> weekdays{"sunday",   "monday", "tuesday", "wednesday",
                                                   "thursday", "friday", "saturday"};
constexpr std::array<std::string_view, 12> months{"january",   "february", "march",    "april",
                                                  "may",       "june",     "july",     "august",
                                                  "september", "october",  "november", "december"};

template <std::size_t N>
std::optional<unsigned> position(const std::array<std::string_view, N>& list, std::string_view word) {
  for (unsigned i = 0; i < N; ++i) {
    if (opens(word, list[i])) return i;
  }
  return {};
}

AnswerWalk walk(std::string_view text) {
  auto tokens = answer_tokens(text);
  if (!tokens) tokens = std::vector<AnswerToken>{{AnswerToken::Kind::sign, "?"}};
  return AnswerWalk(*std::move(tokens));
}

/// "am", "pm", "a.m."; nullopt where there is none.
std::optional<bool> afternoon(AnswerWalk& at) {
  for (const bool pm : {false, true}) {
    if (at.take(pm ? "pm" : "am")) return pm;
    if (at.is(pm ? "p" : "a") && at.is(".", 1) && at.is("m", 2)) {
      at.go_to(at.place() + 3);
      at.take(".");
      return pm;
    }
  }
  return {};
}

/// "21:00", "9pm", "9.30 pm", "21.30", "noon"; and "21", "9" where `bare`. Minutes of the day, to 24:00.
std::optional<minutes> clock(AnswerWalk& at, bool bare) {
  const std::size_t begin = at.place();
  const auto none = [&]() -> std::optional<minutes> {
    at.go_to(begin);
    return {};
  };
  if (at.take_any("noon", "midday")) return hours(12);
  if (at.take("midnight")) return whole_day;
  const auto number = at.number();
  if (!number) return {};
  long hour = static_cast<long>(number->value < 1e6 ? number->value : 1e6);
  long minute = 0;
  bool told = false;
  if (!number->whole) {  // "9.30"
    const std::string& text = number->text;
    const std::size_t point = text.find('.');
    if (text.size() - point != 3) return none();
    minute = (text[point + 1] - '0') * 10 + (text[point + 2] - '0');
    told = true;
  } else if (at.is(":") && at.is_number(1) && at.peek(1)->digits == 2 && at.peek(1)->whole) {
    at.skip();
    minute = static_cast<long>(at.number()->value);
    told = true;
  }
  const std::optional<bool> pm = afternoon(at);
  if (pm) {
    if (hour < 1 || hour > 12) return none();
    hour = hour % 12 + (*pm ? 12 : 0);
  }
  if (!told && !pm && !bare) return none();
  if (minute >= 60 || hour > 24 || (hour == 24 && minute > 0)) return none();
  return minutes(hour * 60 + minute);
}

struct Said {
  std::optional<minutes> time;
  std::optional<LocalDay> day;
  std::optional<unsigned> weekday;
  std::optional<unsigned> date;
  std::optional<unsigned> month;
  std::optional<int> year;
};

template <class T, class U>
bool set_once(std::optional<T>& slot, U value) {
  if (slot) return false;
  slot = static_cast<T>(value);
  return true;
}

/// False where something is not understood, or said twice.
bool take_piece(AnswerWalk& at, Said& said, LocalDay today) {
  if (at.take_any(",", "at", "on", "the", "of")) return true;
  // A day of the month: "12 Feb", "Feb 12th", else a number is a time.
  const bool month_behind = at.is_number() && [&] {
    for (const std::size_t ahead : {1U, 2U, 3U}) {
      const AnswerToken* token = at.peek(ahead);
      if (token == nullptr || token->kind != AnswerToken::Kind::word) return false;
      if (position(months, token->text)) return true;
      if (token->text != "th" && token->text != "st" && token->text != "nd" && token->text != "rd" &&
          token->text != "of")
        return false;
    }
    return false;
  }();
  if (month_behind) {
    const AnswerToken number = *at.number();
    at.take_any("th", "st", "nd", "rd");
    at.take("of");
    const auto month = position(months, *at.word());
    return number.whole && number.value >= 1 && number.value <= 31 && set_once(said.date, number.value) &&
           set_once(said.month, *month);
  }
  if (at.is_number() && at.peek()->whole && at.peek()->digits == 4 && !at.is(":", 1)) {
    return set_once(said.year, at.number()->value);
  }
  if (const auto time = clock(at, false)) return set_once(said.time, *time);
  const auto word = at.word();
  if (!word) return false;
  if (*word == "today") return set_once(said.day, today);
  if (*word == "tomorrow") return set_once(said.day, today + days(1));
  if (*word == "next") return at.peek() != nullptr && position(weekdays, at.peek()->text).has_value();
  if (const auto weekday = position(weekdays, *word)) return set_once(said.weekday, *weekday);
  if (const auto month = position(months, *word)) {
    const auto number = at.number();
    at.take_any("th", "st", "nd", "rd");
    return number && number->whole && number->value >= 1 && number->value <= 31 &&
           set_once(said.date, number->value) && set_once(said.month, *month);
  }
  return false;
}

unsigned weekday_of(LocalDay day) {
  return std::chrono::weekday(day).c_encoding();
}

/// The date that is meant; what is said of it must agree.
std::optional<LocalDay> day_of(const Said& said, LocalDay first) {
  std::optional<LocalDay> day = said.day;
  if (said.date) {
    if (day) return {};
    const int year = said.year ? *said.year : static_cast<int>(std::chrono::year_month_day(first).year());
    for (const int candidate : {year, year + 1}) {
      const std::chrono::year_month_day date(
          std::chrono::year(candidate), std::chrono::month(*said.month + 1), std::chrono::day(*said.date));
      if (!date.ok()) continue;
      day = LocalDay(date);
      if (said.year || *day >= first) break;
    }
    if (!day) return {};
  } else if (said.year) {
    return {};
  }
  if (!said.weekday) return day;
  if (!day) {
    day = first;
    while (weekday_of(*day) != *said.weekday)
      *day += days(1);
    return day;
  }
  return weekday_of(*day) == *said.weekday ? day : std::nullopt;
}

Answer<Instant> in_reach(Instant t, Instant after, const base::Zone& zone) {
  if (t > after && t - after <= farthest) return t;
  return Refused{"a time after " + base::day_and_time(zone.to_local(after)) + ", at most " +
                 std::to_string(farthest.count()) + " days later"};
}

Answer<Instant> at_clock(LocalTime local, const base::Zone& zone, Instant after) {
  const base::LocalMeaning meaning = zone.meaning(local);
  if (meaning.kind == base::LocalMeaning::Kind::nonexistent) {
    return Refused{"another time: clocks go forward then, and " + base::clock_time(local) +
                   " does not come that day"};
  }
  if (meaning.kind == base::LocalMeaning::Kind::ambiguous) {
    return Refused{"which of the two, since clocks go back then: " + base::iso_utc(meaning.first) + " or " +
                   base::iso_utc(meaning.second)};
  }
  return in_reach(meaning.first, after, zone);
}

std::optional<DaySpan> span_at(AnswerWalk& at) {
  at.take_any("from", "between");
  const auto from = clock(at, true);
  if (!from || !at.take_any("-", "to", "till", "until", "and")) return {};
  const auto to = clock(at, true);
  if (!to || *from >= *to) return {};
  return DaySpan{*from, *to};
}

/// Which days the hours are for: 0 Monday to Friday, also where nothing is said, 1 Saturday, 2 Sunday.
/// nullopt for other words.
std::optional<std::size_t> days_at(AnswerWalk& at) {
  const auto named = [&]() -> std::optional<unsigned> {
    const AnswerToken* token = at.peek();
    if (token == nullptr || token->kind != AnswerToken::Kind::word) return {};
    return position(weekdays, token->text);
  };
  const auto day = named();
  std::size_t which = 0;
  if (!day) {
    at.take("weekdays");
  } else {
    at.skip();
    if (*day == 0) which = 2;
    if (*day == 6) which = 1;
    if (which == 0) {
      if (*day != 1 || !at.take_any("-", "to") || named() != 5U) return {};
      at.skip();
    }
  }
  at.take(":");
  return which;
}

}  // namespace

Answer<Instant> moment_answer(std::string_view text, const base::Zone& zone, Instant after) {
  const Refused refused{"day and time, such as Thu 21:00, 12 Feb 9pm or 2026-02-12 21:00"};
  const std::string said_text(trimmed_answer(text));
  std::string iso = said_text;
  if (iso.size() > 10 && iso[10] == ' ') iso[10] = 'T';
  if (const auto instant = base::parse_iso_instant(iso)) return in_reach(*instant, after, zone);
  if (const auto local = base::parse_iso_local(iso)) return at_clock(*local, zone, after);

  Said said;
  // "2026-02-12 9pm"
  std::string rest = said_text;
  if (const auto day = base::parse_iso_day(said_text.substr(0, 10))) {
    said.day = *day;
    rest = said_text.substr(10);
  }
  const LocalDay first = zone.day_of(after);
  AnswerWalk at = walk(rest);
  while (!at.at_end()) {
    if (!take_piece(at, said, first)) return refused;
  }
  if (!said.time) return refused;
  const auto day = day_of(said, first);
  if (!day) {
    if (said.weekday && (said.date || said.day)) return Refused{"a weekday and a date that belong together"};
    return Refused{"the day as well, such as Thu 21:00 or 12 Feb 9pm"};
  }
  LocalTime local = LocalTime(*day) + *said.time;
  // "Mon 5:00" said on a Monday at six is the next one.
  const bool by_weekday = said.weekday && !said.date && !said.day;
  if (by_weekday && zone.to_instant_earliest(local) <= after) local += days(7);
  return at_clock(local, zone, after);
}

Answer<DaySpan> span_answer(std::string_view text) {
  const Refused refused{"two times of a day, the earlier first, such as 7:00-21:00 or 7am to 9pm"};
  AnswerWalk at = walk(text);
  const auto span = span_at(at);
  if (!span || !at.at_end()) return refused;
  return *span;
}

std::string span_words(DaySpan span) {
  const auto time = [](minutes m) {
    const auto two = [](long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return two(m.count() / 60) + ":" + two(m.count() % 60);
  };
  return time(span.from) + "-" + time(span.to);
}

Answer<NoisyHours> noisy_answer(std::string_view text, const NoisyHours& usual) {
  const Refused refused{
      "hours such as 7:30-19:00 (Monday to Friday), 7:30-19:00, Sat 8-13, Sun none, or any time"};
  AnswerWalk at = walk(text);
  if (at.is("any") && at.is("time", 1) && at.peek(2) == nullptr) {
    const std::vector<DaySpan> all{{minutes(0), whole_day}};
    return NoisyHours{all, all, all};
  }
  NoisyHours out = usual;
  std::array<bool, 3> given{};
  do {
    const auto which = days_at(at);
    if (!which || given[*which]) return refused;
    given[*which] = true;
    std::vector<DaySpan>& day = *which == 0 ? out.monday_to_friday : *which == 1 ? out.saturday : out.sunday;
    if (at.take_any("none", "no", "nothing")) {
      day.clear();
    } else if (const auto span = span_at(at)) {
      day = {*span};
    } else {
      return refused;
    }
  } while (at.take_any(",", ";", "and"));
  if (!at.at_end()) return refused;
  return out;
}

std::string noisy_words(const NoisyHours& hours_of) {
  const auto day = [](const std::vector<DaySpan>& spans) {
    std::string text;
    for (const DaySpan& span : spans)
      text += (text.empty() ? "" : " and ") + span_words(span);
    return text.empty() ? std::string("none") : text;
  };
  return "Mon-Fri " + day(hours_of.monday_to_friday) + ", Sat " + day(hours_of.saturday) + ", Sun " +
         day(hours_of.sunday);
}

}  // namespace weatherstruck::works
