#pragma once
// The invoice: lines, tax by rate, totals, what is due; all in whole minor units. The sums are those of
// EN 16931-1: line nets rounded each (half away from zero), tax reckoned once for each category and rate on
// the sum of its line nets less what is taken off them together, the deposit set against the total and not
// against the taxable sum. A credit note is one too, with its amounts the other way round: above nought is
// given back. How one is made stands in account/credit.h.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::account {

/// Those below the first five are what electronic invoices want (account/einvoice.h); each may be empty.
struct Seller {
  std::string name;
  std::string address;         ///< commas or line breaks between its lines
  std::string contact;         ///< telephone or mail; may be empty
  std::string tax_number;      ///< needed where tax is charged, empty where the seller is not registered
  std::string pay_to;          ///< how to pay, printed as it stands; may be empty
  std::string town{};          ///< where it does not stand in the address
  std::string postcode{};      ///< likewise
  std::string country{};       ///< ISO 3166-1, two letters
  std::string registration{};  ///< in a register of companies or trades, or at the tax office
  std::string iban{};          ///< ISO 13616, blanks allowed
  std::string bic{};           ///< ISO 9362
  friend bool operator==(const Seller&, const Seller&) = default;
};
struct Buyer {
  std::string name;
  std::string address;
  std::string town{};
  std::string postcode{};
  std::string country{};
  std::string tax_number{};
  std::string registration{};
  std::string reference{};       ///< BT-10
  std::string purchase_order{};  ///< BT-13
  friend bool operator==(const Buyer&, const Buyer&) = default;
};

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

/// Taken off the lines of one tax together: BG-20.
struct SumDiscount {
  Tax tax;             ///< of at least one line
  base::Money amount;  ///< BT-92, > 0
  std::string reason;  ///< BT-97
  friend bool operator==(const SumDiscount&, const SumDiscount&) = default;
};

/// One category and rate: BG-23.
struct TaxTotal {
  Tax tax;
  base::Money net;     ///< BT-116
  base::Money amount;  ///< BT-117
  friend bool operator==(const TaxTotal&, const TaxTotal&) = default;
};

/// What a credit note takes back: BG-3.
struct Credited {
  InvoiceNumber number;
  base::LocalDay issued;
  std::string reason;  ///< printed, not empty
  /// Given back to the customer and done with; else it was taken back to be billed anew.
  bool for_good = false;
  friend bool operator==(const Credited&, const Credited&) = default;
};

/// A deposit invoice that is taken off: BG-3, one for each such line.
struct SetOff {
  InvoiceNumber number;   ///< BT-25
  base::LocalDay issued;  ///< BT-26
  friend bool operator==(const SetOff&, const SetOff&) = default;
};

struct Invoice {
  InvoiceNumber number;
  InvoiceDates dates;
  std::string title;  ///< of the job
  Seller seller;
  Buyer buyer;
  std::vector<InvoiceLine> lines;
  std::vector<TaxTotal> taxes;  ///< in the order in which they first appear in the lines
  base::Money net;              ///< BT-109: the lines less `discounts`
  base::Money tax;              ///< BT-110
  base::Money total;            ///< BT-112, with tax
  base::Money deposit;          ///< BT-113, set against this invoice; on a credit note put back for the next
  base::Money due;              ///< BT-115
  std::vector<SumDiscount> discounts{};  ///< at most one for each tax, in the order of `taxes`
  std::optional<Credited> credited{};    ///< a credit note; nullopt: an invoice
  std::vector<SetOff> set_off{};         ///< of the lines that take a deposit off, in their order
  friend bool operator==(const Invoice&, const Invoice&) = default;
};

/// Whether it asks for a deposit before the work: such an invoice has lines of that kind only.
[[nodiscard]] bool is_deposit_invoice(const Invoice& invoice);
/// Whether a line takes off a deposit that was billed before.
[[nodiscard]] bool takes_deposit_off(const Charge& charge);

/// BT-106, the lines before anything is taken off them together. @throws std::overflow_error
[[nodiscard]] base::Money lines_net(const Invoice& invoice);
/// BT-107. @throws std::overflow_error
[[nodiscard]] base::Money taken_off(const Invoice& invoice);

/// Of the deposit as much is set against the invoice as its total holds; the rest waits for the next one. So
/// does what is left of an amount to be taken off. It is shared out over the taxes by the net of their lines,
/// to the minor unit. Deposits that were billed are taken off after that, a line each with the tax they were
/// billed with, as much as the net of that tax holds.
/// @throws base::InputError with the faults that faults_of(invoice) names
/// @throws std::overflow_error where a sum does not fit
[[nodiscard]] Invoice make_invoice(const Charges& charges, const std::string& title, const Seller& seller,
                                   const Buyer& buyer, const InvoiceNumber& number,
                                   const InvoiceDates& dates);

/// Fills in `taxes`, `net`, `tax`, `total` and `due` from lines, discounts and deposit.
/// @throws std::overflow_error where a sum does not fit
void reckon(Invoice& invoice);

/// Judges an invoice wherever it came from; sums are done again from the lines. What is wrong, the place
/// ending in the rule of EN 16931 that it breaks: "net (BR-CO-13)". Codes: "does-not-add-up", "missing"
/// (lines, names, addresses, tax number, reasons, the number of a deposit taken off), "not-wanted",
/// "out-of-range", "wrong-currency", "mixed-tax", and those of tax.
[[nodiscard]] base::Faults faults_of(const Invoice& invoice);

}  // namespace weatherstruck::account
