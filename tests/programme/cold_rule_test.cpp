#include "weatherstruck/programme/cold_rule.h"

#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::programme {
namespace {

using base::Celsius;
using trade::ColdRule;
using trade::LimitSet;
using trade::TemperatureRule;

ColdRuleValues brickwork(ColdRule wording, bool has_covers = false) {
  return cold_rule(trade::limits_for(LimitSet::uk, wording).values, TemperatureRule::brickwork, wording,
                   has_covers);
}

ColdRuleValues flags() {
  return cold_rule(trade::limits_for(LimitSet::uk, ColdRule::nbs).values, TemperatureRule::flags,
                   ColdRule::nbs, false);
}

/// 'x' for each hour that stops, '.' for each that does not; all hours are of one day.
std::string stopped(const std::vector<double>& degrees, const ColdRuleValues& rule) {
  std::vector<Celsius> hourly;
  for (const double d : degrees)
    hourly.emplace_back(d);
  std::string shown;
  for (const std::string& why : cold_stops(hourly, std::vector<int>(hourly.size(), 0), rule))
    shown += why.empty() ? '.' : 'x';
  return shown;
}

// NBS F30 clause 185, and limetec.co.uk, lime mortar in winter conditions (both read on the page): hydraulic
// lime not at 5 C and falling, nor below 3 C and rising.
TEST(ColdRule, HydraulicLimeStopsAtFiveFallingAndGoesOnAtThreeRising) {
  const auto lime = cold_rule(trade::limits_for(LimitSet::uk, ColdRule::nbs).values,
                              TemperatureRule::brickwork, ColdRule::nbs, true, trade::Binder::hydraulic_lime);
  EXPECT_EQ(stopped({6.0, 5.5, 5.0, 4.0}, lime), "..xx");
  EXPECT_EQ(stopped({8.0, 2.0, 2.5, 2.8, 3.2, 4.0}, lime), ".xxx..")
      << "covers and warm mortar give no leave";
}

// NHBC 3.2.5 (2023), read on the page: below 3 C and falling. Row "NHBC cold rule" of the project's oracles.
TEST(ColdRule, NhbcStopsAtTheFirstHourBelowThreeAndFalling) {
  EXPECT_EQ(stopped({4.0, 3.2, 2.9}, brickwork(ColdRule::nhbc)), "..x");
  EXPECT_EQ(stopped({4.0, 3.5, 3.0}, brickwork(ColdRule::nhbc)), "...") << "at 3 is not below 3";
}

// The same page: 1 C and rising, more than 3 C expected. Row "NHBC resume" of the oracles: 0.5, 1.2, 2.0
// rising and a greatest of 6: on at 1.2. Four falling hours come first, so that work stands.
TEST(ColdRule, NhbcGoesOnAtOneAndRisingWhenTheDayPassesThree) {
  EXPECT_EQ(stopped({2.0, 1.0, 0.0, -0.5, 0.5, 1.2, 2.0, 4.0, 6.0}, brickwork(ColdRule::nhbc)), "xxxxx....");
  EXPECT_EQ(stopped({2.0, 1.0, 0.0, -0.5, 0.5, 1.2, 2.0, 2.5, 2.9}, brickwork(ColdRule::nhbc)), "xxxxxxxxx")
      << "a day that stays below 3 does not start";
}

// BDA wording via LABC Warranty, read on the page: 3 C falling and 3 C rising.
TEST(ColdRule, BdaWaitsForThreeRising) {
  EXPECT_EQ(stopped({2.0, 1.0, 0.0, -0.5, 0.5, 1.2, 2.0, 2.9, 3.0, 6.0}, brickwork(ColdRule::bda)),
            "xxxxxxxx..");
}

// NBS F30 clause 185, read on the page: at or below 3 C falling, unless 1 C or more rising, unless mortar is
// at least 4 C when laid and the work is protected. The stop at 0 C is common practice, no source.
TEST(ColdRule, NbsStopsAtThreeAndGoesOnProtectedDownToNought) {
  EXPECT_EQ(stopped({4.0, 3.5, 3.0}, brickwork(ColdRule::nbs)), "..x") << "at 3 counts";
  EXPECT_EQ(stopped({2.0, 1.0, 0.2, -0.5, 0.5, 1.2, 2.0}, brickwork(ColdRule::nbs)), "xxxxx..");
  EXPECT_EQ(stopped({4.0, 3.0, 1.0, 0.1, 0.0, -0.5, 0.1}, brickwork(ColdRule::nbs, true)), "....xx.");
}

TEST(ColdRule, NobodyLaysAtNoughtUnderAnyWording) {
  for (const ColdRule wording : {ColdRule::nhbc, ColdRule::bda, ColdRule::nbs})
    EXPECT_EQ(stopped({0, 0, 0, 0}, brickwork(wording, true)), "xxxx");
}

// Paving clause of docest.com 624562, read on the page: not below 3 C falling or 2 C rising.
TEST(ColdRule, FlagsStopBelowThreeFallingAndGoOnAtTwoRising) {
  EXPECT_EQ(stopped({4.0, 3.2, 2.9, 1.0, 0.5, 1.2, 2.0, 2.5}, flags()), "..xxxx..");
}

TEST(ColdRule, AShortDipUpwardsIsATrendAndNotAReading) {
  // From two hours before to one after: at 2.9 the air has risen over three hours although the last hour
  // fell.
  EXPECT_EQ(stopped({1.5, 2.5, 3.2, 2.9, 3.1}, brickwork(ColdRule::nhbc)), ".....");
}

TEST(ColdRule, TheRestOfTheDayIsItsOwnDay) {
  const ColdRuleValues rule = brickwork(ColdRule::nhbc);
  const std::vector<Celsius> hourly{Celsius(2),   Celsius(0.5), Celsius(0.2),
                                    Celsius(1.2), Celsius(2),   Celsius(6)};
  EXPECT_TRUE(cold_stops(hourly, {0, 0, 0, 0, 0, 0}, rule)[3].empty());
  EXPECT_FALSE(cold_stops(hourly, {0, 0, 0, 0, 0, 1}, rule)[3].empty()) << "the six degrees are tomorrow's";
}

TEST(ColdRule, TheReasonNamesTheReadingAndTheLimit) {
  const auto stops = cold_stops({Celsius(5), Celsius(4), Celsius(2)}, {0, 0, 0}, brickwork(ColdRule::nhbc));
  EXPECT_EQ(stops[2], "2 \u00b0C and falling, stops below 3 falling");
  EXPECT_EQ(cold_stops({Celsius(-1)}, {0}, brickwork(ColdRule::nbs, true))[0],
            "-1 \u00b0C, never at 0 or below");
}

TEST(ColdRule, OnlyBrickworkAndFlagsHaveOne) {
  EXPECT_THROW((void)cold_rule(trade::limits_for(LimitSet::uk, ColdRule::nbs).values,
                               TemperatureRule::concrete, ColdRule::nbs, false),
               std::logic_error);
}

RC_GTEST_PROP(ColdRuleProperty, WarmHoursNeverStopAndFrostAlwaysDoes, ()) {
  const auto readings = *rc::gen::container<std::vector<int>>(30, rc::gen::inRange(-60, 120));
  const ColdRule wording = *rc::gen::element(ColdRule::nhbc, ColdRule::bda, ColdRule::nbs);
  std::vector<double> degrees;
  for (const int r : readings)
    degrees.push_back(r / 10.0);
  const std::string shown = stopped(degrees, brickwork(wording, *rc::gen::arbitrary<bool>()));
  for (std::size_t i = 0; i < degrees.size(); ++i) {
    if (degrees[i] > 3) RC_ASSERT(shown[i] == '.');
    if (degrees[i] <= 0) RC_ASSERT(shown[i] == 'x');
  }
}

RC_GTEST_PROP(ColdRuleProperty, BdaNeverLaysWhereNhbcStops, ()) {
  const auto readings = *rc::gen::container<std::vector<int>>(30, rc::gen::inRange(-60, 120));
  std::vector<double> degrees;
  for (const int r : readings)
    degrees.push_back(r / 10.0);
  const std::string nhbc = stopped(degrees, brickwork(ColdRule::nhbc));
  const std::string bda = stopped(degrees, brickwork(ColdRule::bda));
  for (std::size_t i = 0; i < degrees.size(); ++i)
    RC_ASSERT(nhbc[i] == '.' || bda[i] == 'x');
}

}  // namespace
}  // namespace weatherstruck::programme
