#pragma once
#include "weatherstruck/sky/series.h"

namespace weatherstruck::programme {

/// The weather of the demonstration as forecast on Monday, 9 February 2026 at five; six days from then.
[[nodiscard]] sky::Series demo_week();

}  // namespace weatherstruck::programme
