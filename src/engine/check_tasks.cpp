// Runs and links.
#include <fmt/format.h>

#include <algorithm>

#include "checker.h"

namespace weatherstruck::engine {

void Checker::check_task(std::size_t i) {
  const Placement& placement = plan_.tasks[i];
  if (!placement.placed()) return;
  const Task& task = net_.tasks[i];
  const Way& way = way_of(i);
  const Clock& work = clock(way.clock);
  Amount done = 0;
  for (std::size_t r = 0; r < placement.runs.size(); ++r) {
    const Run& run = placement.runs[r];
    const bool last = r + 1 == placement.runs.size();
    if (r < task.history.runs.size()) {
      done += run.done;
      continue;
    }
    if (run.start < net_.now)
      broken(Rule::release, fmt::format("{} begins anew at {}, before now", task.name, run.start));
    if (run.start < task.release)
      broken(Rule::release, fmt::format("{} runs at {} before {}", task.name, run.start, task.release));
    for (Tick t = run.start; t < run.end; ++t) {
      if (work.rate(t) <= 0) {
        broken(Rule::standing_clock,
               fmt::format("{} is under way at {} while {} stands still", task.name, t, work.name()));
        break;
      }
    }
    check_amount(task, way, run, done, last);
    done += run.done;
    want_state(way.state, run.start, run.end, task.name);
    for (const Guard& guard : way.guards) {
      const Tick from = guard.from_start ? run.start : run.end;
      const Tick until = std::min(clock(guard.until).advance(from, guard.until_amount), net_.horizon());
      const Amount exposed = clock(guard.exposure).passed(from, until);
      if (exposed > guard.most) {
        broken(Rule::guard, fmt::format("{}: {} on {} from {} to {}, at most {}", task.name, exposed,
                                        clock(guard.exposure).name(), from, until, guard.most));
      }
    }
  }
  if (done != way.amount && !placement.unfinished(task))
    broken(Rule::amount, fmt::format("{}: {} done of {}", task.name, done, way.amount));
  const std::size_t past = task.history.runs.size();
  if (placement.runs.size() == past) return;
  if (way.pause == Pause::none && placement.runs.size() > past + 1)
    broken(Rule::pause, fmt::format("{} may not pause", task.name));
  const Tick spans = placement.finish() - placement.runs[past].start;
  if (way.longest_span && spans > *way.longest_span)
    broken(Rule::span, fmt::format("{} spans {}", task.name, spans));
}

void Checker::check_amount(const Task& task, const Way& way, const Run& run, Amount done, bool last) {
  const Clock& work = clock(way.clock);
  if (run.done < 1) {
    broken(Rule::amount, fmt::format("{}: a run that does nothing", task.name));
    return;
  }
  if (last || way.pause == Pause::at_breaks) {
    if (run.end != work.advance(run.start, way.setup + run.done)) {
      broken(Rule::amount,
             fmt::format("{}: {} from {} is not done at {}", task.name, run.done, run.start, run.end));
    }
  } else if (way.pause == Pause::anywhere && run.done != work.passed(run.start, run.end) - way.setup) {
    broken(Rule::amount, fmt::format("{}: the run from {} does another amount", task.name, run.start));
  }
  if (last) return;
  const Amount total = done + run.done;
  if (total >= way.amount) broken(Rule::amount, fmt::format("{}: more runs than there is work", task.name));
  if (way.pause == Pause::at_breaks && !std::binary_search(way.breaks.begin(), way.breaks.end(), total)) {
    broken(Rule::pause, fmt::format("{} stops at {}, where it may not", task.name, total));
  }
}

Tick Checker::edge(TaskId task, Edge which) const {
  const Placement& placement = plan_.tasks[at(task)];
  return which == Edge::start ? placement.start() : placement.finish();
}

void Checker::check_link(const Link& link) {
  const Placement& from = plan_.tasks[at(link.from)];
  const Placement& to = plan_.tasks[at(link.to)];
  const Task& last = net_.tasks[at(link.to)];
  if (!from.present || !to.has(last, link.to_edge) || to.past(last, link.to_edge)) return;
  const std::string who = fmt::format("{} after {}", last.name, net_.tasks[at(link.from)].name);
  if (!from.has(net_.tasks[at(link.from)], link.from_edge)) {
    if (link.waived_if_left_out) return;
    broken(Rule::link_least, who + ", which is left out");
    return;
  }
  const Tick a = edge(link.from, link.from_edge);
  const Tick b = edge(link.to, link.to_edge);
  if (b < a || (link.least_clock != no_clock && clock(link.least_clock).passed(a, b) < link.least)) {
    broken(Rule::link_least, fmt::format("{}: {} to {} is too soon", who, a, b));
  }
  if (link.most_clock != no_clock && clock(link.most_clock).passed(a, b) > link.most) {
    broken(Rule::link_most, fmt::format("{}: {} to {} is too late", who, a, b));
  }
}

}  // namespace weatherstruck::engine
