#pragma once
// A deposit billed before the work, on an invoice of its own in the same series. It charges its tax, so that
// the invoice for the work takes it off with that tax, as a line below nought: what both say of tax then
// comes to the tax of the whole. A deposit that was merely taken is set against the total instead (BT-113).
#include <optional>

#include "weatherstruck/account/charges.h"

namespace weatherstruck::account {

/// How much: a share or an amount, never both.
struct DepositAsk {
  int percent = 0;                        ///< hundredths of a percent of the price agreed, 1..10000
  std::optional<base::Money> with_tax{};  ///< > 0
  friend bool operator==(const DepositAsk&, const DepositAsk&) = default;
};

/// The fixed price, or the stages together; nullopt where there is neither.
[[nodiscard]] std::optional<base::Money> agreed_price(const Terms& terms);

/// The amount before tax that with its tax comes to `with_tax`, or to the nearest below it: not every amount
/// is one with its tax, to the minor unit.
/// @param with_tax >= 0
[[nodiscard]] base::Money net_within(const base::Money& with_tax, const Tax& tax);

/// A share of a price, and its tax on top. @param hundredths of a percent, 0..10000
[[nodiscard]] base::Money deposit_with_tax(const base::Money& price, int hundredths, const Tax& tax);

/// One line, at the tax of the job. Where the amount asked for is none with its tax, what is kept off says
/// so.
/// @pre faults_of(terms) is empty
/// @throws base::InputError "one-of-two", "out-of-range", "wrong-currency", "no-price" (a share of none),
/// "over-the-price" (with what was billed as deposit before)
[[nodiscard]] Charges deposit_charges(const Terms& terms, const DepositAsk& ask,
                                      const BilledBefore& before = {});

}  // namespace weatherstruck::account
