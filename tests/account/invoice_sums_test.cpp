// Ten thousand bills drawn at random always add up. The sums are done here a second time and in another way:
// with fractions kept whole, and rounded by hand at the end.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>

#include "account/bill_support.h"

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
  }
  return charges;
}

void holds(const Charges& charges) {
  const Invoice invoice = make_invoice(charges, "A wall", a_seller(), a_buyer(), {"", 1}, some_dates());
  RC_ASSERT(faults_of(invoice).empty());
  RC_ASSERT(invoice.lines.size() == charges.lines.size());
  std::map<int, std::int64_t> nets;  // by rate
  std::int64_t net = 0;
  for (std::size_t i = 0; i < charges.lines.size(); ++i) {
    const Charge& charge = charges.lines[i];
    const std::int64_t line = by_hand(charge.quantity * charge.unit_price.minor(), 1000);
    RC_ASSERT(invoice.lines[i].net.minor() == line);
    nets[charge.tax.rate] += line;
    net += line;
  }
  RC_ASSERT(invoice.net.minor() == net);  // BR-CO-10, BR-CO-13
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

RC_GTEST_PROP(InvoiceSums, AddUpWhateverIsBilled, ()) {
  for (int i = 0; i < bills_in_a_draw; ++i)
    holds(drawn());
}

}  // namespace
}  // namespace weatherstruck::account
