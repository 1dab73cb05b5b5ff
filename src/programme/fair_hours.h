#pragma once
// Weather thought away: hours of a forecast made dry, mild or calm.
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::programme {

/// Nothing falls in the hours that begin in the span.
[[nodiscard]] sky::Series dry_in(sky::Series weather, const Span& span);
/// Neither cold nor hot for any work; drier air with it.
[[nodiscard]] sky::Series mild_in(sky::Series weather, const Span& span);
/// Calm enough for a canopy.
[[nodiscard]] sky::Series calm_in(sky::Series weather, const Span& span);
/// All three from a moment on.
[[nodiscard]] sky::Series fair_from(sky::Series weather, base::Instant from);

}  // namespace weatherstruck::programme
