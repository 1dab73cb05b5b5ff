#include "weatherstruck/works/clause_split.h"

#include <algorithm>

#include "weatherstruck/works/name_words.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {
namespace {

std::string_view trimmed(std::string_view text) {
  const auto edge = [](char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == ',' || c == '.' || c == ';';
  };
  while (!text.empty() && edge(text.back()))
    text.remove_suffix(1);
  while (!text.empty() && (edge(text.front()) || text.front() == '*'))
    text.remove_prefix(1);
  // A dash that opens a line of a list; one that opens a number is a minus.
  if (text.size() > 1 && text[0] == '-' && text[1] == ' ') return trimmed(text.substr(1));
  return text;
}

/// "p.m." is "pm".
std::string plain_halves(std::string text) {
  for (const std::string_view half : {"a.m.", "p.m.", "A.M.", "P.M."}) {
    for (std::size_t at = text.find(half); at != std::string::npos; at = text.find(half, at + 1))
      text.replace(at, half.size(), {half[0], half[2]});
  }
  return text;
}

bool is_link(const WordList& words, std::size_t i) {
  return words.is(i, {"and", "then", ","});
}

/// Whether one of these stands in what begins at i, before the next link.
bool holds(const WordList& words, std::size_t i, std::initializer_list<std::string_view> any) {
  for (std::size_t k = i; k < words.size() && !is_link(words, k) && !words.is(k, {";"}); ++k) {
    if (words.is(k, any)) return true;
  }
  return false;
}

bool falls(const WordList& words, std::size_t i) {
  if (words.is(i, {"rained", "hailed", "snowed"})) return true;
  return words.is(i, {"rain", "hail", "snow", "sleet", "raining", "hailing", "snowing"}) &&
         words.is(i + 1, {"at", "from", "since", "about", "till", "until", "between", "off", "began",
                          "started", "came", "again"});
}

bool surely_opens(const WordList& words, std::size_t i) {
  return words.is(i,
                  {"began", "started", "resumed", "did", "finished", "covered", "uncovered", "stood", "spent",
                   "paid", "bought", "counted", "note", "extra", "canopy", "took", "pitched", "moved"}) ||
         (words.is(i, {"set"}) && words.is(i + 1, {"out"})) || is_past_of_work(words.text(i)) ||
         words.is(i, {"rained", "hailed", "snowed"});
}

/// What opens a piece in most texts, though in some it goes on with the one before. `degrees`: that one
/// reads a thermometer.
bool may_open(const WordList& words, std::size_t i, bool degrees) {
  if (falls(words, i) || (words.is(i, {"it"}) && falls(words, i + 1))) return true;
  if (words.is(i, {"gauge", "thermometer", "temperature", "level", "levels"})) return true;
  if (words.is(i, {"minus", "-"}) && words.number(i + 1))
    return !degrees && !words.is(i + 2, {"m", "mm", "cm", "metre", "metres", "millimetres"});
  if (words.is(i, {"another"}) || (words.is(i, {"half"}) && words.is(i + 1, {"of", "the"}))) return true;
  if (words.is(i, {"no"}) && holds(words, i, {"left", "remaining"})) return true;
  if (words.is(i, {"a"}) && words.is(i + 1, {"course", "couple"})) return true;
  if (!words.number(i)) return false;
  const std::size_t next = words.is(i + 1, {"more"}) ? i + 2 : i + 1;
  if (words.is(next, {"course", "courses", "%", "percent", "quarters", "thirds"})) return true;
  if (words.is(next, {"degrees", "c"})) return !degrees;
  if (words.is(next, {"mm"}) && holds(words, i, {"since", "from", "rain"})) return true;
  return holds(words, i, {"left", "remaining", "delivered", "arrived", "came"});
}

/// A piece whose free text would swallow what follows.
bool takes_anything(const WordList& words, std::size_t begin) {
  return words.is(begin, {"stood", "rained", "hailed", "snowed", "spent", "paid", "bought", "expense"});
}

enum class Also { what_surely_opens, what_may_open };

void cut_line(std::string_view line, Also also, std::vector<std::string>& pieces) {
  line = trimmed(line);
  if (line.empty()) return;
  const WordList words(line);
  std::size_t begin = 0;
  std::size_t first = 0;  // word
  const auto cut = [&](std::size_t end, std::size_t next, std::size_t next_word) {
    const std::string_view piece = trimmed(line.substr(begin, end - begin));
    if (!piece.empty()) pieces.emplace_back(piece);
    begin = next;
    first = next_word;
  };
  for (std::size_t i = 1; i < words.size(); ++i) {
    const std::string_view between =
        line.substr(words.at(i - 1).end, words.at(i).begin - words.at(i - 1).end);
    const bool stop =
        between.find('.') != std::string_view::npos && between.find(' ') != std::string_view::npos;
    const bool semicolon = words.is(i - 1, {";"});
    const bool note = words.is(first, {"note"});
    if (note || words.is(first, {"extra"})) {
      const bool other = words.is(i, {"note", "extra"}) && (semicolon || words.is(i + 1, {":"}));
      if ((semicolon && !note) || ((semicolon || stop) && other))
        cut(words.at(i - 1).end, words.at(i).begin, i);
      continue;
    }
    if (stop || semicolon) {
      cut(words.at(i - 1).end, words.at(i).begin, i);
      continue;
    }
    if (!is_link(words, i - 1)) continue;
    const bool degrees = words.is(first, {"thermometer", "temperature"});
    const bool may = also == Also::what_may_open || takes_anything(words, first);
    if (!surely_opens(words, i) && !(may && may_open(words, i, degrees))) continue;
    std::size_t link = i - 1;
    while (link > 0 && is_link(words, link - 1))
      --link;
    if (words.at(link).begin < begin) continue;
    cut(words.at(link).begin, words.at(i).begin, i);
  }
  cut(line.size(), line.size(), words.size());
}

}  // namespace

std::vector<std::string> split_pieces(std::string_view text) {
  std::vector<std::string> pieces;
  const std::string plain = plain_halves(std::string(text));
  std::size_t begin = 0;
  while (begin <= plain.size()) {
    const std::size_t end = std::min(plain.find('\n', begin), plain.size());
    cut_line(std::string_view(plain).substr(begin, end - begin), Also::what_surely_opens, pieces);
    begin = end + 1;
  }
  return pieces;
}

std::vector<std::string> split_further(std::string_view piece) {
  std::vector<std::string> pieces;
  cut_line(piece, Also::what_may_open, pieces);
  return pieces;
}

bool tells_what_fell(std::string_view piece) {
  const WordList words(piece);
  return falls(words, 0) || (words.is(0, {"it"}) && falls(words, 1));
}

bool tells_of_standing_down(std::string_view piece) {
  const WordList words(piece);
  return words.is(0, {"stood"}) && words.is(1, {"down"});
}

}  // namespace weatherstruck::works
