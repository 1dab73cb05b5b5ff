// Lengths, sizes, falls and hours in answers.
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "answer_tokens.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/answer_words.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::works {
namespace {

using base::Hours;
using base::Metres;

struct LengthUnit {
  std::string_view word;
  double metres;
};
constexpr std::array<LengthUnit, 22> length_units{{{"m", 1},
                                                   {"metre", 1},
                                                   {"metres", 1},
                                                   {"meter", 1},
                                                   {"meters", 1},
                                                   {"mm", 0.001},
                                                   {"millimetre", 0.001},
                                                   {"millimetres", 0.001},
                                                   {"cm", 0.01},
                                                   {"centimetres", 0.01},
                                                   {"ft", foot},
                                                   {"foot", foot},
                                                   {"feet", foot},
                                                   {"yd", 3 * foot},
                                                   {"yds", 3 * foot},
                                                   {"yard", 3 * foot},
                                                   {"yards", 3 * foot},
                                                   {"'", foot},
                                                   {"in", inch},
                                                   {"inch", inch},
                                                   {"inches", inch},
                                                   {"\"", inch}}};

std::optional<double> unit_at(AnswerWalk& at) {
  for (const LengthUnit& unit : length_units) {
    if (at.take(unit.word)) return unit.metres;
  }
  return {};
}

/// A length as written; `unit` nullopt: a bare number in `value`.
struct Written {
  double value = 0;
  std::optional<double> unit;
  double first_unit = 0;  ///< the foot in "10 ft 6"; 0: none was said
};

std::optional<Written> written(AnswerWalk& at) {
  const auto number = at.number();
  if (!number) return {};
  const auto unit = unit_at(at);
  if (!unit) return Written{number->value, {}};
  double metres = number->value * *unit;
  // "10 ft 6 in", "10' 6", "1 m 50": what follows is in the next smaller unit.
  const bool feet = *unit == foot;
  if ((feet || *unit == 1.0) && number->whole && at.is_number()) {
    const AnswerToken rest = *at.number();
    const auto smaller = unit_at(at);
    if (smaller && (*smaller == inch) != feet) return {};
    if (smaller && *smaller >= inch && !feet) return {};
    if (!smaller && !feet && (rest.digits != 2 || !rest.whole)) return {};
    metres += rest.value * smaller.value_or(feet ? inch : 0.01);
  }
  return Written{metres, 1.0, *unit};
}

// The bounds are sharp to a tenth of a millimetre, so that 0.3048 of a foot does not fall out.
bool within(double metres, LengthRange range) {
  return metres >= range.low - 1e-4 && metres <= range.high + 1e-4;
}

/// Cleaned of what multiplying leaves behind.
Metres clean(double metres) {
  return Metres(std::round(metres * 1e6) / 1e6);
}

/// In metres, where it is in range; small units stand in for a bare number only where nothing else fits.
/// @param beside the unit said of the length beside it, which a bare number shares if it can; 0: none
std::optional<Metres> meant(const Written& length, LengthRange range, Measure measure, double beside = 0) {
  if (length.unit) {
    const double metres = length.value * *length.unit;
    return within(metres, range) ? std::optional(clean(metres)) : std::nullopt;
  }
  const bool metric = beside == 0 ? measure == Measure::metric : beside != foot && beside != inch;
  for (const double unit : {beside, metric ? 1.0 : foot, metric ? 0.001 : inch}) {
    if (unit > 0 && within(length.value * unit, range)) return clean(length.value * unit);
  }
  return {};
}

std::string allowed_length(LengthRange range, Measure measure) {
  return "a length from " + length_text(Metres(range.low), measure) + " to " +
         length_text(Metres(range.high), measure);
}

struct Example {
  std::string_view text;
  double first;
  double second = 0;
};

/// Lengths people write, in range: one or two in his units, one in the other.
std::string examples(LengthRange range, Measure measure) {
  constexpr std::array<Example, 7> metric{{{"3 m", 3},
                                           {"900 mm", 0.9},
                                           {"450 mm", 0.45},
                                           {"150 mm", 0.15},
                                           {"1.2 m", 1.2},
                                           {"20 m", 20},
                                           {"200 m", 200}}};
  constexpr std::array<Example, 7> feet{{{"10 ft", 10 * foot},
                                         {"3 ft 6 in", 3.5 * foot},
                                         {"18 in", 18 * inch},
                                         {"6 in", 6 * inch},
                                         {"4 ft", 4 * foot},
                                         {"60 ft", 60 * foot},
                                         {"600 ft", 600 * foot}}};
  std::string out;
  const auto add = [&](const auto& table, int most) {
    for (const Example& one : table) {
      if (most == 0 || !within(one.first, range)) continue;
      out += (out.empty() ? ", such as " : " or ") + std::string(one.text);
      --most;
    }
  };
  const bool is_metric = measure == Measure::metric;
  add(is_metric ? metric : feet, 2);
  add(is_metric ? feet : metric, 1);
  return out;
}

std::string size_examples(LengthRange length, LengthRange width, Measure measure) {
  constexpr std::array<Example, 4> metric{
      {{"3 x 1.8 m", 3, 1.8}, {"1.2 x 0.9 m", 1.2, 0.9}, {"6 x 0.75 m", 6, 0.75}, {"20 x 12 m", 20, 12}}};
  constexpr std::array<Example, 4> feet{{{"10 ft by 6 ft", 10 * foot, 6 * foot},
                                         {"4 ft by 3 ft", 4 * foot, 3 * foot},
                                         {"20 ft by 2 ft 6 in", 20 * foot, 2.5 * foot},
                                         {"60 ft by 40 ft", 60 * foot, 40 * foot}}};
  std::string out;
  const auto add = [&](const auto& table) {
    for (const Example& one : table) {
      if (!within(one.first, length) || !within(one.second, width)) continue;
      out += (out.empty() ? ", such as " : " or ") + std::string(one.text);
      return;
    }
  };
  const bool is_metric = measure == Measure::metric;
  add(is_metric ? metric : feet);
  add(is_metric ? feet : metric);
  return out;
}

/// "a quarter of an hour", "three quarters of an hour".
std::optional<double> quarters_of_an_hour(AnswerWalk& at) {
  const std::size_t begin = at.place();
  const bool three = at.take("three");
  if (!three) at.take("a");
  if (at.take_any("quarter", "quarters")) {
    at.take("of");
    at.take("an");
    if (at.take("hour")) return three ? 0.75 : 0.25;
  }
  at.go_to(begin);
  return {};
}

}  // namespace

Answer<Metres> length_answer(std::string_view text, LengthRange range, Measure measure) {
  const Refused refused{allowed_length(range, measure) + examples(range, measure)};
  AnswerWalk at = walk_through(text);
  std::optional<Metres> value;
  if (says_none(text) && range.low <= 0) return Metres(0);
  if (const auto length = written(at)) value = meant(*length, range, measure);
  if (!value || !at.at_end()) return refused;
  return *value;
}

Answer<Size> size_answer(std::string_view text, LengthRange length, LengthRange width, Measure measure) {
  const Refused refused{"two lengths" + size_examples(length, width, measure) + "; the first " +
                        allowed_length(length, measure) + ", the second " + allowed_length(width, measure)};
  AnswerWalk at = walk_through(text);
  auto first = written(at);
  if (!first || !at.take_any("x", "by", "and", ",", "times")) return refused;
  const std::size_t second_at = at.place();
  const auto second = written(at);
  if (!second || !at.at_end()) return refused;
  // "3 x 1.8 m": the unit said at the end is that of both.
  if (second->unit && !first->unit) {
    at.go_to(second_at);
    at.skip();
    if (const auto unit = unit_at(at); unit && at.at_end()) first = Written{first->value * *unit, 1.0, *unit};
  }
  const auto a = meant(*first, length, measure, second->first_unit);
  // "10 ft 6 x 3": the three are feet.
  const auto b = meant(*second, width, measure, first->first_unit);
  if (!a || !b) return refused;
  return Size{*a, *b};
}

Answer<std::optional<Size>> optional_size_answer(std::string_view text, LengthRange length, LengthRange width,
                                                 Measure measure) {
  if (says_none(text)) return std::optional<Size>();
  Answer<Size> size = size_answer(text, length, width, measure);
  if (const auto* refused = std::get_if<Refused>(&size)) return Refused{refused->allowed + "; or none"};
  return std::optional<Size>(std::get<Size>(size));
}

Answer<Hours> hours_answer(std::string_view text, double low, double high) {
  const Refused refused{"hours from " + base::plain_number(low, 2) + " to " + base::plain_number(high, 2) +
                        ", such as 2 h, 2:30, 90 min or half an hour"};
  AnswerWalk at = walk_through(text);
  if (const auto part = quarters_of_an_hour(at)) {
    if (!at.at_end() || *part < low || *part > high) return refused;
    return Hours(*part);
  }
  // "hour and a half" as "an hour and a half".
  if (at.is("hour") && at.is("and", 1) && at.is("a", 2) && at.is("half", 3) && at.peek(4) == nullptr)
    return low <= 1.5 && high >= 1.5 ? Answer<Hours>(Hours(1.5)) : refused;
  const bool figures = at.is_number();
  const bool whole = figures && at.peek()->whole;
  const auto number = spoken_number(at);
  if (!number) return refused;
  double hours = *number;
  if (at.take_any("min", "mins", "minutes", "minute", "m")) {
    hours /= 60;
  } else {
    const bool colon = figures && at.take(":");
    const bool word = !colon && at.take_any("h", "hr", "hrs", "hour", "hours");
    if (!figures && !word) return refused;
    const bool and_more = at.take("and");
    if (and_more && !word && !at.is("a")) return refused;
    if ((word || and_more) && at.take("a")) {
      if (!at.is("half") && !at.is("quarter")) return refused;
      hours += at.take("half") ? 0.5 : 0.25;
      at.take("quarter");
    } else if ((colon || word) && at.is_number()) {
      const AnswerToken minutes = *at.number();
      if ((figures && !whole) || !minutes.whole || minutes.value >= 60 || (colon && minutes.digits != 2))
        return refused;
      hours += minutes.value / 60;
      if (word) at.take_any("min", "mins", "minutes", "m");
    } else if (colon) {
      return refused;
    }
  }
  if (!at.at_end() || !(hours >= low - 1e-9 && hours <= high + 1e-9)) return refused;
  return Hours(hours);
}

}  // namespace weatherstruck::works
