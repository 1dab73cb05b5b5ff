#include "weatherstruck/trade/limits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <limits>
#include <set>
#include <stdexcept>
#include <string>
#include <tuple>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::trade {
namespace {

constexpr std::array<LimitSet, 2> sets{LimitSet::uk, LimitSet::us};
constexpr std::array<ColdRule, 3> rules{ColdRule::nhbc, ColdRule::bda, ColdRule::nbs};

LimitValues values(LimitSet set = LimitSet::uk, ColdRule rule = ColdRule::nbs) {
  return limits_for(set, rule).values;
}

TEST(LimitTable, EveryRowHasSourceTitleUnitAndAValueInItsRange) {
  for (const Limit& row : limit_table()) {
    EXPECT_FALSE(row.source.text.empty()) << row.key;
    EXPECT_FALSE(row.title.empty()) << row.key;
    EXPECT_FALSE(row.unit.empty()) << row.key;
    EXPECT_LE(row.low, row.value) << row.key;
    EXPECT_LE(row.value, row.high) << row.key;
    EXPECT_LT(row.low, row.high) << row.key;
  }
}

TEST(LimitTable, EverySetAndRuleHasEachKeyOnce) {
  for (const LimitSet set : sets) {
    for (const ColdRule rule : rules) {
      std::set<std::string_view> keys;
      const LimitValues in_force = values(set, rule);
      for (const LimitValues::Entry& entry : in_force.all()) {
        EXPECT_TRUE(keys.insert(entry.row->key).second) << entry.row->key;
        EXPECT_FALSE(entry.overridden);
        EXPECT_EQ(entry.value, entry.row->value);
      }
    }
  }
}

TEST(LimitTable, TheSetsDifferOnlyInTheKeysThatAreNamedAmerican) {
  std::set<std::string_view> uk, us;
  const LimitValues british = values(LimitSet::uk), american = values(LimitSet::us);
  for (const auto& entry : british.all())
    uk.insert(entry.row->key);
  for (const auto& entry : american.all())
    us.insert(entry.row->key);
  const std::set<std::string_view> only{limit::cover_mean_day, limit::footing_slope, limit::trench_support};
  std::set<std::string_view> extra;
  for (const std::string_view key : us) {
    if (uk.count(key) == 0) extra.insert(key);
  }
  EXPECT_EQ(extra, only);
  EXPECT_EQ(us.size(), uk.size() + only.size());
}

TEST(ColdRules, StopAndResumeAsEachSourceSays) {
  const auto at = [](ColdRule rule) {
    const LimitValues v = values(LimitSet::uk, rule);
    return std::tuple(v.at(limit::brick_cold_stop), v.at(limit::brick_cold_resume),
                      v.at(limit::brick_cold_expected), v.at(limit::brick_cold_protected));
  };
  EXPECT_EQ(at(ColdRule::nhbc), std::tuple(3.0, 1.0, 3.0, 0.0));  // NHBC 3.2.5, 2023 (verified)
  EXPECT_EQ(at(ColdRule::bda), std::tuple(3.0, 3.0, 3.0, 0.0));   // BDA via LABC (verified)
  EXPECT_EQ(at(ColdRule::nbs), std::tuple(3.0, 1.0, 1.0, 1.0));   // NBS F30 185 (verified)
}

TEST(ColdRules, AreOfTheUkOnly) {
  for (const ColdRule rule : rules)
    EXPECT_EQ(values(LimitSet::us, rule).at(limit::brick_cold_stop), 4.4);  // 40 F
}

TEST(Limits, HoldTheDefaultsOfThePractice) {
  // Common practice, no source, and settable.
  const LimitValues v = values();
  EXPECT_EQ(v.rain_rate(limit::rain_facework_continue).value(), 0.5);
  EXPECT_EQ(v.rain_rate(limit::rain_facework_stop).value(), 1.0);
  EXPECT_EQ(v.hours(limit::rain_facework_minutes).value(), 0.5);
  EXPECT_EQ(v.rain_rate(limit::rain_below_stop).value(), 2.0);
  EXPECT_EQ(v.depth(limit::soft_joint_inspect).value(), 2);
  EXPECT_EQ(v.depth(limit::soft_joint_remake).value(), 5);
  EXPECT_EQ(v.speed(limit::canopy_gust).value(), 11);
  EXPECT_NEAR(v.speed(limit::canopy_gust).value(), 25 * 0.44704, 0.2);             // 25 mph
  EXPECT_NEAR(v.speed(limit::canopy_overnight_gust).value(), 20 * 0.44704, 0.05);  // 20 mph
  EXPECT_EQ(v.hours(limit::strip_wait_mild).value(), 8);
  EXPECT_EQ(v.hours(limit::strip_wait_cold).value(), 12);
  EXPECT_EQ(v.hours(limit::box_wait).value(), 5);
  EXPECT_EQ(v.at(limit::strip_wait_courses), 8);
  EXPECT_EQ(v.hours(limit::fill_half_wait).value(), 24);
  EXPECT_EQ(v.hours(limit::fill_rest_wait).value(), 48);
  EXPECT_EQ(v.hours(limit::drive_rest).value(), 0.25);
  EXPECT_EQ(v.at(limit::day_red_line), 13);
  EXPECT_EQ(v.hours(limit::rest_before_drive).value(), 7);
}

TEST(Limits, HoldTheSourcedFigures) {
  const LimitValues v = values();
  EXPECT_EQ(v.at(limit::flags_cold_stop), 3);                         // docest.com 624562 (verified)
  EXPECT_EQ(v.at(limit::flags_cold_resume), 2);                       // same
  EXPECT_EQ(v.at(limit::flags_heat), 25);                             // same
  EXPECT_EQ(v.hours(limit::grout_wait).value(), 12);                  // BS 7533-9 extract (verified)
  EXPECT_EQ(v.depth(limit::green_height_facing).value(), 1500);       // labcwarranty.co.uk (verified)
  EXPECT_EQ(v.depth(limit::retaining_engineer_height).value(), 600);  // NHBC 10.2.4 (verified)
  EXPECT_EQ(v.depth(limit::footing_thickness).value(), 150);          // Approved Document A 2E2 (verified)
  EXPECT_EQ(v.depth(limit::footing_overlap).value(), 300);            // same
  EXPECT_EQ(v.hours(limit::cure_plain_days).value(), 4 * 24);         // NHBC 3.1.15 (verified)
  EXPECT_EQ(v.at(limit::concrete_frost_strength), 5);                 // Hanson text (verified)
  EXPECT_EQ(values(LimitSet::us).at(limit::concrete_frost_strength), 3.5);  // NRMCA CIP 27 (verified)
  EXPECT_EQ(values(LimitSet::us).at(limit::footing_slope), 0.1);            // IRC R403.1.5 (verified)
  EXPECT_EQ(values(LimitSet::us).at(limit::mortar_life), 2.5);              // ASTM C270 (verified)
}

TEST(Limits, ASettingReplacesTheDefaultAndIsMarked) {
  const std::array<LimitSetting, 1> set{{{"rain-facework-stop", 2.5}}};
  const ResolvedLimits made = limits_for(LimitSet::uk, ColdRule::nbs, set);
  EXPECT_TRUE(made.faults.empty());
  EXPECT_EQ(made.values.at(limit::rain_facework_stop), 2.5);
  EXPECT_TRUE(made.values.entry(limit::rain_facework_stop).overridden);
  EXPECT_FALSE(made.values.entry(limit::rain_below_stop).overridden);
}

TEST(Limits, AnUnknownKeyIsAFaultWithTheNearestOne) {
  const std::array<LimitSetting, 2> set{{{"rain-facework-stop", 2}, {"rain-facwork-stop", 2}}};
  const ResolvedLimits made = limits_for(LimitSet::uk, ColdRule::nbs, set);
  ASSERT_EQ(made.faults.size(), 1U);
  EXPECT_EQ(made.faults[0], (base::Fault{"unknown-limit", "/limits/overrides/1/key", "\"rain-facwork-stop\"",
                                         "a key of the tables of limits, norms, paces and covers",
                                         "Write \"rain-facework-stop\" if that is meant."}));
}

TEST(Limits, AnAmericanKeyIsUnknownInTheUk) {
  const std::array<LimitSetting, 1> set{{{"footing-slope", 0.2}}};
  EXPECT_EQ(limits_for(LimitSet::uk, ColdRule::nbs, set).faults.size(), 1U);
  EXPECT_TRUE(limits_for(LimitSet::us, ColdRule::nbs, set).faults.empty());
}

TEST(Limits, AValueOutOfRangeIsAFaultAndTheDefaultStays) {
  const double infinite = std::numeric_limits<double>::infinity();
  const double no_number = std::numeric_limits<double>::quiet_NaN();
  const std::array<LimitSetting, 3> set{
      {{"canopy-gust", 60}, {"box-wait", infinite}, {"grout-wait", no_number}}};
  const ResolvedLimits made = limits_for(LimitSet::uk, ColdRule::nbs, set, "/site/limits");
  ASSERT_EQ(made.faults.size(), 3U);
  EXPECT_EQ(made.faults[0],
            (base::Fault{"limit-out-of-range", "/site/limits/0/value", "60", "3 to 25 m/s",
                         "Set canopy-gust inside that range, or leave it out to keep 11 m/s."}));
  EXPECT_EQ(made.faults[1].found, "not a finite number");
  EXPECT_EQ(made.faults[2].found, "not a finite number");
  EXPECT_EQ(made.values.at(limit::canopy_gust), 11);
}

TEST(Limits, TheSameKeyTwiceIsAFault) {
  const std::array<LimitSetting, 2> set{{{"box-wait", 6}, {"box-wait", 7}}};
  const ResolvedLimits made = limits_for(LimitSet::uk, ColdRule::nbs, set);
  ASSERT_EQ(made.faults.size(), 1U);
  EXPECT_EQ(made.faults[0].code, "limit-twice");
  EXPECT_EQ(made.values.at(limit::box_wait), 6);
}

TEST(Limits, ReadingInTheWrongUnitIsAnError) {
  EXPECT_THROW((void)values().temperature(limit::canopy_gust), std::logic_error);
  EXPECT_THROW((void)values().at("no-such-limit"), std::logic_error);
  const LimitValues uk = values();
  EXPECT_EQ(uk.find(limit::footing_slope), nullptr);
}

}  // namespace
}  // namespace weatherstruck::trade
