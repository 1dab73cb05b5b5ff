#pragma once
// What a plan that is shown costs, where nobody asks for another.
#include "weatherstruck/desk/trip_desk.h"

namespace weatherstruck::desk {

/// Decodes of the forecast's own search; ten searches from elsewhere take the other half
/// (programme/choose_plan).
[[nodiscard]] inline int own_schedules(const Budget& budget) {
  return budget.schedules / 2;
}
inline constexpr int schedules = Budget{}.schedules / 2;
inline constexpr int weathers = Budget{}.weathers;

}  // namespace weatherstruck::desk
