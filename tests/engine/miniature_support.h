#pragma once
// What a miniature job is held against.
#include <cstdint>
#include <optional>

#include "engine/sketch_support.h"
#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine::brute {

struct Expected {
  int unplaced = 0;       ///< must-tasks that cannot be done
  std::int64_t late = 0;  ///< hours that must-tasks are past due
  Tick done = 0;          ///< last end of a must-task
};

struct Plans {
  Schedule least;
  Schedule list;
};

/// The brute force finds exactly what was worked out; the list plan keeps the rules, is not better, and is as
/// good, or, where it is known to miss something, no worse than stated.
Plans expect_answer(const Sketch& job, Expected expected,
                    std::optional<Expected> list_no_worse = std::nullopt);

[[nodiscard]] Tick start_of(const Schedule& schedule, TaskId task);
[[nodiscard]] int way_of(const Schedule& schedule, TaskId task);

}  // namespace weatherstruck::engine::brute
