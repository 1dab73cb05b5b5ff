#pragma once
// What an invoice says whether as text or as HTML: amounts, dates, the rows below its lines, the closing
// words.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/account/invoice.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::render {

/// "1,234.50", "-1,234.50", "1,235" for a currency without a minor unit. No currency beside it.
[[nodiscard]] std::string amount_text(const base::Money& money);
/// Thousandths as people write them: "1", "7.5", "0.125", "-1".
[[nodiscard]] std::string quantity_text(std::int64_t thousandths);
/// "9 February 2026".
[[nodiscard]] std::string long_date(base::LocalDay day);
/// The lines of an address, parted by commas or line breaks; none is empty.
[[nodiscard]] std::vector<std::string> address_lines(std::string_view address);

/// "Invoice 2026-7"; "Deposit invoice 2026-6"; "Credit note 2026-8"; "Draft of an invoice, not issued".
[[nodiscard]] std::string invoice_title(const account::Invoice& invoice);
/// "9 February 2026 to 12 February 2026"; empty where no day is known.
[[nodiscard]] std::string work_days(const account::InvoiceDates& dates);
/// "7.75 h", "164.5 miles", "3"; empty for one thing charged or taken off.
[[nodiscard]] std::string quantity_words(const account::Charge& charge);
/// "For invoice 2026-7 of 9 February 2026: counted twice"; empty for an invoice.
[[nodiscard]] std::string credited_words(const account::Invoice& invoice);
/// The lines below a name: address, postcode and town, country where it is not the other party's.
[[nodiscard]] std::vector<std::string> seller_lines(const account::Invoice& invoice);
/// The same, and the customer's numbers and references.
[[nodiscard]] std::vector<std::string> buyer_lines(const account::Invoice& invoice);
/// "less 25.00, agreed discount"; empty where nothing is taken off the line.
[[nodiscard]] std::string discount_words(const account::Charge& charge);
/// "VAT number GB 123"; empty where he has none.
[[nodiscard]] std::string tax_number_words(const account::Invoice& invoice);

struct SumRow {
  std::string words;
  base::Money amount;
  bool last = false;  ///< what is to be paid
};
/// What is taken off, net, tax by rate, total, deposit, what is to pay; rows that would say nothing are left
/// out.
[[nodiscard]] std::vector<SumRow> sum_rows(const account::Invoice& invoice);
/// When and how to pay, and why no tax is charged where none is: a sentence each.
[[nodiscard]] std::vector<std::string> closing_words(const account::Invoice& invoice);

}  // namespace weatherstruck::render
