#include "engine/random_network_support.h"

#include <algorithm>
#include <string>
#include <utility>

#include "weatherstruck/base/random.h"

namespace weatherstruck::engine::brute {
namespace {

enum ClockName : ClockId { hours, brisk, time, rain, cure, warm_cure, clock_count };
enum ResourceName : ResourceId { mason, sheets };

class Maker {
 public:
  explicit Maker(std::uint64_t number) : dice_(number, 17), layer_dice_(number, 37) {}

  Network make() {
    times();
    clocks();
    resources();
    if (dice_.chance(0.3)) stateful();
    const int keep_count = dice_.chance(0.3) ? 0 : dice_.chance(0.75) ? 1 : 2;
    for (int k = 0; k < keep_count; ++k)
      keep(k);
    task_count_ = dice_.between(2, 4);
    for (TaskId i = 0; i < task_count_; ++i)
      task(i);
    links();
    cure_links();
    return std::move(network_);
  }

 private:
  void times() {
    network_.ticks_per_slot = dice_.chance(0.3) ? 2 : 1;
    network_.slots = network_.ticks_per_slot == 2 ? dice_.between(4, 6) : dice_.between(8, 12);
    night_ = network_.slots / 2 + dice_.between(-1, 0);
    for (int slot = 0; slot < network_.slots; ++slot)
      network_.day_of_slot.push_back(slot > night_ ? 1 : 0);
  }

  template <class Rate>
  void clock(const std::string& name, Rate rate) {
    std::vector<std::int32_t> rates;
    std::vector<CauseId> causes;
    for (int slot = 0; slot < network_.slots; ++slot) {
      rates.push_back(rate(slot));
      causes.push_back(static_cast<CauseId>(rates.back() == 0 ? 1 + slot % 3 : 0));
    }
    network_.clocks.emplace_back(name, network_.ticks_per_slot, std::move(rates), std::move(causes));
  }

  void clocks() {
    const bool has_night = dice_.chance(0.6);
    const double bad = dice_.chance(0.3) ? 0.15 : 0.0;
    clock("hours", [&](int slot) { return (has_night && slot == night_) || dice_.chance(bad) ? 0 : 1; });
    clock("brisk", [&](int slot) {
      return has_night && slot == night_ ? 0 : dice_.between(dice_.chance(0.2) ? 0 : 1, 3);
    });
    clock("time", [](int) { return 1; });
    const double wet = dice_.chance(0.5) ? 0.15 : 0.4;
    clock("rain", [&](int) { return dice_.chance(wet) ? dice_.between(1, 2) : 0; });
    clock("cure", [&](int) { return dice_.between(0, 2); });
    clock("warm cure", [&](int) { return dice_.between(1, 3); });
  }

  void resources() {
    Resource people{"mason", {}};
    Resource cover{"sheets", {}};
    const int most = dice_.chance(0.4) ? 2 : 1;
    const int area = dice_.between(1, 2);
    for (int slot = 0; slot < network_.slots; ++slot) {
      people.capacity.push_back(dice_.chance(0.04) ? 0 : dice_.chance(0.1) ? 1 : most);
      cover.capacity.push_back(area);
    }
    network_.resources = {people, cover};
    if (dice_.chance(0.25)) network_.buckets.push_back({mason, {dice_.between(3, 6), dice_.between(3, 6)}});
  }

  void stateful() {
    Stateful canopy;
    canopy.name = "canopy";
    const int states = dice_.chance(0.7) ? 2 : 3;
    for (int a = 0; a < states; ++a) {
      auto& row = canopy.change.emplace_back();
      for (int b = 0; b < states; ++b)
        row.push_back(a == b ? 0 : dice_.between(1, 2));
      auto& allowed = canopy.allowed.emplace_back();
      for (int slot = 0; slot < network_.slots; ++slot)
        allowed.push_back(a == 0 || !dice_.chance(0.12));
    }
    if (dice_.chance(0.5)) canopy.hands.push_back({mason, 1});
    network_.statefuls.push_back(std::move(canopy));
  }

  std::optional<StateNeed> maybe_state(double chance) {
    if (network_.statefuls.empty() || !dice_.chance(chance)) return std::nullopt;
    const auto states = static_cast<int>(network_.statefuls[0].change.size());
    return StateNeed{0, dice_.chance(0.1) ? 0 : dice_.between(1, states - 1)};
  }

  void keep(int number) {
    Keep keep;
    keep.name = "keep " + std::to_string(number);
    const int hazards = dice_.chance(0.2) ? 0 : dice_.chance(0.75) ? 1 : 2;
    for (int h = 0; h < hazards; ++h) {
      keep.hazards.push_back({h == 0 ? "rain" : "frost", dice_.between(0, 6), dice_.between(0, 2)});
      keep.hazards.back().by_layer = layer_dice_.chance(0.6);
      if (h == 0 && layer_dice_.chance(0.5))
        keep.hazards.back().under_shelter = layer_dice_.chance(0.5) ? no_clock : warm_cure;
    }
    cover_way(keep, "bare", false);
    if (dice_.chance(0.8)) cover_way(keep, "sheet", true);
    if (!network_.statefuls.empty() && dice_.chance(0.4)) {
      cover_way(keep, "canopy", true);
      keep.ways.back().area.clear();
      keep.ways.back().state = maybe_state(1.0);
    }
    if (dice_.chance(0.25)) {
      keep.green = Green{dice_.chance(0.5) ? time : cure, dice_.between(0, 5), dice_.between(2, 6)};
    }
    network_.keeps.push_back(std::move(keep));
  }

  void cover_way(Keep& keep, const std::string& name, bool covers) {
    CoverWay way;
    way.name = name;
    way.cure = covers && dice_.chance(0.6) ? warm_cure : dice_.chance(0.5) ? time : cure;
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      way.until.push_back(dice_.chance(0.5) ? time : covers ? warm_cure : cure);
      way.exposure.push_back(covers && dice_.chance(0.8) ? no_clock : h == 0 ? rain : cure);
    }
    if (covers) {
      way.area.push_back({sheets, dice_.chance(0.9) ? 1 : 2});
      if (dice_.chance(0.6)) way.hands.push_back({mason, 1});
      way.on = dice_.between(0, 1);
      way.off = dice_.between(0, 1);
    }
    keep.ways.push_back(std::move(way));
  }

  Way way() {
    Way way;
    way.clock = dice_.chance(0.6) ? hours : dice_.chance(0.7) ? brisk : time;
    way.amount = dice_.between(1, way.clock == brisk ? 6 : 4);
    way.setup = dice_.chance(0.3) ? dice_.between(1, 2) : 0;
    const int kind = dice_.between(0, 5);
    way.pause = kind <= 2 ? Pause::none : kind <= 4 ? Pause::at_breaks : Pause::anywhere;
    if (way.pause == Pause::at_breaks) {
      for (Amount mark = 1; mark < way.amount; ++mark) {
        if (dice_.chance(0.6)) way.breaks.push_back(mark);
      }
    }
    if (way.pause != Pause::none && dice_.chance(0.25)) way.longest_span = dice_.between(2, 8);
    if (dice_.chance(0.85)) way.needs.push_back({mason, dice_.chance(0.07) ? 2 : 1});
    way.state = maybe_state(0.25);
    if (dice_.chance(0.2)) {
      way.guards.push_back(Guard{dice_.chance(0.5) ? time : cure, dice_.between(0, 4), rain,
                                 dice_.between(0, 2), dice_.chance(0.4)});
    }
    if (dice_.chance(0.4)) way.costs.push_back({dice_.chance(0.5) ? rain : time, dice_.between(1, 3)});
    way.shelters = layer_dice_.chance(0.2);
    return way;
  }

  void task(TaskId number) {
    Task task;
    task.name = std::string(1, static_cast<char>('a' + number));
    task.ways.push_back(way());
    if (dice_.chance(0.25)) task.ways.push_back(way());
    const int rank = dice_.between(0, 9);
    task.importance = rank < 7 ? Importance::must : rank < 9 ? Importance::should : Importance::may;
    if (dice_.chance(0.15)) task.release = dice_.between(1, 4);
    if (dice_.chance(0.35)) task.due = dice_.between(2, network_.horizon());
    if (number > 0 && dice_.chance(0.15)) {
      const TaskId other = dice_.between(0, number - 1);
      const auto ways = static_cast<int>(network_.tasks[static_cast<std::size_t>(other)].ways.size());
      task.presence = Presence{other, {dice_.between(0, ways - 1)}};
    }
    for (KeepId k = 0; k < static_cast<KeepId>(network_.keeps.size()); ++k) {
      if (!dice_.chance(0.5)) continue;
      const Amount lays = dice_.chance(0.75) ? dice_.between(1, 2) : 0;
      task.touches.push_back({k, lays, dice_.chance(lays > 0 ? 0.05 : 0.3)});
      if (lays > 0 && layer_dice_.chance(0.3)) task.touches.back().layer = 1;
    }
    network_.tasks.push_back(std::move(task));
  }

  void links() {
    const int count = dice_.between(0, 3);
    for (int n = 0; n < count; ++n) {
      Link link;
      link.from = dice_.between(0, task_count_ - 2);
      link.to = dice_.between(link.from + 1, task_count_ - 1);
      if (dice_.chance(0.3)) link.from_edge = Edge::start;
      if (dice_.chance(0.25)) link.to_edge = Edge::finish;
      if (dice_.chance(0.4)) {
        link.least_clock = dice_.between(hours, clock_count - 1);
        link.least = dice_.between(0, 4);
      }
      if (dice_.chance(0.35)) {
        link.most_clock = dice_.between(hours, clock_count - 1);
        link.most = dice_.between(0, 5) + (link.most_clock == link.least_clock ? link.least : 0);
      }
      link.waived_if_left_out = dice_.chance(0.3);
      network_.links.push_back(link);
    }
  }

  void cure_links() {
    if (network_.keeps.empty()) return;
    const int count = dice_.chance(0.5) ? 0 : dice_.between(1, 2);
    const auto last = static_cast<KeepId>(network_.keeps.size()) - 1;
    for (int n = 0; n < count; ++n) {
      network_.cure_links.push_back(
          {dice_.between(0, last), dice_.between(0, task_count_ - 1), dice_.between(0, 5)});
    }
  }

  base::Random dice_;
  base::Random layer_dice_;
  Network network_;
  int night_ = 0;
  int task_count_ = 0;
};

}  // namespace

Network random_network(std::uint64_t number) {
  return Maker(number).make();
}

}  // namespace weatherstruck::engine::brute
