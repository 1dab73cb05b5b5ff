#include "weatherstruck/engine/bound.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

#include "ids.h"

namespace weatherstruck::engine {
namespace {

// What must be done whatever is chosen, by its least: each quantity by the way in which it is least.
class Relaxed {
 public:
  explicit Relaxed(const Network& network) : net_(network), certain_(network.tasks.size(), 0) {
    for (std::size_t i = 0; i < network.tasks.size(); ++i) {
      const Task& task = network.tasks[i];
      certain_[i] = task.importance == Importance::must && !task.presence ? 1 : 0;
    }
    starts_.assign(network.tasks.size(), network.now);
    ends_.assign(network.tasks.size(), 0);
    tails_.assign(network.tasks.size(), 0);
  }

  Tick least() {
    find_starts();
    Tick least = 0;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      if (certain_[i] != 0) least = std::max(least, ends_[i]);
    }
    if (least == never) return never;
    find_tails();
    for (ResourceId r = 0; r < static_cast<ResourceId>(net_.resources.size()); ++r)
      least = std::max(least, by_work_of(r));
    return least;
  }

 private:
  [[nodiscard]] bool whole(std::size_t i) const {
    const Task& task = net_.tasks[i];
    return !task.history.runs.empty() && task.history.done() >= task.ways[at(task.history.way)].amount;
  }
  [[nodiscard]] Amount left_of(std::size_t i, const Way& way) const {
    return way.setup + way.amount - (net_.tasks[i].history.runs.empty() ? 0 : net_.tasks[i].history.done());
  }
  // fn(way) for each way that is still open.
  template <class Fn>
  void ways(std::size_t i, Fn&& fn) const {
    const Task& task = net_.tasks[i];
    for (std::size_t w = 0; w < task.ways.size(); ++w) {
      if (task.history.runs.empty() || at(task.history.way) == w) fn(task.ways[w]);
    }
  }

  // The soonest end of a task begun at t or later: as if it might pause anywhere and hands were always there.
  [[nodiscard]] Tick end_from(std::size_t i, Tick t) const {
    if (whole(i)) return net_.tasks[i].history.runs.back().end;
    Tick soonest = never;
    ways(i, [&](const Way& way) {
      soonest = std::min(soonest, net_.clocks[at(way.clock)].advance(t, left_of(i, way)));
    });
    return soonest;
  }

  // Start and end of each by its links, until nothing moves. Circles of links settle, since the network is
  // sound, or run to the horizon.
  void find_starts() {
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const Task& task = net_.tasks[i];
      starts_[i] =
          task.history.runs.empty() ? std::max(net_.now, task.release) : task.history.runs.front().start;
      ends_[i] = end_from(i, std::max(starts_[i], net_.now));
    }
    bool moved = true;
    while (moved) {
      moved = false;
      for (const Link& link : net_.links) {
        const std::size_t from = at(link.from);
        const std::size_t to = at(link.to);
        if (certain_[from] == 0 || certain_[to] == 0) continue;
        const Tick event = link.from_edge == Edge::start ? starts_[from] : ends_[from];
        if (event == never) {
          moved = moved || ends_[to] != never;
          ends_[to] = never;
          continue;
        }
        const Tick least = link.least_clock == no_clock
                               ? event
                               : net_.clocks[at(link.least_clock)].advance(event, link.least);
        const bool begun = !net_.tasks[to].history.runs.empty();
        if (link.to_edge == Edge::start) {
          if (begun || least <= starts_[to]) continue;
          starts_[to] = least;
          ends_[to] = std::max(ends_[to], least == never ? never : end_from(to, least));
          moved = true;
        } else if (!whole(to) && least > ends_[to]) {
          ends_[to] = least;
          moved = true;
        }
      }
    }
  }

  static Tick least_ticks(const Clock& clock, Amount amount) {
    if (amount <= 0) return 0;
    if (clock.fastest() == 0) return clock.horizon();
    return static_cast<Tick>(
        std::min<Amount>(clock.horizon(), (amount + clock.fastest() - 1) / clock.fastest()));
  }
  [[nodiscard]] Tick length(std::size_t i) const {
    if (whole(i)) return 0;
    Tick shortest = never;
    ways(i, [&](const Way& way) {
      shortest = std::min(shortest, least_ticks(net_.clocks[at(way.clock)], left_of(i, way)));
    });
    return shortest;
  }

  // Ticks from the end of each task to the end of all.
  void find_tails() {
    for (std::size_t round = 0; round < net_.tasks.size(); ++round) {
      bool moved = false;
      for (const Link& link : net_.links) {
        if (certain_[at(link.from)] == 0 || certain_[at(link.to)] == 0 || link.from_edge == Edge::start)
          continue;
        const Tick wait =
            link.least_clock == no_clock ? 0 : least_ticks(net_.clocks[at(link.least_clock)], link.least);
        const Tick after =
            wait + tails_[at(link.to)] + (link.to_edge == Edge::start ? length(at(link.to)) : 0);
        if (after <= tails_[at(link.from)] || after > net_.horizon()) continue;
        tails_[at(link.from)] = after;
        moved = true;
      }
      if (!moved) return;
    }
  }

  // For every moment and every tail: what starts no sooner and has no shorter tail takes so much of the
  // resource, and there is only so much of it from that moment on.
  [[nodiscard]] Tick by_work_of(ResourceId r) const {
    struct Work {
      Tick start, tail;
      std::int64_t ticks;
    };
    std::vector<Work> works;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      if (certain_[i] == 0 || whole(i)) continue;
      std::int64_t least = std::numeric_limits<std::int64_t>::max();
      ways(i, [&](const Way& way) {
        std::int64_t held = 0;
        for (const Need& need : way.needs)
          held += need.resource == r ? need.quantity : 0;
        least = std::min(least, held * least_ticks(net_.clocks[at(way.clock)], left_of(i, way)));
      });
      if (least > 0) works.push_back({std::max(starts_[i], net_.now), tails_[i], least});
    }
    std::sort(works.begin(), works.end(), [](const Work& a, const Work& b) { return a.tail > b.tail; });
    Tick least = 0;
    for (const Work& first : works) {
      std::int64_t sum = 0;
      for (const Work& work : works) {
        if (work.start < first.start) continue;
        sum += work.ticks;
        const Tick end = when_there_was(r, first.start, sum);
        if (end == never) return never;
        least = std::max(least, end + work.tail);
      }
    }
    return least;
  }

  // The first tick by which so much of the resource has been there since `from`.
  [[nodiscard]] Tick when_there_was(ResourceId r, Tick from, std::int64_t amount) const {
    const Resource& resource = net_.resources[at(r)];
    std::int64_t today = 0;
    int day = -1;
    for (Tick t = from; t < net_.horizon();) {
      const int slot = net_.slot_of(t);
      const Tick slot_end = (slot + 1) * net_.ticks_per_slot;
      const std::int64_t capacity = std::max(0, resource.capacity[at(slot)]);
      if (net_.day_of(t) != day) {
        day = net_.day_of(t);
        today = std::numeric_limits<std::int64_t>::max();
        for (const Bucket& bucket : net_.buckets) {
          if (bucket.resource == r) today = std::min<std::int64_t>(today, bucket.limit[at(day)]);
        }
      }
      const std::int64_t there = std::min(capacity * (slot_end - t), today);
      if (there >= amount)
        return t + static_cast<Tick>((amount + capacity - 1) / std::max<std::int64_t>(1, capacity));
      amount -= there;
      today -= there;
      t = slot_end;
    }
    return never;
  }

  const Network& net_;
  std::vector<char> certain_;  // by task: it has to be done, whatever is chosen
  std::vector<Tick> starts_, ends_, tails_;
};

}  // namespace

Tick least_finish(const Network& network) {
  return Relaxed(network).least();
}

}  // namespace weatherstruck::engine
