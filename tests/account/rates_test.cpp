#include "weatherstruck/account/rates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(Rates, ThoseOfAMasonPass) {
  EXPECT_THAT(faults_of(usual_rates()), IsEmpty());
}

TEST(Rates, WithoutAReasonForNoTaxTheyDoNot) {
  EXPECT_THAT(codes_of(faults_of(Rates{pounds()})), ElementsAre("missing-reason rates/tax/reason"));
}

TEST(Rates, EveryFaultIsToldAtOnce) {
  Rates rates = usual_rates();
  rates.day_work = gbp(0);
  rates.travel = TravelByDistance{base::Money(45, euros()), Unit::hour};
  rates.on_materials = -1;
  rates.tax.rate = 0;
  rates.payment_days = 121;
  rates.usual_deposit = 0;
  EXPECT_THAT(codes_of(faults_of(rates, "me")),
              ElementsAre("out-of-range me/day-work", "wrong-currency me/travel", "bad-unit me/travel",
                          "out-of-range me/on-materials", "out-of-range me/tax/rate",
                          "out-of-range me/payment-days", "out-of-range me/usual-deposit"));
}

TEST(Rates, TravelByTheTripIsCheckedToo) {
  Rates rates = usual_rates();
  rates.travel = TravelByTrip{gbp(-1)};
  EXPECT_THAT(codes_of(faults_of(rates)), ElementsAre("out-of-range rates/travel"));
}

TEST(Rates, WhatQuotationsNeedIsCheckedToo) {
  Rates rates = usual_rates();
  rates.prices = {{"cement", gbp(640), 25'000}, {"facing-brick", gbp(84550), 1'000'000}};
  rates.not_included = {"Power and water"};
  EXPECT_THAT(faults_of(rates), IsEmpty());
  rates.prices = {{"cement", gbp(-1), 0}, {"gold", gbp(1), 1}, {"cement", base::Money(1, euros()), 1}};
  rates.not_included = {"", std::string(201, 'x')};
  rates.quote_days = 0;
  EXPECT_THAT(codes_of(faults_of(rates)),
              ElementsAre("out-of-range rates/quote-days", "out-of-range rates/prices/0/price",
                          "out-of-range rates/prices/0/per", "unknown-material rates/prices/1/material",
                          "wrong-currency rates/prices/2/price", "priced-twice rates/prices/2/material",
                          "bad-text rates/not-included/0", "bad-text rates/not-included/1"));
}

// UN/ECE Recommendation 20, from memory: C62 one, HUR hour, SMI statute mile, KMT kilometre.
TEST(Units, HaveWordsAndCodes) {
  EXPECT_EQ(code_of(Unit::each), "C62");
  EXPECT_EQ(code_of(Unit::hour), "HUR");
  EXPECT_EQ(code_of(Unit::mile), "SMI");
  EXPECT_EQ(code_of(Unit::kilometre), "KMT");
  EXPECT_EQ(word_of(Unit::each), "");
  EXPECT_EQ(word_of(Unit::mile), "miles");
}

}  // namespace
}  // namespace weatherstruck::account
