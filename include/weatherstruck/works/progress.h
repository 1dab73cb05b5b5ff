#pragma once
// How the job stands by its site book: what of each task is done and how long it took, what is covered, what
// is left of the stock, how footings step by the levels read. A fold of the entries that count; it judges no
// weather and plans nothing.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

/// A stretch of hands on one task, from its begin to the entry that ended it.
struct Run {
  base::Instant from;
  base::Instant to;    ///< `now` while it lasts
  bool open = false;   ///< still at it
  base::Hours worked;  ///< person-hours; standing down counts nothing
  friend bool operator==(const Run&, const Run&) = default;
};

struct TaskProgress {
  Name task;
  double amount = 0;                      ///< of the whole, in the task's unit
  double done = 0;                        ///< 0..amount
  int courses_done = 0;                   ///< whole ones; 0 for a task that is not in courses
  std::optional<base::Instant> begun;     ///< first begin, or first done where no begin is in the book
  std::optional<base::Instant> finished;  ///< when `done` reached `amount`
  /// The book does not say that it was finished: work that stands on it was begun, so it was, at the latest
  /// at `finished`. Its `begun` is then the same moment unless the book has one.
  bool taken = false;
  std::vector<Run> runs;  ///< in order; work done without a begin has none
  base::Hours worked{0};  ///< person-hours of all runs
  /// The way by which it must have gone, since work that exists only then was logged.
  std::optional<std::string> way;
  [[nodiscard]] double share() const { return amount > 0 ? done / amount : (finished ? 1.0 : 0.0); }
  friend bool operator==(const TaskProgress&, const TaskProgress&) = default;
};

/// A cover on a part, or the canopy over it.
struct Cover {
  Name part;
  trade::CoverKind kind = trade::CoverKind::hessian;
  base::Instant from;
  std::optional<base::Instant> to;  ///< nullopt: on now
  friend bool operator==(const Cover&, const Cover&) = default;
};

/// One material in its table's unit. Until it is counted nobody knows what the van held: no `left`, no
/// `short_by`.
struct Stock {
  std::string material;
  std::optional<double> counted;  ///< last count
  std::optional<base::Instant> counted_at;
  double arrived = 0;  ///< since the count
  double used = 0;     ///< since the count, by the draws of what was done
  std::optional<double> left;
  double needed = 0;               ///< for what remains
  std::optional<double> short_by;  ///< needed less left where that is positive, else 0
  friend bool operator==(const Stock&, const Stock&) = default;
};

/// A footing by the levels read beside it.
struct FootingRead {
  Name footing;
  std::vector<measure::Level> levels;
  measure::FootingPlan plan;  ///< its own faults and advice included
  int steps_before = 0;       ///< by the guessed fall
  int extra_before = 0;
};
/// A wall at the low end of its footing.
struct WallCourses {
  Name wall;
  int before = 0;  ///< by the guessed fall
  int now = 0;     ///< by the levels read
  friend bool operator==(const WallCourses&, const WallCourses&) = default;
};

struct StandDown {
  std::string cause;
  base::Instant from;
  base::Instant to;
  friend bool operator==(const StandDown&, const StandDown&) = default;
};
struct TemperatureRead {
  base::Instant at;
  base::Celsius air;
  friend bool operator==(const TemperatureRead&, const TemperatureRead&) = default;
};
struct RainRead {
  base::Instant from;
  base::Instant to;
  base::Millimetres rain;
  friend bool operator==(const RainRead&, const RainRead&) = default;
};
/// An entry with the moment it is dated.
template <class Kind>
struct Dated {
  base::Instant at;
  Kind what;
  friend bool operator==(const Dated&, const Dated&) = default;
};

/// Something to say or ask about an entry.
struct Remark {
  enum class Kind {
    fault,     ///< the entry counts for nothing until it is corrected
    question,  ///< must be answered by the mason; what was assumed is in the text
    advice
  };
  Kind kind = Kind::advice;
  std::string code;  ///< "more-than-there-is", "done-before-begun", "taken-as-done", ...
  EntryKey entry;
  std::string text;  ///< a sentence or two for people
  friend bool operator==(const Remark&, const Remark&) = default;
};

struct Progress {
  std::vector<TaskProgress> tasks;  ///< one for each of the list, in its order
  std::vector<Cover> covers;        ///< by beginning; canopy not among them
  std::vector<Cover> canopy;
  std::vector<Stock> stock;  ///< what tasks draw or the book names, in the order of the materials table
  std::vector<FootingRead> footings;
  std::vector<WallCourses> walls;  ///< on those footings
  std::vector<StandDown> stood_down;
  std::vector<TemperatureRead> temperatures;
  std::vector<RainRead> rain;
  std::vector<Dated<Expense>> expenses;
  std::vector<Dated<Extra>> extras;
  std::vector<Dated<Note>> notes;
  std::vector<Remark> remarks;  ///< in the order of the entries

  /// nullptr where the list had none of that name.
  [[nodiscard]] const TaskProgress* find(const Name& task) const;
  /// What lies on a part now; nullptr where nothing does.
  [[nodiscard]] const Cover* cover_on(const Name& part) const;
  /// nullptr while it is down.
  [[nodiscard]] const Cover* canopy_up() const;
  [[nodiscard]] const Stock* stock_of(const std::string& material) const;
};

/// How things stand at `now`; entries dated later are left out. With one person, beginning a task ends the
/// run of the one before; a crew's hours are shared evenly between the tasks open at a time. A run that
/// nothing ended is closed at the end of the working day, and asked about. Work without which that of the
/// book could not have been begun is taken as done (TaskProgress::taken).
/// @pre check(job) found no fault; `tasks` is derive_tasks(job)
[[nodiscard]] Progress progress_of(const Job& job, const TaskList& tasks, const Book& book,
                                   base::Instant now);

}  // namespace weatherstruck::works
