#include "weatherstruck/works/book_words.h"

#include <algorithm>
#include <utility>

#include "weatherstruck/works/amount_words.h"
#include "weatherstruck/works/clause_reader.h"
#include "weatherstruck/works/name_words.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t longest_read = 20000;  ///< bytes: nobody dictates more at once

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

bool keeps_text(const WordList& words, std::size_t i) {
  return words.is(i, {"note", "extra"});
}

/// Pieces of one line. What follows "note" or "extra" is kept whole.
void split_line(std::string_view line, std::vector<std::string>& pieces) {
  line = trimmed(line);
  if (line.empty()) return;
  const WordList words(line);
  std::size_t begin = 0;
  const auto cut = [&](std::size_t end, std::size_t next) {
    const std::string_view piece = trimmed(line.substr(begin, end - begin));
    if (!piece.empty()) pieces.emplace_back(piece);
    begin = next;
  };
  bool kept = words.size() > 0 && keeps_text(words, 0);
  for (std::size_t i = 1; i < words.size() && !kept; ++i) {
    const std::string_view between =
        line.substr(words.at(i - 1).end, words.at(i).begin - words.at(i - 1).end);
    const bool stop =
        between.find('.') != std::string_view::npos && between.find(' ') != std::string_view::npos;
    if (stop || words.is(i - 1, {";"})) {
      cut(words.at(i - 1).end, words.at(i).begin);
      kept = keeps_text(words, i);
      continue;
    }
    const bool verb =
        words.is(i, {"began", "started", "did", "finished", "covered", "uncovered", "stood", "spent", "paid",
                     "counted", "note", "extra", "canopy", "took", "pitched", "moved"}) ||
        is_past_of_work(words.text(i));
    if (!verb || !words.is(i - 1, {"and", "then", ","})) continue;
    std::size_t link = i - 1;
    while (link > 0 && words.is(link - 1, {"and", "then", ","}))
      --link;
    if (words.at(link).begin < begin) continue;
    cut(words.at(link).begin, words.at(i).begin);
    kept = keeps_text(words, i);
  }
  cut(line.size(), line.size());
}

/// "p.m." is "pm".
std::string plain_halves(std::string text) {
  for (const std::string_view half : {"a.m.", "p.m.", "A.M.", "P.M."}) {
    for (std::size_t at = text.find(half); at != std::string::npos; at = text.find(half, at + 1))
      text.replace(at, half.size(), {half[0], half[2]});
  }
  return text;
}

}  // namespace

BookWords::BookWords(const Job& job, const TaskList& tasks) : job_(job), tasks_(tasks) {}

std::vector<Heard> BookWords::read(std::string_view text, const Surroundings& around) const {
  if (text.size() > longest_read) {
    return {{"", NotUnderstood{"That is " + std::to_string(text.size()) + " bytes; send at most " +
                                   std::to_string(longest_read) + " at once.",
                               {}}}};
  }
  const NameWords names(job_, tasks_);
  std::vector<std::string> pieces;
  const std::string plain = plain_halves(std::string(text));
  std::size_t begin = 0;
  while (begin <= plain.size()) {
    const std::size_t end = std::min(plain.find('\n', begin), plain.size());
    split_line(std::string_view(plain).substr(begin, end - begin), pieces);
    begin = end + 1;
  }
  std::vector<Heard> heard;
  for (const std::string& piece : pieces) {
    for (Reading& reading : ClauseReader(job_, tasks_, names, around, piece).read()) {
      // What an entry may not hold is not understood, however well it parsed.
      if (const auto* good = std::get_if<Understood>(&reading)) {
        const base::Faults faults = faults_of({"read", good->what, good->at, around.now, std::nullopt});
        if (!faults.empty()) reading = NotUnderstood{base::to_text(faults.front()), {}};
      }
      heard.push_back({piece, std::move(reading)});
    }
  }
  return heard;
}

std::optional<Amount> parse_amount(std::string_view text) {
  WordList words(text);
  const auto amount = take_amount(words);
  return amount && words.left_over().empty() ? amount : std::nullopt;
}

}  // namespace weatherstruck::works
