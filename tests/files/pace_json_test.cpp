#include "weatherstruck/files/pace_json.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

TEST(PaceJson, WhatWasTimedComesBackAsItWas) {
  const std::vector<works::TimedWork> timed{{"shed", "bed-dig", "mason", trade::Operation::dig, 1.0 / 3, "m3",
                                             base::Hours(0.1 + 0.2), base::Hours(2.0 / 7),
                                             base::Instant(std::chrono::seconds(1770624001))}};
  const std::string text = timed_json(timed).dump();
  EXPECT_EQ(read_timed(text), timed);
  EXPECT_FALSE(read_timed("{"));
  EXPECT_FALSE(read_timed("[{\"work\": \"dig\"}]"));
  EXPECT_FALSE(read_timed("[{\"work\": \"no-such-work\"}]"));
}

TEST(PaceJson, TellsTheNormBesideIt) {
  const std::vector<works::LearntPace> learnt{{trade::Operation::lay_facing, 6, 2, 1, 1.25, 0.05, 0.15}};
  const Json told = paces_json(learnt);
  EXPECT_EQ(told[0]["work"], "lay-facing");
  EXPECT_NEAR(told[0]["norm_an_hour"].get<double>(), 50, 1e-9);
  EXPECT_NEAR(told[0]["an_hour"].get<double>(), 40, 1e-9);
  EXPECT_EQ(told[0]["left_out"], 1);
}

}  // namespace
}  // namespace weatherstruck::files
