#include "weatherstruck/programme/build.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "builder.h"
#include "weatherstruck/programme/strip_frost.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;

// How far a plan may run late before it is told that there is no place: to the end of a night, so that what
// is left on the last evening is seen through it.
base::Instant last_reach(const works::Job& job) {
  const base::Instant late = job.trip.home_by + std::chrono::hours(60);
  const auto morning = [&](base::LocalDay day) {
    return job.site.zone.to_instant_earliest(base::LocalTime(day) + job.trip.working_day.from);
  };
  const base::LocalDay day = job.site.zone.day_of(late);
  const base::Instant same = morning(day);
  return std::chrono::ceil<std::chrono::hours>(same >= late ? same : morning(day + std::chrono::days(1)));
}

bool at_night(const works::Job& job, const Slot& slot) {
  return slot.clock < job.trip.working_day.from || slot.clock >= job.trip.working_day.to;
}

/// By slot: whether the wind lets the canopy stand. It stands a whole night or not at all.
std::vector<std::uint8_t> canopy_stands(const works::Job& job, const trade::LimitValues& limits,
                                        const SlotTable& table) {
  const double gust_limit =
      std::min(job.kit.canopy->gust_limit.value(), limits.speed(limit::canopy_gust).value());
  const double night_limit = std::min(gust_limit, limits.speed(limit::canopy_overnight_gust).value());
  const auto& slots = table.slots;
  std::vector<std::uint8_t> allowed(slots.size());
  for (std::size_t i = 0; i < slots.size();) {
    const bool night = at_night(job, slots[i]);
    std::size_t end = i;
    double worst = 0;
    while (end < slots.size() && at_night(job, slots[end]) == night)
      worst = std::max(worst, slots[end++].gust.value());
    for (; i < end; ++i)
      allowed[i] = night ? worst < night_limit : slots[i].gust.value() < gust_limit;
  }
  return allowed;
}

}  // namespace

Builder::Builder(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
                 const trade::LimitValues& limits, base::Instant now, const Plan* followed, Causes told)
    : job_(job), list_(list), limits_(limits), followed_(followed), told_(told) {
  const auto from = std::chrono::floor<std::chrono::hours>(job.trip.leave_home);
  out_.table = make_slots(job.site, job.kit, weather, from, last_reach(job));
  now_ = std::max(now, job.trip.leave_home);
  engine::Network& net = out_.network;
  net.ticks_per_slot = kTicksPerSlot;
  net.slots = static_cast<int>(out_.table.slots.size());
  for (const Slot& slot : out_.table.slots)
    net.day_of_slot.push_back(slot.day);
}

Programme Builder::build() {
  ClockMaker clocks(job_, limits_, out_.table, out_.network, told_);
  clocks_ = &clocks;
  people();
  canopy();
  stocks();
  for (std::size_t i = 0; i < list_.tasks.size(); ++i)
    index_[list_.tasks[i].name] = static_cast<engine::TaskId>(i);
  for (const works::Task& task : list_.tasks)
    add_task(task);
  keeps();
  links();
  if (followed_ != nullptr) history();
  out_.causes = clocks.causes();
  out_.recipes = clocks.take_recipes();
  return std::move(out_);
}

int Builder::crew() const {
  return static_cast<int>(job_.crew.size());
}

engine::ResourceId Builder::resource(std::string name, std::vector<int> capacity) {
  out_.network.resources.push_back({std::move(name), std::move(capacity)});
  return static_cast<engine::ResourceId>(out_.network.resources.size() - 1);
}

std::vector<int> Builder::always(int quantity) const {
  return std::vector<int>(at(out_.network.slots), quantity);
}

void Builder::people() {
  engine::Network& net = out_.network;
  // Hands are there in the working day and an hour round it, for covers; work itself is held to his hours
  // by its clock.
  std::vector<int> hands;
  const auto from = job_.trip.working_day.from - std::chrono::minutes(30);
  const auto to = job_.trip.working_day.to + std::chrono::minutes(60);
  for (const Slot& slot : out_.table.slots)
    hands.push_back(slot.clock >= from && slot.clock < to ? crew() : 0);
  hands_ = resource("hands", std::move(hands));
  out_.hands = hands_;
  const auto layers =
      std::count_if(job_.crew.begin(), job_.crew.end(), [](const works::Person& p) { return p.lays_bricks; });
  bricklayers_ = resource("bricklayers", always(static_cast<int>(layers)));
  awake_ = resource("people on the road or at work", always(crew()));
  const int days = net.day_of_slot.back() + 1;
  const auto day_limit = [&](base::Hours hours) {
    return std::vector<Tick>(at(days),
                             static_cast<Tick>(std::llround(hours.value() * kTicksPerHour)) * crew());
  };
  net.buckets.push_back({hands_, day_limit(job_.trip.longest_day)});
  net.buckets.push_back({awake_, day_limit(limits_.hours(limit::day_red_line))});
}

void Builder::canopy() {
  if (!job_.kit.canopy) return;
  const works::Canopy& canopy = *job_.kit.canopy;
  for (const works::Task& task : list_.tasks) {
    if (can_go_under_canopy(task) && std::find(out_.canopy_places.begin(), out_.canopy_places.end(),
                                               task.of) == out_.canopy_places.end()) {
      out_.canopy_places.push_back(task.of);
    }
  }
  const std::size_t states = out_.canopy_places.size() + 1;
  engine::Stateful stateful;
  stateful.name = "canopy";
  stateful.change.assign(states,
                         std::vector<Tick>(states, ticks_up(static_cast<double>(canopy.move.count()))));
  for (std::size_t s = 1; s < states; ++s) {
    stateful.change[0][s] = ticks_up(static_cast<double>(canopy.pitch.count()));
    stateful.change[s][0] = ticks_up(static_cast<double>(canopy.strike.count()));
  }
  const std::vector<std::uint8_t> allowed = canopy_stands(job_, limits_, out_.table);
  stateful.allowed.assign(states, allowed);
  stateful.allowed[0].assign(allowed.size(), 1);
  stateful.hands = {{hands_, 1}, {awake_, 1}};
  out_.network.statefuls.push_back(std::move(stateful));
}

void Builder::stocks() {
  hessian_ = resource("hessian", always(tenths(job_.kit.hessian, false)));
  sheet_ = resource("sheet", always(tenths(job_.kit.sheet, false)));
  mats_ = resource("mats", always(tenths(job_.kit.mats, false)));
}

Amount Builder::reference(base::Hours hours) {
  return std::llround(hours.value() * kTicksPerHour * kReferenceTick);
}

// Parts as written are the pieces that are left out or done as one.
int Builder::group_of(const works::Name& part) {
  if (part.empty()) return -1;
  return groups_.emplace(part, static_cast<int>(groups_.size())).first->second;
}

base::Hours drive_with_rests(base::Hours driving, const trade::LimitValues& limits) {
  const double every = limits.hours(limit::drive_rest_every).value();
  const double rests = every > 0 ? std::max(0.0, std::ceil(driving.value() / every - 1e-9) - 1) : 0;
  return driving + limits.hours(limit::drive_rest) * rests;
}

Programme build_programme(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
                          const trade::LimitValues& limits, base::Instant now, const Plan* followed,
                          Causes told) {
  return Builder(job, list, weather, limits, now, followed, told).build();
}

void put_weather(Programme& programme, const works::Job& job, const trade::LimitValues& limits,
                 const sky::Series& weather) {
  std::vector<engine::ClockId> all(programme.recipes.size());
  std::iota(all.begin(), all.end(), 0);
  put_weather(programme, job, limits, weather, all);
  if (programme.network.statefuls.empty()) return;
  const auto allowed = canopy_stands(job, limits, programme.table);
  auto& states = programme.network.statefuls.front().allowed;
  std::fill(states.begin() + 1, states.end(), allowed);
}

void put_weather(Programme& programme, const works::Job& job, const trade::LimitValues& limits,
                 const sky::Series& weather, const std::vector<engine::ClockId>& clocks) {
  put_weather(programme.table, job.site, weather);
  put_tops(programme.table, job, limits);
  put_colds(programme.table);
  Rates rates(programme.table.slots.size());
  for (const engine::ClockId id : clocks) {
    const auto c = static_cast<std::size_t>(id);
    if (c >= programme.recipes.size() || !programme.recipes[c]) continue;
    programme.recipes[c](programme.table, rates);
    programme.network.clocks[c].refill(rates);
  }
}

}  // namespace weatherstruck::programme
