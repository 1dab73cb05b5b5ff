#include "weatherstruck/render/quantities_sheet.h"

#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

TEST(QuantitiesSheet, SaysAmountsNoFinerThanTheyAreMeasured) {
  EXPECT_EQ(amount(0.6249, "m3"), "0.62 m3");
  EXPECT_EQ(amount(4.46, "m2"), "4.5 m2");
  EXPECT_EQ(amount(611.6, "bricks"), "612");
  EXPECT_EQ(amount(78.6, "kg"), "79 kg");
}

TEST(QuantitiesSheet, GivesPacksTheirPluralAndSymbolsNone) {
  EXPECT_EQ(purchase(1, "bag of 25 kg"), "1 bag of 25 kg");
  EXPECT_EQ(purchase(28, "bag of 25 kg"), "28 bags of 25 kg");
  EXPECT_EQ(purchase(2, "bulk bag"), "2 bulk bags");
  EXPECT_EQ(purchase(1, "box"), "1 box");
  EXPECT_EQ(purchase(3, "m2"), "3 m2");
  EXPECT_EQ(purchase(23, "each"), "23");
}

TEST(QuantitiesSheet, LaysOutBuyingMixesSoilAndParts) {
  const sample::Trip trip = sample::trip();
  works::Bill bill;
  bill.totals.push_back({"facing-brick", "facing bricks", "bricks", 120, 6, 126, 1, "pack", 500, 374,
                         base::Kilograms(1150), base::CubicMetres(0.7), false});
  bill.totals.push_back({"ballast", "ballast", "m3", 0.3, 0.03, 0.33, 0, "bulk bag", 0, 0,
                         base::Kilograms(580), base::CubicMetres(0.33), true});
  bill.batches.push_back({"wall",
                          "concrete C20/25, 1:2:4",
                          base::CubicMetres(0.33),
                          4,
                          4.2,
                          true,
                          0.67,
                          1.15,
                          {{"cement", 1.43, base::Kilograms(28.8)}, {"ballast", 7.3, base::Kilograms(180)}}});
  works::WallBricks wall;
  wall.title = "the wall";
  wall.count.courses.resize(3);
  wall.count.laid_below = 40.5;
  wall.count.laid_facing = 81;
  wall.count.cut = 3;
  wall.weep_holes = 2;
  bill.walls.push_back(wall);
  bill.totals[0].laid = 81;
  bill.parts.push_back({"wall", "facing-brick", 120, 126});
  bill.dug = base::CubicMetres(0.5);
  bill.dug_loose = base::CubicMetres(0.6);
  bill.soil_kept = base::CubicMetres(0.2);
  bill.soil_away = base::CubicMetres(0.4);
  bill.mass = base::Kilograms(1150);
  const std::string text = quantities_sheet(trip.job, bill, Ink::plain);
  EXPECT_EQ(text,
            "Quantities                                                    A wall by the lane\n"
            "\n"
            "To buy\n"
            "                     net    waste  buy          left over    mass\n"
            "  facing bricks      120        6  1 pack             374  1.15 t\n"
            "  ballast        0.30 m3  0.03 m3  at the work             580 kg\n"
            "\n"
            "  1.15 t of material bought.\n"
            "\n"
            "Bricks, counted course by course\n"
            "            courses  below  seen  to cut\n"
            "  the wall        3   40.5    81       3\n"
            "\n"
            "  81 facing bricks, steps included. Half a brick is one cut in two, and both\n"
            "  halves are used.\n"
            "  2 weep holes: joints left open.\n"
            "\n"
            "Mixes, 90 litres a batch\n"
            "                                    wet           last one    cement\n"
            "  wall  concrete C20/25, 1:2:4  0.33 m3  4 mixes      67 %  4.2 bags\n"
            "\n"
            "  A full one, in boxes of 14 litres:\n"
            "    concrete C20/25, 1:2:4: 1.15 bags of cement (1.4 boxes), 7.3 boxes of\n"
            "    ballast.\n"
            "\n"
            "Soil\n"
            "  dug, in the ground  0.5 m3\n"
            "  dug, loose          0.6 m3\n"
            "  kept for filling    0.2 m3\n"
            "  to be got rid of    0.4 m3  about 5 barrows\n"
            "\n"
            "By part, waste included\n"
            "  wall  facing bricks 126\n");
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(QuantitiesSheet, SaysWhatToBuildOtherwiseWhereBricksRunShort) {
  works::CurePlan plan{"facing-brick", 60, {}, 13, sample::trip().job};
  EXPECT_EQ(cure_lines(plan).front(), "Nothing can be built otherwise to make up for it.");
  plan.cures = {{works::Cure::Kind::share_out, "herb-bed", 1, 24, "engineering-brick", 23},
                {works::Cure::Kind::shrink, "herb-bed", 1, 23, "", 0}};
  EXPECT_EQ(
      cure_lines(plan),
      (std::vector<std::string>{
          "The lowest course of the herb bed in class B engineering bricks, 23 of those to spare: frees "
          "24 facing bricks.",
          "One course off the herb bed: frees 23 facing bricks.", "Then 13 are still missing."}));
}

}  // namespace
}  // namespace weatherstruck::render
