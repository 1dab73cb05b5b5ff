#include "weatherstruck/account/deposit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"
#include "weatherstruck/account/credit.h"

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Terms priced() {
  Terms terms{usual_rates()};
  terms.fixed_price = gbp(185000);
  terms.materials = Cover::in_the_price;
  terms.travel = Cover::in_the_price;
  return terms;
}

Invoice invoice_of(const Charges& charges, std::int64_t number) {
  return make_invoice(charges, "Garden wall", a_seller(), a_buyer(), {"2026", number}, some_dates());
}

std::vector<std::string> refusal(const Terms& terms, const DepositAsk& ask, const BilledBefore& before = {}) {
  try {
    (void)deposit_charges(terms, ask, before);
  } catch (const base::InputError& error) {
    return codes_of(error.faults());
  }
  return {"nothing was thrown"};
}

BilledDeposit billed(std::int64_t net, const Tax& tax = tax_at(2000)) {
  return {{"2026", 6}, day_of(2026, 2, 2), tax, gbp(net), gbp(net + net * tax.rate / 10000)};
}

/// A price of that much before tax at each of the rates, less these deposits.
Charges work(const std::vector<std::pair<std::int64_t, Tax>>& prices, std::vector<BilledDeposit> deposits) {
  Charges charges{pounds(), {}, gbp(0), {}, {}};
  for (const auto& [price, tax] : prices)
    charges.lines.push_back({"price", ChargeKind::price, "Wall", 1000, Unit::each, gbp(price), tax});
  charges.deposits = std::move(deposits);
  return charges;
}

// A quarter of 1850.00 is 462.50; 20 % on it 92.50.
TEST(Deposit, AShareOfThePriceIsBilledWithItsTax) {
  const Charges charges = deposit_charges(priced(), {2500, {}});
  EXPECT_THAT(lines_of(charges), ElementsAre("Deposit before the work, 25 % of the price: 462.50 GBP"));
  const Invoice invoice = invoice_of(charges, 6);
  EXPECT_EQ(invoice.tax, gbp(9250));
  EXPECT_EQ(invoice.due, gbp(55500));
  EXPECT_TRUE(is_deposit_invoice(invoice));
  EXPECT_EQ(deposit_with_tax(gbp(185000), 2500, tax_at(2000)), invoice.total);
}

TEST(Deposit, AnAmountIsMeantWithItsTax) {
  const Invoice invoice = invoice_of(deposit_charges(priced(), {0, gbp(60000)}), 6);
  EXPECT_EQ(invoice.net, gbp(50000));
  EXPECT_EQ(invoice.total, gbp(60000));
}

// At 20 % no amount comes to 0.03: 0.02 has 0.00 of tax, 0.03 has 0.01. By hand.
TEST(Deposit, AnAmountThatIsNoneWithItsTaxBecomesTheNextBelowAndSaysSo) {
  EXPECT_EQ(net_within(gbp(3), tax_at(2000)), gbp(2));
  const Charges charges = deposit_charges(priced(), {0, gbp(60003)});
  EXPECT_EQ(invoice_of(charges, 6).total, gbp(60002));
  EXPECT_THAT(kept_off(charges),
              ElementsAre("600.03 GBP of deposit: no amount with VAT 20 % on it comes to that; 600.02 GBP is "
                          "the next below"));
}

TEST(Deposit, TheNetWithinIsNeverMoreAndNeverTwoUnitsLess) {
  for (const int rate : {0, 1, 500, 825, 1750, 2000, 2500, 10000}) {
    const Tax tax = rate == 0 ? no_tax("Not registered for VAT.") : tax_at(rate);
    for (std::int64_t gross = 0; gross < 3000; ++gross) {
      const auto total = [&](std::int64_t net) { return deposit_with_tax(gbp(net), 10000, tax).minor(); };
      const std::int64_t net = net_within(gbp(gross), tax).minor();
      ASSERT_LE(total(net), gross) << rate;
      ASSERT_GT(total(net + 1), gross) << rate;
    }
  }
}

TEST(Deposit, IsRefusedWhereItCannotBeMeant) {
  Terms unpriced{usual_rates()};
  EXPECT_THAT(refusal(unpriced, {2500, {}}), ElementsAre("no-price deposit"));
  EXPECT_THAT(refusal(priced(), {}), ElementsAre("one-of-two deposit"));
  EXPECT_THAT(refusal(priced(), {2500, gbp(100)}), ElementsAre("one-of-two deposit"));
  EXPECT_THAT(refusal(priced(), {10001, {}}), ElementsAre("out-of-range deposit"));
  EXPECT_THAT(refusal(priced(), {0, gbp(0)}), ElementsAre("out-of-range deposit"));
  EXPECT_THAT(refusal(priced(), {0, gbp(1)}), ElementsAre("nothing was thrown"));
  EXPECT_THAT(refusal(priced(), {0, base::Money(100, euros())}), ElementsAre("wrong-currency deposit"));
  // 1850.00 and its tax are 2220.00.
  EXPECT_THAT(refusal(priced(), {0, gbp(222000)}), ElementsAre("nothing was thrown"));
  EXPECT_THAT(refusal(priced(), {0, gbp(222001)}), ElementsAre("over-the-price deposit"));
  EXPECT_THAT(refusal(priced(), {10000, {}}, {{}, {}, {}, {billed(100)}}),
              ElementsAre("over-the-price deposit"));
}

TEST(Deposit, OfStagesIsAShareOfThemTogether) {
  Terms terms = priced();
  terms.fixed_price.reset();
  terms.stages = {{"Groundwork", gbp(60000), {"dig"}}, {"Brickwork", gbp(125000), {"lay"}}};
  EXPECT_EQ(agreed_price(terms), gbp(185000));
  EXPECT_THAT(lines_of(deposit_charges(terms, {2500, {}})),
              ElementsAre("Deposit before the work, 25 % of the price: 462.50 GBP"));
}

// 1850.00 less 462.50 is 1387.50; 20 % 277.50; with the 92.50 of the deposit that is 370.00, the tax on the
// whole.
TEST(DepositTakenOff, IsALineBelowNoughtWithItsNumberAndTax) {
  const Invoice invoice = invoice_of(work({{185000, tax_at(2000)}}, {billed(46250)}), 7);
  ASSERT_EQ(invoice.lines.size(), 2U);
  EXPECT_EQ(invoice.lines[1].charge.text, "Less the deposit of invoice 2026-6");
  EXPECT_EQ(invoice.lines[1].net, gbp(-46250));
  EXPECT_THAT(invoice.set_off, ElementsAre(SetOff{{"2026", 6}, day_of(2026, 2, 2)}));
  EXPECT_EQ(invoice.tax, gbp(27750));
  EXPECT_EQ(invoice.deposit, gbp(0))
      << "what was charged with its tax is not set against the total once more";
  EXPECT_EQ(invoice.due, gbp(166500));
  EXPECT_FALSE(is_deposit_invoice(invoice));
}

TEST(DepositTakenOff, GoesNoFurtherThanTheLinesOfItsTax) {
  const Invoice small = invoice_of(work({{30000, tax_at(2000)}, {90000, tax_at(500)}}, {billed(46250)}), 7);
  EXPECT_EQ(small.lines.back().net, gbp(-30000));
  EXPECT_EQ(small.net, gbp(90000));
  const Invoice other = invoice_of(work({{90000, tax_at(500)}}, {billed(46250)}), 7);
  EXPECT_EQ(other.lines.size(), 1U);
  EXPECT_THAT(other.set_off, IsEmpty());
}

// A tenth off 1000.00 leaves 900.00, from which 500.00 go: the deposit is no part of what is discounted.
TEST(DepositTakenOff, ComesAfterWhatIsTakenOffTheWhole) {
  Charges charges = work({{100000, tax_at(2000)}}, {billed(50000)});
  charges.off = Off{1000, {}, "Agreed"};
  const Invoice invoice = invoice_of(charges, 7);
  ASSERT_EQ(invoice.discounts.size(), 1U);
  EXPECT_EQ(invoice.discounts[0].amount, gbp(10000));
  EXPECT_EQ(invoice.net, gbp(40000));
  // And a credit note of the whole gives back the same.
  const Invoice note = credit_note_of(invoice, {}, {}, {"2026", 8}, day_of(2026, 2, 20), "wrong customer");
  EXPECT_EQ(note.net, gbp(40000));
  EXPECT_EQ(note.total, invoice.total);
  EXPECT_EQ(note.set_off, invoice.set_off);
  // Of its first line alone the discount is that of the whole line.
  const Invoice part = credit_note_of(invoice, {}, {{0, {}}}, {"2026", 8}, day_of(2026, 2, 20), "not built");
  EXPECT_EQ(part.net, gbp(90000));
  EXPECT_THAT(part.set_off, IsEmpty());
}

TEST(DepositTakenOff, IsNotAskedForAgainNorCountedTwice) {
  Terms terms = priced();
  terms.rates.usual_deposit = 2500;
  EXPECT_THAT(questions_of(charges_by(terms)), testing::Contains("deposit deposit"));
  BilledBefore before;
  before.deposits = {billed(46250)};
  const Charges charges = charges_by(terms, {}, before);
  EXPECT_THAT(questions_of(charges), testing::Not(testing::Contains("deposit deposit")));
  EXPECT_EQ(charges.deposits, before.deposits);
  // The job says what was taken, with its tax: 555.00 of it were billed.
  terms.deposit = gbp(55500);
  EXPECT_EQ(charges_by(terms, {}, before).deposit, gbp(0));
  terms.deposit = gbp(60000);
  EXPECT_EQ(charges_by(terms, {}, before).deposit, gbp(4500));
}

TEST(DepositTakenOff, EachLineNamesItsInvoiceAndADepositStandsAlone) {
  Invoice invoice = invoice_of(work({{185000, tax_at(2000)}}, {billed(46250)}), 7);
  EXPECT_THAT(faults_of(invoice), IsEmpty());
  Invoice spoilt = invoice;
  spoilt.set_off.clear();
  EXPECT_THAT(codes_of(faults_of(spoilt)), ElementsAre("missing lines/1/deposit (BR-55)"));
  spoilt = invoice;
  spoilt.set_off[0].number.number = 5;
  EXPECT_THAT(codes_of(faults_of(spoilt)), ElementsAre("missing lines/1/deposit (BR-55)"));
  spoilt = invoice;
  spoilt.set_off.push_back(spoilt.set_off[0]);
  EXPECT_THAT(codes_of(faults_of(spoilt)), ElementsAre("not-wanted set-off (BR-55)"));
  Invoice mixed = invoice_of(deposit_charges(priced(), {2500, {}}), 6);
  mixed.lines.push_back(mixed.lines[0]);
  mixed.lines[1].charge.kind = ChargeKind::extra;
  reckon(mixed);
  EXPECT_THAT(codes_of(faults_of(mixed)), ElementsAre("not-wanted lines"));
}

}  // namespace
}  // namespace weatherstruck::account
