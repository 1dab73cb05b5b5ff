// What is taken off: lines by themselves, and the whole by tax.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"
#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Charge line(std::int64_t pence, const Tax& tax, std::int64_t off = 0) {
  Charge made{"k", ChargeKind::price, "work", one_unit, Unit::each, gbp(pence), tax};
  if (off != 0) made.discount = Discount{gbp(off), "agreed"};
  return made;
}
Invoice make(std::vector<Charge> lines, std::optional<Off> off) {
  Charges charges{pounds(), std::move(lines), gbp(0), {}, {}};
  charges.off = std::move(off);
  return make_invoice(charges, "A wall", a_seller(), a_buyer(), {"", 1}, some_dates());
}
std::vector<std::string> faults(Invoice invoice, const std::function<void(Invoice&)>& change) {
  change(invoice);
  return codes_of(faults_of(invoice));
}

// 100.00 less 12.34 = 87.66; 20 % = 17.532, rounded 17.53.
TEST(Discount, OfALineComesOffBeforeTheTax) {
  const Invoice invoice = make({line(10000, tax_at(2000), 1234)}, {});
  EXPECT_EQ(invoice.lines[0].net, gbp(8766));
  EXPECT_EQ(invoice.tax, gbp(1753));
}

// 5 % of 333.33 = 16.6665, rounded 16.67; of 10.10 = 0.505, rounded 0.51. Tax 20 % of 316.66 = 63.332; 5 % of
// 9.59 = 0.4795.
TEST(Discount, ByAShareIsTakenOffEachTax) {
  const Invoice invoice = make({line(33333, tax_at(2000)), line(1010, tax_at(500))}, Off{500, {}, "agreed"});
  ASSERT_EQ(invoice.discounts.size(), 2U);
  EXPECT_EQ(invoice.discounts[0].amount, gbp(1667));
  EXPECT_EQ(invoice.discounts[1].amount, gbp(51));
  EXPECT_EQ(invoice.net, gbp(33333 + 1010 - 1667 - 51));
  EXPECT_EQ(invoice.taxes[0].amount, gbp(6333));
  EXPECT_EQ(invoice.taxes[1].amount, gbp(48));
}

// 1.00 over three equal taxes: 0.33, 0.67 - 0.33, 1.00 - 0.67.
TEST(Discount, ByAnAmountComesToItWhateverIsRounded) {
  const Invoice invoice = make({line(5000, tax_at(2000)), line(5000, tax_at(500)), line(5000, tax_at(0))},
                               Off{0, gbp(100), "agreed"});
  ASSERT_EQ(invoice.discounts.size(), 3U);
  EXPECT_EQ(invoice.discounts[0].amount, gbp(33));
  EXPECT_EQ(invoice.discounts[1].amount, gbp(34));
  EXPECT_EQ(invoice.discounts[2].amount, gbp(33));
  EXPECT_EQ(taken_off(invoice), gbp(100));
}

TEST(Discount, IsNeverMoreThanThereIsToTakeItOff) {
  const Invoice invoice =
      make({line(5000, tax_at(2000)), line(2000, tax_at(500), 1500)}, Off{0, gbp(99900), "agreed"});
  EXPECT_EQ(invoice.net, gbp(0));
  EXPECT_EQ(taken_off(invoice), gbp(5500));
}

TEST(Discount, ThatIsWrongIsFoundUnderItsRule) {
  const Invoice good = make({line(5000, tax_at(2000), 100)}, Off{500, {}, "agreed"});
  EXPECT_THAT(faults(good, [](Invoice&) {}), IsEmpty());
  EXPECT_THAT(faults(good, [](Invoice& i) { i.discounts[0].reason.clear(); }),
              ElementsAre("missing discounts/0/reason (BR-33)"));
  EXPECT_THAT(faults(good, [](Invoice& i) { i.lines[0].charge.discount->reason.clear(); }),
              ElementsAre("missing lines/0/discount/reason (BR-42)"));
  EXPECT_THAT(faults(good, [](Invoice& i) { i.lines[0].charge.discount->amount = gbp(5001); }),
              ElementsAre("out-of-range lines/0/discount"));
  EXPECT_THAT(faults(good, [](Invoice& i) { i.discounts[0].amount = gbp(0); }),
              ElementsAre("out-of-range discounts/0/amount"));
  EXPECT_THAT(faults(good, [](Invoice& i) { i.discounts[0].tax = tax_at(500); }),
              ElementsAre("mixed-tax discounts/0/tax"));
  EXPECT_THAT(faults(good, [](Invoice& i) { i.discounts.push_back(i.discounts[0]); }),
              ElementsAre("mixed-tax discounts/1/tax"));
}

TEST(Terms, WhatIsTakenOffIsAShareOrAnAmountWithAReason) {
  Terms terms{usual_rates()};
  terms.off = Off{0, {}, ""};
  EXPECT_THAT(codes_of(faults_of(terms)),
              ElementsAre("missing-reason terms/off/reason", "one-of-two terms/off"));
  terms.off = Off{500, gbp(1), "agreed"};
  EXPECT_THAT(codes_of(faults_of(terms)), ElementsAre("one-of-two terms/off"));
  terms.off = Off{10001, {}, "agreed"};
  EXPECT_THAT(codes_of(faults_of(terms)), ElementsAre("out-of-range terms/off/percent"));
  terms.off.reset();
  terms.stages = {{"Base", gbp(1000), {"dig"}, Off{0, gbp(1001), "agreed"}, tax_at(0)}};
  terms.stages[0].tax->rate = 5;
  EXPECT_THAT(codes_of(faults_of(terms)),
              ElementsAre("out-of-range terms/stages/0/tax/rate", "out-of-range terms/stages/0/off/amount"));
}

TEST(Terms, TheTaxOfAStageGoesBeforeThatOfTheJobAndThatBeforeTheRates) {
  Terms terms{usual_rates()};
  terms.rates.materials_tax = tax_at(500);
  terms.materials = Cover::on_top;
  terms.travel = Cover::in_the_price;
  terms.stages = {{"Base", gbp(1000), {"dig"}},
                  {"Wall", gbp(1000), {"lay"}, Off{1000, {}, "agreed"}, tax_at(0)}};
  const std::vector<works::Entry> book{
      works::entry("a", works::feb(10, 12), works::Done{"dig", works::Whole{}}),
      works::entry("b", works::feb(11, 12), works::Done{"lay", works::Whole{}}),
      works::entry("c", works::feb(11, 13), works::Expense{"cement", gbp(1000), "r1"})};
  const auto rates = [&] {
    std::vector<int> out;
    for (const Charge& charge : charges_by(terms, book).lines)
      out.push_back(charge.tax.rate);
    return out;
  };
  EXPECT_THAT(rates(), ElementsAre(2000, 0, 500));
  EXPECT_EQ(charges_by(terms, book).lines[1].discount, (Discount{gbp(100), "agreed"}));
  terms.tax = tax_at(800);
  EXPECT_THAT(rates(), ElementsAre(800, 0, 800));
}

TEST(Charges, AnAmountIsTakenOffOnceAndAShareEveryTime) {
  Terms terms{usual_rates()};
  terms.off = Off{0, gbp(1000), "agreed"};
  BilledBefore before;
  EXPECT_EQ(charges_by(terms, {}, before).off->amount, gbp(1000));
  before.off = gbp(400);
  EXPECT_EQ(charges_by(terms, {}, before).off->amount, gbp(600));
  before.off = gbp(1000);
  EXPECT_FALSE(charges_by(terms, {}, before).off);
  terms.off = Off{250, {}, "agreed"};
  EXPECT_EQ(charges_by(terms, {}, before).off, terms.off);
}

TEST(Charges, WhatWasCreditedWholeComesUpAgain) {
  Terms terms{usual_rates()};
  terms.fixed_price = gbp(5000);
  terms.travel = Cover::in_the_price;
  BilledBefore before{{{"price", 1000, gbp(5000), "1"}}, {}};
  EXPECT_THAT(charges_by(terms, {}, before).lines, IsEmpty());
  before.lines.push_back({"price", -1000, gbp(-5000), "2"});
  EXPECT_EQ(charges_by(terms, {}, before).lines.size(), 1U);
}

using Paper = Billed::Paper;

// 4 h billed on 7, of which a note took back 1.5 h: by the book it is 4 h still.
TEST(Charges, WhatWasTakenBackInPartIsBilledAgainByThatPart) {
  Terms terms{usual_rates()};
  terms.by_the_hour = true;
  terms.travel = Cover::in_the_price;
  const std::vector<works::Entry> book{
      works::entry("a", works::feb(10, 8), works::Begin{"dig"}),
      works::entry("b", works::feb(10, 12), works::Done{"dig", works::Whole{}})};
  BilledBefore before{
      {{"hours/dig", 4000, gbp(11200), "7"}, {"hours/dig", -1500, gbp(-4200), "8", Paper::taken_back}}, {}};
  const Charges charges = charges_by(terms, book, before);
  ASSERT_EQ(charges.lines.size(), 1U);
  EXPECT_EQ(charges.lines[0].quantity, 1500);
  before.lines.push_back({"hours/dig", 1500, gbp(4200), "9"});
  EXPECT_THAT(kept_off(charges_by(terms, book, before)),
              ElementsAre("Dig the trench (2 m3): billed on invoice 9", testing::_));
}

// The same given back for good is not billed again, whether the book was corrected to 2.5 h since or not.
TEST(Charges, WhatWasGivenBackForGoodStaysOff) {
  Terms terms{usual_rates()};
  terms.by_the_hour = true;
  terms.travel = Cover::in_the_price;
  const BilledBefore before{
      {{"hours/dig", 4000, gbp(11200), "7"}, {"hours/dig", -1500, gbp(-4200), "8", Paper::given_back}}, {}};
  const auto until = [&](int hour, int minute) {
    return charges_by(terms,
                      {works::entry("a", works::feb(10, 8), works::Begin{"dig"}),
                       works::entry("b", works::feb(10, hour, minute), works::Done{"dig", works::Whole{}})},
                      before);
  };
  for (const Charges& charges : {until(12, 0), until(10, 30)}) {
    EXPECT_THAT(charges.lines, IsEmpty());
    EXPECT_THAT(charges.questions, IsEmpty());
    EXPECT_THAT(kept_off(charges),
                ElementsAre("Dig the trench (2 m3): billed on invoice 7, given back on 8", testing::_));
  }
  // Hours that came on top of what was billed are billed; fewer than were kept are asked about.
  EXPECT_EQ(until(13, 0).lines.at(0).quantity, 1000);
  EXPECT_THAT(questions_of(until(10, 0)), ElementsAre("changed-since hours/dig"));
}

// Given back whole and for good, a price does not come up either; taken back in part, the rest does.
TEST(Charges, APriceGivenBackForGoodIsNotBilledAgain) {
  Terms terms{usual_rates()};
  terms.fixed_price = gbp(5000);
  terms.travel = Cover::in_the_price;
  BilledBefore before{{{"price", 1000, gbp(5000), "1"}, {"price", -1000, gbp(-5000), "2", Paper::given_back}},
                      {}};
  EXPECT_THAT(charges_by(terms, {}, before).lines, IsEmpty());
  before.lines[1] = {"price", -400, gbp(-2000), "2", Paper::taken_back};
  const Charges rest = charges_by(terms, {}, before);
  ASSERT_EQ(rest.lines.size(), 1U);
  EXPECT_EQ(net_of(rest.lines[0]), gbp(2000));
}

// By hand, and against plain division where it fits.
TEST(ShareOf, IsExactToTheRounding) {
  EXPECT_EQ(share_of(100, 1, 3), 33);
  EXPECT_EQ(share_of(100, 2, 3), 67);
  EXPECT_EQ(share_of(1, 1, 2), 1) << "half goes up";
  EXPECT_EQ(share_of(9'999'999'999'999, 9'999'999'999'998, 9'999'999'999'999), 9'999'999'999'998);
  EXPECT_EQ(share_of(10'000'000'000'000, 5'000'000'000'000, 10'000'000'000'000), 5'000'000'000'000);
  for (std::int64_t whole = 0; whole < 60; ++whole) {
    for (std::int64_t sum = 1; sum < 20; ++sum) {
      for (std::int64_t part = 0; part <= sum; ++part)
        EXPECT_EQ(share_of(whole, part, sum), (2 * whole * part + sum) / (2 * sum));
    }
  }
  EXPECT_THROW((void)share_of(1, 2, 1), std::invalid_argument);
  EXPECT_THROW((void)share_of(-1, 0, 1), std::invalid_argument);
  EXPECT_THROW((void)share_of(1, 0, 0), std::invalid_argument);
}

}  // namespace
}  // namespace weatherstruck::account
