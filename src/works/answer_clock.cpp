#include "answer_clock.h"

#include <string>

namespace weatherstruck::works {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

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

bool take_o_clock(AnswerWalk& at) {
  if (at.take("oclock")) return true;
  if (!at.is("o")) return false;
  const std::size_t signs = at.is("'", 1) ? 2 : 1;
  if (!at.is("clock", signs)) return false;
  at.go_to(at.place() + signs + 1);
  return true;
}

/// 1 to 12 in figures or letters.
std::optional<long> hour_of_twelve(AnswerWalk& at) {
  const std::size_t begin = at.place();
  std::optional<double> value;
  if (const auto number = at.number()) {
    if (number->whole) value = number->value;
  } else if (const auto word = at.word()) {
    value = spelt_number(*word);
  }
  if (value && *value >= 1 && *value <= 12) return static_cast<long>(*value);
  at.go_to(begin);
  return {};
}

ClockSaid in_half(ClockSaid said, std::optional<bool> pm) {
  if (!pm) return said;
  said.time = said.time % hours(12) + hours(*pm ? 12 : 0);
  said.open = said.twelve_hours = false;
  said.number.reset();
  return said;
}

/// "half past seven", "half seven", "quarter to six".
std::optional<ClockSaid> fraction(AnswerWalk& at) {
  const std::size_t begin = at.place();
  at.take("a");
  ClockSaid said;
  minutes beside{};
  if (at.take("half")) {
    beside = minutes(30);
    said.half_alone = !at.take("past");
  } else if (at.take("quarter")) {
    const bool to = at.take("to");
    beside = minutes(to ? -15 : 15);
    if (!to && !at.take("past")) {
      at.go_to(begin);
      return {};
    }
  }
  const auto hour = beside == minutes(0) ? std::nullopt : hour_of_twelve(at);
  if (!hour) {
    at.go_to(begin);
    return {};
  }
  said.time = (hours(*hour) + beside) % hours(12);
  said.open = said.twelve_hours = true;
  return in_half(said, afternoon(at));
}

/// Of a number that stands next: its hour, its minute, and whether the minute was said.
struct Figures {
  long hour = 0;
  long minute = 0;
  bool told = false;
};

std::optional<Figures> figures(AnswerWalk& at) {
  const auto number = at.number();
  if (!number) return {};
  Figures out;
  out.hour = static_cast<long>(number->value < 1e6 ? number->value : 1e6);
  if (!number->whole) {  // "9.30"
    const std::string& text = number->text;
    const std::size_t point = text.find('.');
    if (text.size() - point != 3) return {};
    out.minute = (text[point + 1] - '0') * 10 + (text[point + 2] - '0');
    out.told = true;
  } else if (at.is(":") && at.is_number(1) && at.peek(1)->digits == 2 && at.peek(1)->whole) {
    at.skip();
    out.minute = static_cast<long>(at.number()->value);
    out.told = true;
  }
  return out;
}

}  // namespace

std::optional<ClockSaid> clock_said(AnswerWalk& at, bool bare) {
  const std::size_t begin = at.place();
  const auto none = [&]() -> std::optional<ClockSaid> {
    at.go_to(begin);
    return {};
  };
  if (at.take_any("noon", "midday")) return ClockSaid{hours(12)};
  if (at.take("midnight")) return ClockSaid{hours(24)};
  if (const auto part = fraction(at)) return part;

  if (!at.is_number()) {
    const auto hour = hour_of_twelve(at);
    if (!hour) return none();
    ClockSaid said{hours(*hour % 12), true, false, {}, true};
    const bool o_clock = take_o_clock(at);
    const auto pm = afternoon(at);
    if (!o_clock && !pm && !bare) return none();
    return in_half(said, pm);
  }
  const auto read = figures(at);
  if (!read) return none();
  const bool o_clock = !read->told && take_o_clock(at);
  const auto pm = afternoon(at);
  if (pm && (read->hour < 1 || read->hour > 12)) return none();
  if (!read->told && !pm && !o_clock && !bare) return none();
  if (read->minute >= 60 || read->hour > 24 || (read->hour == 24 && read->minute > 0)) return none();
  ClockSaid said{minutes(read->hour * 60 + read->minute)};
  said.twelve_hours = read->hour >= 1 && read->hour <= 12;
  said.open = !read->told && said.twelve_hours;
  if (!read->told && !o_clock) said.number = static_cast<int>(read->hour);
  return in_half(said, pm);
}

}  // namespace weatherstruck::works
