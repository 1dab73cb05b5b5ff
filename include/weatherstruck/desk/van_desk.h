#pragma once
// What rides and what does not.
#include "weatherstruck/render/van_sheet.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {

[[nodiscard]] render::VanFacts load_van(const works::Job& job, const works::Bill& bill);

}  // namespace weatherstruck::desk
