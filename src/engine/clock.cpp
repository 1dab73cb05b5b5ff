#include "weatherstruck/engine/clock.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace weatherstruck::engine {

Clock::Clock(std::string name, int ticks_per_slot, std::vector<std::int32_t> rates,
             std::vector<CauseId> causes)
    : name_(std::move(name)),
      ticks_per_slot_(ticks_per_slot),
      rates_(std::move(rates)),
      causes_(std::move(causes)) {
  if (ticks_per_slot_ < 1) throw std::invalid_argument("clock " + name_ + ": a slot needs at least one tick");
  if (rates_.empty()) throw std::invalid_argument("clock " + name_ + ": no slots");
  if (!causes_.empty() && causes_.size() != rates_.size()) {
    throw std::invalid_argument("clock " + name_ + ": one cause for each slot, or none");
  }
  horizon_ = static_cast<Tick>(rates_.size()) * ticks_per_slot_;
  tabulate();
}

void Clock::refill(const std::vector<std::int32_t>& rates) {
  if (rates.size() != rates_.size())
    throw std::invalid_argument("clock " + name_ + ": another number of slots");
  causes_.clear();
  // Rain under a sheet, frost in a mild week: many are the same in most weathers.
  if (rates == rates_) return;
  rates_ = rates;
  tabulate();
}

namespace {

// What has gone by at each tick of some slots, `sum` at their start and, given back, at their end. By
// pointer, and by a count that the compiler may know: this is written anew for every weather that a plan is
// tried in.
template <int KnownTicks>
Amount sum_up(const std::int32_t* rates, std::size_t slots, int ticks_per_slot, Amount sum, Amount* passed) {
  const int ticks = KnownTicks > 0 ? KnownTicks : ticks_per_slot;
  for (std::size_t i = 0; i < slots; ++i) {
    const Amount rate = rates[i];
    for (int k = 0; k < ticks; ++k)
      *passed++ = sum + rate * k;
    // Not by the known count: the compiler would make one chain of additions out of all.
    sum += rate * ticks_per_slot;
  }
  return sum;
}

}  // namespace

void Clock::tabulate() {
  const std::size_t slots = rates_.size();
  const auto ticks = static_cast<std::size_t>(ticks_per_slot_);
  passed_.resize(slots * ticks + 1);
  turns_.resize(slots);
  const std::int32_t* rates = rates_.data();
  std::int32_t fastest = 0;
  std::int32_t signs = 0;
  for (std::size_t i = 0; i < slots; ++i) {
    signs |= rates[i];
    fastest = std::max(fastest, rates[i]);
  }
  if (signs < 0) throw std::invalid_argument("clock " + name_ + ": a rate below zero");
  fastest_ = fastest;
  Amount sum = 0;
  // By stretches that run or stand: most clocks stand most of the time.
  for (std::size_t from = 0; from < slots;) {
    const bool runs = rates[from] > 0;
    std::size_t to = from;
    while (to < slots && (rates[to] > 0) == runs)
      ++to;
    std::fill(turns_.data() + from, turns_.data() + to, static_cast<std::int32_t>(to));
    Amount* const passed = passed_.data() + from * ticks;
    if (!runs) {
      std::fill(passed, passed + (to - from) * ticks, sum);
    } else if (ticks_per_slot_ == 3) {
      sum = sum_up<3>(rates + from, to - from, ticks_per_slot_, sum, passed);
    } else {
      sum = sum_up<0>(rates + from, to - from, ticks_per_slot_, sum, passed);
    }
    from = to;
  }
  passed_[slots * ticks] = sum;
}

Tick Clock::advance(Tick from, Amount amount) const {
  if (amount <= 0) return from;
  const Amount goal = passed(from) + amount;
  if (goal > passed_.back()) return never;
  // The first slot boundary at or past the goal; the goal falls within the slot before it, whose rate is
  // therefore above zero. Most amounts go by soon: looked for in strides that double from where it starts.
  const std::size_t slots = rates_.size();
  auto low = static_cast<std::size_t>(std::clamp(from, 0, horizon_) / ticks_per_slot_);
  std::size_t stride = 1;
  while (low + stride <= slots && at_slot(low + stride) < goal) {
    low += stride;
    stride *= 2;
  }
  // at_slot(low) < goal or low is where it starts; the boundary lies in (low, high].
  std::size_t high = std::min(low + stride, slots);
  while (high - low > 1) {
    const std::size_t middle = low + (high - low) / 2;
    (at_slot(middle) < goal ? low : high) = middle;
  }
  const std::size_t slot = high - 1;
  const Amount rate = rates_[slot];
  const Amount into = (goal - at_slot(slot) + rate - 1) / rate;
  return static_cast<Tick>(slot) * ticks_per_slot_ + static_cast<Tick>(into);
}

Tick Clock::retreat(Tick to, Amount amount) const {
  if (amount <= 0) return to;
  const Amount goal = passed(to) - amount;
  if (goal < 0) return -1;
  // The last slot boundary at or below the goal: within the slot after it the goal is passed, or never.
  std::size_t slot = 0;
  for (std::size_t above = rates_.size() + 1; above - slot > 1;) {
    const std::size_t middle = slot + (above - slot) / 2;
    (at_slot(middle) <= goal ? slot : above) = middle;
  }
  const Amount rate = slot < rates_.size() ? rates_[slot] : 0;
  const Tick start = static_cast<Tick>(slot) * ticks_per_slot_;
  return rate == 0 ? start : start + static_cast<Tick>((goal - at_slot(slot)) / rate);
}

CauseId Clock::cause(Tick t) const {
  if (causes_.empty() || t < 0 || t >= horizon_) return 0;
  return causes_[static_cast<std::size_t>(t / ticks_per_slot_)];
}

Tick Clock::turn_after(std::size_t slot) const {
  return static_cast<Tick>(turns_[slot]) * ticks_per_slot_;
}

Tick Clock::next_running(Tick from) const {
  if (from < 0) from = 0;
  if (from >= horizon_) return never;
  const auto slot = static_cast<std::size_t>(from / ticks_per_slot_);
  if (rates_[slot] > 0) return from;
  const Tick turn = turn_after(slot);
  return turn >= horizon_ ? never : turn;
}

Tick Clock::next_standing(Tick from) const {
  if (from < 0 || from >= horizon_) return from < 0 ? from : horizon_;
  const auto slot = static_cast<std::size_t>(from / ticks_per_slot_);
  return rates_[slot] > 0 ? turn_after(slot) : from;
}

}  // namespace weatherstruck::engine
