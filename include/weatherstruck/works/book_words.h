#pragma once
// Dictated plain text into entries of the site book: "did 3 courses on the bed, stood down 2 to 3:30, rain".
// Every word must find its place; what leaves a word over, or could mean two things, comes back as a
// question. Nothing read here counts before it was shown back and agreed to.
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

struct Understood {
  What what;
  base::Instant at;
  double confidence = 1;  ///< 1: every word as it is known; less for a word put right or a time reckoned; > 0
  std::string sentence;   ///< shows it back: "... 3 courses done at 16:10. Right?"
  bool dated = true;      ///< false: no clock time was said for it, or none for its end; `now` stands in
  bool again = false;     ///< "again", "another", "more": another one beside one that reads the same
};
/// More than one thing could be meant, or something is missing.
struct Question {
  std::string text;
  std::vector<std::string> candidates;  ///< each of them will do for an Answer; may be empty
  /// What could be settled by how the job stood then: which task, or with which cover.
  enum class About { other, task, cover };
  About about = About::other;
  base::Instant at{};              ///< of a task or a cover: when it was
  Name part{};                     ///< of a cover: what was covered
  std::optional<Amount> amount{};  ///< of a task: what was said to be done of it
};
struct NotUnderstood {
  std::string text;                  ///< what was not followed, and a form that would be
  std::vector<std::string> nearest;  ///< tasks, parts or materials that share most words; at most four
};
using Reading = std::variant<Understood, Question, NotUnderstood>;

/// One piece of what was said, and what it came to.
struct Heard {
  std::string words;
  Reading reading;
  std::size_t piece = 0;  ///< of the text, from 0; two readings may come of one piece
};

/// To a question that a piece of these words raised: one of its candidates.
struct Answer {
  std::string words;
  std::string choice;
};
/// When hands were last on a piece of the job.
struct WorkedOn {
  base::Instant at;
  Name part;  ///< as written in the job
};

/// What the reader must know beside the job.
struct Surroundings {
  base::Instant now;
  base::Currency currency;  ///< of an amount of money without one
  std::vector<Answer> answers{};
  std::vector<WorkedOn>
      worked{};  ///< by the book, rising: what "it" is where the text has not named anything
};

/// Reads for one job. Holds references: the job and the list must outlive it.
class BookWords {
 public:
  BookWords(const Job& job, const TaskList& tasks);

  /// Pieces are parted by line breaks, semicolons, full stops, and by "and", "then" or a comma before a word
  /// that opens one ("began", "did", "covered", "gauge", "3 courses", ...). A piece may lean on those before
  /// it: "it" is the work or the part named last, and a stand-down without its beginning began at the time
  /// said last. Where the piece leant on was not understood, that is asked. Times are the site's; without one
  /// it is now. "at 8" is the latest 8 o'clock of today (else yesterday) that is past and, for work, within
  /// the working day; two of them are asked about. Any bytes are taken; never throws on them.
  [[nodiscard]] std::vector<Heard> read(std::string_view text, const Surroundings& around) const;

 private:
  const Job& job_;
  const TaskList& tasks_;
};

/// The exact forms of commands: "all", "3 courses", "0.4 m3", "60 %", "half". nullopt for anything else.
[[nodiscard]] std::optional<Amount> parse_amount(std::string_view text);

}  // namespace weatherstruck::works
