#include "weatherstruck/works/answer_times.h"

#include <array>
#include <chrono>
#include <optional>
#include <utility>

#include "answer_clock.h"
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

struct Said {
  std::optional<ClockSaid> time;
  std::optional<ClockSaid> bare;  ///< a time, unless a fuller one shows that its number is a date
  bool not_today = false;         ///< "next Monday", said on one
  std::optional<bool> afternoon;
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

bool is_day(double value) {
  return value >= 1 && value <= 31;
}

/// A day of the month with its month, either first: "12 Feb", "12th of February", "Feb 12th".
/// nullopt where nothing of the kind stands next; false where it cannot be.
std::optional<bool> take_named_date(AnswerWalk& at, Said& said) {
  const auto ordinal = [&] { at.take_any("th", "st", "nd", "rd"); };
  const std::size_t begin = at.place();
  if (const auto number = at.number()) {
    ordinal();
    at.take("of");
    const AnswerToken* word = at.peek();
    const auto month = word != nullptr && word->kind == AnswerToken::Kind::word ? position(months, word->text)
                                                                                : std::nullopt;
    if (!month) {
      at.go_to(begin);
      return {};
    }
    at.skip();
    return number->whole && is_day(number->value) && set_once(said.date, number->value) &&
           set_once(said.month, *month);
  }
  const auto word = at.word();
  const auto month = word ? position(months, *word) : std::nullopt;
  if (!month) {
    at.go_to(begin);
    return {};
  }
  const auto number = at.number();
  ordinal();
  return number && number->whole && is_day(number->value) && set_once(said.date, number->value) &&
         set_once(said.month, *month);
}

/// "2/9", "2/9/26", "2/9/2026", in his order; in the other where only that is a date.
std::optional<bool> take_figured_date(AnswerWalk& at, Said& said, bool month_first) {
  if (!at.is_number() || !at.is("/", 1) || !at.is_number(2)) return {};
  double day = at.peek(month_first ? 2 : 0)->value;
  double month = at.peek(month_first ? 0 : 2)->value;
  if (month > 12 && day <= 12) std::swap(day, month);
  const bool whole = at.peek()->whole && at.peek(2)->whole;
  at.go_to(at.place() + 3);
  if (at.is("/") && at.is_number(1)) {
    at.skip();
    const AnswerToken year = *at.number();
    if (!year.whole || (year.digits != 2 && year.digits != 4)) return false;
    if (!set_once(said.year, year.value + (year.digits == 2 ? 2000 : 0))) return false;
  }
  return whole && is_day(day) && month >= 1 && month <= 12 && set_once(said.date, day) &&
         set_once(said.month, month - 1);
}

/// False where something is not understood, or said twice.
bool take_piece(AnswerWalk& at, Said& said, LocalDay today, const TimeWays& ways) {
  if (at.take_any(",", "at", "on", "the", "of", "in", "about", "around")) return true;
  if (const auto date = take_figured_date(at, said, ways.american)) return *date;
  if (const auto date = take_named_date(at, said)) return *date;
  if (at.is_number() && at.peek()->whole && at.peek()->digits == 4 && !at.is(":", 1)) {
    return set_once(said.year, at.number()->value);
  }
  if (const auto time = clock_said(at, false)) return set_once(said.time, *time);
  if (const auto time = clock_said(at, true)) return set_once(said.bare, *time);
  const auto word = at.word();
  if (!word) return false;
  if (*word == "today") return set_once(said.day, today);
  if (*word == "tonight") return set_once(said.day, today) && set_once(said.afternoon, true);
  if (*word == "tomorrow") return set_once(said.day, today + days(1));
  if (*word == "morning") return set_once(said.afternoon, false);
  if (*word == "afternoon" || *word == "evening" || *word == "night" || *word == "nite")
    return set_once(said.afternoon, true);
  if (*word == "next" || *word == "this") {
    said.not_today = *word == "next";
    return at.peek() != nullptr && position(weekdays, at.peek()->text).has_value();
  }
  if (const auto weekday = position(weekdays, *word)) return set_once(said.weekday, *weekday);
  return false;
}

/// The clock time that is meant.
std::variant<minutes, Refused> time_of(const Said& said, const TimeWays& ways) {
  const ClockSaid& clock = said.time ? *said.time : *said.bare;
  const auto both = [&](minutes time) {
    const long past = time.count() % 60;
    const long hour = time.count() / 60 == 0 ? 12 : time.count() / 60;
    const std::string text =
        std::to_string(hour) + (past == 0 ? "" : (past < 10 ? ":0" : ":") + std::to_string(past));
    return text + "am or " + text + "pm";
  };
  if (clock.half_alone && ways.american) {
    const long hour = (clock.time / hours(1)) == 0 ? 12 : clock.time / hours(1);
    return Refused{"the figures, such as " + std::to_string(hour) + ":30am or " +
                       std::to_string(hour == 1 ? 12 : hour - 1) + ":30am",
                   "\"Half\" with an hour is half past it to some and half an hour before it to others."};
  }
  const minutes of_twelve = clock.time % hours(12);
  if (said.afternoon && clock.twelve_hours) return of_twelve + hours(*said.afternoon ? 12 : 0);
  if (!clock.open) return clock.time;
  if (!ways.bare_from) return Refused{both(of_twelve), "That could be in the morning or in the evening."};
  return of_twelve >= hours(*ways.bare_from) ? of_twelve : of_twelve + hours(12);
}

unsigned weekday_of(LocalDay day) {
  return std::chrono::weekday(day).c_encoding();
}

Refused no_such_day(const Said& said) {
  std::string month(months[*said.month]);
  month.front() = static_cast<char>(month.front() - 'a' + 'A');
  const unsigned date = *said.date;
  const bool leap = *said.month == 1 && date == 29;
  return Refused{"day and time, such as 28 " + month + " 7am",
                 leap ? "There is no 29 February " + (said.year ? "in that year." : std::string("so soon."))
                      : month + " has no " + std::to_string(date) + (date == 31 ? "st." : "th.")};
}

/// The date that is meant; what is said of it must agree.
std::variant<LocalDay, Refused> day_of(const Said& said, LocalDay first, bool open) {
  const Refused together{"a weekday and a date that belong together"};
  const Refused missing{"the day as well, such as Thu 21:00 or 12 Feb 9pm"};
  std::optional<LocalDay> day = said.day;
  if (said.date && !said.month) {
    // "Mon 9 5am": the next ninth, which is a Monday.
    if (day || said.year || !said.weekday) return missing;
    for (LocalDay candidate = first; candidate < first + days(62) && !day; candidate += days(1)) {
      if (static_cast<unsigned>(std::chrono::year_month_day(candidate).day()) == *said.date) day = candidate;
    }
  } else if (said.date) {
    if (day) return together;
    const int year = said.year ? *said.year : static_cast<int>(std::chrono::year_month_day(first).year());
    for (const int candidate : {year, year + 1}) {
      const std::chrono::year_month_day date(
          std::chrono::year(candidate), std::chrono::month(*said.month + 1), std::chrono::day(*said.date));
      if (!date.ok()) continue;
      day = LocalDay(date);
      if (said.year || *day >= first) break;
    }
    if (!day) return no_such_day(said);
  } else if (said.year) {
    return missing;
  }
  if (!said.weekday && !day && open) return first;
  if (!said.weekday) return day ? std::variant<LocalDay, Refused>(*day) : missing;
  if (!day) {
    day = first + days(said.not_today ? 1 : 0);
    while (weekday_of(*day) != *said.weekday)
      *day += days(1);
    return *day;
  }
  if (weekday_of(*day) == *said.weekday) return *day;
  return together;
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
  const auto from = clock_said(at, true);
  if (!from || !at.take_any("-", "to", "till", "til", "until", "and")) return {};
  auto to = clock_said(at, true);
  if (!to) return {};
  // "7 till 6", "7.30 to 5.30": the second is in the evening.
  if (to->time <= from->time && to->twelve_hours) to->time = to->time % hours(12) + hours(12);
  if (from->time >= to->time) return {};
  return DaySpan{from->time, to->time};
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

Answer<Instant> moment_answer(std::string_view text, const base::Zone& zone, Instant after,
                              const TimeWays& ways) {
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
  AnswerWalk at = walk_through(rest);
  while (!at.at_end()) {
    if (!take_piece(at, said, ways.today.value_or(first), ways)) return refused;
  }
  if (said.bare && said.time) {
    if (!said.bare->number || !is_day(*said.bare->number) || !set_once(said.date, *said.bare->number))
      return refused;
    said.bare.reset();
  }
  if (!said.time && !said.bare) return refused;
  const auto day = day_of(said, first, ways.day_open);
  if (const auto* why = std::get_if<Refused>(&day)) return *why;
  const auto time = time_of(said, ways);
  if (const auto* why = std::get_if<Refused>(&time)) return *why;
  LocalTime local = LocalTime(std::get<LocalDay>(day)) + std::get<minutes>(time);
  // "Mon 5:00" said on a Monday at six is the next one.
  const bool by_weekday = said.weekday && !said.date && !said.day;
  if (by_weekday && zone.to_instant_earliest(local) <= after) local += days(7);
  const bool by_hour = !said.weekday && !said.date && !said.day;
  if (by_hour && zone.to_instant_earliest(local) <= after) local += days(1);
  return at_clock(local, zone, after);
}

Answer<DaySpan> span_answer(std::string_view text) {
  const Refused refused{"two times of a day, the earlier first, such as 7:00-21:00 or 7am to 9pm"};
  AnswerWalk at = walk_through(text);
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
  AnswerWalk at = walk_through(text);
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
