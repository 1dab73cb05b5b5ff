#pragma once
// What an invoice needs before it can be sent as data that software accepts: EN 16931-1, the European
// standard of the electronic invoice. Faults that any bill would have are found by faults_of(invoice)
// already; here are those that a bill on paper may have. The rules were read in the validation rules
// published for the standard (github.com/ConnectingEurope/eInvoicing-EN16931).
#include <string>
#include <string_view>

#include "weatherstruck/account/invoice.h"
#include "weatherstruck/base/fault.h"

namespace weatherstruck::account {

/// Everything that keeps it from being written, at once; empty: it can be. Places end in the rule, and begin
/// with what --with sets: "buyer/country (BR-11)". Codes: "missing", "not-wanted", "bad-text",
/// "unfit-currency" (other than two decimals: BR-DEC-*), "not-issued".
[[nodiscard]] base::Faults einvoice_faults(const Invoice& invoice);

/// Puts in what is not said: "seller/country", "buyer/tax-number" and so on, any text member of Seller and
/// Buyer apart from names and addresses.
/// @throws base::InputError "unknown-fact", "said-already" (what stands is never contradicted), "bad-text"
/// (empty, or over 120 characters)
void add_fact(Seller& seller, Buyer& buyer, std::string_view place, const std::string& value);

/// Two letters of the list that BR-CO-09 and BR-CL-14 name: ISO 3166-1, with 1A and XI.
[[nodiscard]] bool is_country(std::string_view code);
/// Without blanks, in capitals. Of a tax number, an IBAN, a BIC.
[[nodiscard]] std::string squeezed(std::string_view text);
/// Country, two check digits, up to 30 more, and the remainder by 97 is 1 (ISO 13616, ISO 7064). Blanks
/// allowed.
[[nodiscard]] bool is_iban(std::string_view text);

}  // namespace weatherstruck::account
