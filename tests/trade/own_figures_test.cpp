#include "weatherstruck/trade/own_figures.h"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>

#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::trade {
namespace {

TEST(OwnFigures, HaveKeysOfTheirOwnBesideTheLimits) {
  std::set<std::string> keys;
  for (const Limit& limit : limit_table())
    keys.emplace(limit.key);
  for (const SettableFigure& one : settable_figures()) {
    EXPECT_TRUE(keys.insert(one.key).second) << one.key;
    EXPECT_LE(one.low, one.value) << one.key;
    EXPECT_GE(one.high, one.value) << one.key;
    EXPECT_FALSE(one.source.text.empty() && one.source.standing != Standing::common_practice) << one.key;
  }
}

TEST(OwnFigures, OfNormsAndPacesAreTakenInPlaceOfTheTables) {
  NormValues norms;
  EXPECT_EQ(norms.at(norm_key::barrow_base), norm(norm_key::barrow_base));
  EXPECT_EQ(norms.hours(Operation::dig, 2), norm_hours(Operation::dig, 2));
  norms.set("barrow-base", 0.5);
  norms.set("dig", 3);
  norms.set("cover-mat-lift", 9);
  EXPECT_EQ(norms.at(norm_key::barrow_base), 0.5);
  EXPECT_EQ(norms.hours(Operation::dig, 2).value(), 6);
  EXPECT_THROW((void)norms.at("cover-mat-lift"), std::invalid_argument);
}

TEST(OwnFigures, OfCoversChangeThatCoverAlone) {
  CoverValues covers;
  covers.set("cover-mat-lift", 8);
  covers.set("cover-bare-lift", 8);
  EXPECT_EQ(covers.at(CoverKind::mat).lift.value(), 8);
  EXPECT_EQ(covers.at(CoverKind::sheet).lift, row_for(CoverKind::sheet).lift);
  EXPECT_EQ(covers.at(CoverKind::bare).lift.value(), 0);
}

base::Faults faults_of(const std::vector<LimitSetting>& settings) {
  return limits_for(LimitSet::uk, ColdRule::nbs, settings).faults;
}

TEST(OwnFigures, AreCheckedWhereLimitsAre) {
  EXPECT_TRUE(faults_of({{"barrow-base", 0.9}, {"lay-facing", 0.05}, {"cover-sheet-gust", 12}}).empty());
  const base::Faults wild = faults_of({{"cover-sheet-rain", 2}});
  ASSERT_EQ(wild.size(), 1U);
  EXPECT_EQ(wild.front().code, "limit-out-of-range");
  EXPECT_EQ(wild.front().expected, "0 to 1");
  const base::Faults twice = faults_of({{"dig", 3}, {"dig", 4}});
  ASSERT_EQ(twice.size(), 1U);
  EXPECT_EQ(twice.front().code, "limit-twice");
  const base::Faults elsewhere = faults_of({{"waste-bricks", 0.1}});
  ASSERT_EQ(elsewhere.size(), 1U);
  EXPECT_EQ(elsewhere.front().remedy, "Set practice.brick_waste instead.");
  const base::Faults unknown = faults_of({{"barow-base", 1}});
  ASSERT_EQ(unknown.size(), 1U);
  EXPECT_NE(unknown.front().remedy.find("barrow-base"), std::string::npos);
}

}  // namespace
}  // namespace weatherstruck::trade
