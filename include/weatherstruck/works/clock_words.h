#pragma once
// Times as they are spoken of, against a known now: "at 8", "half past four yesterday", "2 to 3:30". For this
// floor only.
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {

/// A time that could be two, or none that has been.
struct ClockDoubt {
  std::string text;
  std::vector<std::string> candidates;
  std::vector<std::pair<base::Instant, base::Instant>>
      meant{};  ///< by each: from, to; the same of one moment
};

/// One moment with how sure it is, 0..1.
struct ClockRead {
  base::Instant at;
  double confidence = 1;
  bool said = true;  ///< false: now, since no clock time was said
};

/// What a clause says of the time, each word of it used up.
struct ClockTimes {
  std::optional<std::variant<ClockRead, ClockDoubt>> at;     ///< "at 8", "by 4", "yesterday at noon"
  std::optional<std::variant<ClockRead, ClockDoubt>> since;  ///< "since six"
  std::optional<std::variant<std::pair<ClockRead, ClockRead>, ClockDoubt>>
      span;                                                  ///< "2 to 3:30", "from 8 till 10"
  std::optional<std::variant<ClockRead, ClockDoubt>> until;  ///< "till four"
  bool by = false;  ///< `at` came with "by", or there is an `until`: what it dates is over by then
};

enum class ClockUse { work, weather };

class ClockReader {
 public:
  ClockReader(const Job& job, base::Instant now);
  /// Takes the times out of a clause. Only words after "at", "by", "since", "from" and the like, spans, and
  /// "half three" or "quarter past two" are times; a bare number is not.
  [[nodiscard]] ClockTimes take(WordList& words, ClockUse use) const;
  [[nodiscard]] base::Instant now() const { return now_; }

 private:
  using Span = std::pair<base::Instant, base::Instant>;
  enum class Half { unsaid, morning, afternoon, evening };
  /// What is said of the day in the clause.
  struct DayWords {
    std::optional<base::LocalDay> day;
    Half half = Half::unsaid;
    bool said = false;
  };
  /// What is said of the clock.
  struct Spoken {
    std::optional<base::Instant> exact;
    std::vector<int> minutes;  ///< of the day; two where the half of the day is not said
    std::size_t next = 0;      ///< word after it
    std::string words;
    std::optional<base::LocalMeaning> of_date;  ///< of a full date and time
  };

  [[nodiscard]] DayWords take_day(WordList& words) const;
  [[nodiscard]] std::optional<Spoken> clock_at(const WordList& words, std::size_t i) const;
  [[nodiscard]] std::optional<Spoken> bare_clock_at(const WordList& words, std::size_t i) const;
  [[nodiscard]] std::vector<base::Instant> moments(const Spoken& spoken, const DayWords& day) const;
  [[nodiscard]] bool in_working_day(base::Instant t) const;
  [[nodiscard]] std::variant<ClockRead, ClockDoubt> resolve(const Spoken& spoken, const DayWords& day,
                                                            ClockUse use, bool since = false) const;
  [[nodiscard]] std::variant<std::pair<ClockRead, ClockRead>, ClockDoubt> resolve_span(const Spoken& from,
                                                                                       const Spoken& to,
                                                                                       const DayWords& day,
                                                                                       ClockUse use) const;
  [[nodiscard]] ClockDoubt doubt(const std::string& words, const std::vector<Span>& which) const;

  const Job& job_;
  base::Instant now_;
};

}  // namespace weatherstruck::works
