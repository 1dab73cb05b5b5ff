#include "weatherstruck/works/task_list.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/works/task_maker.h"

namespace weatherstruck::works {

matter::HourRange thumbprint_hours(const FreshWork& fresh, const Practice& practice) {
  return trade::thumbprint_hours(fresh.mortar, practice.binder,
                                 fresh.quick_suction ? matter::Suction::quick : matter::Suction::slow);
}

base::Hours frost_safe_amount(const FreshWork& fresh, const Practice& practice) {
  return trade::frost_safe_amount(fresh.mortar, practice.binder);
}

const Task* TaskList::find(const Name& name) const {
  const auto found = std::find_if(tasks.begin(), tasks.end(), [&](const Task& t) { return t.name == name; });
  return found == tasks.end() ? nullptr : &*found;
}

base::Hours TaskList::total_hours() const {
  base::Hours sum(0);
  for (const Task& task : tasks) {
    if (task.operation == trade::Operation::drive) continue;
    if (task.only_if) {
      const Task* decides = find(task.only_if->task);
      if (decides == nullptr || decides->ways.empty() || decides->ways.front().key != task.only_if->way)
        continue;
    }
    sum += task.hours + task.set_up;
  }
  return sum;
}

namespace {

/// The same tasks with every link running forward; otherwise in the order in which they were made.
TaskList in_order(TaskList list) {
  std::map<Name, std::size_t> place;
  for (std::size_t i = 0; i < list.tasks.size(); ++i)
    place.emplace(list.tasks[i].name, i);
  std::vector<std::vector<std::size_t>> later(list.tasks.size());
  std::vector<int> waiting(list.tasks.size(), 0);
  for (const Link& link : list.links) {
    const std::size_t to = place.at(link.to);
    later[place.at(link.from)].push_back(to);
    ++waiting[to];
  }
  std::set<std::size_t> ready;
  for (std::size_t i = 0; i < waiting.size(); ++i) {
    if (waiting[i] == 0) ready.insert(i);
  }
  TaskList sorted;
  sorted.links = std::move(list.links);
  while (!ready.empty()) {
    const std::size_t next = *ready.begin();
    ready.erase(ready.begin());
    for (const std::size_t to : later[next]) {
      if (--waiting[to] == 0) ready.insert(to);
    }
    sorted.tasks.push_back(std::move(list.tasks[next]));
  }
  if (sorted.tasks.size() != place.size()) {
    throw std::invalid_argument("derive_tasks: tasks in a circle, or two of one name; check the job first");
  }
  return sorted;
}

}  // namespace

namespace {

/// Last, since hours are made in many places; those written by hand are his already.
void by_his_own_pace(const Job& job, TaskList& list) {
  if (job.practice.own_pace.empty()) return;
  for (Task& task : list.tasks) {
    const trade::OwnPace* own = job.practice.own_pace.of(task.operation);
    const bool by_hand = std::any_of(job.tasks.begin(), job.tasks.end(),
                                     [&](const ExtraTask& extra) { return extra.name == task.name; });
    if (own == nullptr || by_hand) continue;
    task.own_pace = *own;
    task.hours = task.hours * own->times;
    for (TaskWay& way : task.ways)
      way.hours = way.hours * own->times;
  }
}

}  // namespace

TaskList derive_tasks(const Job& job) {
  if (job.site.routes.empty() || job.crew.empty()) {
    throw std::invalid_argument("derive_tasks: the job has no route or no crew; check it first");
  }
  TaskMaker maker(job);
  maker.arrive();
  for (const Group& group : maker.expansion().groups)
    maker.brickwork(group);
  for (const Steps& steps : maker.expansion().flights)
    maker.flight(steps);
  for (const Path& path : maker.expansion().paths)
    maker.path(path);
  maker.extras();
  maker.leave();
  TaskList list = in_order(maker.take());
  by_his_own_pace(job, list);
  return list;
}

}  // namespace weatherstruck::works
