#pragma once
// One piece of dictated text into a reading: which kind of entry it is, and its fields. For this floor only.
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/works/amount_words.h"
#include "weatherstruck/works/book_words.h"
#include "weatherstruck/works/clock_words.h"
#include "weatherstruck/works/name_words.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {

class ClauseReader {
 public:
  ClauseReader(const Job& job, const TaskList& tasks, const NameWords& names, const Surroundings& around,
               std::string_view clause);
  /// Mostly one; two where a piece says when work was begun and when it was done.
  [[nodiscard]] std::vector<Reading> read();

 private:
  // Words that are kept as they are written.
  [[nodiscard]] Reading note();
  [[nodiscard]] Reading extra();
  [[nodiscard]] Reading expense();
  [[nodiscard]] Reading stood_down();
  // What is counted or read off.
  [[nodiscard]] Reading stock(bool arrived);
  [[nodiscard]] Reading gauge();
  [[nodiscard]] Reading thermometer();
  [[nodiscard]] Reading level();
  // Work and covers.
  [[nodiscard]] Reading canopy();
  [[nodiscard]] Reading cover(bool off);
  [[nodiscard]] Reading begin();
  [[nodiscard]] std::vector<Reading> done();

  [[nodiscard]] bool is_thermometer() const;
  [[nodiscard]] std::optional<trade::CoverKind> take_cover_kind();
  /// The text from word i to the next comma, used word or end; its words are used.
  [[nodiscard]] std::string take_text(std::size_t i);
  /// The time of the entry: `times_.at`, else now; a doubt becomes a question.
  [[nodiscard]] std::variant<ClockRead, Reading> moment();
  /// Takes note of "again", "another" and "more", and takes them out where they would be taken for a name.
  void take_again();
  /// "at TIME" that ends the clause, for text that may hold other times.
  void take_last_time();
  /// One name, or the question or refusal that is due.
  [[nodiscard]] std::variant<Name, Reading> one_of(const NameMatch& match, const std::string& what);
  /// Understood if no word is left over.
  [[nodiscard]] Reading settled(What what, ClockRead at);
  [[nodiscard]] Reading understood(What what, ClockRead at) const;
  [[nodiscard]] Reading not_followed(std::vector<std::string> nearest = {}) const;

  const Job& job_;
  const TaskList& tasks_;
  const NameWords& names_;
  const Surroundings& around_;
  ClockReader clock_;
  WordList words_;
  ClockTimes times_;
  double confidence_ = 1;
  bool again_ = false;      ///< said to be another one
  bool until_now_ = false;  ///< its end was not said
};

}  // namespace weatherstruck::works
