#include "weatherstruck/works/uses.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::CubicMetres;
using base::Metres;

// AP Standard Data (read on the page): 1:3 takes 480 kg of cement and 1.05 m3 of sand a cubic metre.
TEST(Uses, MortarOneToThreeMatchesTheStandardData) {
  const Uses uses = mortar_uses(CubicMetres(1), CubicMetres(1), trade::MortarClass::m12, Practice{});
  EXPECT_NEAR(uses.total("cement"), 480, 1e-9);
  EXPECT_NEAR(uses.total("building-sand"), 1.05, 1e-12);
  EXPECT_EQ(uses.total("lime"), 0);
}

// NZ BD 5017 (read on the page): 20 MPa takes 320 kg of cement, 830 of sand, 1000 of stone. A tenth of waste
// on it.
TEST(Uses, ConcreteMatchesTheMixTable) {
  const Uses uses = concrete_uses(CubicMetres(1), Practice{});
  EXPECT_NEAR(uses.total("cement"), 352, 1e-9);
  EXPECT_NEAR(uses.total("sharp-sand") * 1600, 913, 1e-6);
  EXPECT_NEAR(uses.total("coarse-aggregate") * 1620, 1100, 1e-6);
  Practice ballast;
  ballast.concrete = trade::ConcreteMix::ballast_1_6;
  const Uses all_in = concrete_uses(CubicMetres(1), ballast);
  EXPECT_EQ(all_in.total("sharp-sand"), 0);
  EXPECT_GT(all_in.total("ballast"), 1);
}

TEST(Uses, LinesOfOneMaterialAreOne) {
  Uses uses;
  uses.add("cement", 10, 0.1);
  uses.add("cement", 20, 0);
  uses.add("fixings", 0, 0);
  ASSERT_EQ(uses.lines().size(), 1U);
  EXPECT_NEAR(uses.lines()[0].net, 30, 1e-12);
  EXPECT_NEAR(uses.total("cement"), 31, 1e-12);
}

// The same source for straps as the norms table (read on the page): at most 2 m apart, four fixings
// each. 10.69 m: six.
TEST(Uses, PlatesTakeStrapsAndFixings) {
  Group group;
  group.plates = Metres(10.69);
  EXPECT_EQ(straps_of(group, Practice{}), 6);
  const Uses uses = uses_on_top(group, Practice{});
  EXPECT_NEAR(uses.total("fixings"), 24, 1e-12);
  EXPECT_NEAR(uses.total("plate-100x50"), 10.69, 1e-12);
  group.plates = Metres(0.5);
  EXPECT_EQ(straps_of(group, Practice{}), 2);
}

// By hand: 4.5 m2, 100 mm compacted: .45 m3, loose a quarter more (from memory): .5625. Down to firm ground
// goes .1 + .03 + .038: .756 m3.
TEST(Uses, APathTakesSubBaseAndIsDugDownToIt) {
  const PathTake take = take_path(std::get<Path>(demo_job().parts[3]), Practice{});
  EXPECT_NEAR(take.subbase_uses.total("sub-base"), 0.5625, 1e-9);
  EXPECT_NEAR(take.dug.value(), 0.756, 1e-9);
  EXPECT_EQ(take.flag_material, "flag-450");
}

TEST(Uses, FlagsOfNoStockSizeAreCountedButNotListed) {
  Path path = std::get<Path>(demo_job().parts[3]);
  path.flag_length = Metres(0.5);
  path.flag_width = Metres(0.31);
  const PathTake take = take_path(path, Practice{});
  EXPECT_TRUE(take.flag_material.empty());
  EXPECT_GT(take.flags, 20);
}

TEST(Uses, MixesAreWholeAndByTheBarrowWithoutAMixer) {
  Kit kit;
  EXPECT_EQ(mixes_of(CubicMetres(0.27), kit), 3);  // .09 each
  EXPECT_EQ(mixes_of(CubicMetres(0.271), kit), 4);
  kit.mixer = CubicMetres(0);
  EXPECT_EQ(mixes_of(CubicMetres(0.27), kit), 4);  // .08 each
}

// From memory, estimators' tables: a frog laid up takes .005 m3 of mortar in the m2 of 60 bricks; 100 bricks
// .0083 m3.
TEST(Uses, OnlyFrogsThatAreFilledTakeMortar) {
  Practice practice;
  const auto mortar = [&](trade::BrickKind kind) {
    return brick_mortar(100, trade::Bond::half_stretcher, kind, practice).net.value();
  };
  const double plain = mortar(trade::BrickKind::facing);
  practice.frog = trade::Frog::down;
  EXPECT_EQ(mortar(trade::BrickKind::facing), plain);
  practice.frog = trade::Frog::up;
  EXPECT_NEAR(mortar(trade::BrickKind::facing) - plain, 0.0083, 1e-9);
  EXPECT_EQ(mortar(trade::BrickKind::engineering_b), plain);
}

}  // namespace
}  // namespace weatherstruck::works
