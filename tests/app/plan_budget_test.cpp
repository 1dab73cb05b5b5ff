// How long the search for a plan may take is the user's to say.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "app/run_binary.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

const std::string trip =
    "plan fixtures/demo/job.json --forecast fixtures/demo/forecast-day1.json --now 2026-02-09T04:50 --json ";

TEST(PlanBudget, IsWhatIsAskedForAndTheSameBytesEachTime) {
  const Ran run = run_binary(trip + "--schedules 200 --weathers 20");
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(files::Json::parse(run.out)["outlook"]["weathers"], 20);
  EXPECT_EQ(run_binary(trip + "--schedules 200 --weathers 20").out, run.out);
  const std::string usual = run_binary(trip).out;
  EXPECT_EQ(files::Json::parse(usual)["outlook"]["weathers"], 60);
  EXPECT_EQ(run_binary(trip + "--schedules 600 --weathers 60").out, usual);
}

TEST(PlanBudget, OutOfRangeIsRefusedWithWhatIsAllowed) {
  for (const std::string wrong : {"99", "1000001", "200.5", "many"}) {
    const Ran run = run_binary(trip + "--schedules " + wrong);
    EXPECT_EQ(run.code, 2) << wrong;
    EXPECT_THAT(run.err, HasSubstr("--schedules: found \"" + wrong + "\"; allowed"));
    EXPECT_THAT(run.err, HasSubstr("1000000."));
    EXPECT_EQ(run.out, "");
  }
  EXPECT_THAT(run_binary(trip + "--weathers 19").err, HasSubstr("allowed: a whole number from 20 to"));
}

}  // namespace
}  // namespace weatherstruck::app
