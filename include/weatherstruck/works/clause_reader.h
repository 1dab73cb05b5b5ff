#pragma once
// One piece of dictated text into a reading: which kind of entry it is, and its fields. For this floor only.
#include <cstddef>
#include <optional>
#include <set>
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

/// What a piece may lean on: said by those before it.
struct SaidBefore {
  std::optional<Name> task;           ///< named last
  std::optional<Name> part;           ///< as written in the job: worked on or covered last
  std::optional<base::Instant> time;  ///< of the clock, said last
  std::optional<base::Instant> until;
  std::string cause;       ///< what fell then: "rain"
  bool only_fell = false;  ///< the last piece said that and no more
  bool took_fall = false;  ///< a stand-down that says all of that: the two are one
  bool lost = false;       ///< the last piece that could have named something was not understood
};

class ClauseReader {
 public:
  ClauseReader(const Job& job, const TaskList& tasks, const NameWords& names, const Surroundings& around,
               std::string_view clause, SaidBefore before = {});
  /// Mostly one; two where a piece says when work was begun and when it was done, more for "the trenches".
  [[nodiscard]] std::vector<Reading> read();
  /// After read(): what the next piece may lean on.
  [[nodiscard]] SaidBefore said(const std::vector<Reading>& readings) const;

 private:
  // Words that are kept as they are written.
  [[nodiscard]] Reading note();
  [[nodiscard]] Reading extra();
  [[nodiscard]] Reading expense();
  // The weather, and what it stopped.
  [[nodiscard]] std::optional<std::size_t> fallen() const;
  [[nodiscard]] Reading fell();
  [[nodiscard]] std::optional<std::size_t> stands_down() const;
  [[nodiscard]] Reading stood_down();
  [[nodiscard]] Reading gauge();
  [[nodiscard]] bool is_thermometer() const;
  [[nodiscard]] Reading thermometer();
  // What is counted or levelled.
  [[nodiscard]] bool is_left_over() const;
  [[nodiscard]] Reading stock(bool arrived);
  [[nodiscard]] Reading level();
  // Work and covers.
  [[nodiscard]] Reading canopy();
  [[nodiscard]] Reading cover(bool off);
  [[nodiscard]] std::variant<Name, Reading> covered_part(bool off, base::Instant at);
  [[nodiscard]] std::variant<trade::CoverKind, Reading> cover_in_kit(const Name& part, base::Instant at);
  [[nodiscard]] Reading begin();
  [[nodiscard]] std::vector<Reading> done();
  [[nodiscard]] std::vector<Reading> done_of(const Name& name, const Amount& amount);
  [[nodiscard]] Reading begun_of(const NameMatch& match);
  [[nodiscard]] std::variant<Name, Reading> same_task(const std::vector<std::string>& left,
                                                      const std::set<Name>& allowed);
  [[nodiscard]] std::optional<Reading> unknown_place(const std::vector<std::string>& left,
                                                     const std::set<Name>& allowed) const;

  [[nodiscard]] std::optional<trade::CoverKind> take_cover_kind();
  /// Takes note of "again", "another" and "more", and takes them out where they would be taken for a name.
  void take_again();
  /// The text from word i to the next comma, used word or end; its words are used.
  [[nodiscard]] std::string take_text(std::size_t i);
  enum class Until { is_when, its_own };
  /// Times into `times_`, doubts settled by answers. "till 4" alone is when it was, unless it is its own.
  void take_times(ClockUse use, Until until = Until::is_when);
  /// The time of the entry: `times_.at`, else now; a doubt becomes a question.
  [[nodiscard]] std::variant<ClockRead, Reading> moment();
  /// The same for a question: a doubt is now.
  [[nodiscard]] base::Instant about_when() const;
  [[nodiscard]] static Question asked(const ClockDoubt& doubt) { return {doubt.text, doubt.candidates}; }
  /// "at TIME" that ends the clause, for text that may hold other times.
  void take_last_time();
  /// Which of the candidates was answered.
  [[nodiscard]] std::optional<std::size_t> answered(const std::vector<std::string>& candidates) const;
  /// One name, or the question or refusal that is due.
  [[nodiscard]] std::variant<Name, Reading> one_of(const NameMatch& match, const std::string& what);
  [[nodiscard]] std::vector<std::string> parts_written() const;
  /// Understood if no word is left over.
  [[nodiscard]] Reading settled(What what, ClockRead at);
  [[nodiscard]] Reading understood(What what, ClockRead at) const;
  [[nodiscard]] Reading not_followed(std::vector<std::string> nearest = {}) const;
  /// A form that would be followed, in names of this job.
  [[nodiscard]] std::string example() const;

  const Job& job_;
  const TaskList& tasks_;
  const NameWords& names_;
  const Surroundings& around_;
  ClockReader clock_;
  WordList words_;
  SaidBefore before_;
  SaidBefore said_;
  std::vector<std::string> answers_;
  ClockTimes times_;
  std::optional<Amount> amount_;  ///< of work
  double confidence_ = 1;
  bool again_ = false;       ///< said to be another one
  bool until_now_ = false;   ///< its end was not said
  bool says_which_ = true;   ///< of the work, not only of the part: "bed finished" does not
  bool names_work_ = false;  ///< a task or a part belongs in it
};

}  // namespace weatherstruck::works
