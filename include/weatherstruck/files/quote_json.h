#pragma once
// An offer as JSON, exact: the facts of the sheet and, only where they are asked for, what he alone reads.
#include <optional>

#include "weatherstruck/account/quote.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/render/quote_sheet.h"

namespace weatherstruck::files {

/// @param deposit asked for with the order, tax included
/// @param open questions that keep it from being handed out
/// @param mine nullptr: not told
[[nodiscard]] Json quote_json(const render::QuoteSheet& sheet, const std::optional<base::Money>& deposit,
                              const account::Charges& open, const account::ForHimself* mine);

}  // namespace weatherstruck::files
