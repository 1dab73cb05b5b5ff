#pragma once
// What the weather of a trip stands on, in a line: which forecast of when, until when, what was
// measured, and what stands in beyond.
#include <string>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::render {

struct BasisSpan {
  base::Instant from;  ///< leaving home
  base::Instant now;
  base::Instant to;  ///< home by; what comes after is not told
};

/// "MET Norway of Mon 9 Feb 04:43, to the end of the trip": the hours to come, one source after the other.
/// Under way also of the hours gone by, where more is known of them than was forecast, or less: "; gone by:
/// as forecast then 21 h, read on site 4 h". How hours are taken of which nothing is known is told with them.
/// Empty where `from` is not before `to`.
[[nodiscard]] std::string basis_line(const sky::Series& series, const base::Zone& zone,
                                     const BasisSpan& span);

}  // namespace weatherstruck::render
