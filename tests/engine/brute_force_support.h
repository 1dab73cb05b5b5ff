#pragma once
// Tries everything: every choice of ways, and tick by tick every move the simulator allows. For tiny
// networks.
#include <cstdint>

#include "engine/simulator_support.h"

namespace weatherstruck::engine::brute {

struct Limits {
  std::int64_t most_moves = 3'000'000;  ///< ticks tried, over all choices of ways
};

/// The least (must-tasks unplaced, must-ticks late, last finish of the must-tasks), in that order, over all
/// schedules that keep the rules. Costs and unplaced other tasks do not count.
struct Answer {
  bool settled = false;  ///< false: gave up; the rest may not be the least, and `found` tells if it is real
  bool found = false;    ///< always true when settled (a schedule without any task keeps most rules)
  int must_unplaced = 0;
  std::int64_t must_late = 0;
  Tick finish = 0;
  Schedule schedule;
  std::int64_t moves = 0;
};

[[nodiscard]] Answer brute_force(const Network& network, const Limits& limits = {});

}  // namespace weatherstruck::engine::brute
