#pragma once
// Kept jobs hold the crew, kit, limits, mixes and hours that he had when they were asked for: which of them
// are no longer his, and how they come to be.
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/me.h"

namespace weatherstruck::desk {

/// Names of kept jobs, not over yet, that go by another crew, kit, limits, mixes or hours than his.
/// @throws record::RecordError, base::InputError for a job that cannot be read
[[nodiscard]] std::vector<std::string> jobs_unlike(Shelf& shelf, const works::Me& me,
                                                   const files::ZoneSource& zones, base::Instant now);

/// Puts what is his now into a kept job, whose document loses its comments; what the job says itself stays,
/// with the days cut where he drives home each evening.
/// @return whether anything was otherwise
/// @throws base::InputError ("no-such-job"; faults that the job then has)
bool put_into_job(Shelf& shelf, const std::string& name, const works::Me& me, const files::ZoneSource& zones,
                  base::Instant now);

}  // namespace weatherstruck::desk
