#include "weatherstruck/works/word_list.h"

#include <algorithm>
#include <array>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

struct NumberWord {
  std::string_view word;
  double value;
};
constexpr std::array<NumberWord, 29> number_words{
    {{"nought", 0},    {"zero", 0},     {"one", 1},      {"two", 2},        {"three", 3},
     {"four", 4},      {"five", 5},     {"six", 6},      {"seven", 7},      {"eight", 8},
     {"nine", 9},      {"ten", 10},     {"eleven", 11},  {"twelve", 12},    {"thirteen", 13},
     {"fourteen", 14}, {"fifteen", 15}, {"sixteen", 16}, {"seventeen", 17}, {"eighteen", 18},
     {"nineteen", 19}, {"twenty", 20},  {"thirty", 30},  {"forty", 40},     {"fifty", 50},
     {"sixty", 60},    {"seventy", 70}, {"eighty", 80},  {"ninety", 90}}};

constexpr std::array<std::string_view, 30> fillers{
    {"the", "of",   "on",    "a",   "an",   "in",    "for",  "my",    "our",   "is",
     "are", "was",  "were",  "has", "have", "had",   "been", "now",   "just",  "i",
     "we",  "i've", "we've", ",",   ":",    "there", "at",   "round", "around"}};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}
bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\v' || c == '\f';
}
char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool says_nothing(char c) {
  return c == '.' || c == '!' || c == '?' || c == '(' || c == ')' || c == '"' || c == '\'';
}

/// Signs that are words of their own though they are more than a byte.
constexpr std::array<std::string_view, 5> signs{
    {"\xc2\xa3", "\xe2\x82\xac", "\xc2\xb0", "\xe2\x80\x93", "\xe2\x88\x92"}};

std::size_t sign_at(std::string_view text, std::size_t at) {
  for (const std::string_view sign : signs) {
    if (text.substr(at, sign.size()) == sign) return sign.size();
  }
  return 0;
}

/// End of the figures that begin at `at`: "12", "0.4", "3:30", "1,000".
std::size_t figures_end(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size()) {
    if (is_digit(text[end])) {
      ++end;
      continue;
    }
    const bool joins =
        (text[end] == '.' || text[end] == ':') && end + 1 < text.size() && is_digit(text[end + 1]);
    const bool thousands = text[end] == ',' && end + 3 < text.size() && is_digit(text[end + 1]) &&
                           is_digit(text[end + 2]) && is_digit(text[end + 3]) &&
                           (end + 4 == text.size() || !is_digit(text[end + 4]));
    if (!joins && !thousands) break;
    ++end;
  }
  return end;
}

}  // namespace

WordList::WordList(std::string_view source) : source_(source) {
  std::size_t at = 0;
  const std::string_view text = source_;
  while (at < text.size()) {
    if (is_space(text[at]) || says_nothing(text[at])) {
      ++at;
      continue;
    }
    // A date with a time is one word.
    std::size_t end = at;
    while (end < text.size() && !is_space(text[end]))
      ++end;
    std::string_view chunk = text.substr(at, end - at);
    while (!chunk.empty() && (says_nothing(chunk.back()) || chunk.back() == ',' || chunk.back() == ':'))
      chunk.remove_suffix(1);
    if (chunk.size() >= 16 && (base::parse_iso_local(chunk) || base::parse_iso_instant(chunk))) {
      add(text, at, at + chunk.size());
      at += chunk.size();
      continue;
    }
    if (const std::size_t sign = sign_at(text, at)) {
      add(text, at, at + sign);
      at += sign;
    } else if (is_digit(text[at])) {
      end = figures_end(text, at);
      add(text, at, end);
      at = end;
    } else if (is_letter(text[at])) {
      end = at;
      while (end < text.size() && sign_at(text, end) == 0 &&
             (is_letter(text[end]) || is_digit(text[end]) || text[end] == '\'' || text[end] == '-'))
        ++end;
      while (text[end - 1] == '\'' || text[end - 1] == '-')
        --end;
      add(text, at, end);
      at = end;
    } else {
      add(text, at, at + 1);
      ++at;
    }
  }
  join_numbers();
}

void WordList::add(std::string_view source, std::size_t begin, std::size_t end) {
  Word word{std::string(source.substr(begin, end - begin)), begin, end, std::nullopt, false, false};
  std::transform(word.text.begin(), word.text.end(), word.text.begin(), lower);
  if (word.text == "\xe2\x80\x93" || word.text == "\xe2\x88\x92") word.text = "-";
  if (is_digit(word.text[0])) {
    std::string plain = word.text;
    plain.erase(std::remove(plain.begin(), plain.end(), ','), plain.end());
    word.number = base::parse_number(plain);
    word.figure = word.number.has_value();
  } else {
    for (const NumberWord& known : number_words) {
      if (known.word == word.text) word.number = known.value;
    }
  }
  words_.push_back(std::move(word));
}

/// "twenty five" is one number, and so is "two hundred".
void WordList::join_numbers() {
  std::vector<Word> joined;
  for (Word& word : words_) {
    Word* last = joined.empty() ? nullptr : &joined.back();
    if (last != nullptr && last->number && !last->figure) {
      const bool tens =
          *last->number >= 20 && *last->number < 100 && static_cast<int>(*last->number) % 10 == 0;
      if (tens && word.number && !word.figure && *word.number >= 1 && *word.number < 10) {
        last->number = *last->number + *word.number;
        last->end = word.end;
        continue;
      }
      if (word.text == "hundred" && *last->number >= 1 && *last->number < 100) {
        last->number = *last->number * 100;
        last->end = word.end;
        continue;
      }
    }
    joined.push_back(std::move(word));
  }
  words_ = std::move(joined);
}

std::string_view WordList::text(std::size_t i) const {
  return i < words_.size() && !words_[i].used ? std::string_view(words_[i].text) : std::string_view();
}

std::optional<double> WordList::number(std::size_t i) const {
  return i < words_.size() && !words_[i].used ? words_[i].number : std::nullopt;
}

bool WordList::is(std::size_t i, std::initializer_list<std::string_view> any) const {
  const std::string_view word = text(i);
  return !word.empty() && std::find(any.begin(), any.end(), word) != any.end();
}

std::optional<std::size_t> WordList::find(std::initializer_list<std::string_view> any) const {
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (is(i, any)) return i;
  }
  return std::nullopt;
}

void WordList::use(std::size_t i, std::size_t count) {
  for (std::size_t k = i; k < i + count && k < words_.size(); ++k)
    words_[k].used = true;
}

bool WordList::take(std::initializer_list<std::string_view> any) {
  const auto place = find(any);
  if (place) use(*place);
  return place.has_value();
}

std::vector<std::string> WordList::left_over() const {
  std::vector<std::string> left;
  for (const Word& word : words_) {
    if (!word.used && std::find(fillers.begin(), fillers.end(), word.text) == fillers.end()) {
      left.push_back(word.text);
    }
  }
  return left;
}

std::string WordList::unused_source() const {
  std::string kept = source_;
  for (const Word& word : words_) {
    if (word.used)
      std::fill(kept.begin() + static_cast<std::ptrdiff_t>(word.begin),
                kept.begin() + static_cast<std::ptrdiff_t>(word.end), ' ');
  }
  std::string text;
  for (const char c : kept) {
    const bool space = is_space(c);
    const bool point = c == ',' || c == ';';
    if (space && (text.empty() || text.back() == ' ')) continue;
    // Commas that stood round what was taken out would stand alone now.
    if (point && !text.empty() && text.back() == ' ') text.pop_back();
    if (point && (text.empty() || text.back() == ',')) continue;
    text += space ? ' ' : c;
  }
  const auto edge = [](char c) { return c == ' ' || c == ',' || c == ':' || c == ';' || c == '.'; };
  while (!text.empty() && edge(text.back()))
    text.pop_back();
  std::size_t first = 0;
  while (first < text.size() && edge(text[first]))
    ++first;
  return text.substr(first);
}

std::string without_lead(std::string text, std::initializer_list<std::string_view> leads) {
  for (const std::string_view lead : leads) {
    if (text.size() > lead.size() && std::string_view(text).substr(0, lead.size()) == lead &&
        text[lead.size()] == ' ') {
      return text.substr(lead.size() + 1);
    }
  }
  return text;
}

}  // namespace weatherstruck::works
