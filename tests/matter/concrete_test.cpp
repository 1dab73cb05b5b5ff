#include "weatherstruck/matter/concrete.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>

#include "matter/reference_support.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;
using base::Megapascals;

double age_of_mixed_history(RateLaw law) {
  return 24 * rate(law, Celsius(20)) + 24 * rate(law, Celsius(10)) + 24 * rate(law, Celsius(5));
}

TEST(NurseSaul, AddsDegreesAboveTheDatum) {
  // Published example of the ASTM C1074 method (verified): 12 h at 20 and 12 h at 25, datum 0.
  EXPECT_EQ((nurse_saul(Celsius(20), Hours(12), Celsius(0)) + nurse_saul(Celsius(25), Hours(12), Celsius(0)))
                .value(),
            540);
  // Arithmetic on the C1074 form (derived).
  double total = 0;
  for (const double t : {20.0, 10.0, 5.0})
    total += nurse_saul(Celsius(t), Hours(24), Celsius(-10)).value();
  EXPECT_EQ(total, 1560);
}

TEST(NurseSaul, NothingGrowsBelowTheDatum) {
  EXPECT_EQ(nurse_saul(Celsius(-12), Hours(1), Celsius(-10)).value(), 0);  // derived: 0, not -2
  EXPECT_THROW((void)nurse_saul(Celsius(5), Hours(-1), Celsius(0)), std::invalid_argument);
}

TEST(NurseSaul, AgreesWithTheFahrenheitExample) {
  // (44 F - 14 F) x 1 h = 30 F h, doczz 726492 (verified): 30 / 1.8 kelvin-hours.
  const Celsius f44((44.0 - 32.0) / 1.8), f14((14.0 - 32.0) / 1.8);
  EXPECT_NEAR(nurse_saul(f44, Hours(1), f14).value() * 1.8, 30.0, 1e-9);
}

TEST(Rates, MatchTheReferenceTable) {
  // Rate relative to 20 degrees (derived, reference rules 1.3).
  struct Row {
    double t, b10, arrhenius, fhp;
  };
  constexpr std::array<Row, 8> table{{{-5, .2793, .2044, .0681},
                                      {0, .3671, .2874, .1511},
                                      {5, .4778, .3992, .2925},
                                      {10, .6161, .5481, .4974},
                                      {15, .7875, .7442, .7476},
                                      {20, .9981, 1, 1},
                                      {25, 1.2551, 1.3305, 1.2592},
                                      {30, 1.5662, 1.7536, 1.5737}}};
  for (const Row& row : table) {
    EXPECT_NEAR(eurocode_rate(Celsius(row.t)), row.b10, 6e-5) << row.t;
    EXPECT_NEAR(arrhenius_rate(Celsius(row.t)), row.arrhenius, 6e-5) << row.t;
    EXPECT_NEAR(fhp_rate(Celsius(row.t)), row.fhp, 6e-5) << row.t;
  }
}

TEST(Rates, AgeAMixedHistoryAsTheReferenceDoes) {
  EXPECT_NEAR(age_of_mixed_history(RateLaw::eurocode), 50.21, 0.005);   // derived; formula verified
  EXPECT_NEAR(age_of_mixed_history(RateLaw::fhp), 42.96, 0.005);        // derived
  EXPECT_NEAR(age_of_mixed_history(RateLaw::arrhenius), 46.73, 0.005);  // derived
}

TEST(Rates, StopBelowMinusTenAndHoldAboveEighty) {
  for (const RateLaw law : {RateLaw::fhp, RateLaw::eurocode, RateLaw::arrhenius}) {
    EXPECT_EQ(rate(law, Celsius(-10.1)), 0);
    EXPECT_GT(rate(law, Celsius(-10)), 0);
    EXPECT_EQ(rate(law, Celsius(90)), rate(law, Celsius(80)));
  }
}

RC_GTEST_PROP(Rates, ColderIsNeverFaster, ()) {
  const double a = *rc::gen::inRange(-4000, 9000) / 100.0;
  const double b = *rc::gen::inRange(-4000, 9000) / 100.0;
  const Celsius cold(std::min(a, b)), warm(std::max(a, b));
  for (const RateLaw law : {RateLaw::fhp, RateLaw::eurocode, RateLaw::arrhenius}) {
    RC_ASSERT(rate(law, cold) <= rate(law, warm));
    RC_ASSERT(rate(law, cold) >= 0.0);
  }
  RC_ASSERT(setting_rate(cold) <= setting_rate(warm));
  RC_ASSERT(initial_set(cold) >= initial_set(warm));
}

TEST(BetaCc, MatchesThePublishedTestValues) {
  // structuralcodes test_ec2_2004_property_development.py (verified), s = 0.25.
  EXPECT_NEAR(beta_cc(Hours(9 * 24), 0.25), 0.8261668305, 1e-9);
  EXPECT_NEAR(beta_cc(Hours(27 * 24), 0.25), 0.995422968, 1e-9);
  EXPECT_NEAR(beta_cc(Hours(56 * 24), 0.25), 1.0759707794, 1e-9);
  EXPECT_NEAR(beta_cc(Hours(365 * 24), 0.25), 1.1981246270, 1e-9);
  // xcfem/xc test_ec2_concrete_02.py (verified): C40, 7 days, 48 beta - 8.
  EXPECT_NEAR(48 * beta_cc(Hours(7 * 24), 0.25) - 8, 29.382437587, 1e-8);
}

TEST(BetaCc, MatchesTheReferenceTableByClass) {
  // Derived, reference rules 1.4: days 1 3 7 28.
  constexpr std::array<double, 3> s{s_rapid, s_normal, s_slow};
  constexpr std::array<std::array<double, 4>, 3> table{
      {{.4239, .6630, .8187, 1}, {.3420, .5982, .7788, 1}, {.1958, .4580, .6839, 1}}};
  constexpr std::array<double, 4> days{1, 3, 7, 28};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 4; ++j)
      EXPECT_NEAR(beta_cc(Hours(days[j] * 24), s[i]), table[i][j], 6e-5);
  }
}

TEST(BetaCc, RefusesWhatMeansNothing) {
  EXPECT_EQ(beta_cc(Hours(0), 0.25), 0);
  EXPECT_THROW((void)beta_cc(Hours(-1), 0.25), std::invalid_argument);
  EXPECT_THROW((void)beta_cc(Hours(1), 0), std::invalid_argument);
}

double real_hours(const StrengthLaw& law, double strength, double celsius) {
  const auto hours = equivalent_hours_to(law, Megapascals(strength));
  return hours.value().value() / rate(law.law, Celsius(celsius));
}

TEST(Strength, EarlyAgeLawMeetsThePublishedColdTimes) {
  // Hanson ready-mix text (verified): at 5 degrees C16/20 takes about 3 days to 5 N/mm2 cube, C25/30 about 2.
  EXPECT_NEAR(real_hours(early_age_law(Megapascals(20)), 5, 5), 72, 72 * 0.15);
  EXPECT_NEAR(real_hours(early_age_law(Megapascals(30)), 5, 5), 48, 48 * 0.20);
  // The model's own figures (derived).
  EXPECT_NEAR(real_hours(early_age_law(Megapascals(20)), 5, 5), 75.0, 0.05);
  EXPECT_NEAR(real_hours(early_age_law(Megapascals(30)), 5, 5), 57.2, 0.05);
}

TEST(Strength, EarlyAgeLawMeetsThePublishedSevenDays) {
  const StrengthLaw law = early_age_law(Megapascals(30));
  const auto share = [&](double t) {
    return strength_at(law, Hours(7 * 24 * rate(law.law, Celsius(t)))) / law.mean28;
  };
  EXPECT_NEAR(share(20), 0.684, 5e-4);  // derived; published 65-70 % (verified)
  EXPECT_NEAR(share(5), 0.359, 5e-4);   // derived; published 30-35 % (verified): slightly quick
}

TEST(Strength, EurocodePairIsFarTooQuickInTheCold) {
  // Derived finding, reference rules 1.5: 26.6 h against a published 72 h.
  EXPECT_NEAR(real_hours(eurocode_law(Megapascals(16)), 5, 5), 26.6, 0.05);
}

TEST(Strength, FasterCementIsSooner) {
  const Megapascals cube(25), five(5);
  const auto hours = [&](double s) { return equivalent_hours_to(early_age_law(cube, s), five).value(); };
  EXPECT_LT(hours(s_rapid), hours(s_normal));
  EXPECT_LT(hours(s_normal), hours(s_slow));
}

TEST(Strength, NeverReachesMoreThanTheLawHolds) {
  const StrengthLaw law = eurocode_law(Megapascals(20));
  EXPECT_EQ(equivalent_hours_to(law, Megapascals(28 * 1.2841)), std::nullopt);  // e^0.25 = 1.28403
  EXPECT_TRUE(equivalent_hours_to(law, Megapascals(28 * 1.2839)));
  EXPECT_EQ(equivalent_hours_to(law, Megapascals(0))->value(), 0);
  EXPECT_THROW((void)equivalent_hours_to(law, Megapascals(-1)), std::invalid_argument);
}

RC_GTEST_PROP(Strength, HoursToAStrengthUndoesStrengthAtHours, ()) {
  const Megapascals cube(*rc::gen::inRange(8, 60));
  const Hours age(*rc::gen::inRange(4, 5000));
  const StrengthLaw law = early_age_law(cube);
  const auto back = equivalent_hours_to(law, strength_at(law, age));
  RC_ASSERT(back.has_value());
  RC_ASSERT(std::abs(back->value() - age.value()) < 1e-6 * age.value());
}

TEST(Setting, MatchesTheHandbookRows) {
  // ACI/PCA handbook rows (from memory); end points about 100 min and 19 h (verified, low authority).
  const auto at_fahrenheit = [](double f) { return initial_set(Celsius((f - 32) / 1.8)).value(); };
  EXPECT_NEAR(at_fahrenheit(100), 100.0 / 60.0, 1e-9);
  EXPECT_NEAR(at_fahrenheit(70), 6, 1e-9);
  EXPECT_NEAR(at_fahrenheit(50), 10 + 2.0 / 3.0, 1e-9);
  EXPECT_NEAR(at_fahrenheit(30), 19, 1e-9);
  EXPECT_NEAR(at_fahrenheit(10), 19, 1e-9);
  EXPECT_NEAR(at_fahrenheit(120), 100.0 / 60.0, 1e-9);
}

TEST(Setting, AboutDoublesForTwentyFahrenheit) {
  // NRMCA CIP 27 (verified): a fall of 20 F about doubles the setting time.
  for (const double f : {100.0, 90.0, 80.0, 70.0, 60.0}) {
    const double ratio = initial_set(Celsius((f - 52) / 1.8)) / initial_set(Celsius((f - 32) / 1.8));
    EXPECT_GT(ratio, 1.7) << f;
    EXPECT_LT(ratio, 2.5) << f;
  }
}

TEST(Setting, ClockIsOneAtTwentyAndStopsInFrost) {
  EXPECT_EQ(setting_rate(Celsius(20)), 1);
  EXPECT_EQ(setting_rate(Celsius(-4.1)), 0);
  EXPECT_GT(final_set(Celsius(10)), initial_set(Celsius(10)));
}

TEST(Reference, StrengthTimesAgree) {
  WS_REFERENCE_ROWS(rows, "strength_time.csv");
  int checked = 0;
  for (const auto& row : rows) {
    using reference::number;
    const Megapascals mean28(number(row[2]));
    const double s = number(row[3]);
    const Celsius t(number(row[4]));
    const double hours = equivalent_hours_to({mean28, s, RateLaw::fhp}, Megapascals(5)).value().value();
    // The first class has a mean of 16 and gains 5 N/mm2 like the rest; two decimals stand in the file.
    EXPECT_NEAR(hours / eurocode_rate(t), number(row[5]), 0.006) << row[0] << " s " << s << " at " << row[4];
    EXPECT_NEAR(hours / fhp_rate(t), number(row[6]), 0.006) << row[0] << " s " << s << " at " << row[4];
    ++checked;
  }
  EXPECT_EQ(checked, 135);
}

}  // namespace
}  // namespace weatherstruck::matter
