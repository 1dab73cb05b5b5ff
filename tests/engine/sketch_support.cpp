#include "engine/sketch_support.h"

#include <numeric>
#include <stdexcept>
#include <utility>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {

Task& TaskSketch::task() {
  return at(network_->tasks, id_);
}

TaskSketch& TaskSketch::setup(Amount amount) {
  way().setup = amount;
  return *this;
}
TaskSketch& TaskSketch::may_stop_at(std::vector<Amount> breaks) {
  way().pause = Pause::at_breaks;
  way().breaks = std::move(breaks);
  return *this;
}
TaskSketch& TaskSketch::may_stop_at_every_course() {
  std::vector<Amount> breaks(static_cast<std::size_t>(way().amount - 1));
  std::iota(breaks.begin(), breaks.end(), Amount{1});
  return may_stop_at(std::move(breaks));
}
TaskSketch& TaskSketch::may_stop_anywhere() {
  way().pause = Pause::anywhere;
  return *this;
}
TaskSketch& TaskSketch::by(ResourceId who, int how_many) {
  way().needs.push_back({who, how_many});
  return *this;
}
TaskSketch& TaskSketch::under(StatefulId stateful, int state) {
  way().state = StateNeed{stateful, state};
  return *this;
}
TaskSketch& TaskSketch::within(Tick longest_span) {
  way().longest_span = longest_span;
  return *this;
}
TaskSketch& TaskSketch::guard(ClockId until, Amount until_amount, ClockId exposure, Amount most) {
  way().guards.push_back(Guard{until, until_amount, exposure, most, false});
  return *this;
}
TaskSketch& TaskSketch::start_guard(ClockId until, Amount until_amount, ClockId exposure, Amount most) {
  way().guards.push_back(Guard{until, until_amount, exposure, most, true});
  return *this;
}
TaskSketch& TaskSketch::costs(ClockId clock, Amount weight) {
  way().costs.push_back({clock, weight});
  return *this;
}
TaskSketch& TaskSketch::or_by(ClockId clock, Amount amount) {
  Way other;
  other.clock = clock;
  other.amount = amount;
  task().ways.push_back(std::move(other));
  return *this;
}
TaskSketch& TaskSketch::lays(KeepId keep, Amount units, int layer) {
  task().touches.push_back({keep, units, false, layer});
  return *this;
}
TaskSketch& TaskSketch::works_on(KeepId keep) {
  task().touches.push_back({keep, 0, false});
  return *this;
}
TaskSketch& TaskSketch::closes(KeepId keep) {
  task().touches.push_back({keep, 0, true});
  return *this;
}
TaskSketch& TaskSketch::due(Tick tick) {
  task().due = tick;
  return *this;
}
TaskSketch& TaskSketch::not_before(Tick tick) {
  task().release = tick;
  return *this;
}
TaskSketch& TaskSketch::should() {
  task().importance = Importance::should;
  return *this;
}
TaskSketch& TaskSketch::may() {
  task().importance = Importance::may;
  return *this;
}
TaskSketch& TaskSketch::only_if(TaskId other, int which) {
  task().presence = Presence{other, {which}};
  return *this;
}

Keep& KeepSketch::keep() {
  return at(network_->keeps, id_);
}

KeepSketch& KeepSketch::harmed_by(const std::string& name, ClockId until, Amount amount, ClockId exposure,
                                  Amount most) {
  keep().hazards.push_back({name, amount, most});
  keep().ways[0].until.push_back(until);
  keep().ways[0].exposure.push_back(exposure);
  return *this;
}
KeepSketch& KeepSketch::cover(const std::string& name, ClockId cure, std::vector<Need> area) {
  CoverWay cover;
  cover.name = name;
  cover.cure = cure;
  cover.until = keep().ways[0].until;
  cover.exposure.assign(cover.until.size(), no_clock);
  cover.area = std::move(area);
  keep().ways.push_back(std::move(cover));
  return *this;
}
KeepSketch& KeepSketch::takes(Tick on, Tick off, std::vector<Need> hands) {
  way().on = on;
  way().off = off;
  way().hands = std::move(hands);
  return *this;
}
KeepSketch& KeepSketch::hardens_on(ClockId until) {
  way().until.assign(way().until.size(), until);
  return *this;
}
KeepSketch& KeepSketch::lets_through(ClockId exposure) {
  way().exposure.assign(way().exposure.size(), exposure);
  return *this;
}
KeepSketch& KeepSketch::stands_while(StatefulId stateful, int state) {
  way().state = StateNeed{stateful, state};
  return *this;
}
KeepSketch& KeepSketch::green(ClockId clock, Amount firm, Amount limit) {
  keep().green = Green{clock, firm, limit};
  return *this;
}

Sketch::Sketch(int hours) {
  network.slots = hours;
  network.day_of_slot.assign(static_cast<std::size_t>(hours), 0);
}

std::vector<int> Sketch::digits(const std::string& text) const {
  std::vector<int> list;
  for (const char c : text) {
    if (c != ' ') list.push_back(c - '0');
  }
  if (static_cast<int>(list.size()) != network.slots) throw std::invalid_argument("hours in '" + text + "'");
  return list;
}

ClockId Sketch::clock(const std::string& name, const std::string& rates) {
  const auto list = digits(rates);
  network.clocks.emplace_back(name, 1, std::vector<std::int32_t>(list.begin(), list.end()));
  return count_of(network.clocks) - 1;
}

ResourceId Sketch::people(const std::string& name, int how_many) {
  network.resources.push_back({name, std::vector<int>(static_cast<std::size_t>(network.slots), how_many)});
  return count_of(network.resources) - 1;
}

ResourceId Sketch::people(const std::string& name, const std::string& how_many_each_hour) {
  network.resources.push_back({name, digits(how_many_each_hour)});
  return count_of(network.resources) - 1;
}

void Sketch::hours_a_day(ResourceId who, int first_day, std::initializer_list<Tick> limits) {
  for (int hour = first_day; hour < network.slots; ++hour)
    at(network.day_of_slot, hour) = 1;
  network.buckets.push_back({who, limits});
}

StatefulId Sketch::stateful(const std::string& name, std::vector<std::vector<Tick>> change,
                            const std::vector<std::string>& allowed, std::vector<Need> hands) {
  Stateful thing{name, std::move(change), {}, std::move(hands)};
  for (const std::string& row : allowed) {
    const auto list = digits(row);
    thing.allowed.emplace_back();
    for (const int digit : list)
      thing.allowed.back().push_back(static_cast<std::uint8_t>(digit));
  }
  network.statefuls.push_back(std::move(thing));
  return count_of(network.statefuls) - 1;
}

TaskSketch Sketch::task(const std::string& name, ClockId clock, Amount amount) {
  Task task;
  task.name = name;
  Way way;
  way.clock = clock;
  way.amount = amount;
  task.ways.push_back(std::move(way));
  network.tasks.push_back(std::move(task));
  return {network, count_of(network.tasks) - 1};
}

KeepSketch Sketch::keep(const std::string& name, ClockId cure) {
  Keep keep;
  keep.name = name;
  CoverWay bare;
  bare.name = "bare";
  bare.cure = cure;
  keep.ways.push_back(std::move(bare));
  network.keeps.push_back(std::move(keep));
  return {network, count_of(network.keeps) - 1};
}

Link& Sketch::after(TaskId from, TaskId to) {
  Link link;
  link.from = from;
  link.to = to;
  network.links.push_back(link);
  return network.links.back();
}

void Sketch::cured(KeepId keep, TaskId to, Amount least) {
  network.cure_links.push_back({keep, to, least});
}

}  // namespace weatherstruck::engine::brute
