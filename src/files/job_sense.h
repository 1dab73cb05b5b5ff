#pragma once
// What the checks of the works find, made fit to be told beside the faults of a document's shape.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// The findings with their places as the document names them and their moments as clock times, less those
/// that rest on a stand-in, which the reader put where `shape` has a fault.
[[nodiscard]] works::CheckResult findings_beside(works::CheckResult found, const works::Job& job,
                                                 const base::Faults& shape);

}  // namespace weatherstruck::files
