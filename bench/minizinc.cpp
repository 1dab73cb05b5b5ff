#include "minizinc.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace weatherstruck::bench {
namespace {

using namespace engine;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

template <class Range>
std::string list(const Range& range) {
  return fmt::format("[{}]", fmt::join(range, ","));
}

class Writer {
 public:
  explicit Writer(const Network& network) : net_(network) {
    if (!network.keeps.empty() || !network.statefuls.empty() || !network.cure_links.empty() ||
        network.now != 0)
      throw std::invalid_argument("keeps, states, cure links and history are not in the model");
    if (network.ticks_per_slot != 1) throw std::invalid_argument("one tick to the slot is wanted");
  }

  std::string run() {
    text_ = "include \"cumulative.mzn\";\n";
    line("int: horizon = {};", net_.horizon());
    for (std::size_t i = 0; i < net_.tasks.size(); ++i)
      task(i);
    presences();
    for (const Link& link : net_.links)
      write(link);
    for (ResourceId r = 0; r < static_cast<ResourceId>(net_.resources.size()); ++r)
      resource(r);
    for (const Bucket& bucket : net_.buckets)
      hours_a_day(bucket);
    line("var 0..horizon: finish;");
    for (std::size_t i = 0; i < net_.tasks.size(); ++i)
      line("constraint p{0} -> finish >= e{0};", i);
    std::string starts;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i)
      starts += fmt::format("{}s{}", i == 0 ? "" : ",", i);
    std::string choices = starts;
    std::replace(choices.begin(), choices.end(), 's', 'x');
    // For Gecode, which finds nothing by smallest starts; Chuffed searches as it likes.
    line("solve :: seq_search([int_search([{}], dom_w_deg, indomain_min, complete),", starts);
    line("  int_search([{}], dom_w_deg, indomain_min, complete)]) minimize finish;", choices);
    line("output [\"finish=\\(finish)\\n\"];");
    return std::move(text_);
  }

 private:
  template <class... Args>
  void line(fmt::format_string<Args...> format, Args&&... args) {
    text_ += fmt::format(format, std::forward<Args>(args)...) + "\n";
  }

  // The end of a run from `start`, or `never` where it may not begin then.
  [[nodiscard]] Tick end_of(const Way& way, Tick start) const {
    const Clock& clock = net_.clocks[at(way.clock)];
    if (clock.rate(start) == 0) return never;
    const Tick end = clock.advance(start, way.setup + way.amount);
    if (end == never || end > clock.next_standing(start)) return never;
    if (way.longest_span && end - start > *way.longest_span) return never;
    for (const Guard& guard : way.guards) {
      const Tick from = guard.from_start ? start : end;
      const Tick until =
          std::min(net_.horizon(), net_.clocks[at(guard.until)].advance(from, guard.until_amount));
      if (net_.clocks[at(guard.exposure)].passed(from, until) > guard.most) return never;
    }
    for (const Need& need : way.needs) {
      for (Tick t = start; t < end; ++t) {
        if (net_.resources[at(need.resource)].capacity[at(t)] < need.quantity) return never;
      }
    }
    return end;
  }

  void task(std::size_t i) {
    const Task& task = net_.tasks[i];
    if (task.importance != Importance::must) throw std::invalid_argument(task.name + ": need not be done");
    std::vector<Tick> starts, ends;
    std::vector<std::size_t> ways;
    for (std::size_t w = 0; w < task.ways.size(); ++w) {
      if (task.ways[w].pause != Pause::none) throw std::invalid_argument(task.name + ": may pause");
      for (Tick t = task.release; t < net_.horizon(); ++t) {
        const Tick end = end_of(task.ways[w], t);
        if (end == never) continue;
        starts.push_back(t);
        ends.push_back(end);
        ways.push_back(w);
      }
    }
    line("% {}", task.name);
    line("var 1..{1}: x{0}; var 0..horizon: s{0}; var 0..horizon: e{0}; var 0..{2}: w{0}; var bool: p{0};", i,
         starts.size(), task.ways.size() - 1);
    line("constraint s{0} = {1}[x{0}]; constraint e{0} = {2}[x{0}]; constraint w{0} = {3}[x{0}];", i,
         list(starts), list(ends), list(ways));
  }

  void presences() {
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const auto& presence = net_.tasks[i].presence;
      if (!presence) {
        line("constraint p{};", i);
        continue;
      }
      line("constraint p{0} = (p{1} /\\ w{1} in {{{2}}});", i, presence->task,
           fmt::join(presence->ways, ","));
      line("constraint p{0} \\/ x{0} = 1;", i);  // where it is not there, it is no choice
    }
  }

  void write(const Link& link) {
    const auto edge = [](Edge which, TaskId task) {
      return fmt::format("{}{}", which == Edge::start ? 's' : 'e', task);
    };
    const std::string from = edge(link.from_edge, link.from);
    const std::string to = edge(link.to_edge, link.to);
    const std::string there = fmt::format("(p{} /\\ p{}) -> ", link.from, link.to);
    line("constraint {}{} >= {};", there, to, from);
    if (link.least_clock != no_clock)
      line("constraint {}{} >= {}[{}];", there, to, least_table(link.least_clock, link.least), from);
    if (link.most_clock != no_clock)
      line("constraint {}{} <= {}[{}];", there, to, most_table(link.most_clock, link.most), from);
  }

  // By tick: when so much has gone by since. One table for all links that ask alike.
  std::string least_table(ClockId clock, Amount amount) {
    const auto [entry, fresh] =
        tables_.emplace(std::pair{clock, amount}, fmt::format("least{}", tables_.size()));
    if (fresh) {
      std::vector<Tick> table;
      for (Tick t = 0; t <= net_.horizon(); ++t)
        table.push_back(std::min(net_.horizon() + 1, net_.clocks[at(clock)].advance(t, amount)));
      line("array[0..horizon] of int: {} = array1d(0..horizon, {});", entry->second, list(table));
    }
    return entry->second;
  }
  // By tick: the last until which no more than that has gone by.
  std::string most_table(ClockId clock, Amount amount) {
    const auto [entry, fresh] =
        most_tables_.emplace(std::pair{clock, amount}, fmt::format("most{}", most_tables_.size()));
    if (fresh) {
      std::vector<Tick> table;
      Tick last = 0;
      for (Tick t = 0; t <= net_.horizon(); ++t) {
        last = std::max(last, t);
        while (last < net_.horizon() && net_.clocks[at(clock)].passed(t, last + 1) <= amount)
          ++last;
        table.push_back(last);
      }
      line("array[0..horizon] of int: {} = array1d(0..horizon, {});", entry->second, list(table));
    }
    return entry->second;
  }

  // What a task takes of a resource in each of its ways.
  [[nodiscard]] std::vector<int> taken(std::size_t i, ResourceId r) const {
    std::vector<int> list;
    for (const Way& way : net_.tasks[i].ways) {
      list.push_back(0);
      for (const Need& need : way.needs)
        list.back() += need.resource == r ? need.quantity : 0;
    }
    return list;
  }

  void resource(ResourceId r) {
    const auto& capacity = net_.resources[at(r)].capacity;
    const int most = *std::max_element(capacity.begin(), capacity.end());
    if (std::any_of(capacity.begin(), capacity.end(), [&](int it) { return it != 0 && it != most; }))
      throw std::invalid_argument(net_.resources[at(r)].name + ": neither whole nor gone");
    std::vector<std::string> starts, lengths, shares;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const auto each = taken(i, r);
      if (*std::max_element(each.begin(), each.end()) == 0) continue;
      line("var 0..{}: u{}_{} = bool2int(p{}) * {}[w{} + 1];", most, i, r, i, list(each), i);
      line("var 0..horizon: d{0}_{1} = e{0} - s{0};", i, r);
      starts.push_back(fmt::format("s{}", i));
      lengths.push_back(fmt::format("d{}_{}", i, r));
      shares.push_back(fmt::format("u{}_{}", i, r));
    }
    if (starts.empty()) return;
    line("constraint cumulative({}, {}, {}, {});", list(starts), list(lengths), list(shares), most);
  }

  // A run that holds a resource with hours a day lies within a day: at night nobody is there.
  void hours_a_day(const Bucket& bucket) {
    std::vector<std::size_t> users;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const auto each = taken(i, bucket.resource);
      if (*std::max_element(each.begin(), each.end()) > 0) users.push_back(i);
    }
    for (std::size_t day = 0; day < bucket.limit.size(); ++day) {
      std::string sum;
      for (const std::size_t i : users) {
        sum += fmt::format("{}bool2int(s{} div 96 = {}) * u{}_{} * d{}_{}", sum.empty() ? "" : " + ", i, day,
                           i, bucket.resource, i, bucket.resource);
      }
      line("constraint {} <= {};", sum, bucket.limit[day]);
    }
  }

  const Network& net_;
  std::string text_;
  std::map<std::pair<ClockId, Amount>, std::string> tables_, most_tables_;
};

}  // namespace

std::string minizinc_of(const Network& network) {
  return Writer(network).run();
}

std::string minizinc_of(const Project& project) {
  const std::size_t tasks = project.duration.size();
  const Tick horizon = std::accumulate(project.duration.begin(), project.duration.end(), Tick{0});
  std::string text = "include \"cumulative.mzn\";\n";
  text += fmt::format("array[1..{}] of int: d = {};\n", tasks, list(project.duration));
  text += fmt::format("array[1..{0}] of var 0..{1}: s;\nvar 0..{1}: finish;\n", tasks, horizon);
  for (std::size_t i = 0; i < tasks; ++i) {
    text += fmt::format("constraint s[{0}] + d[{0}] <= finish;\n", i + 1);
    for (const int next : project.successors[i])
      text += fmt::format("constraint s[{0}] + d[{0}] <= s[{1}];\n", i + 1, next + 1);
  }
  for (std::size_t r = 0; r < project.capacity.size(); ++r) {
    std::vector<int> shares;
    for (const auto& demand : project.demand)
      shares.push_back(demand[r]);
    text += fmt::format("constraint cumulative(s, d, {}, {});\n", list(shares), project.capacity[r]);
  }
  text += "solve :: int_search(s, smallest, indomain_min, complete) minimize finish;\n";
  text += "output [\"finish=\\(finish)\\n\"];\n";
  return text;
}

}  // namespace weatherstruck::bench
