#pragma once
// An invoice as comma-separated values, for a spreadsheet or a bookkeeper.
#include <string>

#include "weatherstruck/account/invoice.h"

namespace weatherstruck::files {

/// A row with the names, then one for each line, each discount of the whole, each tax, and each total, told
/// apart by their first cell: "line", "discount", "tax", "net", "total", "deposit", "due". Every row bears
/// number, dates, customer and currency, so that files can be put below each other. Amounts are numbers with
/// a point; those of a credit note have the other sign, so that a column of many papers can be summed.
[[nodiscard]] std::string invoice_csv(const account::Invoice& invoice);
/// The sums of an offer (account/quote.h) in the same columns: "quotation", with no number and nothing to
/// pay.
[[nodiscard]] std::string quote_csv(const account::Invoice& sums);

/// The row with the names, which it begins with.
[[nodiscard]] std::string invoice_csv_head();

}  // namespace weatherstruck::files
