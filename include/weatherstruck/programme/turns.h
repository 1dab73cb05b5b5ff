#pragma once
// The turns that a day may take against the plan, and what to do then: the day is scheduled again from the
// hour of the turn, with the work done until then, and read for what differs. Said by the hour or by what is
// seen, so that it stays good all day.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct Turn {
  enum class Kind {
    rain,         ///< steady rain from `at` until `until`
    overrun,      ///< `task` is not done at `at`, when it should be: it takes a third longer
    canopy_down,  ///< gusts above the canopy's limit from `at` to the end of the working day
    short_of,     ///< `material` for `task` runs out: the merchant has to be visited at `at`
    frost         ///< the night is colder than forecast by `colder`
  };
  /// Work on the day of the turn, from `at` on.
  struct Deed {
    works::Name task;
    Span span;  ///< first start .. last finish of it that day
    bool under_canopy = false;
    bool finished = false;  ///< the whole task
    int courses_after = 0;  ///< as in PlannedRun
  };
  Kind kind{};
  base::Instant at;     ///< a whole hour; overrun and frost: when it shows
  base::Instant until;  ///< rain, canopy_down
  base::MillimetresPerHour rain{0};
  base::Kelvins colder{0};
  std::optional<base::Celsius> low;   ///< frost: the coldest that the night then is
  works::Name task;                   ///< empty where the turn is not about one
  std::string material;               ///< key of the materials table; likewise
  std::vector<works::Name> stops;     ///< that less is done of today than planned, by their planned start
  std::vector<Deed> then;             ///< by start
  std::vector<PlannedCover> covers;   ///< put on from `at` on, sooner or otherwise than planned
  std::vector<CanopySitting> canopy;  ///< pitched from `at` on, other than planned
  std::optional<base::Instant> home;  ///< absent: none was found
  std::chrono::seconds in_hand{0};    ///< as in Plan
  std::vector<works::Name> left_out;  ///< which the plan has and this has not
};

/// Why an hour was chosen is in the source: there is one turn of a kind, of rain two where morning and
/// afternoon differ.
struct TurnRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  const Plan& plan;   ///< followed until the turn
  base::Instant now;  ///< no turn before it
  base::LocalDay day;
  const works::Progress* progress = nullptr;  ///< stock counted; nullptr: what was delivered and bought
  base::Lanes lanes{};                        ///< turns go side by side where there are several
};

/// Those that change what is done, covered or left out, or when he is home; a turn to which the answer is to
/// carry on is not among them. By kind, then time. Same request, same answer.
[[nodiscard]] std::vector<Turn> turns_of(const TurnRequest& request);

}  // namespace weatherstruck::programme
