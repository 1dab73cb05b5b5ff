#pragma once
// What stands in the way of a plan and can be thought away, one at a time: the rain of a day, a wait, that he
// has one pair of hands. The same trip without it is planned again; nothing is said that a plan does not bear
// out.
#include <optional>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

struct Hindrance {
  enum class Kind {
    rain,         ///< of a local day
    cold,         ///< from noon of the day before to noon of `day`
    heat,         ///< of a local day
    wind,         ///< of a local day
    dark,         ///< that he has no lights
    hours,        ///< his working day and its length; without it from 6 to 21, to the red line
    quiet_hours,  ///< of noisy tools
    fixed_times,  ///< appointments
    delivery,     ///< that it comes after he does
    wait,         ///< `wait` of what `part` holds, until the next work on it
    striking,     ///< that the joints of `part` have to be struck or pointed
    covers,       ///< how many he has; without it 20 m2 more of each
    hands,        ///< that he works alone; without it with a second who lays
    part,         ///< that `part` is to be built
    promise       ///< the promised hour
  };
  Kind kind{};
  base::LocalDay day{};
  works::Name part{};
  works::Wait wait = works::Wait::none;
  friend bool operator==(const Hindrance&, const Hindrance&) = default;
};

/// "rain", "cold", ...: for machines.
[[nodiscard]] std::string_view key_of(Hindrance::Kind kind);

/// A trip to be thought about.
struct TripCase {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  const Plan& plan;   ///< of the trip as it is; the search begins at it, and what lies before `now` is done
  base::Instant now;  ///< before the trip: when it is looked at
  std::uint64_t seed = 1;
  base::Lanes lanes{};  ///< what is thought away one by one goes side by side where there are several
};

/// Those that are so: weather of the days from now to the promise that stops or slows work, waits that are
/// still to come, parts that can be left out. In the order of the kinds, then of days and parts.
[[nodiscard]] std::vector<Hindrance> hindrances_of(const TripCase& trip);

/// The trip planned without some facts, by a search of so many schedules that begins at the plan as it is.
struct Without {
  Plan plan;
  bool keeps_promise = false;  ///< home by it with every must that is left
  /// By what no plan at all can do (Plan::soonest_home): the promise is out of reach.
  bool out_of_reach = false;
};
[[nodiscard]] Without plan_without(const TripCase& trip, const std::vector<Hindrance>& facts, int schedules);

}  // namespace weatherstruck::programme
