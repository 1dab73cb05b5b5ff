#include "weatherstruck/account/deposit.h"

#include <fmt/format.h>

#include <utility>

#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {
namespace {

base::Money with_tax(const base::Money& net, const Tax& tax) {
  return {net.minor() + scaled(net.minor(), tax.rate, whole_of_it), net.currency()};
}

[[noreturn]] void refuse(std::string code, std::string found, std::string allowed, std::string remedy) {
  throw base::InputError(
      "the deposit", {{std::move(code), "deposit", std::move(found), std::move(allowed), std::move(remedy)}});
}

void require_sound(const Terms& terms, const DepositAsk& ask) {
  if ((ask.percent != 0) == ask.with_tax.has_value()) {
    refuse("one-of-two", ask.with_tax ? "a share and an amount" : "neither a share nor an amount",
           "a share of the price, or an amount", "Give one of the two.");
  }
  if (!ask.with_tax) {
    if (ask.percent >= 1 && ask.percent <= whole_of_it) return;
    refuse("out-of-range", percent_text(ask.percent), "0.01 % to 100 %", "Ask for a share of the price.");
  }
  if (!(ask.with_tax->currency() == terms.rates.currency)) {
    refuse("wrong-currency", ask.with_tax->text(), "an amount in " + terms.rates.currency.code(),
           "Give it in the currency of the rates.");
  }
  if (ask.with_tax->minor() < 1)
    refuse("out-of-range", ask.with_tax->text(), "more than nought", "Give the amount agreed, with its tax.");
}

}  // namespace

std::optional<base::Money> agreed_price(const Terms& terms) {
  if (terms.fixed_price) return terms.fixed_price;
  std::optional<base::Money> sum;
  for (const Stage& stage : terms.stages)
    sum = sum ? *sum + stage.price : stage.price;
  return sum;
}

base::Money net_within(const base::Money& gross, const Tax& tax) {
  base::Money net(scaled(gross.minor(), whole_of_it, whole_of_it + tax.rate), gross.currency());
  // Rounding may have gone up, and never by more than one unit.
  if (with_tax(net, tax).minor() > gross.minor()) net = {net.minor() - 1, net.currency()};
  return net;
}

base::Money deposit_with_tax(const base::Money& price, int hundredths, const Tax& tax) {
  return with_tax({scaled(price.minor(), hundredths, whole_of_it), price.currency()}, tax);
}

Charges deposit_charges(const Terms& terms, const DepositAsk& ask, const BilledBefore& before) {
  require_sound(terms, ask);
  const base::Currency& currency = terms.rates.currency;
  const Tax& tax = terms.tax ? *terms.tax : terms.rates.tax;
  const std::optional<base::Money> price = agreed_price(terms);
  if (!ask.with_tax && !price) {
    refuse("no-price", percent_text(ask.percent) + " of a price that the job does not have",
           "an amount, or a job with a fixed price or stages",
           "Say an amount, or write the price agreed into the job.");
  }
  const base::Money net = ask.with_tax
                              ? net_within(*ask.with_tax, tax)
                              : base::Money(scaled(price->minor(), ask.percent, whole_of_it), currency);
  if (net.minor() < 1)
    refuse("out-of-range", "less than one unit of " + currency.code(), "more than nought", "Ask for more.");
  base::Money billed = with_tax(net, tax);
  for (const BilledDeposit& deposit : before.deposits)
    billed = billed + deposit.billed;
  if (price && billed.minor() > with_tax(*price, tax).minor()) {
    refuse("over-the-price", billed.text() + " of deposits with their tax",
           "no more than the price with its tax, " + with_tax(*price, tax).text(),
           "Ask for less, or take an earlier deposit invoice back.");
  }
  Charges made{currency, {}, base::Money(0, currency), {}, {}};
  const std::string share =
      ask.with_tax ? std::string() : fmt::format(", {} of the price", percent_text(ask.percent));
  made.lines.push_back({"deposit", ChargeKind::deposit, fmt::format("Deposit before the work{}", share),
                        one_unit, Unit::each, net, tax});
  if (ask.with_tax && !(with_tax(net, tax) == *ask.with_tax)) {
    made.kept_off.push_back({"deposit", ask.with_tax->text() + " of deposit",
                             fmt::format("no amount with {} on it comes to that; {} is the next below",
                                         tax_words(tax), with_tax(net, tax).text())});
  }
  return made;
}

}  // namespace weatherstruck::account
