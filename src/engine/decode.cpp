#include "weatherstruck/engine/decode.h"

#include <algorithm>
#include <utility>

#include "decoder.h"
#include "ids.h"

namespace weatherstruck::engine {

Decoder::Decoder(const Network& network, const Genes& genes) : net_(network), genes_(genes), work_(network) {
  const std::size_t tasks = network.tasks.size();
  out_.schedule.tasks.resize(tasks);
  out_.why.resize(tasks);
  settled_.assign(tasks, 0);
  into_.resize(tasks);
  out_of_.resize(tasks);
  for (std::size_t l = 0; l < network.links.size(); ++l) {
    into_[at(network.links[l].to)].push_back(static_cast<int>(l));
    out_of_[at(network.links[l].from)].push_back(static_cast<int>(l));
  }
}

Decoded Decoder::run() {
  enter_history();
  std::vector<TaskId> waiting = genes_.order;
  while (!waiting.empty()) {
    // The first in order whose predecessors are settled; else one that is there if its host is done as told
    // (a fetch before the work that it makes possible); where a circle holds all, the first whose presence
    // is settled (there is one: presence hangs on smaller ids only).
    auto next = std::find_if(waiting.begin(), waiting.end(),
                             [&](TaskId i) { return presence_settled(i) && ready(i); });
    if (next == waiting.end()) {
      next = std::find_if(waiting.begin(), waiting.end(),
                          [&](TaskId i) { return presence_foreseen(i) && ready(i); });
    }
    if (next == waiting.end()) {
      next = std::find_if(waiting.begin(), waiting.end(), [&](TaskId i) { return presence_settled(i); });
    }
    const TaskId task = *next;
    waiting.erase(next);
    settle(task);
    settled_[at(task)] = 1;
  }
  work_.drop_needless();
  out_.schedule.spells = work_.spells();
  out_.schedule.changes = work_.changes();
  out_.value = value_of(net_, out_.schedule);
  return std::move(out_);
}

// In the order in which it happened, so that each cover finds the keep as it then was.
void Decoder::enter_history() {
  struct Past {
    std::size_t task;
    Run run;
  };
  std::vector<Past> past;
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    for (const Run& run : net_.tasks[i].history.runs)
      past.push_back({i, run});
  }
  std::stable_sort(past.begin(), past.end(),
                   [](const Past& a, const Past& b) { return a.run.start < b.run.start; });
  for (const Past& it : past) {
    const Task& task = net_.tasks[it.task];
    const Way& way = task.ways[at(task.history.way)];
    work_.enter_history(task, way,
                        {it.run.start, it.run.end, static_cast<TaskId>(it.task), false, true, way.shelters, 0,
                         0, way.setup, it.run.done, way.clock});
    // As far as they go its edges are known before its turn comes.
    out_.schedule.tasks[it.task] = {true, task.history.way, task.history.runs};
  }
}

bool Decoder::ready(TaskId i) const {
  for (const int l : into_[at(i)]) {
    if (settled_[at(net_.links[at(l)].from)] == 0) return false;
  }
  for (const CureLink& link : net_.cure_links) {
    if (link.to != i) continue;
    for (std::size_t j = 0; j < net_.tasks.size(); ++j) {
      if (settled_[j] == 0 && static_cast<TaskId>(j) != i && lays_on(j, link.keep) && !comes_after(j, i))
        return false;
    }
  }
  return true;
}

bool Decoder::presence_settled(TaskId i) const {
  const auto& presence = net_.tasks[at(i)].presence;
  return !presence || known(presence->task);
}

bool Decoder::known(TaskId host) const {
  return settled_[at(host)] != 0 || begun(host);
}

bool Decoder::begun(TaskId i) const {
  return !net_.tasks[at(i)].history.runs.empty();
}

bool Decoder::presence_foreseen(TaskId i) const {
  const auto& presence = net_.tasks[at(i)].presence;
  return presence && genes_.way[at(presence->task)] >= 0 && genes_.left_out[at(presence->task)] == 0 &&
         presence_settled(presence->task);
}

bool Decoder::lays_on(std::size_t task, KeepId keep) const {
  const auto& touches = net_.tasks[task].touches;
  return std::any_of(touches.begin(), touches.end(),
                     [&](const Touch& t) { return t.keep == keep && t.lays > 0; });
}

// Whether task j follows task i by links. Depth first over outgoing links.
bool Decoder::comes_after(std::size_t j, TaskId i) const {
  std::vector<TaskId> stack{i};
  std::vector<char> seen(net_.tasks.size(), 0);
  while (!stack.empty()) {
    const TaskId t = stack.back();
    stack.pop_back();
    for (const int l : out_of_[at(t)]) {
      const TaskId to = net_.links[at(l)].to;
      if (at(to) == j) return true;
      if (seen[at(to)] == 0) {
        seen[at(to)] = 1;
        stack.push_back(to);
      }
    }
  }
  return false;
}

void Decoder::settle(TaskId i) {
  const Task& task = net_.tasks[at(i)];
  Placement& placement = out_.schedule.tasks[at(i)];
  blockers_.clear();
  const History& history = task.history;
  if (begun(i)) {
    // Begun is begun: it goes on in its way, whatever the genes say; what is done stays where the rest is
    // left out or finds no place.
    const bool whole = history.done() >= task.ways[at(history.way)].amount;
    if (whole || genes_.left_out[at(i)] != 0 || !place(i, history.way))
      trial_ = {true, history.way, history.runs};
    record(i);
    return;
  }
  if (task.presence) {
    const TaskId named = task.presence->task;
    const Placement& host = out_.schedule.tasks[at(named)];
    const auto& ways = task.presence->ways;
    const int way = known(named) ? host.way : genes_.way[at(named)];
    placement.present =
        (!known(named) || host.placed()) && std::find(ways.begin(), ways.end(), way) != ways.end();
    if (!placement.present) return;
  }
  if (genes_.left_out[at(i)] != 0) return;
  const int wanted = genes_.way[at(i)];
  if (wanted >= 0) {
    if (place(i, wanted)) {
      record(i);
    } else {
      out_.why[at(i)] = std::move(blockers_);
    }
    return;
  }
  // Whichever way ends first; the earlier listed among equals. Every trial is taken back, the best done
  // again.
  int best = -1;
  Tick best_finish = never;
  const Workspace::Mark before = work_.mark();
  for (int w = 0; w < static_cast<int>(task.ways.size()); ++w) {
    if (place(i, w) && trial_.finish() < best_finish) {
      best = w;
      best_finish = trial_.finish();
    }
    work_.roll_back(before);
    if (w == 0) out_.why[at(i)] = blockers_;
  }
  if (best >= 0 && place(i, best)) record(i);
}

void Decoder::record(TaskId i) {
  out_.schedule.tasks[at(i)].way = trial_.way;
  out_.schedule.tasks[at(i)].runs = trial_.runs;
  out_.why[at(i)] = std::move(blockers_);
  work_.set_start(i, trial_.start());
}

Decoded decode(const Network& network, const Genes& genes) {
  Genes kept = genes;
  while (true) {
    Decoded decoded = Decoder(network, kept).run();
    // In a circle a task may come before one it follows; if that one then finds no place, neither may it.
    bool again = false;
    for (const Link& link : network.links) {
      const Placement& from = decoded.schedule.tasks[at(link.from)];
      if (link.waived_if_left_out || !from.present || from.has(network.tasks[at(link.from)], link.from_edge))
        continue;
      const Placement& to = decoded.schedule.tasks[at(link.to)];
      const Task& last = network.tasks[at(link.to)];
      if (!to.has(last, link.to_edge) || to.past(last, link.to_edge)) continue;
      kept.left_out[at(link.to)] = 1;
      again = true;
    }
    // A host that was foreseen and then found no place.
    for (std::size_t i = 0; i < network.tasks.size(); ++i) {
      const auto& presence = network.tasks[i].presence;
      if (!presence || !decoded.schedule.tasks[i].present || !network.tasks[i].history.runs.empty()) continue;
      if (decoded.schedule.tasks[at(presence->task)].placed()) continue;
      kept.left_out[at(presence->task)] = 1;
      again = true;
    }
    if (!again) return decoded;
  }
}

}  // namespace weatherstruck::engine
