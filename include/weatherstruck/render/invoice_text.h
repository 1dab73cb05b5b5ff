#pragma once
// An invoice as plain text, and before it what there is to bill with what is still open.
#include <string>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/account/invoice.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::render {

/// The page that the customer gets, 80 columns; one without a number says that it is a draft.
[[nodiscard]] std::string invoice_text(const account::Invoice& invoice, Ink ink);

/// For the mason's eyes: questions to be answered and what was kept off, each with its reason; empty where
/// there is neither.
[[nodiscard]] std::string open_matters_text(const account::Charges& charges, Ink ink);

}  // namespace weatherstruck::render
