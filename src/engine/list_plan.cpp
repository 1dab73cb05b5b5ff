#include <algorithm>
#include <iterator>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "decoder.h"
#include "ids.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine {
namespace {

// Least ticks in which an amount can go by on a clock, whenever it starts.
Tick least_ticks(const Clock& clock, Amount amount) {
  std::int32_t fastest = 0;
  for (Tick t = 0; t < clock.horizon(); t += clock.ticks_per_slot())
    fastest = std::max(fastest, clock.rate(t));
  if (fastest == 0) return clock.horizon();
  return static_cast<Tick>(std::min<Amount>(clock.horizon(), (amount + fastest - 1) / fastest));
}

// The longest chain of work and waits from the start of each task to the end of all, by the fastest way. What
// need not be done lengthens the chains of other such tasks only.
std::vector<Tick> tails(const Network& network) {
  const std::size_t tasks = network.tasks.size();
  std::vector<Tick> shortest(tasks, never);
  for (std::size_t i = 0; i < tasks; ++i) {
    for (const Way& way : network.tasks[i].ways) {
      shortest[i] = std::min(shortest[i], least_ticks(network.clocks[at(way.clock)], way.setup + way.amount));
    }
  }
  std::vector<Tick> tail = shortest;
  // Relaxed until it settles; the circle check at build keeps this finite, and the count keeps it bounded.
  for (std::size_t round = 0; round < tasks; ++round) {
    bool moved = false;
    const auto lengthen = [&](int from, Tick lag, int to) {
      const bool needed = network.tasks[at(to)].importance == Importance::must;
      if (!needed && network.tasks[at(from)].importance == Importance::must) return;
      const Tick longer = lag + tail[at(to)];
      if (longer > tail[at(from)] && longer <= network.horizon() * 2) {
        tail[at(from)] = longer;
        moved = true;
      }
    };
    for (const Link& link : network.links) {
      const Tick wait =
          link.least_clock == no_clock ? 0 : least_ticks(network.clocks[at(link.least_clock)], link.least);
      lengthen(link.from, wait + (link.from_edge == Edge::finish ? shortest[at(link.from)] : 0), link.to);
    }
    if (!moved) break;
  }
  return tail;
}

class Lister {
 public:
  Lister(const Network& network, const ListOptions& options)
      : net_(network), options_(options), decoder_(network) {
    decoder_.give_reasons(false);
  }

  ListPlan run() {
    const std::size_t tasks = net_.tasks.size();
    tail_ = tails(net_);
    const std::vector<Tick>& tail = tail_;
    std::vector<TaskId> listed(tasks);
    std::iota(listed.begin(), listed.end(), 0);
    const auto first_by = [&](auto&& before) {
      std::vector<TaskId> order = listed;
      std::stable_sort(order.begin(), order.end(), before);
      return order;
    };
    const auto rank = [&](TaskId i) { return static_cast<int>(net_.tasks[at(i)].importance); };
    const std::vector<std::vector<TaskId>> orders{
        first_by([&](TaskId a, TaskId b) {
          return rank(a) != rank(b) ? rank(a) < rank(b) : tail[at(a)] > tail[at(b)];
        }),
        first_by([&](TaskId a, TaskId b) { return rank(a) < rank(b); }),
        listed,
        first_by([&](TaskId a, TaskId b) { return tail[at(a)] > tail[at(b)]; }),
    };
    const bool hosts = std::any_of(net_.tasks.begin(), net_.tasks.end(), [](const Task& task) {
      return task.presence && !task.presence->ways.empty();
    });
    std::vector<Genes> beginnings;
    if (options_.yesterday.order.size() == tasks) beginnings.push_back(options_.yesterday);
    for (const auto& order : orders) {
      for (const int way : {-1, 0}) {
        for (const bool put_off : {false, true}) {
          Genes genes{order, std::vector<int>(tasks, way), std::vector<Tick>(tasks, 0),
                      std::vector<char>(tasks, 0)};
          // Where other tasks hang on the choice of way, "ends first" would always put work off: so both are
          // tried.
          for (const Task& task : net_.tasks) {
            if (task.presence)
              genes.way[at(task.presence->task)] =
                  put_off && !task.presence->ways.empty() ? task.presence->ways.front() : 0;
          }
          if (!put_off || hosts) beginnings.push_back(std::move(genes));
        }
      }
    }
    if (options_.beginning > 0) {
      // From one alone, however poor: the best of all led into the rut that is to be got out of.
      const std::size_t chosen = at(options_.beginning * 5) % beginnings.size();
      consider(repaired(std::move(beginnings[chosen])));
    } else {
      for (Genes& genes : beginnings)
        consider(repaired(std::move(genes)));
    }
    other_ways();
    leave_out();
    for (const int share : {50, 75}) {
      shuffle_about(options_.schedules * share / 100);
      leave_out();
      if (best_.value.must_unplaced == 0 && best_.value.must_late == 0) bring_back();
    }
    shuffle_about(options_.schedules);
    bring_back();
    decoder_.give_reasons(true);
    return {decoder_.decode(best_.genes), best_.genes, made_};
  }

 private:
  /// A plan; the schedule only where the value is no worse than that of the best.
  struct Candidate {
    Genes genes;
    Schedule schedule;
    Value value;
  };

  // How hard the must-tasks press on the end: their starts and what must follow each, summed. Between plans
  // of equal value the one that presses less is nearer to an earlier finish.
  [[nodiscard]] std::int64_t pressure(const Schedule& schedule) const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const Placement& placement = schedule.tasks[i];
      if (net_.tasks[i].importance != Importance::must || !placement.placed()) continue;
      const std::int64_t end = placement.start() + tail_[i];
      sum += end * end;
    }
    return sum;
  }
  [[nodiscard]] bool better(const Candidate& a, const Candidate& b) const {
    return a.value != b.value ? a.value < b.value : pressure(a.schedule) < pressure(b.schedule);
  }

  [[nodiscard]] bool worse_than_best(const Value& value) const { return have_ && value > best_.value; }
  [[nodiscard]] Schedule schedule_of(const Decoded& decoded) const {
    return worse_than_best(decoded.value) ? Schedule{} : decoded.schedule;
  }

  [[nodiscard]] bool spent() const { return made_ >= options_.schedules; }

  const Decoded& make(const Genes& genes) {
    ++made_;
    return decoder_.decode(genes, have_ ? &best_.value : nullptr);
  }

  // Decodes, and while a most-link is missed starts its first task later, so that the second can follow in
  // time.
  Candidate repaired(Genes genes) {
    // What an earlier order had to put off, this one may not.
    std::fill(genes.not_before.begin(), genes.not_before.end(), 0);
    const Decoded* decoded = &make(genes);
    Candidate best{genes, schedule_of(*decoded), decoded->value};
    for (int round = 0; round < 8 && decoded->missed_link >= 0 && !spent(); ++round) {
      const Link& link = net_.links[at(decoded->missed_link)];
      const Placement& from = decoded->schedule.tasks[at(link.from)];
      const std::size_t past = net_.tasks[at(link.from)].history.runs.size();
      // What is done cannot be put off.
      if (from.runs.size() <= past || (past > 0 && link.from_edge == Edge::start)) break;
      const Tick event = link.from_edge == Edge::start ? from.start() : from.finish();
      const Clock& clock = net_.clocks[at(link.most_clock)];
      const Tick soonest = clock.retreat(decoded->missed_at, link.most + 1) + 1;
      Tick& held = genes.not_before[at(link.from)];
      held = std::max(held + 1, from.runs[past].start + std::max(1, soonest - event));
      if (held >= net_.horizon()) break;
      decoded = &make(genes);
      if (decoded->value < best.value) best = {genes, schedule_of(*decoded), decoded->value};
    }
    return best;
  }

  bool consider(Candidate candidate) {
    if (have_ && !better(candidate, best_)) return false;
    best_ = std::move(candidate);
    have_ = true;
    return true;
  }

  // One task at a time, each of its ways; first those on which other tasks hang.
  void other_ways() {
    std::vector<TaskId> hosts;
    for (const Task& task : net_.tasks) {
      if (task.presence && std::find(hosts.begin(), hosts.end(), task.presence->task) == hosts.end())
        hosts.push_back(task.presence->task);
    }
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const bool host = std::find(hosts.begin(), hosts.end(), static_cast<TaskId>(i)) != hosts.end();
      if (!host && net_.tasks[i].ways.size() > 1) hosts.push_back(static_cast<TaskId>(i));
    }
    for (const TaskId i : hosts) {
      for (int w = 0; w < static_cast<int>(net_.tasks[at(i)].ways.size()) && !spent(); ++w) {
        if (best_.genes.way[at(i)] == w) continue;
        Genes genes = best_.genes;
        genes.way[at(i)] = w;
        consider(repaired(std::move(genes)));
      }
    }
  }

  // Moves some of the order to another place in it, or takes another way of a task; keeps what is no worse.
  // Equal values are kept too, so that it can walk along a level stretch.
  void shuffle_about(int until) {
    if (net_.tasks.size() < 2) return;
    base::Random random(options_.seed, static_cast<std::uint64_t>(until));
    while (made_ < until) {
      Genes genes = best_.genes;
      const bool late = best_.value.must_late > 0 || best_.value.must_unplaced > 0;
      if (late && random.chance(0.5)) {
        hurry(genes, random);
      } else if (!late && best_.value.should_unplaced > 0 && random.chance(0.3)) {
        take_in(genes, random);
      } else {
        move_some(genes, random);
      }
      Candidate candidate = repaired(std::move(genes));
      if (!better(best_, candidate)) best_ = std::move(candidate);
    }
  }

  void move_some(Genes& genes, base::Random& random) {
    const auto tasks = static_cast<int>(net_.tasks.size());
    const int from = random.between(0, tasks - 1);
    const auto& ways = net_.tasks[at(genes.order[at(from)])].ways;
    if (ways.size() > 1 && random.chance(0.3)) {
      genes.way[at(genes.order[at(from)])] = random.between(0, static_cast<int>(ways.size()) - 1);
      return;
    }
    // Most moves are short ones; a long one now and then gets out of a rut. What belongs together often
    // stands together, so now and then some are moved as they stand.
    const int reach = random.chance(0.3) ? tasks : 6;
    const int length = random.chance(0.3) ? random.between(2, 6) : 1;
    const int last = std::min(from + length, tasks);
    const int to = std::clamp(from + random.between(-reach, reach), 0, tasks - (last - from));
    const auto begin = genes.order.begin();
    if (to < from) {
      std::rotate(begin + to, begin + from, begin + last);
    } else {
      std::rotate(begin + from, begin + last, begin + to + (last - from));
    }
  }

  // What must be done and comes too late mostly stands behind what need not be done. One must-task goes
  // forward, alone to some place before its own, or to the front with all that it waits for: one by one, none
  // of those would gain anything.
  void hurry(Genes& genes, base::Random& random) {
    std::vector<int> musts;
    for (int k = 0; k < static_cast<int>(genes.order.size()); ++k) {
      if (net_.tasks[at(genes.order[at(k)])].importance == Importance::must) musts.push_back(k);
    }
    if (musts.empty()) return;
    const int from = musts[at(random.between(0, static_cast<int>(musts.size()) - 1))];
    const auto begin = genes.order.begin();
    const auto ways = static_cast<int>(net_.tasks[at(genes.order[at(from)])].ways.size());
    if (ways > 1 && random.chance(0.4)) genes.way[at(genes.order[at(from)])] = random.between(-1, ways - 1);
    if (random.chance(0.5)) {
      const int to = random.between(0, from);
      std::rotate(begin + to, begin + from, begin + from + 1);
      return;
    }
    if (waits_for_.empty()) find_what_each_waits_for();
    const std::vector<char>& chain = waits_for_[at(genes.order[at(from)])];
    std::stable_partition(begin, genes.order.end(), [&](TaskId i) { return chain[at(i)] != 0; });
  }

  // One that ought to be done and has no place is wanted again, with all that it waits for, somewhere in the
  // order; it may cost others their places, which a move of itself would never show.
  void take_in(Genes& genes, base::Random& random) {
    std::vector<TaskId> wanted;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const Placement& placement = best_.schedule.tasks[i];
      if (net_.tasks[i].importance == Importance::should && placement.present && !placement.placed())
        wanted.push_back(static_cast<TaskId>(i));
    }
    if (wanted.empty()) return;
    if (waits_for_.empty()) find_what_each_waits_for();
    const TaskId task = wanted[at(random.between(0, static_cast<int>(wanted.size()) - 1))];
    const std::vector<char>& chain = waits_for_[at(task)];
    for (std::size_t i = 0; i < chain.size(); ++i)
      genes.left_out[i] = chain[i] != 0 ? 0 : genes.left_out[i];
    const auto ways = static_cast<int>(net_.tasks[at(task)].ways.size());
    if (ways > 1) genes.way[at(task)] = random.between(-1, ways - 1);
    // Those of the chain that belong to the same piece go with it: concrete poured too late keeps it out as
    // well.
    const int group = net_.tasks[at(task)].group;
    const auto goes = [&](TaskId i) {
      return i == task || (group >= 0 && chain[at(i)] != 0 && net_.tasks[at(i)].group == group);
    };
    std::vector<TaskId> moved;
    std::copy_if(genes.order.begin(), genes.order.end(), std::back_inserter(moved), goes);
    genes.order.erase(std::remove_if(genes.order.begin(), genes.order.end(), goes), genes.order.end());
    const int to = random.between(0, static_cast<int>(genes.order.size()));
    genes.order.insert(genes.order.begin() + to, moved.begin(), moved.end());
  }

  void find_what_each_waits_for() {
    const std::size_t tasks = net_.tasks.size();
    waits_for_.assign(tasks, std::vector<char>(tasks, 0));
    for (std::size_t i = 0; i < tasks; ++i) {
      std::vector<char>& chain = waits_for_[i];
      chain[i] = 1;
      for (bool more = true; more;) {
        more = false;
        for (const Link& link : net_.links) {
          if (chain[at(link.to)] == 0 || chain[at(link.from)] != 0) continue;
          chain[at(link.from)] = 1;
          more = true;
        }
      }
    }
  }

  // May- and should-tasks go while must-tasks are late or without a place: whole pieces first (a path half
  // made is no use), then single tasks, the last listed first. Then what fits after all comes back.
  void leave_out() {
    mark_what_has_no_place();
    for (const Importance level : {Importance::may, Importance::should}) {
      for (const bool whole : {true, false}) {
        for (std::size_t i = net_.tasks.size(); i-- > 0;) {
          if (best_.value.must_unplaced == 0 && best_.value.must_late == 0) break;
          if (net_.tasks[i].importance == level && best_.genes.left_out[i] == 0 && !spent())
            switch_out(i, whole, 1);
        }
      }
    }
  }
  // What has no place anyway costs nothing to leave out; but wanted still, it would come back as soon as
  // another way made room for it, and put off what must be done.
  void mark_what_has_no_place() {
    if (best_.value.must_unplaced == 0 && best_.value.must_late == 0) return;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const Placement& placement = best_.schedule.tasks[i];
      if (net_.tasks[i].importance != Importance::must && placement.present && placement.runs.empty())
        best_.genes.left_out[i] = 1;
    }
  }
  void bring_back() {
    for (const Importance level : {Importance::should, Importance::may}) {
      for (const bool whole : {true, false}) {
        std::vector<int> tried;
        for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
          if (net_.tasks[i].importance != level || best_.genes.left_out[i] == 0) continue;
          const int group = net_.tasks[i].group;
          if (whole && group >= 0) {
            if (std::find(tried.begin(), tried.end(), group) != tried.end()) continue;
            tried.push_back(group);
          }
          switch_out(i, whole, 0);
        }
      }
    }
  }

  // Leaves out, or takes in again, a task or what need not be done of its whole piece; kept if better. A
  // piece of which nothing must be done comes back whole or not at all.
  void switch_out(std::size_t task, bool whole, char out) {
    Genes genes = best_.genes;
    std::vector<std::size_t> switched;
    bool piece_is_made = false;
    for (std::size_t j = 0; j < net_.tasks.size(); ++j) {
      const bool same = net_.tasks[task].group >= 0 && net_.tasks[j].group == net_.tasks[task].group;
      const bool must = net_.tasks[j].importance == Importance::must;
      piece_is_made = piece_is_made || (same && must);
      if (j != task && (!whole || !same || must)) continue;
      genes.left_out[j] = out;
      switched.push_back(j);
    }
    if (genes.left_out == best_.genes.left_out || (out == 0 && !whole && !piece_is_made)) return;
    if (try_switched(genes, switched, out != 0 || piece_is_made) || out != 0) return;
    // In its old place in the order it is in the way of what must be done. Last of all it takes what is left;
    // and the sooner it comes, the more of what it waits for (concrete to harden) goes by beside other work.
    const auto rest = std::stable_partition(genes.order.begin(), genes.order.end(), [&](TaskId i) {
      return std::find(switched.begin(), switched.end(), at(i)) == switched.end();
    });
    const auto others = rest - genes.order.begin();
    for (const int quarters : {4, 0, 1, 2, 3}) {
      Genes moved = genes;
      std::rotate(moved.order.begin() + others * quarters / 4, moved.order.begin() + others,
                  moved.order.end());
      if (try_switched(std::move(moved), switched, piece_is_made)) return;
    }
  }

  bool try_switched(Genes genes, const std::vector<std::size_t>& switched, bool in_part) {
    Candidate candidate = repaired(std::move(genes));
    if (worse_than_best(candidate.value)) return false;
    const bool all_placed = std::all_of(switched.begin(), switched.end(), [&](std::size_t j) {
      const Placement& placement = candidate.schedule.tasks[j];
      return placement.placed() || !placement.present;
    });
    return (in_part || all_placed) && consider(std::move(candidate));
  }

  const Network& net_;
  const ListOptions& options_;
  std::vector<Tick> tail_;
  Decoder decoder_;
  Candidate best_;
  std::vector<std::vector<char>> waits_for_;  ///< by task: itself and all that its links reach back to
  bool have_ = false;
  int made_ = 0;
};

}  // namespace

ListPlan plan_by_list(const Network& network, const ListOptions& options) {
  const auto faults = faults_of(network);
  if (!faults.empty()) throw std::invalid_argument(faults.front());
  return Lister(network, options).run();
}

}  // namespace weatherstruck::engine
