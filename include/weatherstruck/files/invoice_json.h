#pragma once
// An invoice as JSON: the bytes that the record keeps for ever. Text and HTML are made from them again, so
// what is shown is what was issued. Amounts are written with their currency ("123.40 GBP"), so that no reader
// can take pence for pounds.
#include <string>
#include <string_view>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/account/invoice.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::files {

/// Of the invoice as written; it rises with any change, and every version ever issued stays readable. An
/// invoice is written in the oldest that holds all it says, so one read from old bytes gives them again.
/// Version 2 knows discounts, credit notes, and what electronic invoices want of seller and buyer; version 3
/// credit notes for good; version 4 deposits billed by themselves and taken off.
inline constexpr int invoice_schema_version = 4;

[[nodiscard]] Json invoice_to_json(const account::Invoice& invoice);
/// Two spaces a level, a newline at the end; the same invoice gives the same bytes.
[[nodiscard]] std::string write_invoice(const account::Invoice& invoice);

/// @param source for the message, e.g. "invoice 2026-7"
/// @throws base::InputError for what is not such an invoice, has an unknown version, or does not add up
[[nodiscard]] account::Invoice read_invoice(std::string_view text, const std::string& source);

/// Questions and things kept off, for `--json` beside a draft: {"questions": [...], "kept_off": [...]}.
[[nodiscard]] Json open_matters_to_json(const account::Charges& charges);

}  // namespace weatherstruck::files
