#include "weatherstruck/desk/workers.h"

#include <atomic>
#include <stdexcept>
#include <vector>

#include <gtest/gtest.h>

namespace weatherstruck::desk {
namespace {

TEST(Workers, DoEachPieceOnceInALaneOfTheirs) {
  for (const std::size_t count : {1U, 2U, 5U}) {
    const base::Lanes lanes = workers(count);
    EXPECT_EQ(lanes.count(), count);
    for (const std::size_t pieces : {0U, 1U, 2U, 300U}) {
      std::vector<std::atomic<int>> done(pieces);
      std::atomic<int> strangers = 0;
      lanes.each(pieces, [&](std::size_t piece, std::size_t lane) {
        ++done[piece];
        strangers += lane < count ? 0 : 1;
      });
      for (const std::atomic<int>& one : done)
        EXPECT_EQ(one, 1);
      EXPECT_EQ(strangers, 0);
    }
  }
}

TEST(Workers, NoTwoPiecesAreInOneLaneAtATime) {
  const base::Lanes lanes = workers(3);
  std::vector<std::atomic<int>> in(3);
  std::atomic<int> together = 0;
  lanes.each(2000, [&](std::size_t, std::size_t lane) {
    together += in[lane]++ == 0 ? 0 : 1;
    --in[lane];
  });
  EXPECT_EQ(together, 0);
}

TEST(Workers, WhatAPieceAsksForIsDoneInOrderByWhoeverDoesThePiece) {
  const base::Lanes lanes = workers(4);
  std::vector<std::vector<std::size_t>> order(8);
  lanes.each(order.size(), [&](std::size_t piece, std::size_t) {
    lanes.each(5, [&](std::size_t inner, std::size_t lane) {
      order[piece].push_back(inner);
      EXPECT_EQ(lane, 0U);
    });
  });
  for (const auto& one : order)
    EXPECT_EQ(one, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
}

TEST(Workers, WhatAPieceThrowsIsThrownOnceNoneIsUnderWayAndTheyGoOnWorking) {
  const base::Lanes lanes = workers(3);
  std::atomic<int> under_way = 0;
  const auto throws = [&] {
    lanes.each(100, [&](std::size_t piece, std::size_t) {
      ++under_way;
      if (piece == 7) {
        --under_way;
        throw std::runtime_error("seven");
      }
      --under_way;
    });
  };
  EXPECT_THROW(throws(), std::runtime_error);
  EXPECT_EQ(under_way, 0);
  std::atomic<int> done = 0;
  lanes.each(10, [&](std::size_t, std::size_t) { ++done; });
  EXPECT_EQ(done, 10);
}

TEST(Workers, OfTheMachineAreAtLeastOneAndAtMostEight) {
  EXPECT_GE(all_workers().count(), 1U);
  EXPECT_LE(all_workers().count(), 8U);
}

}  // namespace
}  // namespace weatherstruck::desk
