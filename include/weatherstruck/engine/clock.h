#pragma once
// Clocks: amounts that go by in time. The engine knows nothing else about the world.
#include <algorithm>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace weatherstruck::engine {

/// Time since the start of the horizon, in ticks (five minutes in the program, one unit in benchmarks).
/// 32 bits, while amounts are 64: the compiler's conversion warnings keep the two apart.
using Tick = std::int32_t;
/// How much has gone by on a clock, in the clock's own integer unit.
using Amount = std::int64_t;
/// An index into a list of causes that the maker of the clock keeps; the engine only hands it back.
using CauseId = std::uint16_t;

/// "Not within the horizon". Greater than every tick; safe to compare, not to add to.
inline constexpr Tick never = std::numeric_limits<Tick>::max();

/// A non-decreasing amount over time: constant integer rate per tick within each slot, the cause of the
/// rate beside it. Built once, then read-only; every question is a look-up or a binary search.
class Clock {
 public:
  /// @param rates  amount per tick for each slot, none negative; at least one slot
  /// @param causes one for each slot, or empty for "no cause" (0) everywhere
  /// @throws std::invalid_argument on a negative rate, sizes that differ, or ticks_per_slot < 1
  Clock(std::string name, int ticks_per_slot, std::vector<std::int32_t> rates,
        std::vector<CauseId> causes = {});

  /// The same clock in another weather: other rates for the same slots, and no causes.
  /// @throws std::invalid_argument on a negative rate or another number of slots
  void refill(const std::vector<std::int32_t>& rates);

  [[nodiscard]] const std::string& name() const { return name_; }
  /// Ticks are 0..horizon(); horizon() itself is a valid end.
  [[nodiscard]] Tick horizon() const { return horizon_; }
  [[nodiscard]] int ticks_per_slot() const { return ticks_per_slot_; }
  /// Amount gone by from 0 to t; t below 0 counts as 0, above the horizon as the horizon.
  [[nodiscard]] Amount passed(Tick t) const { return passed_.data()[std::clamp(t, 0, horizon_)]; }
  [[nodiscard]] Amount passed(Tick from, Tick to) const { return passed(to) - passed(from); }
  /// Least t >= from at which `amount` has gone by since `from`; `never` past the horizon.
  /// amount <= 0 gives `from`.
  [[nodiscard]] Tick advance(Tick from, Amount amount) const;
  /// Greatest t <= to such that `amount` goes by from t to `to`; -1 where none is left.
  [[nodiscard]] Tick retreat(Tick to, Amount amount) const;
  /// Rate within the tick that starts at t; 0 outside the horizon.
  [[nodiscard]] std::int32_t rate(Tick t) const {
    return t < 0 || t >= horizon_ ? 0 : rates_.data()[t / ticks_per_slot_];
  }
  /// The greatest rate of all.
  [[nodiscard]] std::int32_t fastest() const { return fastest_; }
  [[nodiscard]] CauseId cause(Tick t) const;
  /// First t >= from whose tick has a rate above zero; `never` if none.
  [[nodiscard]] Tick next_running(Tick from) const;
  /// First t >= from whose tick has rate zero; the horizon if none.
  [[nodiscard]] Tick next_standing(Tick from) const;

 private:
  void tabulate();
  [[nodiscard]] Amount at_slot(std::size_t slot) const {
    return passed_.data()[slot * static_cast<std::size_t>(ticks_per_slot_)];
  }
  [[nodiscard]] Tick turn_after(std::size_t slot) const;

  std::string name_;
  int ticks_per_slot_;
  Tick horizon_;
  std::int32_t fastest_ = 0;
  std::vector<std::int32_t> rates_;
  std::vector<CauseId> causes_;
  std::vector<Amount> passed_;       // amount at each tick: asked far more often than anything else
  std::vector<std::int32_t> turns_;  // by slot: the next after it that runs if it stands, or stands
};

}  // namespace weatherstruck::engine
