#include "ledger.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace weatherstruck::account {

Ledger::Ledger(const base::Currency& currency, const BilledBefore& before)
    : before_(before), out_{currency, {}, base::Money(0, currency), {}, {}} {}

namespace {

/// What became of a thing on the papers before this one.
struct Standing {
  std::int64_t quantity = 0;  ///< billed, less what was taken back to be billed anew
  base::Money net;
  std::int64_t kept_quantity = 0;  ///< the same, less what was given back for good
  base::Money kept_net;
  std::string invoice;      ///< the last that billed it; empty: none
  std::string note;         ///< the last that gave it back for good; empty: none
  bool taken_back = false;  ///< some of it, to be billed anew
};

Standing standing_of(const std::string& key, const BilledBefore& before, const base::Currency& currency) {
  Standing now{0, base::Money(0, currency), 0, base::Money(0, currency), {}, {}};
  for (const Billed& line : before.lines) {
    if (line.key != key) continue;
    now.kept_quantity += line.quantity;
    now.kept_net = now.kept_net + line.net;
    if (line.paper == Billed::Paper::given_back) {
      now.note = line.invoice;
      continue;
    }
    now.quantity += line.quantity;
    now.net = now.net + line.net;
    if (line.paper == Billed::Paper::invoice) now.invoice = line.invoice;
    if (line.paper == Billed::Paper::taken_back) now.taken_back = true;
  }
  return now;
}

}  // namespace

void Ledger::charge(Charge made, Grows grows) {
  const std::int64_t quantity = made.quantity;
  const Standing before = standing_of(made.key, before_, out_.currency);
  const bool taken_back_whole = before.quantity == 0 && before.net.minor() == 0;
  if (before.invoice.empty() || taken_back_whole) {
    if (quantity != 0) out_.lines.push_back(std::move(made));
    return;
  }
  const base::Money net = net_of(made);
  // Of what was given back for good the book may know or not: both are right, and all between.
  const auto between = [](std::int64_t one, std::int64_t value, std::int64_t other) {
    return std::min(one, other) <= value && value <= std::max(one, other);
  };
  const bool same = grows == Grows::yes ? between(before.kept_quantity, quantity, before.quantity)
                                        : between(before.kept_net.minor(), net.minor(), before.net.minor());
  Charge rest = made;
  rest.quantity = quantity - before.quantity;
  const bool anew = before.taken_back && (rest.quantity < 0) == (quantity < 0) && rest.quantity != 0 &&
                    !made.discount && net_of(rest) == net - before.net;
  if (same) {
    std::string why = "billed on invoice " + before.invoice;
    if (!before.note.empty()) why += ", given back on " + before.note;
    keep_off(made.key, made.text, std::move(why));
  } else if (anew || (grows == Grows::yes && quantity > before.quantity)) {
    out_.lines.push_back(std::move(rest));
  } else {
    ask("changed-since", made.key,
        fmt::format(
            "{} was billed on invoice {} at {} and comes to {} now. Bill the difference by hand, or correct "
            "the site book.",
            made.text, before.invoice, before.net.text(), net.text()));
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
