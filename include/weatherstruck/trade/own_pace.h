#pragma once
// His own pace: how long a kind of work takes him against its norm, and how sure that is. How it is learnt
// from what he logged stands in works/own_pace.h. A task's time is taken as log-normal about the norm: the
// deviations below are those of its logarithm, in three parts that add up as squares.
#include <utility>
#include <vector>

#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::trade {

/// A range seen or taken, over many masons and sites, counts as one that holds eight in ten of them; of his
/// own pace, which the job is measured with, he is twice as sure. Assumption.
inline constexpr double sigmas_of_a_range = 2 * 2.563;
/// How much of what strays about his pace is the trip's (he, the site, the mix of people) and not the task's.
/// Assumption.
inline constexpr double pace_of_the_trip = 0.7;
/// How much of the variance is not yet knowing his pace, and goes as he logs; the rest stays. Assumption.
inline constexpr double pace_not_known = 0.5;

/// What strays before anything is logged.
struct PaceSpread {
  double known = 0;  ///< what he says of his pace about what it is in the long run
  double trip = 0;   ///< a trip about that
  double task = 0;   ///< a task about its trip
};
/// By the row's range; all nought where it has none.
[[nodiscard]] PaceSpread pace_spread(const OperationRow& row);

struct OwnPace {
  double times = 1;  ///< his hours against those of the norm at the pace that the job gives him
  double sigma = 0;  ///< of the logarithm of a task's hours about that
  friend bool operator==(const OwnPace&, const OwnPace&) = default;
};

/// By kind of work; nothing for what he has not logged.
class OwnPaces {
 public:
  void set(Operation operation, const OwnPace& pace);
  /// nullptr where nothing is known.
  [[nodiscard]] const OwnPace* of(Operation operation) const;
  [[nodiscard]] bool empty() const { return paces_.empty(); }
  [[nodiscard]] const std::vector<std::pair<Operation, OwnPace>>& all() const { return paces_; }
  friend bool operator==(const OwnPaces&, const OwnPaces&) = default;

 private:
  std::vector<std::pair<Operation, OwnPace>> paces_;  ///< in the order of the operations
};

}  // namespace weatherstruck::trade
