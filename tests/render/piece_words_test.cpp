#include "weatherstruck/render/piece_words.h"

#include <gtest/gtest.h>

#include "weatherstruck/works/task_list.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

const works::TaskList& demo() {
  static const works::TaskList list = works::derive_tasks(works::demo_job());
  return list;
}
Piece footing(const std::string& side) {
  return piece_of(demo(), "shelter-" + side + "-footing", true);
}

TEST(PieceWords, FootingsAreCalledAsTheirPourIs) {
  EXPECT_EQ(footing("north").words(), "the north footing of the shelter");
  EXPECT_EQ(footing("north").of_kind, 4);
  EXPECT_EQ(piece_of(demo(), "bed", true).words(), "the footing of the bed");
  EXPECT_EQ(piece_of(demo(), "steps", true).words(), "the base of the steps");
}

TEST(PieceWords, WhatStandsOnThemIsCalledByItsKind) {
  EXPECT_EQ(piece_of(demo(), "shelter", false).words(), "the brickwork of the shelter");
  EXPECT_EQ(piece_of(demo(), "path", false).words(), "the flags of the path");
  EXPECT_EQ(piece_of(demo(), "steps", false).words(), "the steps");
  EXPECT_EQ(piece_of(demo(), "old-kiln", false).words(), "the old kiln");
}

TEST(PieceWords, SeveralOfOneThingAreSaidAsOne) {
  EXPECT_EQ(together({footing("north"), footing("east"), footing("south"), footing("west")}),
            "all four footings of the shelter");
  EXPECT_EQ(together({footing("north"), footing("east")}), "the north and east footings of the shelter");
  EXPECT_EQ(together({footing("north"), piece_of(demo(), "bed", true), footing("west"), footing("north")}),
            "the north and west footings of the shelter and the footing of the bed");
  EXPECT_EQ(together({}), "");
  Piece left{"left", "pier", "the gate", 2};
  Piece right{"right", "pier", "the gate", 2};
  EXPECT_EQ(together({left, right}), "both piers of the gate");
}

TEST(PieceWords, AWaitIsForThePieceThatItIsAbout) {
  programme::PlannedWait wait;
  wait.part = "shelter";
  wait.wait = works::Wait::plate_to_strap;
  EXPECT_EQ(piece_left(demo(), wait).words(), "the plates of the shelter");
  wait.wait = works::Wait::mortar_to_point;
  EXPECT_EQ(piece_left(demo(), wait).words(), "the brickwork of the shelter");
  wait.part = "shelter-west-footing";
  wait.wait = works::Wait::concrete_to_lay;
  EXPECT_EQ(piece_left(demo(), wait).words(), "the west footing of the shelter");
}

TEST(PieceWords, SizesStandInBracketsBehindATitle) {
  EXPECT_EQ(without_sizes("Pour the footing of the bed (0.36 m3, 5 mixes)"), "Pour the footing of the bed");
  EXPECT_EQ(without_sizes("Drive home"), "Drive home");
}

}  // namespace
}  // namespace weatherstruck::render
