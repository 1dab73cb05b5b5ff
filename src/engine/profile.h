#pragma once
// What is left of a resource over time: stretches of equal quantity, no two neighbours alike, so that the
// same reservations always leave the same profile. Covers lie for days and hands are there by the day; a
// look-up by halves and a few stretches are less work than every tick between.
#include <algorithm>
#include <cstddef>
#include <vector>

#include "weatherstruck/engine/clock.h"

namespace weatherstruck::engine {

class Profile {
 public:
  /// @param by_slot what there is in each slot of `ticks_per_slot` ticks; at least one
  Profile(const std::vector<int>& by_slot, int ticks_per_slot) {
    for (std::size_t slot = 0; slot < by_slot.size(); ++slot) {
      if (!left_.empty() && left_.back().quantity == by_slot[slot]) continue;
      left_.push_back({static_cast<Tick>(slot) * ticks_per_slot, by_slot[slot]});
    }
    end_ = static_cast<Tick>(by_slot.size()) * ticks_per_slot;
  }

  [[nodiscard]] int at(Tick t) const { return left_[index_of(t)].quantity; }

  /// The first tick in [from, to) at which there is less than `quantity`, or `to`.
  [[nodiscard]] Tick first_below(Tick from, Tick to, int quantity) const {
    for (std::size_t i = index_of(from); i < left_.size() && left_[i].from < to; ++i) {
      if (left_[i].quantity < quantity) return std::max(from, left_[i].from);
    }
    return to;
  }
  /// The first tick from t on at which there is as much as `quantity`, or the end.
  [[nodiscard]] Tick first_with(Tick t, int quantity) const {
    for (std::size_t i = index_of(t); i < left_.size(); ++i) {
      if (left_[i].quantity >= quantity) return std::max(t, left_[i].from);
    }
    return end_;
  }

  /// Takes `change` away over [from, to); less than nothing may be left. Nothing where from >= to.
  void take(Tick from, Tick to, int change) {
    if (from >= to || change == 0) return;
    std::size_t i = index_of(from);
    if (left_[i].from < from) {
      ++i;
      left_.insert(place(i), {from, left_[i - 1].quantity});
    }
    std::size_t j = i;
    for (; j < left_.size() && left_[j].from < to; ++j) {
      if (end_of(j) > to) left_.insert(place(j + 1), {to, left_[j].quantity});
      left_[j].quantity -= change;
    }
    if (j < left_.size() && left_[j].quantity == left_[j - 1].quantity) left_.erase(place(j));
    if (i > 0 && left_[i].quantity == left_[i - 1].quantity) left_.erase(place(i));
  }

 private:
  struct Stretch {
    Tick from;
    int quantity;
  };
  [[nodiscard]] std::size_t index_of(Tick t) const {
    // One question is mostly asked near the one before.
    const Stretch* const all = left_.data();
    const std::size_t count = left_.size();
    std::size_t low = last_ < count && all[last_].from <= t ? last_ : 0;
    std::size_t stride = 1;
    while (low + stride < count && all[low + stride].from <= t) {
      low += stride;
      stride *= 2;
    }
    for (std::size_t high = std::min(low + stride, count); high - low > 1;) {
      const std::size_t middle = low + (high - low) / 2;
      (all[middle].from <= t ? low : high) = middle;
    }
    last_ = low;
    return low;
  }
  [[nodiscard]] Tick end_of(std::size_t i) const { return i + 1 < left_.size() ? left_[i + 1].from : end_; }
  [[nodiscard]] std::vector<Stretch>::iterator place(std::size_t i) {
    return left_.begin() + static_cast<std::ptrdiff_t>(i);
  }

  std::vector<Stretch> left_;
  Tick end_ = 0;
  mutable std::size_t last_ = 0;
};

}  // namespace weatherstruck::engine
