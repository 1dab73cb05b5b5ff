#pragma once
// What can be wrong with a job that is well-formed: references to nothing, circles, a wall on no footing,
// sizes out of the ranges named in job.h. Knows no JSON, but names places as JSON pointers, since the keys of
// a job document are the member names of the structs in job.h.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// What a check found. Faults stop everything; advice is shown and the work goes on.
struct CheckResult {
  base::Faults faults;
  base::Faults advice;  ///< e.g. footing rules written for houses, a bed wall too high for half brick
};

/// Every fault at once, in the order of the document. Never throws.
[[nodiscard]] CheckResult check(const Job& job);

}  // namespace weatherstruck::works
