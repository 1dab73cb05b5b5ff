#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

const Name& name_of(const Part& part) {
  return std::visit([](const auto& p) -> const Name& { return p.name; }, part);
}

}  // namespace weatherstruck::works
