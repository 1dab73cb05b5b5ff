#include "weatherstruck/trade/norms.h"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>

namespace weatherstruck::trade {
namespace {

TEST(Norms, KeysAreUniqueAndValuesLieInTheirRange) {
  std::set<std::string_view> keys;
  for (const Norm& row : norms()) {
    EXPECT_TRUE(keys.insert(row.key).second) << row.key;
    EXPECT_LE(row.low, row.value) << row.key;
    EXPECT_LE(row.value, row.high) << row.key;
    EXPECT_FALSE(row.title.empty()) << row.key;
    EXPECT_FALSE(row.unit.empty()) << row.key;
    EXPECT_FALSE(row.source.text.empty()) << row.key;
    EXPECT_EQ(norm(row.key), row.value);
  }
  EXPECT_EQ(find_norm("camel"), nullptr);
  EXPECT_THROW((void)norm("camel"), std::invalid_argument);
}

TEST(Norms, BarrowTimesAddUpToThePublishedHour) {
  // Wheel and deposit up to 50 m, 1.0 h/m3 (scribd 579052623, verified): the parts must give that back.
  const double loads = 1 / norm(norm_key::barrow_load);
  const double walk = 2 * norm(norm_key::barrow_base_reach) / norm(norm_key::barrow_walk);
  EXPECT_NEAR(loads * (walk + norm(norm_key::barrow_turn)) / 60, norm(norm_key::barrow_base), 0.02);
}

TEST(Norms, FartherWaysByTheWalkAgreeWithThePublishedExtra) {
  // 0.96 h/m3 each 25 m (scribd 364286736) was measured with baskets and small barrows: a walk must not be
  // slower.
  const double loads = 1 / norm(norm_key::barrow_load);
  EXPECT_LT(loads * 2 / norm(norm_key::barrow_walk) / 60, norm(norm_key::barrow_extra));
}

TEST(Norms, BucketsAreSlowerThanABarrow) {
  const auto minutes_a_metre = [](double load, double walk) { return 2 / walk / load; };
  EXPECT_GT(minutes_a_metre(2 * norm(norm_key::bucket_load), norm(norm_key::bucket_walk)),
            minutes_a_metre(norm(norm_key::barrow_load), norm(norm_key::barrow_walk)));
}

TEST(Soils, EveryKindHasARowAndHarderIsSlower) {
  std::set<std::string_view> keys;
  for (const SoilRow& row : soils()) {
    EXPECT_TRUE(keys.insert(row.key).second);
    EXPECT_EQ(&row_for(row.soil), &row);
    EXPECT_GT(row.bulking, 0) << row.key;
    EXPECT_FALSE(row.source.text.empty()) << row.key;
  }
  EXPECT_EQ(keys.size(), 6U);
  EXPECT_LT(row_for(Soil::garden).dig_factor, row_for(Soil::firm_clay).dig_factor);
  EXPECT_LT(row_for(Soil::firm_clay).dig_factor, row_for(Soil::stiff_clay).dig_factor);
  // BL501 (verified numbers, read as output): vegetable soil 0.75-0.9, sand 0.66-0.8 of ordinary ground.
  EXPECT_GE(row_for(Soil::garden).dig_factor, 0.75);
  EXPECT_LE(row_for(Soil::garden).dig_factor, 0.9);
  EXPECT_GE(row_for(Soil::sand).dig_factor, 0.66);
  EXPECT_LE(row_for(Soil::sand).dig_factor, 0.8);
  // 1library yrm38loq (verified): clay 40 %, rock 60 %.
  EXPECT_EQ(row_for(Soil::firm_clay).bulking, 0.40);
  EXPECT_EQ(row_for(Soil::rock).bulking, 0.60);
}

}  // namespace
}  // namespace weatherstruck::trade
