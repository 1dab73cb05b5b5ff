#pragma once
// An invoice as one HTML file that asks nothing of any other: for a mail, a phone of 360 px, and A4 paper.
#include <string>

#include "weatherstruck/account/invoice.h"

namespace weatherstruck::render {

/// A whole HTML 5 document in UTF-8, without scripts; every text that came from outside is escaped.
[[nodiscard]] std::string invoice_html(const account::Invoice& invoice);

}  // namespace weatherstruck::render
