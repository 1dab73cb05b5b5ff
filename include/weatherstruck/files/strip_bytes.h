#pragma once
// A fitted strip as the record keeps it.
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/programme/fitted_strips.h"

namespace weatherstruck::files {

/// Its numbers one after another, each in eight bytes (IEEE 754, low byte first): it comes back to the last
/// bit.
[[nodiscard]] std::string pack_strip(const programme::FittedStrip& strip);

/// nullopt where the bytes are not of that length, or hold a number that no fit gives.
[[nodiscard]] std::optional<programme::FittedStrip> unpack_strip(std::string_view bytes);

}  // namespace weatherstruck::files
