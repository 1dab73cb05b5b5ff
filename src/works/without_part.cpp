#include "weatherstruck/works/without_part.h"

#include <algorithm>

#include "weatherstruck/works/check.h"

namespace weatherstruck::works {

std::optional<Job> without_part(Job job, const Name& part) {
  const auto found =
      std::find_if(job.parts.begin(), job.parts.end(), [&](const Part& one) { return name_of(one) == part; });
  if (found == job.parts.end() || std::holds_alternative<Footing>(*found)) return {};
  Name footing;
  if (const auto* wall = std::get_if<Wall>(&*found)) footing = wall->footing;
  const auto remove = [&job](const Name& name) {
    const auto named = [&](const Part& other) { return name_of(other) == name; };
    job.parts.erase(std::remove_if(job.parts.begin(), job.parts.end(), named), job.parts.end());
    for (Route& route : job.site.routes)
      route.shut_by.erase(std::remove(route.shut_by.begin(), route.shut_by.end(), name), route.shut_by.end());
    const auto about = [&](const auto& one) { return one.part == name; };
    job.importance.erase(std::remove_if(job.importance.begin(), job.importance.end(), about),
                         job.importance.end());
    job.fallbacks.erase(std::remove_if(job.fallbacks.begin(), job.fallbacks.end(), about),
                        job.fallbacks.end());
  };
  remove(part);
  if (!footing.empty()) remove(footing);
  if (job.parts.empty() || !check(job).faults.empty()) return {};
  return job;
}

}  // namespace weatherstruck::works
