#pragma once
// An invoice or credit note as data that software accepts: UBL 2.1 (OASIS, ISO/IEC 19845), holding the core
// invoice of EN 16931-1 as CEN/TS 16931-3-2 maps it.
#include <string>

#include "weatherstruck/account/invoice.h"

namespace weatherstruck::files {

/// XML in UTF-8; the same invoice gives the same bytes. Sent as type 380, a credit note as 381.
/// @throws base::InputError with what account::einvoice_faults says
[[nodiscard]] std::string invoice_ubl(const account::Invoice& invoice);

}  // namespace weatherstruck::files
