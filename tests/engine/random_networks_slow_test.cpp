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

TEST(RandomNetworksSlow, DecoderBruteForceAndBothCheckersAgreeOnFiveThousandThatAreBegun) {
  const Trial trial = try_histories(0, 5000, 20);
  std::cout << trial.report();
  for (const std::string& fault : trial.faults)
    ADD_FAILURE() << fault;
  EXPECT_EQ(trial.decoder_breaks_rules + trial.decoder_beats + trial.checkers_differ + trial.other_faults, 0);
  EXPECT_EQ(trial.networks, 5000);
  EXPECT_LE(trial.unsettled, 10);
  EXPECT_GE(trial.feasible, 2800);
  EXPECT_GE(trial.perturbed_valid, trial.perturbed / 10);
  EXPECT_GE(trial.old_plan_stands, 2500);
  EXPECT_GE(trial.old_plan_cut, 200);
  EXPECT_GE(trial.old_plan_changes, 100);
  EXPECT_GE(trial.hopeless, 1);
  EXPECT_LE(trial.past_left_bare, most_past_left_bare);
  EXPECT_GE(trial.share_placed(), least_share_placed);
  EXPECT_GE(trial.share_as_good(), least_share_as_good);
  EXPECT_GE(trial.share_same_rule(), least_share_same_rule);
}

}  // namespace
}  // namespace weatherstruck::engine::brute
