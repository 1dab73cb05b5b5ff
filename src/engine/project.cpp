#include "weatherstruck/engine/project.h"

#include <cstddef>
#include <string>

#include "ids.h"

namespace weatherstruck::engine {
namespace {

constexpr int most_resources = 16;
constexpr int most_capacity = 32767;

std::string task_named(std::size_t i) {
  return "task " + std::to_string(i) + ": ";
}

bool goes_in_a_circle(const Project& project) {
  const std::size_t tasks = project.duration.size();
  std::vector<int> waits(tasks, 0);
  for (const auto& list : project.successors) {
    for (const int after : list)
      ++waits[at(after)];
  }
  std::vector<std::size_t> ready;
  for (std::size_t i = 0; i < tasks; ++i) {
    if (waits[i] == 0) ready.push_back(i);
  }
  for (std::size_t k = 0; k < ready.size(); ++k) {
    for (const int after : project.successors[ready[k]]) {
      if (--waits[at(after)] == 0) ready.push_back(at(after));
    }
  }
  return ready.size() < tasks;
}

}  // namespace

std::vector<std::string> faults_of(const Project& project) {
  std::vector<std::string> faults;
  const std::size_t tasks = project.duration.size();
  if (project.successors.size() != tasks || project.demand.size() != tasks)
    return {"durations, successors and demands are not for the same number of tasks"};
  if (project.capacity.size() > most_resources) {
    faults.push_back(std::to_string(project.capacity.size()) + " resources; at most " +
                     std::to_string(most_resources) + " can be planned");
  }
  for (std::size_t r = 0; r < project.capacity.size(); ++r) {
    if (project.capacity[r] < 0 || project.capacity[r] > most_capacity) {
      faults.push_back("resource " + std::to_string(r) + ": capacity " + std::to_string(project.capacity[r]) +
                       " is not from 0 to " + std::to_string(most_capacity));
    }
  }
  std::int64_t whole = 0;
  for (std::size_t i = 0; i < tasks; ++i) {
    whole += project.duration[i];
    if (project.duration[i] < 0)
      faults.push_back(task_named(i) + "it takes " + std::to_string(project.duration[i]) +
                       ", less than nothing");
    for (const int after : project.successors[i]) {
      if (after < 0 || at(after) >= tasks)
        faults.push_back(task_named(i) + "its successor " + std::to_string(after) + " is no task");
    }
    if (project.demand[i].size() != project.capacity.size()) {
      faults.push_back(task_named(i) + "demands for " + std::to_string(project.demand[i].size()) +
                       " resources where there are " + std::to_string(project.capacity.size()));
      continue;
    }
    for (std::size_t r = 0; r < project.capacity.size(); ++r) {
      if (project.demand[i][r] < 0 || project.demand[i][r] > project.capacity[r]) {
        faults.push_back(task_named(i) + "it demands " + std::to_string(project.demand[i][r]) +
                         " of resource " + std::to_string(r) + ", of which there are " +
                         std::to_string(project.capacity[r]));
      }
    }
  }
  if (whole > never / 4) faults.emplace_back("all durations together are too long to be counted");
  if (faults.empty() && goes_in_a_circle(project))
    faults.emplace_back("some tasks follow each other in a circle");
  return faults;
}

Network network_of(const Project& project, Tick horizon) {
  Network network;
  network.slots = horizon;
  network.clocks.emplace_back("time", 1, std::vector<std::int32_t>(at(horizon), 1));
  for (std::size_t r = 0; r < project.capacity.size(); ++r)
    network.resources.push_back({std::to_string(r), std::vector<int>(at(horizon), project.capacity[r])});
  // A task that takes no time cannot be a run: it lasts a tick and holds nothing, and what follows it follows
  // its start. So the horizon is to be a tick longer than the plan.
  for (std::size_t i = 0; i < project.duration.size(); ++i) {
    Task task;
    task.name = std::to_string(i);
    Way way;
    way.amount = std::max<Amount>(1, project.duration[i]);
    for (std::size_t r = 0; project.duration[i] > 0 && r < project.capacity.size(); ++r) {
      if (project.demand[i][r] > 0) way.needs.push_back({static_cast<ResourceId>(r), project.demand[i][r]});
    }
    task.ways.push_back(std::move(way));
    network.tasks.push_back(std::move(task));
  }
  for (std::size_t i = 0; i < project.duration.size(); ++i) {
    for (const int after : project.successors[i]) {
      Link link;
      link.from = static_cast<TaskId>(i);
      link.from_edge = project.duration[i] > 0 ? Edge::finish : Edge::start;
      link.to = after;
      network.links.push_back(link);
    }
  }
  return network;
}

Schedule schedule_of(const Project& project, const std::vector<Tick>& start) {
  Schedule schedule;
  for (std::size_t i = 0; i < start.size(); ++i) {
    const Tick length = std::max(1, project.duration[i]);
    schedule.tasks.push_back({true, 0, {{start[i], start[i] + length, length}}});
  }
  return schedule;
}

}  // namespace weatherstruck::engine
