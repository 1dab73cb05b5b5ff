#include "weatherstruck/programme/planner.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "weatherstruck/engine/bound.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/programme/follow.h"
#include "weatherstruck/programme/read_back.h"
#include "weatherstruck/programme/site_check.h"

namespace weatherstruck::programme {
namespace {

// Whether an objection is to what the weather will do to work that was finished before now: nothing can be
// planned against it any more, it can only be told.
bool laid_before(const Plan& plan, const Objection& objection, base::Instant now) {
  const bool of_weather = objection.code == "frost" || objection.code == "soft-in-rain" ||
                          objection.code == "wet-concrete" || objection.code == "bare-night";
  return of_weather && std::any_of(plan.tasks.begin(), plan.tasks.end(), [&](const PlannedTask& task) {
           return task.task == objection.task && task.placed() && task.finish() <= now;
         });
}

}  // namespace

bool Plan::all_musts_placed(const works::TaskList& list) const {
  return std::none_of(left_out.begin(), left_out.end(), [&](const works::Name& name) {
    const works::Task* task = list.find(name);
    return task == nullptr || task->importance == works::Importance::must;
  });
}

PlanResult make_plan(const PlanRequest& request) {
  const Programme programme = build_programme(request.job, request.list, request.weather, request.limits,
                                              request.now, request.followed);
  const engine::ListPlan listed = choose_plan(request, programme);
  PlanResult result;
  result.plan = read_back(request, programme, listed);
  const engine::Tick least = engine::least_finish(programme.network);
  if (programme.drive_home && least != engine::never)
    result.plan.soonest_home = programme.table.at_tick(least);
  for (const engine::Violation& violation : engine::check(programme.network, listed.best.schedule)) {
    result.objections.push_back({std::string("engine: ") + engine::to_text(violation.rule), "",
                                 programme.table.begin_time(), violation.what});
  }
  for (Objection& objection :
       check_on_site(request.job, request.list, request.weather, request.limits, result.plan)) {
    // What was done before now is as it is; a checker's objection to it would help nobody.
    if (request.followed != nullptr) {
      if (objection.at < request.now) continue;
      if (laid_before(result.plan, objection, request.now)) {
        const works::Task* task = request.list.find(objection.task);
        result.plan.dangers.push_back(
            fmt::format("{}: {}.", task == nullptr ? objection.task : task->title, objection.text));
        continue;
      }
    }
    result.objections.push_back(std::move(objection));
  }
  if (request.weathers > 0) {
    const engine::Genes genes = settled(listed);
    result.outlook = outlook_of({{request.job, request.list, request.weather, request.limits, request.now,
                                  programme, request.seed, request.lanes},
                                 genes,
                                 listed.best.schedule,
                                 request.weathers});
  }
  return result;
}

}  // namespace weatherstruck::programme
