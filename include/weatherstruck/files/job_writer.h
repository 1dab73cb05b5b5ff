#pragma once
// Jobs out as JSON text.
#include <string>

#include "weatherstruck/files/json.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// The job as a document with every member written out, none left to a default: reading it gives the
/// same job. A clock time that comes twice is written with its offset.
[[nodiscard]] Json job_to_json(const works::Job& job);
/// The same as text, two spaces a level, with a newline at the end.
[[nodiscard]] std::string write_job(const works::Job& job);

/// A short document with a comment at each key, fit to be filled in; reads without a fault as it stands.
[[nodiscard]] std::string blank_job();

}  // namespace weatherstruck::files
