#pragma once
// A calendar as it was handed out, kept so that the next one follows it.
#include <string>
#include <string_view>

#include "weatherstruck/files/json.h"
#include "weatherstruck/render/calendar.h"

namespace weatherstruck::files {

inline constexpr int calendar_schema_version = 1;

[[nodiscard]] Json calendar_to_json(const render::Calendar& calendar);
/// @param source for the message
/// @throws base::InputError for what is not such a calendar
[[nodiscard]] render::Calendar read_calendar(std::string_view text, const std::string& source);

}  // namespace weatherstruck::files
