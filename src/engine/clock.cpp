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
  const std::size_t slots = rates_.size();
  horizon_ = static_cast<Tick>(slots) * ticks_per_slot_;
  fastest_ = *std::max_element(rates_.begin(), rates_.end());
  before_.resize(slots + 1);
  for (std::size_t i = 0; i < slots; ++i) {
    if (rates_[i] < 0) throw std::invalid_argument("clock " + name_ + ": a rate below zero");
    before_[i + 1] = before_[i] + static_cast<Amount>(rates_[i]) * ticks_per_slot_;
  }
  passed_.reserve(static_cast<std::size_t>(horizon_) + 1);
  passed_.push_back(0);
  for (const std::int32_t rate : rates_) {
    for (int tick = 0; tick < ticks_per_slot_; ++tick)
      passed_.push_back(passed_.back() + rate);
  }
  running_.assign(slots + 1, static_cast<std::int32_t>(slots));
  standing_.assign(slots + 1, static_cast<std::int32_t>(slots));
  for (std::size_t i = slots; i-- > 0;) {
    const bool runs = rates_[i] > 0;
    running_[i] = runs ? static_cast<std::int32_t>(i) : running_[i + 1];
    standing_[i] = runs ? standing_[i + 1] : static_cast<std::int32_t>(i);
  }
}

Amount Clock::passed(Tick t) const {
  return passed_[static_cast<std::size_t>(std::clamp(t, 0, horizon_))];
}

Tick Clock::advance(Tick from, Amount amount) const {
  if (amount <= 0) return from;
  const Amount goal = passed(from) + amount;
  if (goal > before_.back()) return never;
  // The first slot boundary at or past the goal; the goal falls within the slot before it, whose rate is
  // therefore above zero. Most amounts go by soon: looked for in strides that double from where it starts.
  auto low = static_cast<std::size_t>(std::clamp(from, 0, horizon_) / ticks_per_slot_);
  std::size_t stride = 1;
  while (low + stride < before_.size() && before_[low + stride] < goal) {
    low += stride;
    stride *= 2;
  }
  const auto begin = before_.begin() + static_cast<std::ptrdiff_t>(low);
  const auto end = before_.begin() + static_cast<std::ptrdiff_t>(std::min(low + stride + 1, before_.size()));
  const auto boundary = std::lower_bound(begin, end, goal);
  const auto slot = static_cast<std::size_t>(boundary - before_.begin()) - 1;
  const Amount rate = rates_[slot];
  const Amount into = (goal - before_[slot] + rate - 1) / rate;
  return static_cast<Tick>(slot) * ticks_per_slot_ + static_cast<Tick>(into);
}

Tick Clock::retreat(Tick to, Amount amount) const {
  if (amount <= 0) return to;
  const Amount goal = passed(to) - amount;
  if (goal < 0) return -1;
  // The last slot boundary at or below the goal: within the slot after it the goal is passed, or never.
  const auto boundary = std::upper_bound(before_.begin(), before_.end(), goal);
  const auto slot = static_cast<std::size_t>(boundary - before_.begin()) - 1;
  const Amount rate = slot < rates_.size() ? rates_[slot] : 0;
  const Tick start = static_cast<Tick>(slot) * ticks_per_slot_;
  return rate == 0 ? start : start + static_cast<Tick>((goal - before_[slot]) / rate);
}

std::int32_t Clock::rate(Tick t) const {
  return t < 0 || t >= horizon_ ? 0 : rates_[static_cast<std::size_t>(t / ticks_per_slot_)];
}

CauseId Clock::cause(Tick t) const {
  if (causes_.empty() || t < 0 || t >= horizon_) return 0;
  return causes_[static_cast<std::size_t>(t / ticks_per_slot_)];
}

Tick Clock::next_running(Tick from) const {
  if (from < 0) from = 0;
  if (from >= horizon_) return never;
  const auto slot = static_cast<std::size_t>(from / ticks_per_slot_);
  const std::int32_t found = running_[slot];
  if (static_cast<std::size_t>(found) == rates_.size()) return never;
  return std::max(from, static_cast<Tick>(found) * ticks_per_slot_);
}

Tick Clock::next_standing(Tick from) const {
  if (from < 0 || from >= horizon_) return from < 0 ? from : horizon_;
  const auto slot = static_cast<std::size_t>(from / ticks_per_slot_);
  return std::max(from, static_cast<Tick>(standing_[slot]) * ticks_per_slot_);
}

}  // namespace weatherstruck::engine
