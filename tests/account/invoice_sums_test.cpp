// Ten thousand bills drawn at random always add up. The sums are done here a second time and in another way:
// with fractions kept whole, and rounded by hand at the end.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>

#include "account/bill_support.h"
#include "weatherstruck/account/credit.h"

namespace weatherstruck::account {
namespace {

// A hundred draws, unless RC_PARAMS says otherwise.
constexpr int bills_in_a_draw = 100;

// Half away from zero on the size, the sign put back.
std::int64_t by_hand(std::int64_t numerator, std::int64_t denominator) {
  const std::int64_t size = numerator < 0 ? -numerator : numerator;
  const std::int64_t rounded = (2 * size + denominator) / (2 * denominator);
  return numerator < 0 ? -rounded : rounded;
}

Charges drawn() {
  const base::Currency currency = *base::Currency::from_code(*rc::gen::element("GBP", "JPY", "KWD"));
  const auto rates = *rc::gen::container<std::vector<int>>(
      3, rc::gen::element(0, 1, 500, 750, 825, 1750, 2000, 2500, 9999, 10000));
  Charges charges{currency, {}, base::Money(*rc::gen::inRange<std::int64_t>(0, 1'000'000), currency), {}, {}};
  const auto count = *rc::gen::inRange<std::size_t>(1, 13);
  for (std::size_t i = 0; i < count; ++i) {
    const auto quantity = *rc::gen::inRange<std::int64_t>(-50'000, 1'000'001);
    const auto price = *rc::gen::inRange<std::int64_t>(0, 10'000'001);
    const Tax tax = tax_at(rates[*rc::gen::inRange<std::size_t>(0, 3)]);
    charges.lines.push_back({"k", ChargeKind::price, "work", quantity, Unit::each, {price, currency}, tax});
    const std::int64_t gross = by_hand(quantity * price, 1000);
    if (gross > 1 && *rc::gen::inRange(0, 4) == 0)
      charges.lines.back().discount = Discount{{*rc::gen::inRange<std::int64_t>(1, gross), currency}, "off"};
  }
  switch (*rc::gen::inRange(0, 3)) {
    case 1:
      charges.off = Off{*rc::gen::inRange(1, 10001), {}, "off"};
      break;
    case 2:
      charges.off = Off{0, base::Money(*rc::gen::inRange<std::int64_t>(1, 100'000'000), currency), "off"};
      break;
    default:
      break;
  }
  const auto deposits = *rc::gen::inRange(0, 3);
  for (int i = 0; i < deposits; ++i) {
    const Tax tax = tax_at(rates[*rc::gen::inRange<std::size_t>(0, 3)]);
    const base::Money left(*rc::gen::inRange<std::int64_t>(0, 100'000'000), currency);
    charges.deposits.push_back({{"", 100 + i}, day_of(2026, 2, 1), tax, left, left});
  }
  return charges;
}

std::int64_t net_by_hand(const Charge& charge) {
  return by_hand(charge.quantity * charge.unit_price.minor(), 1000) -
         (charge.discount ? charge.discount->amount.minor() : 0);
}

void holds(const Charges& charges) {
  const Invoice invoice = make_invoice(charges, "A wall", a_seller(), a_buyer(), {"", 1}, some_dates());
  RC_ASSERT(faults_of(invoice).empty());
  RC_ASSERT(invoice.lines.size() == charges.lines.size() + invoice.set_off.size());
  std::map<int, std::int64_t> nets;  // by rate
  std::int64_t net = 0;
  for (std::size_t i = 0; i < charges.lines.size(); ++i) {
    const std::int64_t line = net_by_hand(charges.lines[i]);
    RC_ASSERT(invoice.lines[i].net.minor() == line);
    nets[charges.lines[i].tax.rate] += line;
    net += line;
  }
  std::int64_t deposits = 0;
  for (std::size_t i = charges.lines.size(); i < invoice.lines.size(); ++i)
    deposits += invoice.lines[i].net.minor();
  RC_ASSERT(lines_net(invoice).minor() == net + deposits);  // BR-CO-10
  std::int64_t positive = 0;
  for (const auto& [rate, sum] : nets)
    positive += sum > 0 ? sum : 0;
  std::int64_t off = 0;
  for (const SumDiscount& discount : invoice.discounts) {
    RC_ASSERT(discount.amount.minor() > 0 && discount.amount.minor() <= nets[discount.tax.rate]);
    if (charges.off->percent != 0)
      RC_ASSERT(discount.amount.minor() == by_hand(nets[discount.tax.rate] * charges.off->percent, 10000));
    off += discount.amount.minor();
  }
  for (const SumDiscount& discount : invoice.discounts)
    nets[discount.tax.rate] -= discount.amount.minor();
  if (charges.off && charges.off->amount) RC_ASSERT(off == std::min(positive, charges.off->amount->minor()));
  net -= off;
  // Each deposit as far as what is left of its tax holds it, in their order; the rest waits.
  std::int64_t taken = 0;
  for (const BilledDeposit& deposit : charges.deposits) {
    if (nets.count(deposit.tax.rate) == 0U) continue;
    const std::int64_t part =
        std::min(std::max<std::int64_t>(0, nets[deposit.tax.rate]), deposit.left.minor());
    nets[deposit.tax.rate] -= part;
    taken += part;
  }
  RC_ASSERT(deposits == -taken);
  net -= taken;
  RC_ASSERT(taken_off(invoice).minor() == off);  // BR-CO-11
  RC_ASSERT(invoice.net.minor() == net);         // BR-CO-13
  RC_ASSERT(invoice.taxes.size() == nets.size());
  std::int64_t tax = 0;
  for (const TaxTotal& total : invoice.taxes) {
    RC_ASSERT(nets.count(total.tax.rate) == 1U);
    RC_ASSERT(total.net.minor() == nets[total.tax.rate]);                                      // BR-S-08
    RC_ASSERT(total.amount.minor() == by_hand(nets[total.tax.rate] * total.tax.rate, 10000));  // BR-CO-17
    tax += total.amount.minor();
  }
  RC_ASSERT(invoice.tax.minor() == tax);                                              // BR-CO-14
  RC_ASSERT(invoice.total.minor() == net + tax);                                      // BR-CO-15
  RC_ASSERT(invoice.due.minor() == invoice.total.minor() - invoice.deposit.minor());  // BR-CO-16
  RC_ASSERT(invoice.deposit.minor() <= charges.deposit.minor() && invoice.deposit.minor() >= 0);
  RC_ASSERT(invoice.deposit == charges.deposit || invoice.due.minor() <= 0);
}

// Some lines of it, then the rest: together they come to what was billed before tax, and a note by itself
// comes to the whole invoice.
void credits(const Charges& charges) {
  Charges keyed = charges;
  std::vector<CreditLine> some;
  for (std::size_t i = 0; i < keyed.lines.size(); ++i) {
    if (keyed.lines[i].quantity == 0) keyed.lines[i].quantity = 1000;
    keyed.lines[i].key += std::to_string(i);
    if (keyed.lines[i].discount && keyed.lines[i].discount->amount.minor() > gross_of(keyed.lines[i]).minor())
      keyed.lines[i].discount.reset();
    if (i % 2 == 0) some.push_back({i});
  }
  const Invoice invoice = make_invoice(keyed, "A wall", a_seller(), a_buyer(), {"", 1}, some_dates());
  const auto note = [&](const std::vector<Invoice>& earlier, const std::vector<CreditLine>& lines) {
    return credit_note_of(invoice, earlier, lines, {"", 2}, some_dates().due, "wrong");
  };
  const Invoice whole = note({}, {});
  RC_ASSERT(whole.taxes == invoice.taxes);
  RC_ASSERT(whole.total == invoice.total && whole.due == invoice.due);
  const Invoice first = note({}, some);
  if (some.size() == invoice.lines.size()) return;
  const Invoice rest = note({first}, {});
  RC_ASSERT(lines_net(first) + lines_net(rest) == lines_net(invoice));
  const std::int64_t off = taken_off(first).minor() + taken_off(rest).minor();
  RC_ASSERT(off == taken_off(invoice).minor());
}

RC_GTEST_PROP(InvoiceSums, AddUpWhateverIsBilled, ()) {
  for (int i = 0; i < bills_in_a_draw; ++i) {
    const Charges charges = drawn();
    holds(charges);
    if (i % 10 == 0) credits(charges);
  }
}

}  // namespace
}  // namespace weatherstruck::account
