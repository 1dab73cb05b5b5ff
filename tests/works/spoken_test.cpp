#include "weatherstruck/works/spoken.h"

#include <gtest/gtest.h>

namespace weatherstruck::works {
namespace {

TEST(Spoken, NamesLoseTheirDashes) {
  EXPECT_EQ(spoken("long-bed-north"), "long bed north");
}

TEST(Spoken, SizesAreShort) {
  EXPECT_EQ(millimetres(base::Metres(0.15)), "150 mm");
  EXPECT_EQ(cubic(base::CubicMetres(0.3069)), "0.31 m3");
  EXPECT_EQ(square(base::SquareMetres(4.5)), "4.5 m2");
  EXPECT_EQ(metres(base::Metres(12)), "12 m");
}

TEST(Spoken, CountsHaveTheirPlurals) {
  EXPECT_EQ(counted(1, "mix"), "1 mix");
  EXPECT_EQ(counted(4, "mix"), "4 mixes");
  EXPECT_EQ(counted(2, "load"), "2 loads");
  EXPECT_EQ(counted(3, "length"), "3 lengths");
  EXPECT_EQ(counted(3, "batch"), "3 batches");
}

}  // namespace
}  // namespace weatherstruck::works
