#include "weatherstruck/trade/covers.h"

#include <gtest/gtest.h>

#include <set>

#include "weatherstruck/trade/limits.h"

namespace weatherstruck::trade {
namespace {

TEST(Covers, EveryKindHasACompleteRow) {
  std::set<std::string_view> keys;
  for (const CoverRow& row : covers()) {
    EXPECT_TRUE(keys.insert(row.key).second) << row.key;
    EXPECT_EQ(&row_for(row.kind), &row);
    EXPECT_FALSE(row.source.text.empty()) << row.key;
    for (const double share : {row.rain_through, row.drying_through}) {
      EXPECT_GE(share, 0) << row.key;
      EXPECT_LE(share, 1) << row.key;
    }
    EXPECT_GE(row.lift.value(), 0) << row.key;
    EXPECT_GE(row.minutes_on_per_m2, row.minutes_off_per_m2) << row.key;
  }
  EXPECT_EQ(keys.size(), 6U);
}

TEST(Covers, NothingLetsEverythingThroughAndCostsNothing) {
  const CoverRow& bare = row_for(CoverKind::bare);
  EXPECT_EQ(bare.rain_through, 1);
  EXPECT_EQ(bare.drying_through, 1);
  EXPECT_EQ(bare.lift.value(), 0);
  EXPECT_EQ(bare.least_minutes, 0);
  EXPECT_FALSE(bare.uses_hessian || bare.uses_sheet || bare.uses_mat || bare.uses_canopy);
}

TEST(Covers, HessianKeepsDrizzleOffAndASheetKeepsRainOff) {
  // Common practice, no source.
  EXPECT_LT(row_for(CoverKind::hessian).rain_through, 0.5);
  EXPECT_GT(row_for(CoverKind::hessian).rain_through, 0);
  EXPECT_EQ(row_for(CoverKind::sheet).rain_through, 0);
  EXPECT_GT(row_for(CoverKind::hessian).drying_through, row_for(CoverKind::sheet).drying_through);
}

TEST(Covers, TwoLayersKeepMoreFrostOffThanOne) {
  EXPECT_GT(row_for(CoverKind::hessian_and_sheet).lift, row_for(CoverKind::hessian).lift);
  EXPECT_GT(row_for(CoverKind::hessian_and_sheet).lift, row_for(CoverKind::sheet).lift);
  EXPECT_GT(row_for(CoverKind::mat).lift, row_for(CoverKind::hessian_and_sheet).lift);
}

TEST(Covers, WorkGoesOnOnlyUnderTheSkyOrTheCanopy) {
  for (const CoverRow& row : covers()) {
    EXPECT_EQ(row.works_under, row.kind == CoverKind::bare || row.kind == CoverKind::canopy) << row.key;
  }
}

TEST(Covers, TheCanopyHasTheGustOfItsLimit) {
  const LimitValues limits = limits_for(LimitSet::uk, ColdRule::nbs).values;
  EXPECT_EQ(row_for(CoverKind::canopy).gust_limit, limits.speed(limit::canopy_gust));
}

// The lifts are assumptions of the table; this holds that colder air never makes covered work warmer, and
// that frost is felt as before: 3 K under hessian and sheet make 1 degree of -2, and -1 of -4.
TEST(Covers, KeepTheWorkWarmerAndNeverWarmerInColderAir) {
  const base::Kelvins lift = row_for(CoverKind::hessian_and_sheet).lift;
  const auto work = [&](double air) { return under_cover(base::Celsius(air), lift).value(); };
  EXPECT_DOUBLE_EQ(work(-4), -1);
  EXPECT_DOUBLE_EQ(work(-2), 1);
  EXPECT_DOUBLE_EQ(work(0.5), 3);
  EXPECT_DOUBLE_EQ(work(8), 8);
  EXPECT_DOUBLE_EQ(under_cover(base::Celsius(-2), base::Kelvins(0)).value(), -2);
  for (double air = -20; air < 20; air += 0.1)
    EXPECT_LE(work(air), work(air + 0.1) + 1e-12) << air;
}

}  // namespace
}  // namespace weatherstruck::trade
