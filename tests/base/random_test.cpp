#include "weatherstruck/base/random.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>
#include <stdexcept>
#include <vector>

namespace weatherstruck::base {
namespace {

// The first ten outputs of the authors' C program from the state {1, 2, 3, 4}, as published with the
// rand_xoshiro library (github.com/rust-random/rngs, rand_xoshiro/src/xoshiro256starstar.rs, test
// "reference").
TEST(Random, FollowsThePublishedSequence) {
  Random random = Random::from_state({1, 2, 3, 4});
  const std::array<std::uint64_t, 10> published{11520U,
                                                0U,
                                                1509978240U,
                                                1215971899390074240U,
                                                1216172134540287360U,
                                                607988272756665600U,
                                                16172922978634559625U,
                                                8476171486693032832U,
                                                10595114339597558777U,
                                                2904607092377533576U};
  for (const std::uint64_t expected : published)
    EXPECT_EQ(random.next(), expected);
}

// The first four integers of splitmix64 from the seed 1234567, published at rosettacode.org,
// "Pseudo-random numbers/Splitmix64".
TEST(Random, IsSeededByThePublishedSplitmix) {
  Random seeded(1234567);
  Random placed = Random::from_state(
      {6457827717110365317U, 3203168211198807973U, 9817491932198370423U, 4593380528125082431U});
  for (int i = 0; i < 10; ++i)
    EXPECT_EQ(seeded.next(), placed.next());
}

TEST(Random, RefusesTheStateThatStaysZero) {
  EXPECT_THROW((void)Random::from_state({0, 0, 0, 0}), std::invalid_argument);
}

TEST(Random, StreamsOfOneSeedDifferAndRepeat) {
  std::set<std::uint64_t> firsts;
  for (std::uint64_t stream = 0; stream < 1000; ++stream) {
    Random once(7, stream);
    Random again(7, stream);
    const std::uint64_t first = once.next();
    EXPECT_EQ(first, again.next());
    firsts.insert(first);
  }
  EXPECT_EQ(firsts.size(), 1000U);
  EXPECT_NE(Random(3, 5).next(), Random(5, 3).next());
  EXPECT_NE(Random(7, 0).next(), Random(7).next());
}

// Pearson's chi-squared: with 9 degrees of freedom the 99.9 % point is 27.88, with 99 it is 148.2
// (NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4).
double chi_squared(const std::vector<int>& counts) {
  const double expected = static_cast<double>(std::accumulate(counts.begin(), counts.end(), 0)) /
                          static_cast<double>(counts.size());
  double sum = 0;
  for (const int count : counts)
    sum += (count - expected) * (count - expected) / expected;
  return sum;
}

TEST(Random, BelowIsEven) {
  Random random(1);
  std::vector<int> counts(10);
  for (int i = 0; i < 100'000; ++i)
    ++counts.at(random.below(10));
  EXPECT_LT(chi_squared(counts), 27.88);
}

TEST(Random, UnitIsEvenAndBelowOne) {
  Random random(2);
  std::vector<int> counts(100);
  for (int i = 0; i < 100'000; ++i) {
    const double draw = random.unit();
    ASSERT_GE(draw, 0.0);
    ASSERT_LT(draw, 1.0);
    ++counts.at(static_cast<std::size_t>(draw * 100));
  }
  EXPECT_LT(chi_squared(counts), 148.2);
}

// With n = 3 * 2^62 a plain remainder would put half of all draws in the lowest third.
TEST(Random, BelowHasNoRemainderBias) {
  Random random(3);
  const std::uint64_t n = 3U * (std::uint64_t{1} << 62);
  std::vector<int> thirds(3);
  for (int i = 0; i < 30'000; ++i)
    ++thirds.at(random.below(n) / (n / 3));
  for (const int count : thirds)
    EXPECT_NEAR(count, 10'000, 400);  // five standard deviations of 81.6
}

TEST(Random, BetweenReachesBothEndsOfAnyRange) {
  Random random(4);
  std::set<int> seen;
  for (int i = 0; i < 1000; ++i)
    seen.insert(random.between(-2, 3));
  EXPECT_EQ(seen, (std::set<int>{-2, -1, 0, 1, 2, 3}));
  EXPECT_EQ(random.between(5, 5), 5);
  const int least = std::numeric_limits<int>::min();
  const int most = std::numeric_limits<int>::max();
  bool negative = false;
  bool positive = false;
  for (int i = 0; i < 100; ++i)
    (random.between(least, most) < 0 ? negative : positive) = true;
  EXPECT_TRUE(negative && positive);
}

TEST(Random, RefusesEmptyRanges) {
  Random random(5);
  EXPECT_THROW((void)random.below(0), std::invalid_argument);
  EXPECT_THROW((void)random.between(1, 0), std::invalid_argument);
}

// Shares of the standard normal within 1 and 2 standard deviations: 0.68269 and 0.95450 (NIST/SEMATECH
// e-Handbook, section 1.3.6.7.1).
TEST(Random, NormalHasTheKnownShares) {
  Random random(6);
  const int n = 100'000;
  int within_one = 0;
  int within_two = 0;
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < n; ++i) {
    const double draw = random.normal();
    sum += draw;
    squares += draw * draw;
    within_one += std::abs(draw) < 1 ? 1 : 0;
    within_two += std::abs(draw) < 2 ? 1 : 0;
  }
  EXPECT_NEAR(sum / n, 0.0, 0.016);
  EXPECT_NEAR(squares / n, 1.0, 0.023);
  EXPECT_NEAR(within_one / static_cast<double>(n), 0.68269, 0.0075);
  EXPECT_NEAR(within_two / static_cast<double>(n), 0.95450, 0.0033);
}

TEST(Random, ChanceIsNeverAtZeroAndAlwaysAtOne) {
  Random random(7);
  for (int i = 0; i < 100; ++i) {
    EXPECT_FALSE(random.chance(0));
    EXPECT_TRUE(random.chance(1));
  }
}

TEST(Random, ShuffleGivesEveryOrderAlike) {
  Random random(8);
  std::vector<int> counts(6);
  for (int i = 0; i < 60'000; ++i) {
    std::array<int, 3> items{0, 1, 2};
    random.shuffle(std::span<int>(items));
    ++counts.at(static_cast<std::size_t>(items[0] * 2 + (items[1] > items[2] ? 1 : 0)));
  }
  EXPECT_LT(chi_squared(counts), 20.515);  // 5 degrees of freedom, 99.9 %, same table
}

RC_GTEST_PROP(RandomProperty, DrawsStayInRange, (std::uint64_t seed, int a, int b)) {
  Random random(seed);
  const int low = std::min(a, b);
  const int high = std::max(a, b);
  const int draw = random.between(low, high);
  RC_ASSERT(low <= draw && draw <= high);
}

}  // namespace
}  // namespace weatherstruck::base
