#include "weatherstruck/works/mortar_batch.h"

#include <algorithm>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/works/carry.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {
namespace {

using trade::Operation;

bool lays_bricks(const Task& task) {
  return task.operation == Operation::lay_below || task.operation == Operation::lay_facing ||
         task.operation == Operation::lay_common;
}

double mean_pace(const Job& job) {
  double sum = 0;
  int layers = 0;
  for (const Person& person : job.crew) {
    if (!person.lays_bricks) continue;
    sum += person.pace;
    ++layers;
  }
  return layers == 0 ? 1 : sum / layers;
}

}  // namespace

base::CubicMetres mortar_in(const Task& task, const Practice& practice) {
  if (task.operation == Operation::pour) return base::CubicMetres(0);
  const auto& row =
      trade::row_for(task.operation == Operation::lay_below ? practice.mortar_below : practice.mortar);
  double sand = 0;
  for (const MaterialDraw& draw : task.materials) {
    if (is_sand(draw.material)) sand += draw.amount;
  }
  return base::CubicMetres(sand / row.sand_per_m3.value());
}

std::vector<MortarBatch> mortar_batches(const Job& job, const std::vector<const Task*>& tasks,
                                        const trade::LimitValues& limits, base::Celsius air) {
  std::vector<MortarBatch> batches;
  const double pace = mean_pace(job);
  for (const Task* task : tasks) {
    if (!lays_bricks(*task) || !task->fresh || task->hours.value() <= 0) continue;
    const base::CubicMetres wet = mortar_in(*task, job.practice);
    if (wet.value() <= 0) continue;
    MortarBatch one;
    one.mortar = task->fresh->mortar;
    one.life =
        trade::workable_life(one.mortar, job.practice.binder, air, limits.hours(trade::limit::mortar_life));
    one.laid = wet * (one.life.value() * pace / task->hours.value());
    const auto known = std::find_if(batches.begin(), batches.end(),
                                    [&](const MortarBatch& b) { return b.mortar == one.mortar; });
    if (known == batches.end()) {
      batches.push_back(one);
    } else {
      known->laid = std::min(known->laid, one.laid);
    }
  }
  return batches;
}

base::CubicMetres mix_at_once(const MortarBatch& batch, const Kit& kit) {
  return std::min(batch.laid, batch_of(kit));
}

}  // namespace weatherstruck::works
