#pragma once
// The forms that an invoice and a credit note are written in, the same for both commands.
#include <vector>

#include "weatherstruck/account/deposit.h"
#include "weatherstruck/account/invoice.h"
#include "weatherstruck/app/command.h"
#include "weatherstruck/files/me_json.h"

namespace weatherstruck::app {

/// --html, --csv, --ubl, --pdf, --with.
[[nodiscard]] std::vector<Option> form_options();

/// Puts in what was said with --with. @throws UsageError, base::InputError
void add_facts(const Arguments& arguments, account::Seller& seller, account::Buyer& buyer);

/// Before a number is used: whether the draft could be written in the forms that were asked for.
/// @throws base::InputError with what keeps it from being an electronic invoice
void require_forms(const Arguments& arguments, const account::Invoice& draft);

/// Writes the files that were asked for. @throws base::InputError
void write_forms(const Arguments& arguments, const account::Invoice& invoice);

/// The files, and the text or with --json the document.
ExitCode show_invoice(const Arguments& arguments, const Setting& setting, const account::Invoice& invoice);

/// A yes, from --yes or the terminal. @param what "Issue it? It cannot be changed afterwards."
bool agreed(const Arguments& arguments, const Setting& setting, const std::string& what);

/// Who bills, and at what rates; both are asked by "me". @throws base::InputError "no-rates"
files::MeDocument who_bills(const Setting& setting);

/// "25%", "25 %": a share; "600", "600.00 GBP": an amount. @throws UsageError
account::DepositAsk deposit_of(const std::string& text, const std::string& what,
                               const base::Currency& currency);

/// "6.40", "6.40 GBP". @throws UsageError
base::Money amount_of(std::string_view text, const std::string& what, const base::Currency& currency);

/// Whole, from 1. @throws UsageError
std::int64_t number_of(const std::string& text, const std::string& what);

}  // namespace weatherstruck::app
