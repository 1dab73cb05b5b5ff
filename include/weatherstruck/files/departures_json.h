#pragma once
// Days to set off, ranked or not, as JSON: for `when --json` and as the record keeps them.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/files/json.h"
#include "weatherstruck/programme/departures.h"

namespace weatherstruck::files {

/// An array, in the order given: day, years, good, chance, error, frost_nights, wet_hours, light_hours.
[[nodiscard]] Json departures_json(const std::vector<programme::Departure>& departures);

/// Back again; nullopt where the text is not of that form.
[[nodiscard]] std::optional<std::vector<programme::Departure>> read_departures(std::string_view text);

}  // namespace weatherstruck::files
