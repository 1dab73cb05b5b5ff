#pragma once
// Why a promised hour cannot be kept: things that together forbid it, each of which would have to be
// otherwise, and what of the work can be home in time instead. Found by planning again without one thing
// after another, so that "needed" is borne out by a plan; that the rest forbids it is proved only where it is
// said to be.
#include <optional>
#include <vector>

#include "weatherstruck/programme/hindrance.h"

namespace weatherstruck::programme {

/// One thing of a set that together forbids the promise.
struct Forbids {
  enum class Mark {
    needed,      ///< without it, and without what lies outside the set, a plan keeps the promise
    not_settled  ///< the budget ended before that was known
  };
  Hindrance hindrance;
  Mark mark = Mark::needed;
  bool alone = false;                 ///< it is enough by itself: all else as it is, a plan keeps the promise
  std::optional<base::Instant> home;  ///< by that plan
};

/// What can be done and be home in time.
struct Instead {
  std::vector<works::Fallback> used;
  std::vector<works::Name> without;   ///< parts that must be built and are not
  std::vector<works::Name> left_out;  ///< tasks that need not be done and find no place
  base::Instant home;
};

struct Promise {
  /// Where another search as the trip is does keep it: then nothing forbids it, and all below is empty.
  std::optional<base::Instant> kept_after_all;
  std::vector<Forbids> together;   ///< those that are enough alone first
  std::vector<Hindrance> beside;   ///< outside the set: without all of them at once no plan was found
  bool proved = false;             ///< and none can be, by Plan::soonest_home
  std::optional<Instead> instead;  ///< absent: none was found
  int plans = 0;                   ///< made to find this
};

/// nullopt for a plan that keeps the promise and leaves out no must. Same request, same answer. It costs at
/// most `most_plans` looks of sixty schedules.
[[nodiscard]] std::optional<Promise> promise_of(const TripCase& trip, int most_plans = 90);

}  // namespace weatherstruck::programme
