#pragma once
// His own pace as JSON: what was timed, as the record keeps it, and what was learnt from it, for --json.
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "weatherstruck/files/json.h"
#include "weatherstruck/works/own_pace.h"

namespace weatherstruck::files {

[[nodiscard]] Json timed_json(std::span<const works::TimedWork> timed);
/// nullopt for anything that timed_json did not write.
[[nodiscard]] std::optional<std::vector<works::TimedWork>> read_timed(std::string_view text);

/// {"work", "title", "unit", "norm_an_hour", "an_hour", "low", "high", "entries", "jobs", "left_out"} each;
/// low and high hold eight in ten of tasks.
[[nodiscard]] Json paces_json(std::span<const works::LearntPace> learnt);

}  // namespace weatherstruck::files
