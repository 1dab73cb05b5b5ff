#include "answer_tokens.h"

#include <array>
#include <utility>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t most_tokens = 40;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Signs beyond ASCII that phones put into measures, with what they stand for here.
constexpr std::array<std::pair<std::string_view, std::string_view>, 13> signs{{{"\xC2\xB0", "deg"},
                                                                               {"\xC2\xBA", "deg"},
                                                                               {"\xC3\x97", "x"},
                                                                               {"\xE2\x80\xB2", "'"},
                                                                               {"\xE2\x80\x99", "'"},
                                                                               {"\xE2\x80\x98", "'"},
                                                                               {"\xE2\x80\xB3", "\""},
                                                                               {"\xE2\x80\x9D", "\""},
                                                                               {"\xE2\x88\x92", "-"},
                                                                               {"\xE2\x80\x93", "-"},
                                                                               {"\xE2\x82\xAC", "eur"},
                                                                               {"\xC2\xA3", "gbp"},
                                                                               {"$", "usd"}}};

/// Length of a comma and three digits that part thousands, at `at`; 0 for anything else.
bool parts_thousands(std::string_view text, std::size_t at) {
  return text.size() >= at + 4 && text[at] == ',' && is_digit(text[at + 1]) && is_digit(text[at + 2]) &&
         is_digit(text[at + 3]) && (text.size() == at + 4 || !is_digit(text[at + 4]));
}

AnswerToken number_at(std::string_view text, std::size_t& at) {
  AnswerToken token;
  token.kind = AnswerToken::Kind::number;
  while (at < text.size()) {
    if (is_digit(text[at])) {
      token.text += text[at++];
      ++token.digits;
    } else if (parts_thousands(text, at) && token.digits <= 3) {
      ++at;
    } else {
      break;
    }
  }
  if (at + 1 < text.size() && text[at] == '.' && is_digit(text[at + 1])) {
    token.whole = false;
    token.text += text[at++];
    while (at < text.size() && is_digit(text[at]))
      token.text += text[at++];
  }
  return token;
}

constexpr std::array<std::string_view, 13> number_words{"none", "one",    "two",   "three", "four",
                                                        "five", "six",    "seven", "eight", "nine",
                                                        "ten",  "eleven", "twelve"};

/// "1/2" where the two tokens behind the first say so.
std::optional<double> fraction_at(AnswerWalk& at) {
  if (!at.is_number() || !at.is("/", 1) || !at.is_number(2)) return {};
  const double above = at.peek(0)->value;
  const double below = at.peek(2)->value;
  if (!(above > 0 && above < below)) return {};
  at.go_to(at.place() + 3);
  return above / below;
}

}  // namespace

AnswerWalk walk_through(std::string_view text) {
  auto tokens = answer_tokens(text);
  if (!tokens) tokens = std::vector<AnswerToken>{{AnswerToken::Kind::sign, "?"}};
  return AnswerWalk(*std::move(tokens));
}

std::optional<double> spelt_number(std::string_view word) {
  for (std::size_t i = 0; i < number_words.size(); ++i) {
    if (number_words[i] == word) return static_cast<double>(i);
  }
  return {};
}

std::optional<double> spoken_number(AnswerWalk& at) {
  const std::size_t begin = at.place();
  if (const auto part = fraction_at(at)) return part;
  if (const auto number = at.number()) {
    const auto part = number->whole ? fraction_at(at) : std::nullopt;
    return number->value + part.value_or(0);
  }
  if (at.take("half")) {
    at.take_any("a", "an");
    return 0.5;
  }
  if (at.take_any("a", "an")) return 1;
  const auto word = at.word();
  const auto value = word ? spelt_number(*word) : std::nullopt;
  if (!value) {
    at.go_to(begin);
    return {};
  }
  if (at.is("and") && at.is("a", 1) && at.is("half", 2)) {
    at.go_to(at.place() + 3);
    return *value + 0.5;
  }
  return value;
}

std::string_view trimmed_answer(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

std::optional<std::vector<AnswerToken>> answer_tokens(std::string_view text) {
  std::vector<AnswerToken> out;
  bool glued = false;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == ' ' || text[at] == '\t' || text[at] == '\r') {
      ++at;
      glued = false;
      continue;
    }
    if (out.size() == most_tokens) return {};
    AnswerToken token;
    const bool point_first =
        text[at] == '.' && at + 1 < text.size() && is_digit(text[at + 1]) && (!glued || out.empty());
    if (is_digit(text[at])) {
      token = number_at(text, at);
      const std::optional<double> value = base::parse_number(token.text);
      if (!value) return {};
      token.value = *value;
    } else if (point_first) {
      const std::string with_zero = "0" + std::string(text.substr(at));
      std::size_t end = 0;
      token = number_at(with_zero, end);
      at += end - 1;
      token.value = base::parse_number(token.text).value_or(0);
    } else if (is_letter(text[at])) {
      token.kind = AnswerToken::Kind::word;
      while (at < text.size() && is_letter(text[at]))
        token.text += lower(text[at++]);
    } else if (text.substr(at, 1).find_first_of(".,:-+'\"/();&") == 0) {
      token.text = text.substr(at++, 1);
    } else {
      for (const auto& [bytes, meaning] : signs) {
        if (text.substr(at, bytes.size()) != bytes) continue;
        token.text = meaning;
        at += bytes.size();
        break;
      }
      if (token.text.empty()) return {};
    }
    token.glued = glued;
    glued = true;
    out.push_back(std::move(token));
  }
  return out;
}

}  // namespace weatherstruck::works
