#pragma once
#include "weatherstruck/files/json.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// The list under "parts", every member written out, as read_parts() reads it.
[[nodiscard]] Json parts_json(const works::Job& job);

}  // namespace weatherstruck::files
