// Tiny random networks with every feature mixed: the brute force, the decoder and two checkers written apart
// must agree. The slow test draws more of the same.
#include <gtest/gtest.h>

#include <iostream>

#include "engine/random_network_support.h"
#include "engine/trial_support.h"
#include "weatherstruck/engine/network.h"

namespace weatherstruck::engine::brute {
namespace {

TEST(RandomNetworks, DecoderBruteForceAndBothCheckersAgreeOnThreeHundred) {
  const Trial trial = try_networks(0, 300, 20);
  std::cout << trial.report();
  for (const std::string& fault : trial.faults)
    ADD_FAILURE() << fault;
  EXPECT_EQ(trial.decoder_breaks_rules + trial.decoder_beats + trial.checkers_differ + trial.other_faults, 0);
  EXPECT_EQ(trial.networks, 300);
  EXPECT_EQ(trial.perturbed, 300 * 20);
  EXPECT_LE(trial.unsettled, 1);
  EXPECT_GE(trial.feasible, 170);
  EXPECT_GE(trial.perturbed_valid, trial.perturbed / 10);
  EXPECT_GE(trial.share_placed(), least_share_placed);
  EXPECT_GE(trial.share_as_good(), least_share_as_good);
  EXPECT_GE(trial.share_same_rule(), least_share_same_rule);
}

TEST(RandomNetworks, DecoderBruteForceAndBothCheckersAgreeOnThreeHundredThatAreBegun) {
  const Trial trial = try_histories(0, 300, 20);
  std::cout << trial.report();
  for (const std::string& fault : trial.faults)
    ADD_FAILURE() << fault;
  EXPECT_EQ(trial.decoder_breaks_rules + trial.decoder_beats + trial.checkers_differ + trial.other_faults, 0);
  EXPECT_EQ(trial.networks, 300);
  EXPECT_LE(trial.unsettled, 1);
  EXPECT_GE(trial.feasible, 170);
  EXPECT_GE(trial.perturbed_valid, trial.perturbed / 10);
  EXPECT_GE(trial.old_plan_stands, 150);
  EXPECT_GE(trial.old_plan_cut, 10);
  EXPECT_GE(trial.old_plan_changes, 5);
  EXPECT_LE(trial.past_left_bare, most_past_left_bare);
  EXPECT_GE(trial.share_placed(), least_share_placed);
  EXPECT_GE(trial.share_as_good(), least_share_as_good);
  EXPECT_GE(trial.share_same_rule(), least_share_same_rule);
}

TEST(RandomNetworks, MixEveryFeatureOfTheModel) {
  int guards = 0, from_start = 0, spans = 0, breaks = 0, anywhere = 0, setups = 0, states = 0, twos = 0;
  int most = 0, waived = 0, finish_edges = 0, cures = 0, green = 0, closes = 0, presence = 0, two_days = 0;
  int covers = 0, canopies = 0, hazards = 0, hands = 0, should = 0, buckets = 0, two_ticks = 0, no_need = 0;
  int layers = 0, by_layer = 0, shelters = 0, under_shelter = 0;
  for (std::uint64_t number = 0; number < 300; ++number) {
    const Network network = random_network(number);
    two_ticks += network.ticks_per_slot == 2;
    two_days += network.day_of_slot.back() == 1;
    buckets += !network.buckets.empty();
    cures += !network.cure_links.empty();
    for (const Link& link : network.links) {
      most += link.most_clock != no_clock;
      waived += link.waived_if_left_out;
      finish_edges += link.to_edge == Edge::finish;
    }
    for (const Keep& keep : network.keeps) {
      green += keep.green.has_value();
      hazards += !keep.hazards.empty();
      for (const Hazard& hazard : keep.hazards)
        by_layer += hazard.by_layer;
      under_shelter += !keep.hazards.empty() && keep.hazards[0].under_shelter.has_value();
      for (const CoverWay& way : keep.ways) {
        covers += !way.area.empty();
        canopies += way.state.has_value();
        hands += !way.hands.empty() && way.on + way.off > 0;
      }
    }
    for (const Task& task : network.tasks) {
      presence += task.presence.has_value();
      should += task.importance != Importance::must;
      for (const Touch& touch : task.touches)
        closes += touch.closes;
      for (const Touch& touch : task.touches)
        layers += touch.layer > 0;
      for (const Way& way : task.ways) {
        guards += !way.guards.empty();
        shelters += way.shelters;
        from_start += !way.guards.empty() && way.guards[0].from_start;
        spans += way.longest_span.has_value();
        breaks += !way.breaks.empty();
        anywhere += way.pause == Pause::anywhere;
        setups += way.setup > 0;
        states += way.state.has_value();
        twos += !way.needs.empty() && way.needs[0].quantity == 2;
        no_need += way.needs.empty();
      }
    }
  }
  for (const int count : {guards,   from_start, spans,   breaks,       anywhere, setups,   states,
                          twos,     most,       waived,  finish_edges, cures,    green,    closes,
                          presence, two_days,   covers,  canopies,     hazards,  hands,    should,
                          buckets,  two_ticks,  no_need, layers,       by_layer, shelters, under_shelter}) {
    EXPECT_GE(count, 20);
  }
}

}  // namespace
}  // namespace weatherstruck::engine::brute
