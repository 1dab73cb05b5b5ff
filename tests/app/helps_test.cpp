// What `helps` says before the trip, and that it says nothing once the trip has begun.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "app/run_binary.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

const std::string trip = "helps fixtures/demo/job.json --forecast fixtures/demo/forecast-day1.json --now ";

TEST(Helps, TellsWhichChangesShowAndWhichDoNot) {
  const Ran run = run_binary(trip + "2026-02-09T04:50");
  EXPECT_EQ(run.code, 0);
  EXPECT_THAT(run.out, HasSubstr("As it is"));
  EXPECT_THAT(run.out, HasSubstr("points more, give or take"));
  EXPECT_THAT(run.out, HasSubstr("weathers show:"));
  const auto answer = files::Json::parse(run_binary(trip + "2026-02-09T04:50 --json").out);
  EXPECT_EQ(answer["schema"], "weatherstruck/helps");
  EXPECT_GT(answer["helps"].size(), 4U);
  for (const auto& help : answer["helps"])
    EXPECT_EQ(help["shows"].get<bool>(), help["gain"].get<double>() > 2 * help["gain_error"].get<double>());
}

TEST(Helps, OnceTheTripHasBegunItSaysWhyItCannot) {
  const Ran run = run_binary(trip + "2026-02-10T06:15");
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("The trip has begun"));
  EXPECT_THAT(run.err, HasSubstr("weatherstruck morning"));
  EXPECT_EQ(run.out, "");
}

}  // namespace
}  // namespace weatherstruck::app
