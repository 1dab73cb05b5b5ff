#pragma once
// What the weather stands on, as JSON.
#include <optional>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/programme/second_opinion.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::app {

/// Stretches of [from, to) in order, without gaps: "from", "to", "kind" ("forecast", "read-on-site",
/// "observed", "past-years", "nothing"), "source" and "issued" or null, and where another filled it up
/// "filled_from" and "filled_issued".
[[nodiscard]] files::Json stands_on_json(const sky::Series& series, base::Instant from, base::Instant to);

/// What a second forecast says of the plan; null where there is none.
[[nodiscard]] files::Json beside_json(const std::optional<programme::SecondOpinion>& second);

/// What the hours' "source" and "filled_from" count in: "source", "issued" or null, "attribution".
[[nodiscard]] files::Json sources_json(const sky::Series& series);

}  // namespace weatherstruck::app
