#include "weatherstruck/programme/helps.h"

#include <algorithm>

#include "changes.h"
#include "weatherstruck/programme/paired.h"
#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {
namespace {

Help plan_of(const HelpRequest& request, const works::Job& job) {
  const works::TaskList list = works::derive_tasks(job);
  PlanRequest wanted{job, list, request.weather, request.limits, job.trip.leave_home};
  wanted.schedules = request.schedules;
  wanted.seed = request.seed;
  wanted.weathers = request.weathers;
  const PlanResult result = make_plan(wanted);
  Help help;
  help.home = result.plan.home;
  help.in_hand = result.plan.in_hand;
  help.left_out = static_cast<int>(result.plan.left_out.size());
  if (result.outlook) help.outlook = *result.outlook;
  return help;
}

void set_beside(Help& help, const Outlook& before) {
  const Paired beside = paired(help.outlook, before);
  help.gain = beside.gain;
  help.error = beside.error;
}

}  // namespace

Helps what_would_help(const HelpRequest& request) {
  Helps out;
  const std::vector<Change> changes = changes_of(request.job, request.limits, request.weather, request.now);
  out.helps.resize(changes.size());
  request.lanes.each(1 + changes.size(), [&](std::size_t k, std::size_t) {
    if (k == 0) {
      out.as_it_is = plan_of(request, request.job);
      return;
    }
    const Change& change = changes[k - 1];
    Help& help = out.helps[k - 1];
    help = plan_of(request, change.job);
    help.kind = change.kind;
    help.part = change.part;
  });
  set_beside(out.as_it_is, out.as_it_is.outlook);
  for (Help& help : out.helps)
    set_beside(help, out.as_it_is.outlook);
  std::stable_sort(out.helps.begin(), out.helps.end(), [](const Help& a, const Help& b) {
    return a.shows() != b.shows() ? a.shows() : a.shows() && a.gain > b.gain;
  });
  return out;
}

}  // namespace weatherstruck::programme
