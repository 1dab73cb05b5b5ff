#pragma once
// The forms that an invoice and a credit note are written in, the same for both commands.
#include <vector>

#include "weatherstruck/account/invoice.h"
#include "weatherstruck/app/command.h"

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

/// Whole, from 1. @throws UsageError
std::int64_t number_of(const std::string& text, const std::string& what);

}  // namespace weatherstruck::app
