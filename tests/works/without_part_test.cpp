#include "weatherstruck/works/without_part.h"

#include <gtest/gtest.h>

#include "weatherstruck/works/check.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

TEST(WithoutPart, TakesAlongWhatHangsOnItAndLeavesAJobThatPassesItsCheck) {
  const Job job = demo_job();
  const auto less = without_part(job, "path");
  ASSERT_TRUE(less);
  EXPECT_EQ(less->parts.size(), job.parts.size() - 1);
  EXPECT_TRUE(less->fallbacks.empty());
  EXPECT_EQ(less->importance.size(), 1U) << "that of the steps";
  EXPECT_TRUE(less->site.routes[0].shut_by.empty());
  EXPECT_TRUE(check(*less).faults.empty());
}

TEST(WithoutPart, AWallGoesWithItsFootingAndAFootingNotAlone) {
  Job job = demo_job();
  job.parts.emplace_back(
      Footing{"strip", base::Metres(2), base::Metres(0.3), base::Metres(0.15), base::Metres(0.3)});
  Wall wall;
  wall.name = "garden-wall";
  wall.footing = "strip";
  wall.length = base::Metres(2);
  wall.courses = 4;
  job.parts.emplace_back(wall);
  ASSERT_TRUE(check(job).faults.empty());
  EXPECT_FALSE(without_part(job, "strip"));
  EXPECT_EQ(without_part(job, "garden-wall")->parts.size(), job.parts.size() - 2);
}

TEST(WithoutPart, TheLastPartAndOneThatOtherWorkNamesStay) {
  Job job = demo_job();
  job.tasks.push_back({"pots", "Set the pots", trade::Operation::other, base::Hours(1), 1, {"bed"}});
  EXPECT_FALSE(without_part(job, "bed"));
  job = demo_job();
  job.parts.erase(job.parts.begin() + 1, job.parts.end());
  EXPECT_FALSE(without_part(job, "shelter"));
  EXPECT_FALSE(without_part(job, "no-such"));
}

}  // namespace
}  // namespace weatherstruck::works
