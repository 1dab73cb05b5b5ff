#include "weatherstruck/programme/read_back.h"

#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "programme/planned_case.h"
#include "weatherstruck/programme/choose_plan.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

TEST(ReadBack, IsThePlanThatThePlannerMakes) {
  const PlannedCase it(works::demo_job(), demo_week());
  const PlanRequest request = it.request(0, 20);
  const Programme programme = it.programme();
  const Plan plan = make_plan(request).plan;
  const Plan read = read_back(request, programme, choose_plan(request, programme));
  EXPECT_EQ(read.home, plan.home);
  EXPECT_EQ(read.left_out, plan.left_out);
  EXPECT_EQ(read.covers.size(), plan.covers.size());
  ASSERT_EQ(read.tasks.size(), plan.tasks.size());
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
    EXPECT_EQ(read.tasks[i].turn, plan.tasks[i].turn);
    ASSERT_EQ(read.tasks[i].placed(), plan.tasks[i].placed());
    if (!plan.tasks[i].placed()) continue;
    EXPECT_EQ(read.tasks[i].start(), plan.tasks[i].start());
    EXPECT_EQ(read.tasks[i].finish(), plan.tasks[i].finish());
  }
}

}  // namespace
}  // namespace weatherstruck::programme
