#include "weatherstruck/files/strip_bytes.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

programme::FittedStrip narrow() {
  programme::FittedStrip made;
  made.strip.shape = {base::Metres(0.1), base::Metres(0.3), base::Metres(0.25)};
  made.strip.mix.cement = base::KilogramsPerCubicMetre(0);
  made.strip.ground.mean = base::Celsius(9.7);
  made.strip.day_of_year = 39;
  made.filter = matter::fit_heat_filter(made.strip);
  return made;
}

TEST(StripBytes, GiveTheSameTopsToTheLastBit) {
  const programme::FittedStrip before = narrow();
  const auto after = unpack_strip(pack_strip(before));
  ASSERT_TRUE(after);
  EXPECT_EQ(after->strip.shape.trench_depth, before.strip.shape.trench_depth);
  EXPECT_EQ(after->strip.ground.mean, before.strip.ground.mean);
  EXPECT_EQ(after->strip.day_of_year, 39);
  matter::FilterRun one(before.filter, base::Celsius(8)), other(after->filter, base::Celsius(8));
  matter::Outside frost;
  frost.air = base::Celsius(-4);
  for (int hour = 0; hour < 48; ++hour) {
    const matter::TopState a = one.step(frost, base::Hours(1)), b = other.step(frost, base::Hours(1));
    ASSERT_EQ(a.top, b.top);
    ASSERT_EQ(a.equivalent_age, b.equivalent_age);
  }
}

TEST(StripBytes, ThatNobodyWroteAreNoStrip) {
  const std::string good = pack_strip(narrow());
  EXPECT_FALSE(unpack_strip(""));
  EXPECT_FALSE(unpack_strip(good.substr(1)));
  EXPECT_FALSE(unpack_strip(good + "x"));
  EXPECT_FALSE(unpack_strip(std::string(good.size(), '\0'))) << "a node that holds no heat";
  EXPECT_FALSE(unpack_strip(std::string(good.size(), '\xff'))) << "not a number";
}

}  // namespace
}  // namespace weatherstruck::files
