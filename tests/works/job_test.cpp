#include "weatherstruck/works/job.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

TEST(Job, EveryKindOfPartHasItsName) {
  std::vector<Name> names;
  for (const Part& part : demo_job().parts)
    names.push_back(name_of(part));
  EXPECT_EQ(names, (std::vector<Name>{"shelter", "bed", "steps", "path"}));
  EXPECT_EQ(name_of(Part(Box{"planter", {}, {}, 2, {}, {}})), "planter");
}

}  // namespace
}  // namespace weatherstruck::works
