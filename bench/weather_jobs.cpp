#include "weather_jobs.h"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>

#include "hourly.h"
#include "weatherstruck/base/random.h"

namespace weatherstruck::bench {
namespace {

using namespace engine;

enum ResourceName : ResourceId { mason, labourer, mixer, sheets, mats, canopy_poles };
constexpr int canopy_places = 3;

class Maker {
 public:
  explicit Maker(const JobSize& size) : size_(size), dice_(size.seed, 103) {}

  Network make() {
    times();
    resources();
    if (size_.fresh_work) canopy();
    arrive();
    for (int piece = 0; count() < size_.tasks - 2; ++piece) {
      if (piece % 4 == 3) {
        path();
      } else if (piece % 4 == 1) {
        slab();
      } else {
        wall(piece);
      }
    }
    go_home();
    return std::move(net_);
  }

 private:
  [[nodiscard]] int count() const { return static_cast<int>(net_.tasks.size()); }
  [[nodiscard]] Amount minutes(int low, int high) {
    return 100 * Amount{5} * dice_.between(low / 5, high / 5);
  }
  [[nodiscard]] Tick ticks(int of_minutes) const {
    return std::max(1, of_minutes * size_.ticks_per_slot / 15);
  }
  static Amount hours(int count) { return Amount{6000} * count; }

  void times() {
    days_ = 6 + size_.tasks * 2 / 11;
    const std::vector<Hour> weather = draw_hours(days_, size_.seed);
    net_.ticks_per_slot = size_.ticks_per_slot;
    net_.slots = days_ * 96;
    for (int slot = 0; slot < net_.slots; ++slot)
      net_.day_of_slot.push_back(slot / 96);
    net_.clocks = clocks_of(weather, size_.ticks_per_slot);
    for (const Hour& hour : weather)
      for (int quarter = 0; quarter < 4; ++quarter)
        calm_.push_back(hour.wind <= 85 ? 1 : 0);
  }

  void resource(const char* name, int capacity, int from, int to, int days_of_seven) {
    Resource it{name, {}};
    for (int slot = 0; slot < net_.slots; ++slot) {
      const int quarter = slot % 96;
      const bool there = quarter >= from && quarter < to && slot / 96 % 7 < days_of_seven;
      it.capacity.push_back(there ? capacity : 0);
    }
    net_.resources.push_back(std::move(it));
  }
  void resources() {
    resource("mason", 1, 27, 76, 7);
    resource("labourer", 1, 31, 67, 5);
    resource("mixer", 1, 0, 96, 7);
    resource("sheets, m2", size_.tight ? 24 : 24 + size_.tasks, 0, 96, 7);
    resource("mats, m2", size_.tight ? 10 : 10 + size_.tasks / 2, 0, 96, 7);
    resource("canopy poles", 1, 0, 96, 7);
    net_.buckets.push_back({mason, std::vector<Tick>(static_cast<std::size_t>(days_), ticks(600))});
    net_.buckets.push_back({labourer, std::vector<Tick>(static_cast<std::size_t>(days_), ticks(450))});
  }
  void canopy() {
    Stateful it;
    it.name = "canopy";
    for (int a = 0; a <= canopy_places; ++a) {
      it.change.emplace_back();
      for (int b = 0; b <= canopy_places; ++b)
        it.change.back().push_back(a == b ? 0 : ticks(a == 0 || b == 0 ? 20 : 35));
      it.allowed.emplace_back(a == 0 ? std::vector<std::uint8_t>(calm_.size(), 1) : calm_);
    }
    it.hands = {{mason, 1}};
    net_.statefuls.push_back(std::move(it));
  }

  TaskId add(const std::string& name, ClockId clock, Amount amount, std::vector<Need> needs) {
    Task task;
    task.name = name;
    Way way;
    way.clock = clock;
    way.amount = amount;
    way.needs = std::move(needs);
    way.costs = {{dark, 3}, {wet_minutes, 1}, {late_minutes, 1}};
    task.ways.push_back(std::move(way));
    net_.tasks.push_back(std::move(task));
    return count() - 1;
  }
  Task& task(TaskId id) { return net_.tasks[static_cast<std::size_t>(id)]; }
  Way& way(TaskId id) { return task(id).ways.front(); }
  // Where pauses are left out, everything is short enough to be done in one go.
  void may_pause(TaskId id, Amount setup) {
    if (!size_.fresh_work) return;
    way(id).pause = Pause::anywhere;
    way(id).setup = setup;
  }
  Link& after(TaskId from, TaskId to, ClockId clock = no_clock, Amount least = 0) {
    Link link;
    link.from = from;
    link.to = to;
    link.least_clock = clock;
    link.least = least;
    net_.links.push_back(link);
    return net_.links.back();
  }
  void at_most(TaskId from, TaskId to, ClockId clock, Amount most) {
    Link& link = after(from, to);
    link.most_clock = clock;
    link.most = most;
  }

  void arrive() {
    unload_ = add("unload", any_weather, minutes(40, 70), {{mason, 1}});
    fetch_ = add("fetch stone", any_weather, minutes(90, 120), {{mason, 1}});
    // Fetching can be had in two ways: himself, or brought on the second day for a price.
    Way brought = way(fetch_);
    brought.clock = time_clock;
    brought.needs = {};
    brought.amount = hours(26);
    task(fetch_).ways.push_back(std::move(brought));
    after(unload_, fetch_);
  }

  KeepId keep(const std::string& name, bool concrete, int place) {
    Keep it;
    it.name = name;
    it.hazards.push_back({"rain while soft", concrete ? hours(4) : hours(5), 2000});
    it.hazards.back().by_layer = true;
    if (!concrete) it.hazards.back().under_shelter = driven_rain;
    it.hazards.push_back({"frost before it is safe", concrete ? hours(20) : hours(14), 0});
    it.hazards.push_back({"a night in the open", hours(24), 60});
    const auto cover = [&](const char* word, ClockId cure, ClockId rain, ClockId cold) -> CoverWay& {
      CoverWay way;
      way.name = word;
      way.cure = cure;
      way.until = {cure, cure, time_clock};
      way.exposure = {rain, cold, it.ways.empty() ? ClockId{dark} : no_clock};
      if (!it.ways.empty()) {
        way.hands = {{mason, 1}};
        way.on = ticks(10);
        way.off = ticks(5);
      }
      it.ways.push_back(std::move(way));
      return it.ways.back();
    };
    const int area = dice_.between(3, 7);
    cover("bare", hardening, rain_clock, frost);
    cover("sheet", hardening, no_clock, frost).area = {{sheets, area}};
    cover("mat and sheet", hardening_mat, no_clock, frost_mat).area = {{sheets, area}, {mats, area}};
    if (place > 0) {
      CoverWay& under = cover("canopy", hardening, driven_rain, frost);
      under.hands.clear();
      under.on = under.off = 0;
      under.state = StateNeed{0, place};
    }
    if (!concrete) it.green = Green{hardening, hours(7), Amount{18} * (size_.tight ? 600 : 800)};
    net_.keeps.push_back(std::move(it));
    return static_cast<KeepId>(net_.keeps.size()) - 1;
  }

  // Dug, poured: begins every piece that stands on concrete.
  std::pair<TaskId, TaskId> dig_and_pour(const std::string& name, KeepId strip) {
    const TaskId dig = add(name + ": dig", digging, minutes(60, 150), {{labourer, 1}});
    Way himself = way(dig);
    himself.needs = {{mason, 1}};
    himself.amount = himself.amount * 9 / 10;
    task(dig).ways.push_back(std::move(himself));
    for (Way& each : task(dig).ways) {
      if (size_.fresh_work) each.pause = Pause::anywhere, each.setup = 500;
    }
    const TaskId pour = add(name + ": pour", concreting, minutes(40, 100), {{mason, 1}, {mixer, 1}});
    way(pour).guards = {{time_clock, hours(4), rain_clock, 3000, false},
                        {time_clock, hours(8), frost, 0, true}};
    way(pour).longest_span = ticks(240);
    after(unload_, dig);
    after(fetch_, pour);
    after(dig, pour);
    at_most(dig, pour, rain_clock, 14'000);  // an open trench falls in
    if (strip >= 0) task(pour).touches.push_back({strip, 1, false, 0});
    return {dig, pour};
  }

  TaskId lift(const std::string& name, int place, KeepId wall, int layer) {
    const int courses = dice_.between(3, 6);
    const TaskId lay =
        add(name, bricklaying, Amount{courses} * 100 * dice_.between(15, 25), {{mason, 1}, {mixer, 1}});
    Way& open = way(lay);
    open.guards = {{time_clock, hours(3), rain_clock, 2500, false}, {time_clock, hours(3), frost, 0, true}};
    if (size_.fresh_work) {
      open.pause = Pause::at_breaks;
      open.setup = 1000;
      for (int course = 1; course < courses; ++course)
        open.breaks.push_back(open.amount / courses * course);
      open.longest_span = ticks(3 * 24 * 60);
    }
    Way covered = open;
    covered.clock = under_canopy;
    covered.shelters = true;
    covered.guards.erase(covered.guards.begin());
    if (size_.fresh_work) {
      covered.state = StateNeed{0, place};
    } else {
      covered.needs.push_back({canopy_poles, 1});
    }
    task(lay).ways.push_back(std::move(covered));
    if (wall >= 0) task(lay).touches.push_back({wall, 1, false, layer});
    return lay;
  }

  void wall(int piece) {
    const std::string name = "wall " + std::to_string(piece);
    const int place = 1 + piece / 2 % canopy_places;
    KeepId strip = -1, brick = -1;
    if (size_.fresh_work) {
      strip = keep(name + ", strip", true, 0);
      brick = keep(name, false, place);
    }
    const TaskId pour = dig_and_pour(name, strip).second;
    const TaskId lines = add(name + ": lines", any_weather, minutes(20, 40), {{mason, 1}});
    after(pour, lines, hardening, hours(16));
    const TaskId low = lift(name + ": low courses", place, brick, 0);
    after(lines, low);
    const TaskId high = lift(name + ": facing", place, brick, 1);
    after(low, high, hardening, hours(3));
    if (strip >= 0) {
      task(lines).touches.push_back({strip, 0, false, 0});
      task(low).touches.push_back({strip, 0, true, 0});
      net_.cure_links.push_back({strip, low, hours(14)});
    }
    // Struck as it goes, which takes longer, or raked back at once and pointed later.
    for (std::size_t w = 0; w < 2; ++w) {
      Way quick = task(high).ways[w];
      quick.amount = quick.amount * 3 / 4;
      for (Amount& mark : quick.breaks)
        mark = mark * 3 / 4;
      task(high).ways.push_back(std::move(quick));
    }
    const TaskId rake = add(name + ": rake", any_weather, minutes(20, 35), {{mason, 1}});
    task(rake).presence = Presence{high, {2, 3}};
    at_most(high, rake, hardening, hours(size_.tight ? 2 : 8));
    const TaskId point = add(name + ": point", pointing, minutes(60, 110), {{mason, 1}});
    task(point).presence = Presence{high, {2, 3}};
    may_pause(point, 500);
    way(point).guards = {{time_clock, hours(2), rain_clock, 500, false}};
    after(rake, point, hardening, hours(12));
    const TaskId fill = add(name + ": backfill", digging, minutes(40, 90), {{labourer, 1}});
    may_pause(fill, 500);
    task(fill).importance = Importance::should;
    after(low, fill, hardening, hours(20)).from_edge = Edge::finish;
    const TaskId cap = add(name + ": coping", bricklaying, minutes(40, 80), {{mason, 1}});
    way(cap).guards = {{time_clock, hours(2), rain_clock, 2000, false}};
    after(high, cap, hardening, hours(8));
    at_most(high, cap, frost, size_.tight ? 12'000 : 400'000);
    if (brick >= 0) {
      task(rake).touches.push_back({brick, 0, false, 0});
      task(point).touches.push_back({brick, 0, false, 0});
      task(cap).touches.push_back({brick, 1, false, 2});
    }
    after(point, cap).waived_if_left_out = true;
    ends_.insert(ends_.end(), {cap, point, fill});
  }

  void slab() {
    const std::string name = "slab " + std::to_string(count());
    const KeepId strip = size_.fresh_work ? keep(name, true, 0) : -1;
    const auto [dig, pour] = dig_and_pour(name, strip);
    const TaskId shutter = add(name + ": shutter", any_weather, minutes(40, 80), {{mason, 1}});
    after(dig, shutter);
    after(shutter, pour);
    const TaskId strike = add(name + ": strike", any_weather, minutes(20, 40), {{labourer, 1}});
    after(pour, strike, hardening, hours(20));
    at_most(pour, strike, time_clock, hours(7 * 24));
    const TaskId finish = add(name + ": load", any_weather, minutes(30, 60), {{mason, 1}, {labourer, 1}});
    task(finish).importance = Importance::should;
    task(finish).due = std::min<Tick>(net_.horizon(), ticks(1440) * (days_ - 1));
    after(strike, finish, hardening, hours(10));
    if (strip >= 0) {
      task(strike).touches.push_back({strip, 0, false, 0});
      net_.cure_links.push_back({strip, strike, hours(12)});
    }
    ends_.insert(ends_.end(), {strike, finish});
  }

  void path() {
    const std::string name = "path " + std::to_string(count());
    const TaskId dig = add(name + ": dig", digging, minutes(60, 120), {{labourer, 1}});
    may_pause(dig, 500);
    const TaskId base = add(name + ": base", digging, minutes(50, 100), {{labourer, 1}});
    may_pause(base, 500);
    const TaskId pave = add(name + ": pave", bricklaying, minutes(90, 180), {{mason, 1}});
    may_pause(pave, 1000);
    const TaskId joint = add(name + ": joint", pointing, minutes(40, 70), {{mason, 1}});
    way(joint).guards = {{time_clock, hours(3), rain_clock, 500, false}};
    for (const TaskId id : {dig, base, pave, joint}) {
      task(id).importance = id == joint ? Importance::may : Importance::should;
      task(id).group = dig;
    }
    after(unload_, dig);
    at_most(dig, base, rain_clock, 20'000);
    after(base, pave);
    after(fetch_, pave);
    after(pave, joint, time_clock, hours(12));
    ends_.insert(ends_.end(), {pave, joint});
  }

  void go_home() {
    while (count() > size_.tasks - 2)
      drop_last();
    const TaskId tidy = add("tidy up", any_weather, minutes(60, 90), {{mason, 1}});
    const TaskId home = add("home", any_weather, hours(3), {{mason, 1}});
    for (const TaskId end : ends_) {
      if (end < tidy) after(end, tidy).waived_if_left_out = task(end).importance != Importance::must;
    }
    after(tidy, home);
    task(home).due = ticks(1440) * (days_ * 3 / 4);
  }

  // The last piece is cut short where it makes too many tasks.
  void drop_last() {
    const TaskId last = count() - 1;
    net_.tasks.pop_back();
    const auto of_last = [&](const Link& link) { return link.from == last || link.to == last; };
    net_.links.erase(std::remove_if(net_.links.begin(), net_.links.end(), of_last), net_.links.end());
    const auto cure_of_last = [&](const CureLink& link) { return link.to == last; };
    net_.cure_links.erase(std::remove_if(net_.cure_links.begin(), net_.cure_links.end(), cure_of_last),
                          net_.cure_links.end());
  }

  JobSize size_;
  base::Random dice_;
  Network net_;
  int days_ = 0;
  std::vector<std::uint8_t> calm_;
  std::vector<TaskId> ends_;
  TaskId unload_ = 0, fetch_ = 0;
};

}  // namespace

Network weather_job(const JobSize& size) {
  return Maker(size).make();
}

std::vector<Genes> genes_for(const Network& network, int count, std::uint64_t seed) {
  base::Random dice(seed, 107);
  const std::size_t tasks = network.tasks.size();
  // How many links follow each, at the most.
  std::vector<double> tail(tasks, 0);
  for (std::size_t round = 0; round < tasks; ++round) {
    for (const Link& link : network.links) {
      auto& of = tail[static_cast<std::size_t>(link.from)];
      of = std::max(of, tail[static_cast<std::size_t>(link.to)] + 1);
    }
  }
  const auto one = [&] {
    Genes genes{std::vector<TaskId>(tasks), std::vector<int>(tasks), std::vector<Tick>(tasks, 0),
                std::vector<char>(tasks, 0)};
    std::iota(genes.order.begin(), genes.order.end(), 0);
    std::vector<double> rank(tasks);
    for (std::size_t i = 0; i < tasks; ++i) {
      rank[i] = -tail[i] + 3 * dice.unit() + (network.tasks[i].importance == Importance::must ? 0 : 2);
      genes.way[i] = static_cast<int>(dice.below(network.tasks[i].ways.size()));
    }
    std::stable_sort(genes.order.begin(), genes.order.end(), [&](TaskId a, TaskId b) {
      return rank[static_cast<std::size_t>(a)] < rank[static_cast<std::size_t>(b)];
    });
    return genes;
  };
  std::vector<Genes> parents;
  for (int k = 0; k < 40; ++k)
    parents.push_back(one());
  std::vector<Genes> children;
  while (children.size() < static_cast<std::size_t>(count)) {
    Genes child = parents[dice.below(parents.size())];
    const Genes& other = parents[dice.below(parents.size())];
    const auto length = tasks / 4 + dice.below(tasks / 2);
    const auto from = dice.below(tasks - length);
    std::vector<char> in(tasks, 0);
    for (std::size_t k = from; k < from + length; ++k)
      in[static_cast<std::size_t>(child.order[k])] = 1;
    std::size_t next = from;
    for (const TaskId id : other.order) {
      if (in[static_cast<std::size_t>(id)] == 0) continue;
      child.order[next++] = id;
      child.way[static_cast<std::size_t>(id)] = other.way[static_cast<std::size_t>(id)];
    }
    children.push_back(std::move(child));
  }
  return children;
}

}  // namespace weatherstruck::bench
