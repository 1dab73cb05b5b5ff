#pragma once
// Learning his pace from the site book: what was timed on past jobs, and what follows for the next.
//
// The rule is Bayes' with normal distributions (Gelman et al., Bayesian Data Analysis, 3rd ed., 2.5 and 5.4:
// normal data with known variance, in groups). The logarithm of his hours against the norm's is normal about
// his own mean m; m about what the job gives as his pace; each job strays from m, each task from its job
// (trade::PaceSpread has the deviations). So of n tasks of one job with mean y, y is normal about m with
// variance trip^2 + task^2 / n, and of all jobs
//   1 / sure^2 = 1 / known^2 + sum of 1 / (trip^2 + task^2 / n)
//   m = sure^2 * (prior / known^2 + sum of y / (trip^2 + task^2 / n)).
// The next task strays by the root of sure^2 + trip^2 + task^2. It hangs on the entries that count, not on
// the order in which they came.
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// A task whose hours and amount are both in the book.
struct TimedWork {
  Name job;
  Name task;
  Name person;
  trade::Operation operation = trade::Operation::other;
  double amount = 0;   ///< done, in the task's unit
  std::string unit;    ///< of the task
  base::Hours norm;    ///< person-hours by the norm at pace 1, with one set-up for each start; > 0
  base::Hours worked;  ///< person-hours logged, breaks and standing down not counted; > 0
  base::Instant at;    ///< when the last of it was logged as done
  friend bool operator==(const TimedWork&, const TimedWork&) = default;
};

/// Those of one job that one person did alone, since nobody logs whose hours those of a crew were. Left out:
/// driving and fetching, work written by hand into the job, what was under a quarter of an hour, and every
/// task of which some part has no hours, whose end was guessed or about which something is asked. By the
/// norms of the tables, whatever the job sets. In the order of the list.
/// @pre check(job) found no fault
[[nodiscard]] std::vector<TimedWork> timed_work(const Job& job, const Book& book, base::Instant now);

/// Forget what came before.
struct PaceStart {
  std::string work;    ///< key of the operation; empty: all
  base::Instant from;  ///< what is dated before counts no more
  friend bool operator==(const PaceStart&, const PaceStart&) = default;
};

struct LearntPace {
  trade::Operation operation = trade::Operation::other;
  int entries = 0;   ///< tasks that count
  int jobs = 0;      ///< on which they were
  int slips = 0;     ///< left out: under half the quickest or over twice the slowest that was seen
  double times = 1;  ///< his hours against the norm's at pace 1
  double sure = 0;   ///< deviation of the logarithm of that
  double sigma = 0;  ///< deviation of the logarithm of a task's hours about it
  friend bool operator==(const LearntPace&, const LearntPace&) = default;
};

/// In the order of the operations, those with an entry that counts or a slip.
/// @param stated his pace as the job or he himself gives it: what is believed before anything is logged
/// @param before only what was done before that moment counts
[[nodiscard]] std::vector<LearntPace> learn_paces(std::vector<TimedWork> timed,
                                                  std::span<const PaceStart> starts, const Name& person,
                                                  double stated, base::Instant before);

/// What he gets done in an hour by himself, in the unit of the operation's row; where that is told by the
/// hour.
struct PaceFigures {
  double norm = 0;
  double own = 0;
  double low = 0;  ///< `low` and `high` hold eight in ten of the tasks to come
  double high = 0;
};
[[nodiscard]] PaceFigures pace_figures(const LearntPace& learnt);

/// Into practice.own_pace, for a job that one person does; where limits.overrides sets the hours of a kind of
/// work, that stands.
void put_own_pace(Job& job, std::span<const LearntPace> learnt);

}  // namespace weatherstruck::works
