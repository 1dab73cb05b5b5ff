#include "weatherstruck/files/past_bytes.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

const base::Instant from(std::chrono::hours(400000));

TEST(PastBytes, ComeBackToTheTenthAndWhatIsNotGivenStaysSo) {
  sky::Series series;
  sky::Hour full;
  full.start = from;
  full.temperature = {base::Celsius(-12.3)};
  full.dew_point = {base::Celsius(-15.0)};
  full.wind = {base::MetresPerSecond(7.9)};
  full.gust = {base::MetresPerSecond(14.4)};
  full.rain = {base::Millimetres(0.1)};
  full.humidity = {base::Fraction(0.87)};
  full.cloud = {base::Fraction(1)};
  sky::Hour empty;
  empty.start = from + std::chrono::hours(1);
  series.hours = {full, empty};
  const std::string bytes = pack_past(series);
  EXPECT_EQ(bytes.size(), 28U);
  const auto hours = unpack_past(bytes, from);
  ASSERT_TRUE(hours);
  ASSERT_EQ(hours->size(), 2U);
  const sky::Hour& back = hours->front();
  EXPECT_EQ(back.start, from);
  EXPECT_DOUBLE_EQ(back.temperature->value.value(), -12.3);
  EXPECT_EQ(back.temperature->origin, sky::Origin::measured);
  EXPECT_DOUBLE_EQ(back.dew_point->value.value(), -15);
  EXPECT_DOUBLE_EQ(back.wind->value.value(), 7.9);
  EXPECT_DOUBLE_EQ(back.gust->value.value(), 14.4);
  EXPECT_DOUBLE_EQ(back.rain->value.value(), 0.1);
  EXPECT_DOUBLE_EQ(back.humidity->value.value(), 0.87);
  EXPECT_DOUBLE_EQ(back.cloud->value.value(), 1);
  EXPECT_FALSE(hours->back().temperature || hours->back().rain || hours->back().cloud);
  EXPECT_EQ(hours->back().start, from + std::chrono::hours(1));
}

TEST(PastBytes, OfAnotherFormAreNotRead) {
  EXPECT_FALSE(unpack_past("short", from));
  sky::Series series;
  series.hours.resize(1);
  series.hours.front().rain = {base::Millimetres(-1)};
  EXPECT_FALSE(unpack_past(pack_past(series), from));
}

}  // namespace
}  // namespace weatherstruck::files
