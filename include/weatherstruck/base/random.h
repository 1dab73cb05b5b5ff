#pragma once
// Our own generator, so that the same seed gives the same draws on every machine and compiler
// (std distributions differ between libraries).
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>

namespace weatherstruck::base {

/// xoshiro256** (Blackman, Vigna 2018), seeded by splitmix64. Not for secrets.
class Random {
 public:
  explicit Random(std::uint64_t seed);
  /// An independent stream for a named purpose: (seed, stream) gives the same numbers for ever.
  Random(std::uint64_t seed, std::uint64_t stream);
  /// The generator at a given state, to hold it against published sequences.
  /// @throws std::invalid_argument when all four words are zero (it would stay there)
  static Random from_state(const std::array<std::uint64_t, 4>& state);
  std::uint64_t next();
  /// Even over 0..n-1, without modulo bias. @throws std::invalid_argument when n is 0
  std::uint64_t below(std::uint64_t n);
  /// Even over [low, high]. @throws std::invalid_argument when low > high
  int between(int low, int high);
  /// Even over [0, 1), 53 bits.
  double unit();
  /// Standard normal by Marsaglia's polar method. Callers quantise before any threshold, since the last bit
  /// of std::log may differ between C libraries.
  double normal();
  bool chance(double probability) { return unit() < probability; }
  template <class T>
  void shuffle(std::span<T> items) {
    for (std::size_t i = items.size(); i > 1; --i)
      std::swap(items[i - 1], items[below(i)]);
  }

 private:
  Random() = default;
  std::array<std::uint64_t, 4> state_{};
  double spare_ = 0;
  bool has_spare_ = false;
};

}  // namespace weatherstruck::base
