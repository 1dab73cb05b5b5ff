#include "weatherstruck/account/rounding.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>
#include <stdexcept>

namespace weatherstruck::account {
namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

TEST(Rounding, HalvesGoAwayFromZero) {
  EXPECT_EQ(scaled(5, 1, 10), 1);
  EXPECT_EQ(scaled(-5, 1, 10), -1);
  EXPECT_EQ(scaled(5, -1, 10), -1);
  EXPECT_EQ(scaled(-5, -1, 10), 1);
  EXPECT_EQ(scaled(15, 1, 10), 2);
  EXPECT_EQ(scaled(25, 1, 10), 3) << "not to the even neighbour";
  EXPECT_EQ(scaled(4, 1, 10), 0);
  EXPECT_EQ(scaled(14, 1, 10), 1);
  EXPECT_EQ(scaled(-14, 1, 10), -1);
  EXPECT_EQ(scaled(1, 1, 3), 0);
  EXPECT_EQ(scaled(2, 1, 3), 1);
  EXPECT_EQ(scaled(0, 7, 10), 0);
}

TEST(Rounding, TheProductMayBeWiderThanItsParts) {
  EXPECT_EQ(scaled(largest, 1000, 1000), largest);
  EXPECT_EQ(scaled(-largest, 1000, 1000), -largest);
  EXPECT_EQ(scaled(9'000'000'000'000'001, 2500, 10000), 2'250'000'000'000'000);
}

TEST(Rounding, RefusesWhatDoesNotFit) {
  EXPECT_THROW((void)scaled(largest, 1001, 1000), std::overflow_error);
  EXPECT_THROW((void)scaled(std::numeric_limits<std::int64_t>::min(), 1, 1), std::overflow_error);
  EXPECT_THROW((void)scaled(1, std::numeric_limits<std::int64_t>::min(), 1), std::overflow_error);
  EXPECT_THROW((void)scaled(1, 1, 0), std::invalid_argument);
  EXPECT_THROW((void)scaled(1, 1, 1'000'001), std::invalid_argument);
}

// Against the definition: |2 * divisor * result - 2 * value * factor| <= divisor, and where it is equal the
// result is the one further from zero.
RC_GTEST_PROP(Rounding, IsTheNearestAndOfTwoTheFurther, ()) {
  const auto value = *rc::gen::inRange<std::int64_t>(-1'000'000, 1'000'001);
  const auto factor = *rc::gen::inRange<std::int64_t>(-100'000, 100'001);
  const auto divisor = *rc::gen::inRange<std::int64_t>(1, 10'001);
  const std::int64_t result = scaled(value, factor, divisor);
  const std::int64_t off = 2 * divisor * result - 2 * value * factor;
  RC_ASSERT(off <= divisor && off >= -divisor);
  if (off == divisor) RC_ASSERT(result > 0);
  if (off == -divisor) RC_ASSERT(result < 0);
}

}  // namespace
}  // namespace weatherstruck::account
