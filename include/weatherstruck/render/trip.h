#pragma once
// A plan cut into the days of the trip: what every sheet about the plan starts from.
#include <string>
#include <vector>

#include "weatherstruck/programme/damage.h"
#include "weatherstruck/programme/moves.h"
#include "weatherstruck/programme/outlook.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/programme/turns.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::render {

/// What the sheets look at. All of it outlives the call.
struct TripFacts {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& series;
  const trade::LimitValues& limits;
  const programme::Plan& plan;
  base::Instant now;
  std::vector<std::string> remarks;  ///< sentences to stand beside the plan's own assumptions
  bool sound = true;                 ///< no checker objects; a plan that is not is headed so on every sheet
  const works::Progress* progress = nullptr;    ///< how things stand by the site book; nullptr: there is none
  const programme::Plan* before = nullptr;      ///< the plan of the day before; nullptr: none to set beside
  std::vector<programme::Verdict> verdicts{};   ///< what the night did to fresh work
  std::vector<programme::Move> moves{};         ///< from `before` to `plan`
  std::vector<programme::Turn> turns{};         ///< of the day that is looked at
  const programme::Outlook* outlook = nullptr;  ///< of the plan; nullptr: it was not followed through
};

/// One task on one day.
struct DayTask {
  char letter = '?';                        ///< a, b, ... by start within the day; after z come A, B, ...
  std::size_t task = 0;                     ///< in the list
  std::vector<programme::PlannedRun> runs;  ///< clipped to the day; at least one
  bool begun_before = false;                ///< on an earlier day
  bool goes_on = false;                     ///< on a later day
  double share = 0;                         ///< of the amount, done this day
  int courses_after = 0;                    ///< standing at the end of the day; 0 where not in courses
  [[nodiscard]] base::Instant start() const { return runs.front().span.from; }
  [[nodiscard]] base::Instant finish() const { return runs.back().span.to; }
};

struct TripDay {
  base::LocalDay day;
  int number = 0;              ///< from 1
  programme::Span span;        ///< the local day
  std::vector<DayTask> tasks;  ///< by start
};

/// Every local day from leaving home (or the first work) to being home (or the last).
[[nodiscard]] std::vector<TripDay> trip_days(const TripFacts& facts);

/// "tue-c" names the task of that letter on that day; also a task's name. nullopt where it is neither, or
/// where more than one day of the trip is a Tuesday.
[[nodiscard]] std::optional<std::size_t> find_task(const TripFacts& facts, std::string_view words);

/// "to course 5 of 9", "the rest", "first part"; empty where the whole task is done in the day.
[[nodiscard]] std::string portion(const TripFacts& facts, const DayTask& task);
/// "07:45-09:00", one for each stretch, to the quarter; stretches with less than a quarter between them are
/// one.
[[nodiscard]] std::vector<std::string> hours_of(const TripFacts& facts, const DayTask& task);
/// Title, what of it is done that day, its later stretches, and canopy, lights or missing forecast.
[[nodiscard]] std::string words_for(const TripFacts& facts, const DayTask& task);

/// The same without the sizes in brackets behind the title, where they do not fit into so many columns.
[[nodiscard]] std::string words_in(const TripFacts& facts, const DayTask& task, std::size_t columns);

/// What must be left alone in the working hours of a day, a sentence for each way to tell that it is over:
/// "all four footings of the shelter until tomorrow morning (a boot heel leaves no mark)"; where there is
/// none, for each kind of work that it waits for: "the brickwork of the shelter until Thu morning, then
/// backfill".
/// @param fresh_only only what is left that day
[[nodiscard]] std::vector<std::string> left_alone(const TripFacts& facts, const TripDay& day,
                                                  bool fresh_only);
/// "about 17:30", "about 09:00 tomorrow"; outside the working day the morning after: "tomorrow morning", "Thu
/// morning".
[[nodiscard]] std::string until_when(const works::Job& job, base::LocalDay today, base::Instant t);
/// A name that stands where words should: "bed-footing" becomes "bed footing".
[[nodiscard]] std::string spoken(const std::string& words);
/// What heads a sheet whose plan fails its check; empty where it is sound.
[[nodiscard]] std::string warning(const TripFacts& facts);

[[nodiscard]] std::string_view test_for(works::Wait wait);  ///< how to tell that a wait is over; may be empty

}  // namespace weatherstruck::render
