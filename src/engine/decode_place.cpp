// Where a task goes: its links, the first start that goes, and its runs from there.
#include <algorithm>
#include <numeric>
#include <utility>

#include "decoder.h"
#include "ids.h"

namespace weatherstruck::engine {

Amount Decoder::done_of(const std::vector<Run>& runs) {
  return std::accumulate(runs.begin(), runs.end(), Amount{0},
                         [](Amount sum, const Run& run) { return sum + run.done; });
}

void Decoder::block(Blocker::Kind kind, int id, Tick from, Tick to, CauseId cause) {
  if (to <= from) return;
  last_blocked_ = kind;
  if (!reasons_) return;
  if (!blockers_.empty()) {
    Blocker& last = blockers_.back();
    if (last.kind == kind && last.id == id && last.cause == cause && last.to >= from) {
      last.to = std::max(last.to, to);
      return;
    }
  }
  blockers_.push_back({kind, id, cause, from, to});
}

Decoder::Bounds Decoder::bounds(TaskId i) {
  Bounds b;
  b.start_least = std::max(net_.now, net_.tasks[at(i)].release);
  if (begun(i)) b.start_least = std::max(b.start_least, net_.tasks[at(i)].history.runs.back().end);
  if (genes_->not_before[at(i)] > b.start_least) {
    block(Blocker::Kind::order, 0, b.start_least, genes_->not_before[at(i)]);
    b.start_least = genes_->not_before[at(i)];
  }
  for (const int l : into_[at(i)]) {
    const Link& link = net_.links[at(l)];
    const Placement& from = out_.schedule.tasks[at(link.from)];
    if (!from.present || link.from == i || (link.to_edge == Edge::start && begun(i))) continue;
    if (!from.has(net_.tasks[at(link.from)], link.from_edge)) {
      if (settled_[at(link.from)] != 0 && !link.waived_if_left_out) {
        b.possible = false;
        block(Blocker::Kind::link, l, b.start_least, net_.horizon());
      }
      continue;
    }
    const Tick event = edge_of(from, link.from_edge);
    const Tick least =
        link.least_clock == no_clock ? event : net_.clocks[at(link.least_clock)].advance(event, link.least);
    if (least == never) {
      b.possible = false;
      block(Blocker::Kind::link, l, b.start_least, net_.horizon());
    } else if (link.to_edge == Edge::start) {
      block(Blocker::Kind::link, l, b.start_least, least);
      b.start_least = std::max(b.start_least, least);
    } else {
      b.finish_least = std::max(b.finish_least, least);
    }
  }
  return b;
}

Tick Decoder::edge_of(const Placement& placement, Edge edge) {
  return edge == Edge::start ? placement.start() : placement.finish();
}

// Links from and to placed tasks, in full, for the trial as it stands. Tells the first failing one.
int Decoder::failing_link(TaskId i) const {
  const auto fails = [&](const Link& link, const Placement& from, const Placement& to) {
    const Task& last = net_.tasks[at(link.to)];
    if (!from.has(net_.tasks[at(link.from)], link.from_edge) || !to.has(last, link.to_edge) ||
        to.past(last, link.to_edge))
      return false;
    const Tick a = edge_of(from, link.from_edge);
    const Tick b = edge_of(to, link.to_edge);
    if (b < a) return true;
    if (link.least_clock != no_clock && net_.clocks[at(link.least_clock)].passed(a, b) < link.least)
      return true;
    return link.most_clock != no_clock && net_.clocks[at(link.most_clock)].passed(a, b) > link.most;
  };
  for (const int l : into_[at(i)]) {
    const Link& link = net_.links[at(l)];
    const Placement& from = link.from == i ? trial_ : out_.schedule.tasks[at(link.from)];
    if (fails(link, from, trial_)) return l;
  }
  for (const int l : out_of_[at(i)]) {
    const Link& link = net_.links[at(l)];
    const Placement& to = out_.schedule.tasks[at(link.to)];
    if (link.to != i && fails(link, trial_, to)) return l;
  }
  return -1;
}

bool Decoder::place(TaskId i, int w) {
  clear_blockers();
  const Task& task = net_.tasks[at(i)];
  const Way& way = task.ways[at(w)];
  const Bounds b = bounds(i);
  if (!b.possible) return false;
  if (goes_on_at_once(i, w, b)) return true;
  const Workspace::Mark before = work_.mark();
  for (Tick t = b.start_least; t < net_.horizon();) {
    const Tick start = next_start(way, t);
    if (start == never) return false;
    if (const int cure = begun(i) ? -1 : work_.failing_cure(i, start); cure >= 0) {
      block(Blocker::Kind::cure, cure, start, start + 1);
      t = start + 1;
      continue;
    }
    trial_.present = true;
    trial_.way = w;
    trial_.runs = task.history.runs;
    if (run_from(i, way, start, b.finish_least)) {
      const int link = failing_link(i);
      // Taking the cover off to begin may have cost it some of the cure that it waited for.
      const int cure = begun(i) ? -1 : work_.failing_cure(i, start);
      if (link < 0 && cure < 0) return true;
      if (link >= 0) {
        note_missed(link, i);
        block(Blocker::Kind::link, link, start, start + 1);
      } else {
        block(Blocker::Kind::cure, cure, start, start + 1);
      }
    }
    work_.roll_back(before);
    // Past the latest start that an incoming most-link leaves, nothing can help.
    if (too_late(i, start)) return false;
    t = next_try(start);
  }
  return false;
}

// Each run leaves its work covered, and the hands that cover it are not free for the next lift: who goes on
// at once covers nothing in between. One try, at the first tick that would do without those covers.
bool Decoder::goes_on_at_once(TaskId i, int w, const Bounds& b) {
  const Task& task = net_.tasks[at(i)];
  if (task.touches.empty() || begun(i)) return false;
  const Way& way = task.ways[at(w)];
  const bool reasons = std::exchange(reasons_, false);
  const Workspace::Mark before = work_.mark();
  bool placed = false;
  const Tick usual = next_start(way, b.start_least);
  if (usual > b.start_least && usual != never && work_.lift_covers(task, b.start_least, usual)) {
    const Tick start = next_start(way, b.start_least);
    if (start < usual && work_.failing_cure(i, start) < 0) {
      trial_.present = true;
      trial_.way = w;
      trial_.runs.clear();
      placed =
          run_from(i, way, start, b.finish_least) && failing_link(i) < 0 && work_.failing_cure(i, start) < 0;
    }
  }
  work_.put_down();
  if (!placed) work_.roll_back(before);
  reasons_ = reasons;
  last_blocked_.reset();
  return placed;
}

// Rates change with the slot: what a guard, a keep or a state forbids it mostly forbids for the rest of the
// slot. Where the time left was too short, it is no longer until that time is over.
Tick Decoder::next_try(Tick start) const {
  if (look_from_ > start + 1 || !last_blocked_) return std::max(look_from_, start + 1);
  switch (*last_blocked_) {
    case Blocker::Kind::guard:
    case Blocker::Kind::keep:
    case Blocker::Kind::state:
      return (net_.slot_of(start) + 1) * net_.ticks_per_slot;
    default:
      return start + 1;
  }
}

void Decoder::note_missed(int link, TaskId i) {
  const Link& l = net_.links[at(link)];
  if (l.most_clock == no_clock || l.to != i) return;
  const Tick b = edge_of(trial_, l.to_edge);
  if (out_.missed_link < 0 || (out_.missed_link == link && b < out_.missed_at)) {
    out_.missed_link = link;
    out_.missed_at = b;
  }
}

bool Decoder::too_late(TaskId i, Tick start) const {
  for (const int l : into_[at(i)]) {
    const Link& link = net_.links[at(l)];
    const Placement& from = out_.schedule.tasks[at(link.from)];
    if (link.most_clock == no_clock || link.from == i || (link.to_edge == Edge::start && begun(i)) ||
        !from.has(net_.tasks[at(link.from)], link.from_edge))
      continue;
    // Even a task of no length would now come too late, and no later try would change what is noted as
    // missed: that is this link, or one of another task, or one that was missed by less. (Where reasons are
    // asked for, those of later starts are given too.)
    const bool noted =
        out_.missed_link == l || (!reasons_ && out_.missed_link >= 0 &&
                                  (net_.links[at(out_.missed_link)].to != i || start >= out_.missed_at));
    if (noted && net_.clocks[at(link.most_clock)].passed(edge_of(from, link.from_edge), start) > link.most)
      return true;
  }
  return false;
}

// The first tick at or after t at which a run could be under way as far as clock and people go.
Tick Decoder::next_start(const Way& way, Tick t) {
  const Clock& clock = net_.clocks[at(way.clock)];
  while (t < net_.horizon()) {
    const Tick running = clock.next_running(t);
    if (running > t) {
      last_blocked_ = Blocker::Kind::clock;
      for (Tick from = t; reasons_ && from < std::min(running, net_.horizon());) {
        const Tick slot_end = (net_.slot_of(from) + 1) * net_.ticks_per_slot;
        block(Blocker::Kind::clock, way.clock, from, std::min(slot_end, running), clock.cause(from));
        from = slot_end;
      }
      if (running == never) return never;
      t = running;
      continue;
    }
    if (way.state && work_.allowed_until(*way.state, t) == t) {
      const Tick slot_end = (net_.slot_of(t) + 1) * net_.ticks_per_slot;
      block(Blocker::Kind::state, way.state->stateful, t, slot_end);
      t = slot_end;
      continue;
    }
    const Need* busy = work_.busy_at(way.needs, t);
    if (busy == nullptr) return t;
    const Tick free = work_.busy_until(*busy, t);
    block(Blocker::Kind::resource, busy->resource, t, free);
    t = free;
  }
  return never;
}

// Runs of the whole task, the first from exactly `start`.
bool Decoder::run_from(TaskId i, const Way& way, Tick start, Tick finish_least) {
  const std::size_t past = trial_.runs.size();
  if (runs_from(i, way, start, finish_least)) return true;
  if (trial_.runs.size() > past) look_from_ = start + 1;  // it was said of a later run
  return false;
}

bool Decoder::runs_from(TaskId i, const Way& way, Tick start, Tick finish_least) {
  const std::size_t past = trial_.runs.size();
  Amount done = done_of(trial_.runs);
  Tick s = start;
  while (done < way.amount) {
    if (!one_run(i, way, start, s, done, finish_least)) {
      if (trial_.runs.size() == past) return false;
      // A later run may begin at any tick; look on.
      s = next_start(way, look_from_);
      if (s == never) return false;
      if (way.longest_span && s - start > *way.longest_span) {
        block(Blocker::Kind::span, 0, start, start + 1);
        return false;
      }
      continue;
    }
    done += trial_.runs.back().done;
    if (done < way.amount) {
      s = next_start(way, trial_.runs.back().end);
      if (s == never) return false;
    }
  }
  return true;
}

// A run from exactly `s`, of a task of which the first new run begins at `first`.
bool Decoder::one_run(TaskId i, const Way& way, Tick first, Tick s, Amount done, Tick finish_least) {
  const Clock& clock = net_.clocks[at(way.clock)];
  look_from_ = s + 1;
  Tick limit = clock.next_standing(s);
  if (way.state) limit = std::min(limit, work_.allowed_until(*way.state, s));
  limit = std::min(limit, clock.advance(s, way.setup + way.amount - done));
  limit = work_.free_until(way.needs, s, limit);
  if (way.longest_span) limit = std::min(limit, first + *way.longest_span);
  const Amount possible = clock.passed(s, limit) - way.setup;
  const Amount rest = way.amount - done;
  if (possible >= rest && try_run(i, way, s, rest, true, finish_least)) return true;
  // Begun later in the same gap, it has less time still; only a span counted from its start goes along.
  const auto too_short = [&](Amount least) {
    if (!way.longest_span || limit < first + *way.longest_span) look_from_ = std::max(look_from_, limit);
    // Nor has the rest of a day whose hours are used up, or as good as.
    const Tick room = work_.room(way.needs, s);
    if (clock.fastest() * Amount{room} - way.setup < least)
      look_from_ = std::max(look_from_, std::min(work_.day_end(s), clock.next_standing(s)) - room);
    block_short(way, s, limit, look_from_);
    return false;
  };
  if (possible < 1 || (possible < rest && way.pause == Pause::none))
    return too_short(way.pause == Pause::none ? rest : 1);
  // Where the canopy stands elsewhere no shorter run helps. (Guards and keeps, which some of them would break
  // first, are as good a reason; but for the sheet each is named.)
  const bool elsewhere = !reasons_ && way.state && way.pause != Pause::none && work_.elsewhere(*way.state, s);
  if (elsewhere) last_blocked_ = Blocker::Kind::state;
  if (way.pause == Pause::at_breaks) {
    auto stop = std::upper_bound(way.breaks.begin(), way.breaks.end(), done + possible);
    if (possible < rest && (stop == way.breaks.begin() || *(stop - 1) <= done))
      return too_short(stop == way.breaks.end() ? rest : *stop - done);
    while (!elsewhere && stop != way.breaks.begin() && *(stop - 1) > done) {
      --stop;
      if (try_run(i, way, s, *stop - done, false, finish_least)) return true;
    }
    if (way.breaks.empty() || possible < rest) block_short(way, s, limit, s + 1);
  } else if (way.pause == Pause::anywhere) {
    // Later ends first, then earlier ones, a slot at a time near the start.
    for (Tick e = limit; e > s && !elsewhere;
         e -= (e - s > 8 * net_.ticks_per_slot ? net_.ticks_per_slot : 1)) {
      const Amount some = clock.passed(s, e) - way.setup;
      if (some < 1) break;
      if (some < rest && try_run(i, way, s, some, false, finish_least)) return true;
    }
  }
  return false;
}

void Decoder::block_short(const Way& way, Tick s, Tick limit, Tick to) {
  const Clock& clock = net_.clocks[at(way.clock)];
  if (limit < net_.horizon() && clock.rate(limit) == 0) {
    block(Blocker::Kind::clock, way.clock, s, to, clock.cause(limit));
  } else if (limit < net_.horizon() && !way.needs.empty() && work_.busy_at(way.needs, limit) == nullptr) {
    block(Blocker::Kind::bucket, way.needs.front().resource, s, to);
  } else {
    block(Blocker::Kind::short_run, 0, s, to);
  }
}

bool Decoder::try_run(TaskId i, const Way& way, Tick s, Amount amount, bool last, Tick finish_least) {
  const Clock& clock = net_.clocks[at(way.clock)];
  const Tick e = clock.advance(s, way.setup + amount);
  if (e == never) return false;
  if (last && e < finish_least) {
    block(Blocker::Kind::link, -1, s, s + 1);
    return false;
  }
  for (std::size_t g = 0; g < way.guards.size(); ++g) {
    const Guard& guard = way.guards[g];
    const Tick from = guard.from_start ? s : e;
    const Tick until =
        std::min(net_.horizon(), net_.clocks[at(guard.until)].advance(from, guard.until_amount));
    if (net_.clocks[at(guard.exposure)].passed(from, until) > guard.most) {
      block(Blocker::Kind::guard, static_cast<int>(g), s, s + 1);
      return false;
    }
  }
  // What the run would lay too high is quick to ask, and no cover mends it. (Both kinds are mostly forbidden
  // for the rest of the slot; where reasons are asked for, they are to be told apart as they come.)
  if (!reasons_ && work_.too_high(net_.tasks[at(i)], way, s, e, amount)) {
    last_blocked_ = Blocker::Kind::keep;
    return false;
  }
  const Workspace::Mark before = work_.mark();
  if (way.state && !work_.hold_state(*way.state, s, e)) {
    block(Blocker::Kind::state, way.state->stateful, s, s + 1);
    work_.roll_back(before);
    return false;
  }
  int keep = 0;
  if (!work_.enter_run(net_.tasks[at(i)],
                       {s, e, i, false, false, way.shelters, 0, 0, way.setup, amount, way.clock}, keep)) {
    block(Blocker::Kind::keep, keep, s, s + 1);
    work_.roll_back(before);
    return false;
  }
  if (!work_.reserve(way.needs, s, e)) {
    block(Blocker::Kind::bucket, way.needs.empty() ? 0 : way.needs.front().resource, s, s + 1);
    work_.roll_back(before);
    return false;
  }
  trial_.runs.push_back({s, e, amount});
  return true;
}

}  // namespace weatherstruck::engine
