#include "ledger.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace weatherstruck::account {

Ledger::Ledger(const base::Currency& currency, const BilledBefore& before)
    : before_(before), out_{currency, {}, base::Money(0, currency), {}, {}} {}

void Ledger::charge(Charge made, Grows grows) {
  const std::int64_t quantity = made.quantity;
  std::int64_t billed = 0;
  base::Money net(0, out_.currency);
  std::string invoice;
  for (const Billed& line : before_.lines) {
    if (line.key != made.key) continue;
    billed += line.quantity;
    net = net + line.net;
    invoice = line.invoice;
  }
  const bool credited_whole = billed == 0 && net.minor() == 0;
  if (invoice.empty() || credited_whole) {
    if (quantity != 0) out_.lines.push_back(std::move(made));
    return;
  }
  const bool same = grows == Grows::yes ? quantity == billed : net == net_of(made);
  if (same) {
    keep_off(made.key, made.text, "billed on invoice " + invoice);
  } else if (grows == Grows::yes && quantity > billed) {
    made.quantity = quantity - billed;
    out_.lines.push_back(std::move(made));
  } else {
    ask("changed-since", made.key,
        fmt::format(
            "{} was billed on invoice {} at {} and comes to {} now. Bill the difference by hand, or correct "
            "the site book.",
            made.text, invoice, net.text(), net_of(made).text()));
  }
}

void Ledger::ask(std::string code, std::string about, std::string text) {
  out_.questions.push_back({std::move(code), std::move(about), std::move(text)});
}

void Ledger::keep_off(std::string key, std::string text, std::string why) {
  out_.kept_off.push_back({std::move(key), std::move(text), std::move(why)});
}

std::string Ledger::own_key(const std::string& key) {
  std::string tried = key;
  for (int i = 2; std::find(keys_.begin(), keys_.end(), tried) != keys_.end(); ++i)
    tried = fmt::format("{}#{}", key, i);
  keys_.push_back(tried);
  return tried;
}

}  // namespace weatherstruck::account
