#pragma once
// How much mortar to mix at once: no more than is laid while it can be used.
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

/// Wet mortar in a task's materials, waste included, told by the sand it draws; zero of concrete.
[[nodiscard]] base::CubicMetres mortar_in(const Task& task, const Practice& practice);

struct MortarBatch {
  trade::MortarClass mortar = trade::MortarClass::m4;
  base::Hours life;           ///< from mixing until it must be laid (trade::workable_life)
  base::CubicMetres laid{0};  ///< what one bricklayer of the crew lays in that time, at its mean pace
};

/// For the tasks that lay bricks in mortar: one for each class, by the task that uses it slowest, in the
/// order of the list. @param air warmest while it is used
[[nodiscard]] std::vector<MortarBatch> mortar_batches(const Job& job, const std::vector<const Task*>& tasks,
                                                      const trade::LimitValues& limits, base::Celsius air);

/// What to mix at once with this kit: the mixer's batch (by hand, a barrow), or what is laid in time if that
/// is less.
[[nodiscard]] base::CubicMetres mix_at_once(const MortarBatch& batch, const Kit& kit);

}  // namespace weatherstruck::works
