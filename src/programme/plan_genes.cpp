#include "plan_genes.h"

#include <algorithm>

namespace weatherstruck::programme {

engine::Genes genes_of(const Plan& plan, const Programme& programme, int otherwise) {
  const std::size_t tasks = programme.ways.size();
  engine::Genes genes;
  if (plan.tasks.size() != tasks) return genes;
  genes.way.assign(tasks, otherwise);
  genes.not_before.assign(tasks, 0);
  genes.left_out.assign(tasks, 0);
  for (std::size_t i = 0; i < tasks; ++i) {
    const PlannedTask& task = plan.tasks[i];
    genes.order.push_back(static_cast<engine::TaskId>(i));
    genes.left_out[i] = task.present && !task.placed() ? 1 : 0;
    if (task.held_until) genes.not_before[i] = std::max(0, programme.table.tick_up(*task.held_until));
    if (!task.placed()) continue;
    const auto& ways = programme.ways[i];
    for (std::size_t w = ways.size(); w-- > 0;) {
      if (ways[w].key == task.way.value_or("") && ways[w].under_canopy == task.runs.front().under_canopy &&
          ways[w].people == task.people) {
        genes.way[i] = static_cast<int>(w);
      }
    }
  }
  const bool known =
      std::all_of(plan.tasks.begin(), plan.tasks.end(), [](const PlannedTask& t) { return t.turn >= 0; });
  std::stable_sort(genes.order.begin(), genes.order.end(), [&](engine::TaskId a, engine::TaskId b) {
    const PlannedTask& first = plan.tasks[static_cast<std::size_t>(a)];
    const PlannedTask& second = plan.tasks[static_cast<std::size_t>(b)];
    if (known) return first.turn < second.turn;
    if (first.placed() != second.placed()) return first.placed();
    return first.placed() && first.start() < second.start();
  });
  return genes;
}

}  // namespace weatherstruck::programme
