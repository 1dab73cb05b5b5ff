#pragma once
// What is told of a series, by whoever makes one.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

[[nodiscard]] bool has_any(const Hour& hour);
/// "2026-02-09 05:00 UTC".
[[nodiscard]] std::string moment_text(base::Instant t);
/// "gap": the hours without any value; nullopt where there are none.
[[nodiscard]] std::optional<SeriesNote> gap_note(const std::vector<Hour>& all);

}  // namespace weatherstruck::sky
