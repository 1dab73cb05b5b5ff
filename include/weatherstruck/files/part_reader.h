#pragma once
// The members of "parts", one kind at a time, as the job document gives them.
#include "weatherstruck/files/reader.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// Reads every part of the list into `job.parts`, and those of lesser importance into `job.importance`.
/// A part whose "kind" is missing or unknown is told and left out.
void read_parts(ObjectReader& document, works::Job& job);

}  // namespace weatherstruck::files
