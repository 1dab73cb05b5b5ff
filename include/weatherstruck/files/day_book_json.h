#pragma once
// Day sheets as JSON, for --json.
#include "weatherstruck/files/json.h"
#include "weatherstruck/render/day_book.h"

namespace weatherstruck::files {

/// {"title", "job", "days": [{"day", "weather", "people", "work": [{"from", "to", "what", "amount",
/// "hours"}], "stood_down": [{"from", "to", "cause", "hours": [{"from", "weather"}]}], "against_plan",
/// "material", "covers", "read", "extras", "spent", "notes"}], "known"}; moments in UTC.
[[nodiscard]] Json day_book_json(const render::DayBook& book);

}  // namespace weatherstruck::files
