#pragma once
// A credit note: what takes an issued invoice back, whole or in part, since the invoice itself never changes.
// It is an Invoice with the amounts the other way round: above nought is given back.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/invoice.h"

namespace weatherstruck::account {

/// A line of the invoice to be credited.
struct CreditLine {
  std::size_t line = 0;                       ///< of the invoice, from 0
  std::optional<std::int64_t> thousandths{};  ///< > 0; nullopt: all that is left of it
};

/// What of it is taken back, less what earlier credit notes took. Lines keep their keys, prices and taxes.
/// A discount of the whole goes back with the lines that it was given on, in their share and with the last of
/// them the rest; of a line with a discount of its own only the whole can be credited. With the last of the
/// lines the deposit that was set against the invoice is put back, to wait for the next one; until then it
/// stays where it is. Tax is reckoned on each note by itself, so several may come to a minor unit more or
/// less than the invoice's.
/// @param earlier credit notes of the same invoice, in the order they were issued
/// @param lines each once; empty: everything that is left
/// @throws base::InputError "not-issued", "is-a-credit-note", "nothing-left", "no-such-line", "out-of-range",
/// and what faults_of(invoice) names
[[nodiscard]] Invoice credit_note_of(const Invoice& invoice, const std::vector<Invoice>& earlier,
                                     const std::vector<CreditLine>& lines, const InvoiceNumber& number,
                                     base::LocalDay issued, const std::string& reason);

}  // namespace weatherstruck::account
