#pragma once
// Faults of an input as a person reads them: grouped by kind, how many last.
#include <functional>
#include <optional>
#include <string>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::render {

/// The line of a place in its file, where known.
using LineOf = std::function<std::optional<std::size_t>(const std::string& place)>;

/// One entry a fault, wrapped; the same kind together, in the order in which kinds first come; the last line
/// says how many there are and that nothing was done.
[[nodiscard]] std::string fault_list(const std::string& source, const base::Faults& faults,
                                     const LineOf& line_of);
/// The same entries without the last line, for advice.
[[nodiscard]] std::string advice_list(const base::Faults& advice, const LineOf& line_of);

}  // namespace weatherstruck::render
