#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine {
namespace {

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

// Least ticks in which an amount can go by on a clock, whenever it starts.
Tick least_ticks(const Clock& clock, Amount amount) {
  std::int32_t fastest = 0;
  for (Tick t = 0; t < clock.horizon(); t += clock.ticks_per_slot())
    fastest = std::max(fastest, clock.rate(t));
  if (fastest == 0) return clock.horizon();
  return static_cast<Tick>(std::min<Amount>(clock.horizon(), (amount + fastest - 1) / fastest));
}

// The longest chain of work and waits from the start of each task to the end of all, by the fastest way.
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
  Lister(const Network& network, const ListOptions& options) : net_(network), options_(options) {}

  ListPlan run() {
    const std::size_t tasks = net_.tasks.size();
    const std::vector<Tick> tail = tails(net_);
    std::vector<TaskId> listed(tasks);
    std::iota(listed.begin(), listed.end(), 0);
    std::vector<std::vector<TaskId>> orders{listed};
    orders.push_back(listed);
    std::stable_sort(orders.back().begin(), orders.back().end(),
                     [&](TaskId a, TaskId b) { return tail[at(a)] > tail[at(b)]; });
    orders.push_back(listed);
    std::stable_sort(orders.back().begin(), orders.back().end(), [&](TaskId a, TaskId b) {
      return net_.tasks[at(a)].due != net_.tasks[at(b)].due ? net_.tasks[at(a)].due < net_.tasks[at(b)].due
                                                            : tail[at(a)] > tail[at(b)];
    });
    for (const auto& order : orders) {
      for (const int way : {-1, 0}) {
        Genes genes{order, std::vector<int>(tasks, way), std::vector<Tick>(tasks, 0),
                    std::vector<char>(tasks, 0)};
        // Where other tasks hang on the choice of way, "ends first" would always put work off; take the
        // preferred.
        for (const Task& task : net_.tasks) {
          if (task.presence) genes.way[at(task.presence->task)] = 0;
        }
        consider(repaired(std::move(genes)));
      }
    }
    other_ways();
    swaps();
    leave_out();
    plan_.schedules = made_;
    return std::move(plan_);
  }

 private:
  struct Candidate {
    Genes genes;
    Decoded decoded;
  };

  [[nodiscard]] bool spent() const { return made_ >= options_.schedules; }

  Decoded make(const Genes& genes) {
    ++made_;
    return decode(net_, genes);
  }

  // Decodes, and while a most-link is missed starts its first task later, so that the second can follow in
  // time.
  Candidate repaired(Genes genes) {
    Candidate best{genes, make(genes)};
    Candidate current = best;
    for (int round = 0; round < 25 && current.decoded.missed_link >= 0 && !spent(); ++round) {
      const Link& link = net_.links[at(current.decoded.missed_link)];
      const Placement& from = current.decoded.schedule.tasks[at(link.from)];
      if (!from.placed()) break;
      const Tick event = link.from_edge == Edge::start ? from.start() : from.finish();
      const Clock& clock = net_.clocks[at(link.most_clock)];
      const Tick soonest = clock.retreat(current.decoded.missed_at, link.most + 1) + 1;
      Tick& held = current.genes.not_before[at(link.from)];
      held = std::max(held + 1, from.start() + std::max(1, soonest - event));
      if (held >= net_.horizon()) break;
      current.decoded = make(current.genes);
      if (current.decoded.value < best.decoded.value) best = current;
    }
    return best;
  }

  bool consider(Candidate candidate) {
    if (have_ && !(candidate.decoded.value < plan_.best.value)) return false;
    plan_.best = std::move(candidate.decoded);
    plan_.genes = std::move(candidate.genes);
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
        if (plan_.genes.way[at(i)] == w) continue;
        Genes genes = plan_.genes;
        genes.way[at(i)] = w;
        consider(repaired(std::move(genes)));
      }
    }
  }

  // Bringing one task forward by one place, as long as that helps.
  void swaps() {
    for (bool better = true; better && !spent();) {
      better = false;
      for (std::size_t i = 1; i < plan_.genes.order.size() && !spent(); ++i) {
        Genes genes = plan_.genes;
        std::swap(genes.order[i - 1], genes.order[i]);
        better = consider(repaired(std::move(genes))) || better;
      }
    }
  }

  // May- and should-tasks go, the last listed first, while must-tasks are late or without a place.
  void leave_out() {
    for (const Importance level : {Importance::may, Importance::should}) {
      for (std::size_t i = net_.tasks.size(); i-- > 0;) {
        const Value& value = plan_.best.value;
        if (value.must_unplaced == 0 && value.must_late == 0) return;
        if (net_.tasks[i].importance != level || plan_.genes.left_out[i] != 0) continue;
        Genes genes = plan_.genes;
        genes.left_out[i] = 1;
        consider(repaired(std::move(genes)));
      }
    }
  }

  const Network& net_;
  const ListOptions& options_;
  ListPlan plan_;
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
