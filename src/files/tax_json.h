#pragma once
// A tax, as his own document, the job's and no other has it.
#include "weatherstruck/account/tax.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/reader.h"

namespace weatherstruck::files {

/// Its shape alone; what it may be is judged by account::faults_of.
[[nodiscard]] account::Tax read_tax(ObjectReader from);
[[nodiscard]] Json tax_json(const account::Tax& tax);

/// Hundredths of a percent of a percentage, and back.
[[nodiscard]] int hundredths(double percent);
[[nodiscard]] Json percent_json(int in_hundredths);

}  // namespace weatherstruck::files
