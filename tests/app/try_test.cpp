// `try` as its user gives it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "app/run_binary.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

const std::string job = "try fixtures/demo/job.json ";
const std::string morning = " --forecast fixtures/demo/forecast-day1.json --now 2026-02-09T04:30";

TEST(Try, WordsMayBeQuotedOrNotAndAMinusIsNoOption) {
  const std::string quoted = run_binary(job + "'bed -1 course' 'path gravel'" + morning).out;
  EXPECT_THAT(quoted, HasSubstr("bed: courses 2 instead of 3"));
  EXPECT_THAT(quoted, HasSubstr("path: surface gravel instead of flags"));
  EXPECT_EQ(quoted, run_binary(job + "bed -1 course, path gravel" + morning).out);
}

TEST(Try, AsJsonItHoldsBothSides) {
  const Ran run = run_binary(job + "bed +1 course --json" + morning);
  const auto answer = files::Json::parse(run.out);
  EXPECT_EQ(answer["schema"], "weatherstruck/try");
  EXPECT_GT(answer["as_tried"]["bricks"].get<double>(), answer["as_it_is"]["bricks"].get<double>());
  EXPECT_EQ(answer["as_tried"]["outlook"]["weathers"], answer["as_it_is"]["outlook"]["weathers"]);
  EXPECT_FALSE(answer["stands"].get<bool>());
}

TEST(Try, WhatCannotBeChangedIsToldWithWhatCan) {
  const Ran run = run_binary(job + "bed banana" + morning);
  EXPECT_EQ(run.code, 3);
  EXPECT_THAT(run.err, HasSubstr("courses 1 to 20 (is 3)"));
  EXPECT_EQ(run.out, "");
}

TEST(Try, AFileOfATripThatHasBegunCannotBeTried) {
  const Ran run = run_binary(job +
                             "bed +1 course --forecast fixtures/demo/forecast-day1.json "
                             "--now 2026-02-10T06:15");
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("job add"));
}

TEST(Try, BesideAFileNothingStands) {
  EXPECT_EQ(run_binary(job + "keep").code, 2);
  EXPECT_EQ(run_binary(job + "drop").code, 2);
  EXPECT_THAT(run_binary(job).out, HasSubstr("Nothing that was tried"));
}

}  // namespace
}  // namespace weatherstruck::app
