#pragma once
// What has been found out about a keep, kept for when it is asked again. One order of tasks is much like the
// one before, so that the same runs and covers come up again and again. A state is named by a number drawn
// from all that the answer hangs on (64 bits; that two states share one is as good as impossible, and would
// be found by the checker, which reads none of this).
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace weatherstruck::engine {

/// Spreads the bits of a number over all others (the finisher of SplitMix64, Steele, Lea & Flood 2014).
inline std::uint64_t spread(std::uint64_t x) {
  x ^= x >> 30U;
  x *= 0xbf58476d1ce4e5b9U;
  x ^= x >> 27U;
  x *= 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}
/// A number for a few others in this order.
template <class... Words>
std::uint64_t number_of(Words... words) {
  std::uint64_t sum = 0x9e3779b97f4a7c15U;
  ((sum = spread(sum + static_cast<std::uint64_t>(words))), ...);
  return sum;
}

/// Yes or no by state; a newer answer takes the place of an older one that falls into the same drawer.
class Verdicts {
 public:
  Verdicts() : drawers_(drawers, 0) {}

  [[nodiscard]] std::optional<bool> find(std::uint64_t state) const {
    const std::uint64_t kept = drawers_[place(state)];
    if (((kept ^ state) & ~std::uint64_t{1}) != 0) return std::nullopt;
    return (kept & 1U) != 0;
  }
  void keep(std::uint64_t state, bool verdict) {
    drawers_[place(state)] = (state & ~std::uint64_t{1}) | (verdict ? 1U : 0U);
  }

 private:
  static constexpr std::size_t drawers = 1U << 14U;
  static std::size_t place(std::uint64_t state) { return (state >> 40U) & (drawers - 1); }

  std::vector<std::uint64_t> drawers_;  // the state but for its last bit, which is the verdict
};

}  // namespace weatherstruck::engine
