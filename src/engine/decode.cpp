#include "weatherstruck/engine/decode.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "decoder.h"
#include "ids.h"

namespace weatherstruck::engine {

Decoder::Decoder(const Network& network) : net_(network), work_(network) {
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
  holds_.resize(tasks);
  held_by_.assign(tasks, 0);
  for (std::size_t i = 0; i < tasks; ++i) {
    for (const int l : into_[i])
      hold(at(network.links[at(l)].from), i);
    for (const CureLink& link : network.cure_links) {
      if (at(link.to) != i) continue;
      for (std::size_t j = 0; j < tasks; ++j) {
        if (j != i && lays_on(j, link.keep) && !comes_after(j, static_cast<TaskId>(i))) hold(j, i);
      }
    }
  }
  enter_history();
  closing_ = work_.mark();
  begun_ = out_.schedule.tasks;
  steps_.reserve(tasks);
}

void Decoder::hold(std::size_t before, std::size_t after) {
  holds_[before].push_back(static_cast<TaskId>(after));
  ++held_by_[after];
}

bool Decoder::run(const Genes& genes, const Value* no_worse_than) {
  genes_ = &genes;
  work_.roll_back(closing_);
  std::fill(settled_.begin(), settled_.end(), 0);
  unsettled_before_ = held_by_;
  first_ = 0;
  bool alike = true;
  for (std::size_t s = 0; s < net_.tasks.size(); ++s) {
    const TaskId task = pick();
    if (alike && (s >= steps_.size() || !steps_[s].same(step_of(task)))) {
      alike = false;
      back_to(s);
    }
    if (!alike) {
      Step step = step_of(task);
      step.before = work_.mark();
      step.missed_link = out_.missed_link;
      step.missed_at = out_.missed_at;
      step.value = out_.value;
      steps_.push_back(step);
      settle(task);
      add_value(out_.value, net_, net_.tasks[at(task)], out_.schedule.tasks[at(task)]);
      if (no_worse_than != nullptr && out_.value > *no_worse_than) {
        closing_ = work_.mark();
        return false;
      }
    }
    settled_[at(task)] = 1;
    for (const TaskId after : holds_[at(task)])
      --unsettled_before_[at(after)];
  }
  closing_ = work_.mark();
  work_.drop_needless();
  out_.schedule.spells = work_.spells();
  out_.schedule.changes = work_.changes();
  return true;
}

// All that settling a task hangs on beside what was settled before it.
Decoder::Step Decoder::step_of(TaskId task) const {
  Step step;
  step.task = task;
  step.way = genes_->way[at(task)];
  step.not_before = genes_->not_before[at(task)];
  step.left_out = genes_->left_out[at(task)];
  const auto& presence = net_.tasks[at(task)].presence;
  if (presence) step.host_way = genes_->way[at(presence->task)];
  return step;
}

void Decoder::back_to(std::size_t step) {
  if (step >= steps_.size()) return;
  work_.roll_back(steps_[step].before);
  out_.missed_link = steps_[step].missed_link;
  out_.missed_at = steps_[step].missed_at;
  out_.value = steps_[step].value;
  for (std::size_t s = step; s < steps_.size(); ++s) {
    out_.schedule.tasks[at(steps_[s].task)] = begun_[at(steps_[s].task)];
    out_.why[at(steps_[s].task)].clear();
  }
  steps_.resize(step);
}

// The first in order whose predecessors are settled; else one that is there if its host is done as told (a
// fetch before the work that it makes possible); where a circle holds all, the first whose presence is
// settled (there is one: presence hangs on smaller ids only).
TaskId Decoder::pick() {
  const std::vector<TaskId>& order = genes_->order;
  while (settled_[at(order[first_])] != 0)
    ++first_;
  const auto first = [&](auto&& fits) -> std::optional<TaskId> {
    for (std::size_t k = first_; k < order.size(); ++k) {
      if (settled_[at(order[k])] == 0 && fits(order[k])) return order[k];
    }
    return std::nullopt;
  };
  const auto ready = [&](TaskId i) { return unsettled_before_[at(i)] == 0; };
  auto next = first([&](TaskId i) { return ready(i) && presence_settled(i); });
  if (!next) next = first([&](TaskId i) { return ready(i) && presence_foreseen(i); });
  if (!next) next = first([&](TaskId i) { return presence_settled(i); });
  return *next;
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
  return presence && genes_->way[at(presence->task)] >= 0 && genes_->left_out[at(presence->task)] == 0 &&
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
  clear_blockers();
  const History& history = task.history;
  if (begun(i)) {
    // Begun is begun: it goes on in its way, whatever the genes say; what is done stays where the rest is
    // left out or finds no place.
    const bool whole = history.done() >= task.ways[at(history.way)].amount;
    if (whole || genes_->left_out[at(i)] != 0 || !place(i, history.way))
      trial_ = {true, history.way, history.runs};
    record(i);
    return;
  }
  if (task.presence) {
    const TaskId named = task.presence->task;
    const Placement& host = out_.schedule.tasks[at(named)];
    const auto& ways = task.presence->ways;
    const int way = known(named) ? host.way : genes_->way[at(named)];
    placement.present =
        (!known(named) || host.placed()) && std::find(ways.begin(), ways.end(), way) != ways.end();
    if (!placement.present) return;
  }
  if (genes_->left_out[at(i)] != 0) return;
  const int wanted = genes_->way[at(i)];
  if (wanted >= 0) {
    if (place(i, wanted)) {
      record(i);
    } else if (reasons_) {
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
    if (w == 0 && reasons_) out_.why[at(i)] = blockers_;
  }
  if (best >= 0 && place(i, best)) record(i);
}

void Decoder::record(TaskId i) {
  out_.schedule.tasks[at(i)].way = trial_.way;
  out_.schedule.tasks[at(i)].runs = trial_.runs;
  if (reasons_) out_.why[at(i)] = std::move(blockers_);
  work_.set_start(i, trial_.start());
}

void Decoder::give_reasons(bool reasons) {
  if (reasons_ == reasons) return;
  reasons_ = reasons;
  work_.roll_back(closing_);
  back_to(0);
  closing_ = work_.mark();
}

const Decoded& Decoder::decode(const Genes& genes, const Value* no_worse_than) {
  if (!run(genes, no_worse_than)) return out_;
  std::vector<TaskId> out = to_be_left_out();
  if (out.empty()) return out_;
  Genes kept = genes;
  do {
    for (const TaskId i : out)
      kept.left_out[at(i)] = 1;
    if (!run(kept, no_worse_than)) return out_;
    out = to_be_left_out();
  } while (!out.empty());
  return out_;
}

// What has a place that it may not have, and only the end showed it.
std::vector<TaskId> Decoder::to_be_left_out() const {
  std::vector<TaskId> out;
  // In a circle a task may come before one it follows; if that one then finds no place, neither may it.
  for (const Link& link : net_.links) {
    const Placement& from = out_.schedule.tasks[at(link.from)];
    if (link.waived_if_left_out || !from.present || from.has(net_.tasks[at(link.from)], link.from_edge))
      continue;
    const Placement& to = out_.schedule.tasks[at(link.to)];
    const Task& last = net_.tasks[at(link.to)];
    if (to.has(last, link.to_edge) && !to.past(last, link.to_edge)) out.push_back(link.to);
  }
  // A host that was foreseen and then found no place.
  for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
    const auto& presence = net_.tasks[i].presence;
    if (!presence || !out_.schedule.tasks[i].present || !net_.tasks[i].history.runs.empty()) continue;
    if (!out_.schedule.tasks[at(presence->task)].placed()) out.push_back(presence->task);
  }
  return out;
}

Decoded decode(const Network& network, const Genes& genes, bool reasons) {
  Decoder decoder(network);
  decoder.give_reasons(reasons);
  return decoder.decode(genes);
}

StandingDecoder::StandingDecoder(const Network& network, bool reasons)
    : decoder_(std::make_unique<Decoder>(network)) {
  decoder_->give_reasons(reasons);
}
StandingDecoder::~StandingDecoder() = default;
StandingDecoder::StandingDecoder(StandingDecoder&&) noexcept = default;
StandingDecoder& StandingDecoder::operator=(StandingDecoder&&) noexcept = default;
const Decoded& StandingDecoder::decode(const Genes& genes, const Value* no_worse_than) {
  return decoder_->decode(genes, no_worse_than);
}

}  // namespace weatherstruck::engine
