// Rules named here (BR-..) are the business rules of EN 16931-1, read in the validation rules published for
// it: github.com/ConnectingEurope/eInvoicing-EN16931, ubl/schematron/abstract/EN16931-model.sch.
#include "weatherstruck/account/invoice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"

namespace weatherstruck::account {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::StartsWith;

Charge line(std::int64_t thousandths, const base::Money& price, const Tax& tax, std::string text = "work") {
  return {"key/" + text, ChargeKind::price, std::move(text), thousandths, Unit::each, price, tax};
}

Charges list_of(std::vector<Charge> lines, const base::Money& deposit) {
  return {deposit.currency(), std::move(lines), deposit, {}, {}};
}

Invoice make(std::vector<Charge> lines, const base::Money& deposit, const Seller& seller = a_seller()) {
  return make_invoice(list_of(std::move(lines), deposit), "A wall by the lane", seller, a_buyer(),
                      {"2026", 7}, some_dates());
}

base::Faults faults_thrown(std::vector<Charge> lines, const base::Money& deposit, const Seller& seller) {
  try {
    (void)make(std::move(lines), deposit, seller);
  } catch (const base::InputError& error) {
    return error.faults();
  }
  return {};
}

// Example 2 published with the rules (ubl/examples/ubl-tc434-example2.xml), whose allowance and charge of
// 100.00 cancel out; its sums as printed there.
TEST(Invoice, ComesToThePublishedSumsOfTheStandardsExample) {
  const base::Currency nok = *base::Currency::from_code("NOK");
  const auto kroner = [&](std::int64_t minor) { return base::Money(minor, nok); };
  const Tax exempt{TaxCategory::exempt, 0, "VAT", "Exempt New Means of Transport"};
  const Invoice invoice = make(
      {line(2000, kroner(63650), tax_at(2500), "laptop"),
       line(-1000, kroner(396), tax_at(1500), "book returned"), line(2000, kroner(248), tax_at(1500), "book"),
       line(-1000, kroner(2500), exempt, "desktop returned"),
       line(250000, kroner(75), tax_at(2500), "cable")},
      kroner(100000));
  EXPECT_EQ(invoice.lines[0].net, kroner(127300));
  EXPECT_EQ(invoice.lines[1].net, kroner(-396));
  EXPECT_EQ(invoice.lines[2].net, kroner(496));
  EXPECT_EQ(invoice.lines[3].net, kroner(-2500));
  EXPECT_EQ(invoice.lines[4].net, kroner(18750));
  ASSERT_EQ(invoice.taxes.size(), 3U);
  EXPECT_EQ(invoice.taxes[0], (TaxTotal{tax_at(2500), kroner(146050), kroner(36513)}));  // 365.125 goes up
  EXPECT_EQ(invoice.taxes[1], (TaxTotal{tax_at(1500), kroner(100), kroner(15)}));
  EXPECT_EQ(invoice.taxes[2], (TaxTotal{exempt, kroner(-2500), kroner(0)}));
  EXPECT_EQ(invoice.net, kroner(143650));
  EXPECT_EQ(invoice.tax, kroner(36528));
  EXPECT_EQ(invoice.total, kroner(180178));
  EXPECT_EQ(invoice.deposit, kroner(100000));
  EXPECT_EQ(invoice.due, kroner(80178));
}

// Example 9 of the same: three months at 49.00, 21 %.
TEST(Invoice, ComesToThePublishedSumsOfASecondExample) {
  const base::Currency euro = euros();
  const Invoice invoice = make({line(3000, base::Money(4900, euro), tax_at(2100))}, base::Money(0, euro));
  EXPECT_EQ(invoice.net.minor(), 14700);
  EXPECT_EQ(invoice.tax.minor(), 3087);
  EXPECT_EQ(invoice.total.minor(), 17787);
  EXPECT_EQ(invoice.due.minor(), 17787);
}

// By hand, a mason's bill:
//   price                                 1850.00
//   7.75 h at 28.00                        217.00
//   cement                                  41.75
//   164.5 miles at 0.45 = 74.025            74.03
//   gravel in place of flags              -120.00
//   net                                   2062.78
//   VAT 20 %: 412.556                      412.56
//   total                                 2475.34
//   deposit                                500.00
//   due                                   1975.34
TEST(Invoice, AddsUpByHand) {
  const Tax vat = tax_at(2000);
  const Invoice invoice =
      make({line(1000, gbp(185000), vat), line(7750, gbp(2800), vat), line(1000, gbp(4175), vat),
            line(164500, gbp(45), vat), line(-1000, gbp(12000), vat)},
           gbp(50000));
  EXPECT_EQ(invoice.lines[3].net, gbp(7403));
  EXPECT_EQ(invoice.net, gbp(206278));
  EXPECT_EQ(invoice.tax, gbp(41256));
  EXPECT_EQ(invoice.total, gbp(247534));
  EXPECT_EQ(invoice.due, gbp(197534));
  EXPECT_THAT(faults_of(invoice), IsEmpty());
}

// BR-CO-17: on the sum, not line by line. Three lines of 0.13 at 20 %: each alone 0.026, rounded 0.03,
// together 0.09; on the sum 0.39 x 20 % = 0.078, rounded 0.08.
TEST(Invoice, TaxIsReckonedOnTheSumOfItsLines) {
  const Charge each = line(1000, gbp(13), tax_at(2000));
  EXPECT_EQ(make({each, each, each}, gbp(0)).tax, gbp(8));
}

// Half a minor unit goes away from zero on both sides: 0.5 x 0.01 and -0.5 x 0.01; 25 % of 0.02 and of -0.02.
TEST(Invoice, HalvesGoAwayFromZero) {
  const Tax none = tax_at(0);
  EXPECT_EQ(make({line(500, gbp(1), none)}, gbp(0)).net, gbp(1));
  EXPECT_EQ(make({line(-500, gbp(1), none)}, gbp(0)).net, gbp(-1));
  EXPECT_EQ(make({line(1000, gbp(2), tax_at(2500))}, gbp(0)).tax, gbp(1));
  EXPECT_EQ(make({line(-1000, gbp(2), tax_at(2500))}, gbp(0)).tax, gbp(-1));
}

// ISO 4217: yen has no minor unit, the Kuwaiti dinar has three decimals.
TEST(Invoice, RoundsToTheMinorUnitOfItsCurrency) {
  const base::Currency yen = *base::Currency::from_code("JPY");
  const base::Currency dinar = *base::Currency::from_code("KWD");
  // 1.5 h at 3333 = 4999.5, rounded 5000; 10 % = 500
  const Invoice in_yen = make({line(1500, base::Money(3333, yen), tax_at(1000))}, base::Money(0, yen));
  EXPECT_EQ(in_yen.net.minor(), 5000);
  EXPECT_EQ(in_yen.total.minor(), 5500);
  // 0.125 x 12.345 = 1.543125, rounded 1.543; 5 % = 0.07715, rounded 0.077
  const Invoice in_dinar = make({line(125, base::Money(12345, dinar), tax_at(500))}, base::Money(0, dinar));
  EXPECT_EQ(in_dinar.net.minor(), 1543);
  EXPECT_EQ(in_dinar.tax.minor(), 77);
}

TEST(Invoice, OutsideTheTaxHasNoTaxAndNoNumberForIt) {
  Seller seller = a_seller();
  seller.tax_number.clear();
  const Invoice invoice = make({line(1000, gbp(185000), no_tax("Not registered for VAT"))}, gbp(0), seller);
  EXPECT_EQ(invoice.tax, gbp(0));
  EXPECT_EQ(invoice.due, gbp(185000));
  ASSERT_EQ(invoice.taxes.size(), 1U);
  EXPECT_EQ(invoice.taxes[0].tax.reason, "Not registered for VAT");
  EXPECT_THAT(codes_of(faults_thrown({line(1000, gbp(1), no_tax("Not registered"))}, gbp(0), a_seller())),
              ElementsAre("not-wanted seller/tax-number (BR-O-02)"));
}

TEST(Invoice, OfADepositNoMoreIsSetOffThanTheTotalHolds) {
  // 100.00 and 20 % = 120.00; 80.00 of the 200.00 wait
  const Invoice invoice = make({line(1000, gbp(10000), tax_at(2000))}, gbp(20000));
  EXPECT_EQ(invoice.deposit, gbp(12000));
  EXPECT_EQ(invoice.due, gbp(0));
  // A bill that gives money back uses none of it.
  EXPECT_EQ(make({line(-1000, gbp(10000), tax_at(2000))}, gbp(20000)).deposit, gbp(0));
}

TEST(Invoice, WhatTheStandardWantsIsAskedForAllAtOnce) {
  try {
    (void)make_invoice(list_of({}, gbp(0)), "", {}, {}, {"a series", 0},
                       {day_of(2026, 2, 13), day_of(2026, 2, 12), day_of(2026, 2, 12), day_of(2026, 2, 9)});
    FAIL() << "nothing was thrown";
  } catch (const base::InputError& error) {
    EXPECT_THAT(
        codes_of(error.faults()),
        ElementsAre("missing seller/name (BR-06)", "missing seller/address (BR-08)",
                    "missing buyer/name (BR-07)", "missing buyer/address (BR-10)",
                    "out-of-range number/series", "out-of-range number (BR-02)", "missing lines (BR-16)",
                    "out-of-range dates/due (BR-CO-25)", "out-of-range dates/work-to (BR-29)"));
  }
  Seller unregistered = a_seller();
  unregistered.tax_number.clear();
  EXPECT_THAT(codes_of(faults_thrown({line(1000, gbp(1), tax_at(2000))}, gbp(0), unregistered)),
              ElementsAre("missing seller/tax-number (BR-S-02)"));
  EXPECT_THAT(codes_of(faults_thrown({line(1000, gbp(-1), tax_at(2000), "")}, gbp(0), a_seller())),
              ElementsAre("missing lines/0/text (BR-25)", "out-of-range lines/0/price (BR-27)"));
  EXPECT_THAT(codes_of(faults_thrown({line(1000, gbp(1), tax_at(2000)), line(1000, gbp(1), no_tax("No"))},
                                     gbp(0), a_seller())),
              Contains("mixed-tax lines (BR-O-11)"));
  EXPECT_THAT(codes_of(faults_thrown({line(1'000'000'001, gbp(1), tax_at(2000))}, gbp(0), a_seller())),
              ElementsAre("out-of-range lines/0/quantity"));
}

// Each sum put out by one penny is found under the rule that it breaks.
TEST(Invoice, ASumThatIsOutIsFoundUnderItsRule) {
  const Invoice good =
      make({line(7750, gbp(2800), tax_at(2000)), line(1000, gbp(500), tax_at(500))}, gbp(1000));
  const auto broken = [&](auto change) {
    Invoice invoice = good;
    change(invoice);
    return codes_of(faults_of(invoice));
  };
  const base::Money penny = gbp(1);
  EXPECT_THAT(broken([&](Invoice& i) { i.lines[0].net = i.lines[0].net + penny; }),
              Contains("does-not-add-up lines/0/net (BT-131)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.net = i.net + penny; }),
              ElementsAre("does-not-add-up net (BR-CO-10, BR-CO-13)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.taxes[1].net = i.taxes[1].net + penny; }),
              ElementsAre("does-not-add-up taxes/1/net (BR-S-08)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.taxes[0].amount = i.taxes[0].amount + penny; }),
              ElementsAre("does-not-add-up taxes/0/amount (BR-CO-17)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.tax = i.tax + penny; }),
              ElementsAre("does-not-add-up tax (BR-CO-14)"));
  EXPECT_THAT(broken([&](Invoice& i) {
                i.total = i.total + penny;
                i.due = i.due + penny;
              }),
              ElementsAre("does-not-add-up total (BR-CO-15)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.due = i.due + penny; }),
              ElementsAre("does-not-add-up due (BR-CO-16)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.taxes.pop_back(); }),
              ElementsAre("does-not-add-up taxes (BR-S-08)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.taxes[0].tax.rate = 1999; }),
              ElementsAre("does-not-add-up taxes/0/tax (BR-S-08)"));
  EXPECT_THAT(broken([&](Invoice& i) { i.due = base::Money(i.due.minor(), euros()); }),
              ElementsAre("wrong-currency due"));
  EXPECT_THAT(broken([&](Invoice& i) { i.lines[1].charge.tax.name = "Tax"; }),
              Contains(StartsWith("does-not-add-up taxes/1/tax")));
}

TEST(Invoice, TwoNamesForOneTaxAreAFault) {
  Tax other = tax_at(2000);
  other.name = "Tax";
  EXPECT_THAT(codes_of(faults_thrown({line(1000, gbp(1), tax_at(2000)), line(1000, gbp(1), other)}, gbp(0),
                                     a_seller())),
              ElementsAre("mixed-tax lines/1/tax"));
}

TEST(InvoiceNumber, IsItsSeriesAndItsCount) {
  EXPECT_EQ(number_text({"2026", 7}), "2026-7");
  EXPECT_EQ(number_text({"", 7}), "7");
  EXPECT_EQ(number_text({"2026", std::nullopt}), "draft");
}

}  // namespace
}  // namespace weatherstruck::account
