#pragma once
// The invoice: lines, tax by rate, totals, what is due; all in whole minor units. The sums are those of
// EN 16931-1: line nets rounded each (half away from zero), tax reckoned once for each category and rate on
// the sum of its line nets, the deposit set against the total and not against the taxable sum.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::account {

struct Seller {
  std::string name;
  std::string address;     ///< commas or line breaks between its lines
  std::string contact;     ///< telephone or mail; may be empty
  std::string tax_number;  ///< needed where tax is charged, empty where the seller is not registered
  std::string pay_to;      ///< how to pay, printed as it stands; may be empty
  friend bool operator==(const Seller&, const Seller&) = default;
};
struct Buyer {
  std::string name;
  std::string address;
  friend bool operator==(const Buyer&, const Buyer&) = default;
};

struct InvoiceNumber {
  std::string series;                  ///< may be empty; at most 20 characters of letters, digits, '-', '/'
  std::optional<std::int64_t> number;  ///< from 1; nullopt: a draft that has none yet
  friend bool operator==(const InvoiceNumber&, const InvoiceNumber&) = default;
};
/// "7", "2026-7"; "draft" for one without a number.
[[nodiscard]] std::string number_text(const InvoiceNumber& number);

struct InvoiceDates {
  base::LocalDay issued;
  base::LocalDay due;  ///< not before `issued`
  std::optional<base::LocalDay> work_from;
  std::optional<base::LocalDay> work_to;
  friend bool operator==(const InvoiceDates&, const InvoiceDates&) = default;
};

struct InvoiceLine {
  Charge charge;
  base::Money net;  ///< BT-131
  friend bool operator==(const InvoiceLine&, const InvoiceLine&) = default;
};

/// One category and rate: BG-23.
struct TaxTotal {
  Tax tax;
  base::Money net;     ///< BT-116
  base::Money amount;  ///< BT-117
  friend bool operator==(const TaxTotal&, const TaxTotal&) = default;
};

struct Invoice {
  InvoiceNumber number;
  InvoiceDates dates;
  std::string title;  ///< of the job
  Seller seller;
  Buyer buyer;
  std::vector<InvoiceLine> lines;
  std::vector<TaxTotal> taxes;  ///< in the order in which they first appear in the lines
  base::Money net;              ///< BT-106, and BT-109 as nothing is given or charged outside the lines
  base::Money tax;              ///< BT-110
  base::Money total;            ///< BT-112, with tax
  base::Money deposit;          ///< BT-113, set against this invoice
  base::Money due;              ///< BT-115
  friend bool operator==(const Invoice&, const Invoice&) = default;
};

/// Of the deposit as much is set against the invoice as its total holds; the rest waits for the next one.
/// @throws base::InputError with the faults that faults_of(invoice) names
/// @throws std::overflow_error where a sum does not fit
[[nodiscard]] Invoice make_invoice(const Charges& charges, const std::string& title, const Seller& seller,
                                   const Buyer& buyer, const InvoiceNumber& number,
                                   const InvoiceDates& dates);

/// Judges an invoice wherever it came from; sums are done again from the lines. What is wrong, the place
/// ending in the rule of EN 16931 that it breaks: "net (BR-CO-10)". Codes: "does-not-add-up", "missing"
/// (lines, names, addresses, tax number), "not-wanted", "out-of-range", "wrong-currency", "mixed-tax", and
/// those of tax.
[[nodiscard]] base::Faults faults_of(const Invoice& invoice);

}  // namespace weatherstruck::account
