#include "weatherstruck/works/book_words.h"

#include <algorithm>
#include <utility>

#include "weatherstruck/works/amount_words.h"
#include "weatherstruck/works/clause_reader.h"
#include "weatherstruck/works/clause_split.h"
#include "weatherstruck/works/name_words.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t longest_read = 20000;  ///< bytes: nobody dictates more at once

bool all_understood(const std::vector<Reading>& readings) {
  return std::all_of(readings.begin(), readings.end(),
                     [](const Reading& reading) { return std::holds_alternative<Understood>(reading); });
}

/// Reads piece after piece, each in the light of those before.
class Pieces {
 public:
  Pieces(const Job& job, const TaskList& tasks, const Surroundings& around)
      : job_(job), tasks_(tasks), around_(around), names_(job, tasks) {}

  void read(const std::string& piece) {
    Read whole = one(piece);
    const std::vector<std::string> parts = split_further(piece);
    if (parts.size() < 2 || all_understood(whole.readings)) {
      take(piece, std::move(whole));
      return;
    }
    for (const std::string& part : parts)
      take(part, one(part));
  }

  std::vector<Heard> heard;

 private:
  struct Read {
    std::vector<Reading> readings;
    SaidBefore said;
  };

  [[nodiscard]] Read one(const std::string& piece) const {
    ClauseReader reader(job_, tasks_, names_, around_, piece, before_);
    Read read{reader.read(), {}};
    for (Reading& reading : read.readings) {
      // What an entry may not hold is not understood, however well it parsed.
      if (const auto* good = std::get_if<Understood>(&reading)) {
        const base::Faults faults = faults_of({"read", good->what, good->at, around_.now, std::nullopt});
        if (!faults.empty()) reading = NotUnderstood{base::to_text(faults.front()), {}};
      }
    }
    // Of a piece that says several things all are kept, or none.
    const auto doubt = std::find_if(read.readings.begin(), read.readings.end(), [](const Reading& reading) {
      return !std::holds_alternative<Understood>(reading);
    });
    if (doubt != read.readings.end()) read.readings = {*doubt};
    read.said = reader.said(read.readings);
    return read;
  }

  void take(const std::string& piece, Read read) {
    std::string words = piece;
    if (read.said.took_fall && !heard.empty()) {
      words = heard.back().words + ", " + piece;
      heard.pop_back();
      --next_;
    }
    for (Reading& reading : read.readings)
      heard.push_back({words, std::move(reading), next_});
    ++next_;
    before_ = std::move(read.said);
    before_.took_fall = false;
  }

  const Job& job_;
  const TaskList& tasks_;
  const Surroundings& around_;
  NameWords names_;
  SaidBefore before_;
  std::size_t next_ = 0;
};

}  // namespace

BookWords::BookWords(const Job& job, const TaskList& tasks) : job_(job), tasks_(tasks) {}

std::vector<Heard> BookWords::read(std::string_view text, const Surroundings& around) const {
  if (text.size() > longest_read) {
    return {{"", NotUnderstood{"That is " + std::to_string(text.size()) + " bytes; send at most " +
                                   std::to_string(longest_read) + " at once.",
                               {}}}};
  }
  std::vector<std::string> pieces = split_pieces(text);
  // "Stood down till four, rained at two" is the same the other way round.
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    const bool after_rain = i > 0 && tells_what_fell(pieces[i - 1]);
    if (!after_rain && tells_of_standing_down(pieces[i]) && tells_what_fell(pieces[i + 1])) {
      std::swap(pieces[i], pieces[i + 1]);
      ++i;
    }
  }
  Pieces reader(job_, tasks_, around);
  for (const std::string& piece : pieces)
    reader.read(piece);
  return std::move(reader.heard);
}

std::optional<Amount> parse_amount(std::string_view text) {
  WordList words(text);
  const auto amount = take_amount(words);
  return amount && words.left_over().empty() ? amount : std::nullopt;
}

}  // namespace weatherstruck::works
