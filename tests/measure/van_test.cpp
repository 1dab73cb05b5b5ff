#include "weatherstruck/measure/van.h"

#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::measure {
namespace {

using base::CubicMetres;
using base::Kilograms;

// By hand: 100 bricks of 2.2 kg and 20 bags of 25 kg are 720 kg; a van of 1000 kg takes them in one load.
TEST(Van, OneLoadTakesWhatFits) {
  const VanItem items[] = {{"bricks", Kilograms(220), CubicMetres(0.2), 100, 0},
                           {"cement", Kilograms(500), CubicMetres(0.4), 20, 1}};
  const VanPlan plan = plan_van(items, Kilograms(1000), CubicMetres(6));
  EXPECT_TRUE(plan.fits);
  ASSERT_EQ(plan.loads.size(), 1U);
  EXPECT_NEAR(plan.mass.value(), 720, 1e-9);
  EXPECT_EQ(plan.over_mass.value(), 0);
}

// 60 bags of 25 kg are 1500 kg: 40 ride in the first load of 1000 kg, 20 in the second; 500 kg over.
TEST(Van, MassOverThePayloadMakesASecondLoad) {
  const VanItem items[] = {{"sand", Kilograms(1500), CubicMetres(1), 60, 0}};
  const VanPlan plan = plan_van(items, Kilograms(1000), CubicMetres(6));
  EXPECT_FALSE(plan.fits);
  ASSERT_EQ(plan.loads.size(), 2U);
  EXPECT_EQ(plan.loads[0].pieces[0].units, 40);
  EXPECT_EQ(plan.loads[1].pieces[0].units, 20);
  EXPECT_NEAR(plan.over_mass.value(), 500, 1e-9);
}

TEST(Van, RoomBindsLightThings) {
  const VanItem items[] = {{"mats", Kilograms(50), CubicMetres(5), 10, 0},
                           {"straw", Kilograms(30), CubicMetres(3), 6, 1}};
  const VanPlan plan = plan_van(items, Kilograms(1000), CubicMetres(6));
  ASSERT_EQ(plan.loads.size(), 2U);
  EXPECT_EQ(plan.loads[0].pieces[1].units, 2);
  EXPECT_NEAR(plan.over_volume.value(), 2, 1e-9);
}

TEST(Van, LowerRankRidesFirst) {
  const VanItem items[] = {{"sand", Kilograms(1000), CubicMetres(0.6), 40, 5},
                           {"mixer", Kilograms(60), CubicMetres(0.3), 1, 0}};
  const VanPlan plan = plan_van(items, Kilograms(1000), CubicMetres(6));
  EXPECT_EQ(plan.loads[0].pieces[0].item, 1U);
  EXPECT_EQ(plan.loads[0].pieces[1].units, 37);  // (1000 - 60) / 25 = 37.6
}

TEST(Van, AThingHeavierThanTheVanRidesInNoLoad) {
  const VanItem items[] = {{"bulk bag", Kilograms(1700), CubicMetres(1.2), 2, 0},
                           {"van-sized", Kilograms(900), CubicMetres(1), 1, 1}};
  const VanPlan plan = plan_van(items, Kilograms(800), CubicMetres(6));
  EXPECT_EQ(plan.too_big.size(), 2U);
  EXPECT_TRUE(plan.loads.empty());
  EXPECT_FALSE(plan.fits);
}

TEST(Van, NonsenseIsRefused) {
  const VanItem none[] = {{"nothing", Kilograms(1), CubicMetres(1), 0, 0}};
  EXPECT_THROW((void)plan_van(none, Kilograms(1000), CubicMetres(6)), std::invalid_argument);
  EXPECT_THROW((void)plan_van({}, Kilograms(0), CubicMetres(6)), std::invalid_argument);
  EXPECT_TRUE(plan_van({}, Kilograms(1), CubicMetres(1)).fits);
}

RC_GTEST_PROP(VanProperty, NothingIsLostAndNoLoadIsOver, ()) {
  std::vector<VanItem> items;
  for (int i = *rc::gen::inRange(0, 12); i > 0; --i) {
    items.push_back({"x", Kilograms(*rc::gen::inRange(0, 900)), CubicMetres(*rc::gen::inRange(0, 40) / 10.0),
                     *rc::gen::inRange(1, 60), *rc::gen::inRange(0, 4)});
  }
  const VanPlan plan = plan_van(items, Kilograms(900), CubicMetres(4));
  std::vector<int> units(items.size(), 0);
  for (const VanLoad& load : plan.loads) {
    RC_ASSERT(load.mass.value() <= 900 + 1e-6);
    RC_ASSERT(load.volume.value() <= 4 + 1e-6);
    RC_ASSERT(!load.pieces.empty());
    for (const auto& piece : load.pieces)
      units[piece.item] += piece.units;
  }
  for (std::size_t i = 0; i < items.size(); ++i)
    RC_ASSERT(units[i] == items[i].units);
}

}  // namespace
}  // namespace weatherstruck::measure
