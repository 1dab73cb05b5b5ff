#pragma once
// The engine's checker: walks a schedule tick by tick against its network. Slow, obvious, and independent of
// the decoder: it shares with it nothing but the data types and Clock.
#include <string>
#include <vector>

#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine {

enum class Rule {
  shape,           ///< sizes, way numbers, order or presence wrong
  horizon,         ///< something lies outside the horizon
  release,         ///< a run before the task's release
  standing_clock,  ///< a run over a tick in which its clock stands still
  amount,          ///< runs do not add up to the task's amount
  pause,           ///< a run ends where the task may not pause
  span,            ///< longer than the longest span
  guard,           ///< a guard overrun
  capacity,        ///< more of a resource in use than there is
  bucket,          ///< more of it in a day than allowed
  state,           ///< the stateful thing is not in the state wanted
  state_allowed,   ///< a state, or a change from or to it, in a slot that forbids it
  link_least,      ///< too soon
  link_most,       ///< too late
  cure,            ///< begun before the fresh work has cured so far
  cover,           ///< worked on while covered, or covers overlap
  hazard,          ///< fresh work exposed beyond its limit
  green            ///< too much green work at once
};

struct Violation {
  Rule rule{};
  std::string what;  ///< names and numbers
};

[[nodiscard]] const char* to_text(Rule rule);

/// Every rule that the schedule breaks. A must-task left out is not a violation (see Value::must_unplaced).
[[nodiscard]] std::vector<Violation> check(const Network& network, const Schedule& schedule);

}  // namespace weatherstruck::engine
