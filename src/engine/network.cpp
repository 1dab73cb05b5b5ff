#include "weatherstruck/engine/network.h"

#include <fmt/format.h>

#include <algorithm>

namespace weatherstruck::engine {
namespace {

class Inspector {
 public:
  explicit Inspector(const Network& network) : net_(network) {}

  std::vector<std::string> run() {
    const auto slots = static_cast<std::size_t>(net_.slots);
    expect(net_.ticks_per_slot >= 1 && net_.slots >= 1, "the horizon is empty");
    expect(net_.now >= 0 && net_.now <= net_.horizon(), "now lies outside the horizon");
    expect(net_.day_of_slot.empty() || net_.day_of_slot.size() == slots, "days are not given for every slot");
    for (std::size_t i = 0; i < net_.day_of_slot.size(); ++i) {
      const int day = net_.day_of_slot[i];
      if (i == 0 ? day == 0 : day >= net_.day_of_slot[i - 1]) continue;
      expect(false, fmt::format("days do not rise from 0: slot {} is on day {}", i, day));
      break;
    }
    for (const Clock& clock : net_.clocks) {
      expect(clock.horizon() == net_.horizon() && clock.ticks_per_slot() == net_.ticks_per_slot,
             fmt::format("clock {} has another horizon", clock.name()));
    }
    for (const Resource& resource : net_.resources) {
      expect(resource.capacity.size() == slots,
             fmt::format("resource {}: capacity not given for every slot", resource.name));
    }
    for (const Bucket& bucket : net_.buckets) {
      expect(known(bucket.resource, net_.resources), "a bucket of an unknown resource");
      const auto days = net_.day_of_slot.empty() ? 1 : static_cast<std::size_t>(net_.day_of_slot.back()) + 1;
      expect(bucket.limit.size() == days, "a bucket without a limit for every day");
    }
    for (const Stateful& stateful : net_.statefuls)
      inspect(stateful);
    for (const Keep& keep : net_.keeps)
      inspect(keep);
    for (std::size_t i = 0; i < net_.tasks.size(); ++i)
      inspect(net_.tasks[i], static_cast<TaskId>(i));
    for (const Link& link : net_.links) {
      expect(known(link.from, net_.tasks) && known(link.to, net_.tasks), "a link to an unknown task");
      clock_or_none(link.least_clock, "a link");
      clock_or_none(link.most_clock, "a link");
    }
    for (const CureLink& link : net_.cure_links) {
      expect(known(link.to, net_.tasks) && known(link.keep, net_.keeps),
             "a cure link to an unknown task or keep");
    }
    if (faults_.empty()) find_circle();
    return std::move(faults_);
  }

 private:
  void expect(bool sound, std::string fault) {
    if (!sound) faults_.push_back(std::move(fault));
  }
  template <class T>
  static bool known(int id, const std::vector<T>& list) {
    return id >= 0 && static_cast<std::size_t>(id) < list.size();
  }
  void clock_of(ClockId id, const std::string& user) {
    expect(known(id, net_.clocks), fmt::format("{} uses an unknown clock", user));
  }
  void clock_or_none(ClockId id, const std::string& user) {
    if (id != no_clock) clock_of(id, user);
  }
  void needs_of(const std::vector<Need>& needs, const std::string& user) {
    for (const Need& need : needs) {
      expect(known(need.resource, net_.resources) && need.quantity > 0,
             fmt::format("{} needs an unknown resource, or none of it", user));
    }
  }
  void state_of(const std::optional<StateNeed>& need, const std::string& user) {
    if (!need) return;
    expect(known(need->stateful, net_.statefuls) &&
               known(need->state, net_.statefuls[static_cast<std::size_t>(need->stateful)].allowed),
           fmt::format("{} wants an unknown state", user));
  }

  void inspect(const Stateful& stateful) {
    const std::size_t states = stateful.allowed.size();
    expect(states >= 1 && stateful.change.size() == states,
           fmt::format("{}: changes not given for every state", stateful.name));
    for (const auto& row : stateful.change) {
      expect(row.size() == states, fmt::format("{}: changes not given for every state", stateful.name));
      for (const Tick ticks : row)
        expect(ticks >= 0, fmt::format("{}: a change takes less than nothing", stateful.name));
    }
    for (const auto& slots : stateful.allowed) {
      expect(slots.size() == static_cast<std::size_t>(net_.slots),
             fmt::format("{}: states not allowed or forbidden for every slot", stateful.name));
    }
    const bool always =
        stateful.allowed.empty() || std::all_of(stateful.allowed[0].begin(), stateful.allowed[0].end(),
                                                [](std::uint8_t allowed) { return allowed != 0; });
    expect(always, fmt::format("{}: state 0, in which it begins, is forbidden in a slot", stateful.name));
    needs_of(stateful.hands, stateful.name);
  }

  void inspect(const Keep& keep) {
    expect(!keep.ways.empty(), fmt::format("keep {} has no way", keep.name));
    for (std::size_t w = 0; w < keep.ways.size(); ++w) {
      const CoverWay& way = keep.ways[w];
      const std::string user = fmt::format("keep {}, {}", keep.name, way.name);
      clock_of(way.cure, user);
      expect(way.until.size() == keep.hazards.size() && way.exposure.size() == keep.hazards.size(),
             fmt::format("{}: clocks not given for every hazard", user));
      for (const ClockId id : way.until)
        clock_of(id, user);
      for (const ClockId id : way.exposure)
        clock_or_none(id, user);
      needs_of(way.area, user);
      needs_of(way.hands, user);
      state_of(way.state, user);
      expect(way.on >= 0 && way.off >= 0, fmt::format("{}: less than no time", user));
      expect(w > 0 || (way.area.empty() && way.hands.empty() && way.on == 0 && way.off == 0 && !way.state),
             fmt::format("keep {}: the bare way costs something", keep.name));
    }
    for (const Hazard& hazard : keep.hazards) {
      if (hazard.under_shelter) clock_or_none(*hazard.under_shelter, keep.name);
    }
    if (keep.green) clock_of(keep.green->clock, keep.name);
  }

  void inspect(const Task& task, TaskId id) {
    expect(!task.ways.empty(), fmt::format("task {} has no way", task.name));
    for (const Way& way : task.ways) {
      clock_of(way.clock, task.name);
      expect(way.amount >= 1 && way.setup >= 0, fmt::format("task {}: no amount", task.name));
      Amount last = 0;
      for (const Amount at : way.breaks) {
        expect(at > last && at < way.amount, fmt::format("task {}: breaks out of order", task.name));
        last = at;
      }
      needs_of(way.needs, task.name);
      state_of(way.state, task.name);
      for (const Guard& guard : way.guards) {
        clock_of(guard.until, task.name);
        clock_of(guard.exposure, task.name);
      }
      for (const Cost& cost : way.costs)
        clock_of(cost.clock, task.name);
    }
    if (task.presence) {
      expect(task.presence->task >= 0 && task.presence->task < id,
             fmt::format("task {} hangs on a later task", task.name));
      for (const int way : task.presence->ways) {
        expect(!known(task.presence->task, net_.tasks) ||
                   known(way, net_.tasks[static_cast<std::size_t>(task.presence->task)].ways),
               fmt::format("task {} hangs on an unknown way", task.name));
      }
    }
    inspect_history(task);
    for (const Touch& touch : task.touches) {
      expect(known(touch.keep, net_.keeps) && touch.lays >= 0,
             fmt::format("task {} touches an unknown keep", task.name));
      expect(touch.layer >= 0 && touch.layer < max_layers,
             fmt::format("task {} touches layer {} of a keep, allowed 0 to {}", task.name, touch.layer,
                         max_layers - 1));
    }
  }

  void inspect_history(const Task& task) {
    const History& history = task.history;
    if (history.runs.empty()) return;
    expect(known(history.way, task.ways), fmt::format("task {}: done in an unknown way", task.name));
    Tick last = 0;
    for (const Run& run : history.runs) {
      expect(run.start >= last && run.end > run.start && run.end <= net_.horizon() && run.done >= 1,
             fmt::format("task {}: what has been done is out of order, or nothing", task.name));
      expect(run.start < net_.now, fmt::format("task {}: done before now, begun after it", task.name));
      last = run.end;
    }
    if (known(history.way, task.ways)) {
      expect(history.done() <= task.ways[static_cast<std::size_t>(history.way)].amount,
             fmt::format("task {}: more has been done than there is", task.name));
    }
  }

  // Nodes 2i (start) and 2i+1 (finish). A circle that passes from a start to its own finish asks a task to
  // end before it begins. Circles of starts alone, or finishes alone, without a wait are simultaneous and
  // allowed.
  void find_circle() {
    const std::size_t nodes = net_.tasks.size() * 2;
    struct Arrow {
      std::size_t to;
      bool strict;
    };
    std::vector<std::vector<Arrow>> out(nodes);
    for (std::size_t i = 0; i < net_.tasks.size(); ++i)
      out[2 * i].push_back({2 * i + 1, true});
    for (const Link& link : net_.links) {
      const auto node = [](TaskId task, Edge edge) {
        return static_cast<std::size_t>(task) * 2 + (edge == Edge::finish ? 1 : 0);
      };
      out[node(link.from, link.from_edge)].push_back(
          {node(link.to, link.to_edge), link.least_clock != no_clock && link.least > 0});
    }
    // From the far end of each strict arrow, can its near end be reached?
    for (std::size_t start = 0; start < nodes; ++start) {
      for (const Arrow& first : out[start]) {
        if (!first.strict) continue;
        std::vector<std::size_t> parent(nodes, nodes);
        std::vector<std::size_t> stack{first.to};
        parent[first.to] = start;
        while (!stack.empty() && parent[start] == nodes) {
          const std::size_t at = stack.back();
          stack.pop_back();
          for (const Arrow& arrow : out[at]) {
            if (parent[arrow.to] != nodes) continue;
            parent[arrow.to] = at;
            stack.push_back(arrow.to);
          }
        }
        if (parent[start] == nodes) continue;
        name_circle(start, parent);
        return;
      }
    }
  }

  void name_circle(std::size_t start, const std::vector<std::size_t>& parent) {
    std::vector<std::string> names{net_.tasks[start / 2].name};
    for (std::size_t at = parent[start]; at != start; at = parent[at]) {
      const std::string& name = net_.tasks[at / 2].name;
      if (name != names.back()) names.push_back(name);
    }
    if (names.back() != names.front()) names.push_back(names.front());
    std::string text = names.back();
    for (std::size_t i = names.size() - 1; i-- > 0;)
      text += " before " + names[i];
    faults_.push_back("links in a circle: " + text);
  }

  const Network& net_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faults_of(const Network& network) {
  return Inspector(network).run();
}

}  // namespace weatherstruck::engine
