#pragma once
// The tax on a line, in the categories of EN 16931 (BT-151) as far as a mason meets them.
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::account {

/// Code letters as in UNCL 5305, the list that EN 16931 takes them from.
enum class TaxCategory {
  standard,        ///< S: at a rate
  zero,            ///< Z: taxable, at nought
  exempt,          ///< E
  reverse_charge,  ///< AE: the customer accounts for it
  not_subject      ///< O: the seller is not registered
};
/// "S", "Z", "E", "AE", "O".
[[nodiscard]] std::string_view code_of(TaxCategory category);

struct Tax {
  TaxCategory category = TaxCategory::not_subject;
  int rate = 0;              ///< hundredths of a percent: 2000 is 20 %; 1..10000 for standard, else 0
  std::string name = "VAT";  ///< as the invoice calls it, 1..20 characters
  std::string reason;        ///< printed; needed for exempt, reverse charge and not subject, else empty
  friend bool operator==(const Tax&, const Tax&) = default;
};

/// Tax at a rate. @param hundredths 2000 is 20 %
[[nodiscard]] Tax tax_at(int hundredths, std::string name = "VAT");
/// No tax because the seller is not registered; the reason is printed.
[[nodiscard]] Tax no_tax(std::string reason, std::string name = "VAT");

/// "20 %", "17.5 %", "8.25 %".
[[nodiscard]] std::string percent_text(int hundredths);
/// "VAT 20 %", "VAT zero rated", "VAT exempt", "VAT reverse charge", "no VAT".
[[nodiscard]] std::string tax_words(const Tax& tax);

/// "out-of-range" (rate), "bad-text" (name), "missing-reason", "reason-not-wanted"; places "PLACE/rate", ...
/// A rate above nought for standard and nought for the others: EN 16931 BR-S-05, BR-Z-05, BR-E-05, BR-AE-05,
/// BR-O-05. A reason for the last three and for no other: BR-E-10, BR-AE-10, BR-O-10, BR-S-10, BR-Z-10.
[[nodiscard]] base::Faults faults_of(const Tax& tax, const std::string& place = "tax");

}  // namespace weatherstruck::account
