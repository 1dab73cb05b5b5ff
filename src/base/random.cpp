#include "weatherstruck/base/random.h"

#include <bit>
#include <cmath>
#include <stdexcept>

namespace weatherstruck::base {

namespace {

// splitmix64 (Steele, Lea, Flood 2014; constants as published by Vigna, prng.di.unimi.it).
constexpr std::uint64_t step = 0x9e3779b97f4a7c15U;

constexpr std::uint64_t mix(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31);
}

}  // namespace

Random::Random(std::uint64_t seed) {
  for (std::uint64_t& word : state_) {
    seed += step;
    word = mix(seed);
  }
}

// For one seed the inner sum and the outer mix are one-to-one in the stream, so no two streams of a seed
// start alike.
Random::Random(std::uint64_t seed, std::uint64_t stream) : Random(mix(mix(seed + step) + stream)) {}

Random Random::from_state(const std::array<std::uint64_t, 4>& state) {
  if (state == std::array<std::uint64_t, 4>{}) throw std::invalid_argument("an all-zero state stays zero");
  Random random;
  random.state_ = state;
  return random;
}

// xoshiro256**, after the description in Blackman and Vigna, "Scrambled Linear Pseudorandom Number
// Generators", 2018, section 3 and figure 1 (constants 5, 7, 9; shift 17; rotation 45).
std::uint64_t Random::next() {
  auto& [a, b, c, d] = state_;
  const std::uint64_t result = std::rotl(b * 5, 7) * 9;
  const std::uint64_t shifted = b << 17;
  c ^= a;
  d ^= b;
  b ^= c;
  a ^= d;
  c ^= shifted;
  d = std::rotl(d, 45);
  return result;
}

std::uint64_t Random::below(std::uint64_t n) {
  if (n == 0) throw std::invalid_argument("nothing lies below 0");
  // The 2^64 mod n lowest draws are thrown away; what is left divides evenly.
  const std::uint64_t surplus = (0 - n) % n;
  std::uint64_t draw = next();
  while (draw < surplus)
    draw = next();
  return draw % n;
}

int Random::between(int low, int high) {
  if (low > high) throw std::invalid_argument("the low end lies above the high end");
  const auto count = static_cast<std::uint64_t>(std::int64_t{high} - low) + 1;
  return static_cast<int>(low + static_cast<std::int64_t>(below(count)));
}

double Random::unit() {
  return static_cast<double>(next() >> 11) * 0x1p-53;
}

double Random::normal() {
  if (has_spare_) {
    has_spare_ = false;
    return spare_;
  }
  while (true) {
    const double x = 2 * unit() - 1;
    const double y = 2 * unit() - 1;
    const double square = x * x + y * y;
    if (square >= 1 || square <= 0) continue;
    const double scale = std::sqrt(-2 * std::log(square) / square);
    spare_ = y * scale;
    has_spare_ = true;
    return x * scale;
  }
}

}  // namespace weatherstruck::base
