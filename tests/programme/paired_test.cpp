#include "weatherstruck/programme/paired.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string_view>

namespace weatherstruck::programme {
namespace {

Outlook of(std::string_view each) {
  Outlook out;
  out.weathers = static_cast<int>(each.size());
  for (const char c : each)
    out.each.push_back(c == '1' ? 1 : 0);
  return out;
}

// By hand: three better, one worse of ten: gain 2/10; with one of each added six differ, and
// sqrt(6 - 2 * 2 / 10) / 10.
TEST(Paired, CountsOnlyTheWeathersInWhichTheTwoDiffer) {
  const Paired beside = paired(of("1111000011"), of("1000100011"));
  EXPECT_DOUBLE_EQ(beside.gain, 0.2);
  EXPECT_DOUBLE_EQ(beside.error, std::sqrt(5.6) / 10);
  EXPECT_FALSE(beside.shows());
}

TEST(Paired, IsNeverQuiteSure) {
  const Paired same = paired(of("1100"), of("1100"));
  EXPECT_EQ(same.gain, 0);
  EXPECT_GT(same.error, 0);
  EXPECT_GT(paired(Outlook{}, Outlook{}).error, 0);
}

TEST(Paired, ShowsOneWayAndTheOther) {
  EXPECT_TRUE(paired(of("11111111110000000000"), of("00000000000000000000")).shows());
  EXPECT_TRUE(paired(of("00000000000000000000"), of("11111111110000000000")).shows());
}

}  // namespace
}  // namespace weatherstruck::programme
