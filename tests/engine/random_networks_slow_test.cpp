// See random_networks_test.cpp.
#include <gtest/gtest.h>

#include <iostream>

#include "engine/trial_support.h"

namespace weatherstruck::engine::brute {
namespace {

TEST(RandomNetworksSlow, DecoderBruteForceAndBothCheckersAgreeOnFiveThousand) {
  const Trial trial = try_networks(0, 5000, 20);
  std::cout << trial.report();
  for (const std::string& fault : trial.faults)
    ADD_FAILURE() << fault;
  EXPECT_EQ(trial.decoder_breaks_rules + trial.decoder_beats + trial.checkers_differ + trial.other_faults, 0);
  EXPECT_EQ(trial.networks, 5000);
  EXPECT_EQ(trial.perturbed, 5000 * 20);
  EXPECT_LE(trial.unsettled, 10);
  EXPECT_GE(trial.feasible, 3000);
  EXPECT_GE(trial.perturbed_valid, trial.perturbed / 10);
  EXPECT_GE(trial.share_placed(), least_share_placed);
  EXPECT_GE(trial.share_as_good(), least_share_as_good);
  EXPECT_GE(trial.share_same_rule(), least_share_same_rule);
}

}  // namespace
}  // namespace weatherstruck::engine::brute
