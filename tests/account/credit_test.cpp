#include "weatherstruck/account/credit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Charge line(std::int64_t thousandths, std::int64_t pence, const Tax& tax, std::string text) {
  return {"key/" + text, ChargeKind::price, text, thousandths, Unit::each, gbp(pence), tax};
}

Invoice invoice_of(std::vector<Charge> lines, std::int64_t deposit = 0, std::optional<Off> off = {}) {
  Charges charges{pounds(), std::move(lines), gbp(deposit), {}, {}};
  charges.off = std::move(off);
  return make_invoice(charges, "A wall by the lane", a_seller(), a_buyer(), {"2026", 7}, some_dates());
}

// By hand: 1850.00 and 7.75 h at 28.00 = 217.00, 2067.00 with 20 % = 2480.40, deposit 500.00.
Invoice usual(std::int64_t deposit = 50000) {
  return invoice_of({line(1000, 185000, tax_at(2000), "wall"), line(7750, 2800, tax_at(2000), "hours")},
                    deposit);
}

Invoice credit(const Invoice& invoice, const std::vector<CreditLine>& lines = {},
               const std::vector<Invoice>& earlier = {}) {
  const auto number = 8 + static_cast<std::int64_t>(earlier.size());
  return credit_note_of(invoice, earlier, lines, {"2026", number}, day_of(2026, 3, 2), "counted twice");
}

std::vector<std::string> refusal(const std::function<void()>& work) {
  try {
    work();
  } catch (const base::InputError& error) {
    return codes_of(error.faults());
  }
  return {"nothing was thrown"};
}

TEST(CreditNote, TakesTheWholeInvoiceBackToThePenny) {
  const Invoice invoice = usual();
  const Invoice note = credit(invoice);
  EXPECT_EQ(note.lines, invoice.lines);
  EXPECT_EQ(note.taxes, invoice.taxes);
  EXPECT_EQ(note.total, gbp(248040));
  // The deposit waits for the next invoice, so what is given back is what was due.
  EXPECT_EQ(note.deposit, gbp(50000));
  EXPECT_EQ(note.due, invoice.due);
  EXPECT_EQ(note.credited, (Credited{{"2026", 7}, day_of(2026, 2, 13), "counted twice"}));
  EXPECT_EQ(note.dates.issued, day_of(2026, 3, 2));
  EXPECT_THAT(faults_of(note), IsEmpty());
}

// 2.5 h at 28.00 = 70.00, 20 % = 14.00; the other 5.25 h = 147.00, 29.40; the wall 1850.00, 370.00.
TEST(CreditNote, TakesPartsBackUntilNothingIsLeft) {
  const Invoice invoice = usual();
  const Invoice first = credit(invoice, {{1, 2500}});
  EXPECT_EQ(first.total, gbp(8400));
  EXPECT_EQ(first.deposit, gbp(0));
  EXPECT_EQ(first.due, gbp(8400));
  const Invoice second = credit(invoice, {{0}}, {first});
  EXPECT_EQ(second.total, gbp(222000));
  EXPECT_EQ(second.deposit, gbp(0)) << "hours are left, so the deposit stays where it is";
  const Invoice last = credit(invoice, {}, {first, second});
  ASSERT_EQ(last.lines.size(), 1U);
  EXPECT_EQ(last.lines[0].charge.quantity, 5250);
  EXPECT_EQ(last.total, gbp(17640));
  EXPECT_EQ(last.deposit, gbp(17640)) << "no more than the note comes to";
  EXPECT_THAT(refusal([&] {
                credit(invoice, {}, {first, second, last});
              }),
              ElementsAre("nothing-left number"));
}

TEST(CreditNote, GivesADiscountOfTheWholeBackInItsShare) {
  // 100.00 and 50.00 at 20 %, 30.00 at 5 %; 18.00 off: 15.00 and 3.00.
  const Invoice invoice =
      invoice_of({line(1000, 10000, tax_at(2000), "a"), line(1000, 5000, tax_at(2000), "b"),
                  line(1000, 3000, tax_at(500), "c")},
                 0, Off{0, gbp(1800), "agreed"});
  ASSERT_EQ(invoice.discounts.size(), 2U);
  EXPECT_EQ(invoice.discounts[0].amount, gbp(1500));
  EXPECT_EQ(invoice.discounts[1].amount, gbp(300));
  const Invoice first = credit(invoice, {{1}});
  ASSERT_EQ(first.discounts.size(), 1U);
  EXPECT_EQ(first.discounts[0].amount, gbp(500));  // 50 of 150
  EXPECT_EQ(first.total, gbp(5400));               // 45.00 and 20 %
  const Invoice rest = credit(invoice, {}, {first});
  EXPECT_EQ(first.total + rest.total, invoice.total);
  EXPECT_EQ(taken_off(first) + taken_off(rest), taken_off(invoice));
}

TEST(CreditNote, TakesBackWhatWasTakenOffToo) {
  const Invoice invoice =
      invoice_of({line(1000, 10000, tax_at(2000), "path"), line(-1000, 4000, tax_at(2000), "gravel")});
  EXPECT_EQ(credit(invoice).total, invoice.total);
  EXPECT_EQ(credit(invoice, {{1}}).total, gbp(-4800)) << "the price comes back up";
  EXPECT_THAT(refusal([&] { credit(invoice, {{1, 500}}); }), ElementsAre("out-of-range line/2"));
}

TEST(CreditNote, IsRefusedWithAReasonForEachThing) {
  Invoice invoice = usual();
  EXPECT_THAT(refusal([&] { credit(credit(invoice)); }), ElementsAre("is-a-credit-note number"));
  EXPECT_THAT(refusal([&] {
                credit(invoice, {{2}, {1, 7751}, {0, 0}});
              }),
              ElementsAre("out-of-range line/1", "out-of-range line/2", "no-such-line line/3"));
  EXPECT_THAT(refusal([&] { credit(invoice, {{0}, {0}}); }), ElementsAre("nothing-left line/1"));
  EXPECT_THAT(refusal([&] {
                (void)credit_note_of(invoice, {}, {}, {"2026", 8}, day_of(2026, 3, 2), "");
              }),
              ElementsAre("missing credited/reason"));
  invoice.number.number.reset();
  EXPECT_THAT(refusal([&] { credit(invoice); }), ElementsAre("not-issued number"));
  Charge cut = line(2000, 5000, tax_at(2000), "steps");
  cut.discount = Discount{gbp(700), "second pair"};
  const Invoice discounted = invoice_of({cut});
  EXPECT_EQ(credit(discounted).total, discounted.total);
  EXPECT_THAT(refusal([&] { credit(discounted, {{0, 1000}}); }), ElementsAre("out-of-range line/1"));
}

}  // namespace
}  // namespace weatherstruck::account
