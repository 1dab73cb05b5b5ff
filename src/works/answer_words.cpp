#include "weatherstruck/works/answer_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "answer_tokens.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

std::string lower_of(std::string_view text) {
  std::string out(trimmed_answer(text));
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

bool is_plural_of(std::string_view word, std::string_view single) {
  if (word == single) return true;
  return word == std::string(single) + "s" || word == std::string(single) + "es";
}

}  // namespace

bool says_none(std::string_view text) {
  const std::string said = lower_of(text);
  constexpr std::array<std::string_view, 7> ways{"none", "no", "nope", "nothing", "nobody", "-", "nil"};
  return std::find(ways.begin(), ways.end(), said) != ways.end();
}

Answer<std::string> text_answer(std::string_view text, std::size_t longest) {
  const std::string_view said = trimmed_answer(text);
  const bool controls = std::any_of(said.begin(), said.end(),
                                    [](char c) { return static_cast<unsigned char>(c) < 32 || c == '\x7f'; });
  const auto characters = static_cast<std::size_t>(std::count_if(
      said.begin(), said.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  if (said.empty() || controls || base::first_invalid_utf8(said) || characters > longest)
    return Refused{"words on one line, at most " + std::to_string(longest) + " characters"};
  return std::string(said);
}

Answer<std::string> optional_text_answer(std::string_view text, std::size_t longest) {
  if (says_none(text)) return std::string();
  Answer<std::string> said = text_answer(text, longest);
  if (auto* refused = std::get_if<Refused>(&said)) refused->allowed += ", or none";
  return said;
}

Answer<bool> yes_no_answer(std::string_view text) {
  const std::string said = lower_of(text);
  constexpr std::array<std::string_view, 9> yes{"yes", "y",   "yes please", "yep", "yeah",
                                                "aye", "yup", "ok",         "okay"};
  if (std::find(yes.begin(), yes.end(), said) != yes.end()) return true;
  if (said == "n" || said == "nope" || said == "nah" || says_none(text)) return false;
  return Refused{"yes or no"};
}

Answer<int> count_answer(std::string_view text, int low, int high, std::string_view word) {
  const Refused refused{"a whole number from " + std::to_string(low) + " to " + std::to_string(high)};
  AnswerWalk at = walk_through(text);
  std::optional<double> value;
  if (const auto number = at.number()) {
    if (!number->whole) return refused;
    value = number->value;
  } else if (says_none(text)) {
    value = 0;
    at.skip();
  } else if (const auto spelt = at.word()) {
    value = spelt_number(*spelt);
  }
  if (const AnswerToken* behind = at.peek(); behind != nullptr && is_plural_of(behind->text, word)) at.skip();
  if (!value || !at.at_end() || *value < low || *value > high) return refused;
  return static_cast<int>(*value);
}

Answer<double> amount_answer(std::string_view text, double low, double high, std::span<const UnitWord> units,
                             std::string_view said) {
  const Refused refused{std::string(said)};
  AnswerWalk at = walk_through(text);
  double value = 0;
  if (says_none(text)) {
    at.skip();
  } else {
    const auto number = at.number();
    if (!number) return refused;
    value = number->value;
    std::string unit;
    // "m2" comes as a word and a number.
    while (!at.at_end()) {
      unit += at.peek()->text;
      at.skip();
    }
    if (!unit.empty()) {
      const auto found = std::find_if(units.begin(), units.end(),
                                      [&](const UnitWord& u) { return is_plural_of(unit, u.word); });
      if (found == units.end()) return refused;
      value *= found->worth;
    }
  }
  if (!at.at_end() || !(value >= low && value <= high)) return refused;
  return value;
}

bool says_some(std::string_view text) {
  const std::string_view word = trimmed_answer(text);
  return word.empty() || word == "yes" || word == "a" || word == "one" || word == "some";
}

Answer<Place> place_answer(std::string_view text) {
  const Refused refused{"degrees north and east, such as 51.9 -3.4 or 51.9N 3.4W (a phone's map shows them)"};
  AnswerWalk at = walk_through(text);
  // Each of the two: a sign or a letter, degrees, perhaps minutes and seconds, a letter.
  std::array<double, 2> values{};
  std::array<char, 2> letters{};
  const auto letter = [&](std::size_t i) {
    for (const auto& [word, is] : {std::pair{"n", 'n'},
                                   {"north", 'n'},
                                   {"s", 's'},
                                   {"south", 's'},
                                   {"e", 'e'},
                                   {"east", 'e'},
                                   {"w", 'w'},
                                   {"west", 'w'}}) {
      if (!at.is(word)) continue;
      if (letters[i] != 0) return false;
      letters[i] = is;
      at.skip();
      return true;
    }
    return false;
  };
  const bool lettered = text.find_first_of("nNsSeEwW") != std::string_view::npos;
  for (std::size_t i = 0; i < 2; ++i) {
    at.take("(");
    if (i == 1) at.take_any(",", ";");
    letter(i);
    const double sign = at.take("-") ? -1 : 1;
    at.take("+");
    const auto degrees = at.number();
    if (!degrees) return refused;
    double value = degrees->value;
    at.take_any("deg", "degrees");
    // Minutes and seconds can be told from a second whole value only by their signs or by letters after them.
    double part = 60;
    while (part < 4000 && lettered && at.is_number() && letters[i] == 0 && at.peek()->value < 60) {
      value += at.number()->value / part;
      part *= 60;
      at.take_any("'", "\"", "min", "sec");
      at.take("'");
    }
    if (letters[i] == 0) letter(i);
    if (sign < 0 && letters[i] != 0) return refused;
    values[i] = value * sign;
    if (letters[i] == 's' || letters[i] == 'w') values[i] = -value;
  }
  at.take(")");
  const auto runs_east = [](char c) { return c == 'e' || c == 'w'; };
  const bool first_given = letters[0] != 0;
  if (first_given != (letters[1] != 0)) return refused;
  if (first_given && runs_east(letters[0]) == runs_east(letters[1])) return refused;
  if (first_given && runs_east(letters[0])) std::swap(values[0], values[1]);
  if (!at.at_end() || std::abs(values[0]) > 90 || std::abs(values[1]) > 180) return refused;
  return Place{values[0], values[1]};
}

std::string place_text(const Place& place) {
  return base::plain_number(std::abs(place.latitude), 4) + (place.latitude < 0 ? " S " : " N ") +
         base::plain_number(std::abs(place.longitude), 4) + (place.longitude < 0 ? " W" : " E");
}

std::string_view seen_from_front(Side side) {
  switch (side) {
    case Side::north:
      return "back";
    case Side::east:
      return "right";
    case Side::west:
      return "left";
    case Side::south:
      break;
  }
  return "front";
}

Answer<base::Money> money_answer(std::string_view text, const base::Currency& usual) {
  const Refused refused{"an amount of " + usual.code() + " such as 120 or 34.50"};
  AnswerWalk at = walk_through(text);
  const auto currency = [&] {
    const std::string code = usual.code();
    std::string lower_code = lower_of(code);
    if (at.take(lower_code)) return true;
    if (lower_code == "gbp") return at.take_any("pounds", "pound");
    if (lower_code == "usd") return at.take_any("dollars", "dollar");
    return lower_code == "eur" && at.take_any("euros", "euro");
  };
  const bool before = currency();
  const auto number = at.number();
  if (!number || number->value > 1e6) return refused;
  // "45p", "45 cents".
  const bool pounds = usual.code() == "GBP";
  const bool cents = usual.code() == "USD" || usual.code() == "EUR";
  const bool hundredths =
      !before && ((pounds && at.take_any("p", "pence")) || (cents && at.take_any("c", "cent", "cents")));
  if (!before && !hundredths) currency();
  if (!at.at_end()) return refused;
  double minor = number->value;
  for (int i = 0; i < usual.decimals() && !hundredths; ++i)
    minor *= 10;
  const double whole = std::round(minor);
  if (std::abs(whole - minor) > 1e-6) return refused;
  return base::Money(static_cast<std::int64_t>(whole), usual);
}

Name name_from(std::string_view title) {
  constexpr std::size_t longest = 40;
  Name name;
  for (const char c : lower_of(title)) {
    const bool letter = c >= 'a' && c <= 'z';
    const bool digit = c >= '0' && c <= '9';
    if (letter || (digit && !name.empty())) {
      name += c;
    } else if (c != '\'' && !name.empty() && name.back() != '-') {
      name += '-';
    }
  }
  if (name.size() > longest) {
    name.resize(longest);
    const std::size_t last = name.rfind('-');
    if (last != Name::npos && last > longest / 2) name.resize(last);
  }
  while (!name.empty() && name.back() == '-')
    name.pop_back();
  return name.empty() ? "job" : name;
}

}  // namespace weatherstruck::works
