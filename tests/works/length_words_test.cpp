// The foot is 0.3048 m, the inch 25.4 mm and the pound 0.45359237 kg exactly (international yard and pound
// agreement, 1959); a cubic yard is 27 cubic feet, 0.764554857984 m3.
#include "weatherstruck/works/length_words.h"

#include <gtest/gtest.h>

namespace weatherstruck::works {
namespace {

using base::Metres;

TEST(LengthSpoken, IsInMillimetresAndMetresOrInInchesAndFeet) {
  const auto metric = [](double m) { return length_text(Metres(m), Measure::metric); };
  const auto feet = [](double m) { return length_text(Metres(m), Measure::feet); };
  EXPECT_EQ(metric(0.45), "450 mm");
  EXPECT_EQ(metric(2.4), "2.4 m");
  EXPECT_EQ(metric(1), "1 m");
  EXPECT_EQ(feet(0.4572), "18 in");
  EXPECT_EQ(feet(0.9144), "3 ft");
  EXPECT_EQ(feet(0.9), "35.5 in");
  EXPECT_EQ(feet(3.2004), "10 ft 6 in");
  EXPECT_EQ(feet(20), "65 ft 7.5 in");
  EXPECT_EQ(feet(2.55), "8 ft 4.5 in");
  EXPECT_EQ(feet(0.1524), "6 in");
  EXPECT_EQ(feet(0.3048), "12 in");
  EXPECT_EQ(feet(0), "0 in");
}

TEST(SizeSpoken, IsShownInBothUnits) {
  const Size size{Metres(3.2004), Metres(0.9144)};
  EXPECT_EQ(size_in_both(size, Measure::feet), "10 ft 6 in x 3 ft (3.2 x 0.914 m)");
  EXPECT_EQ(size_in_both({Metres(3), Metres(1.8)}, Measure::metric), "3 x 1.8 m (9 ft 10 in x 5 ft 11 in)");
}

TEST(AmountsSpoken, AreInTheUnitsOfTheLimits) {
  EXPECT_EQ(area_text(base::SquareMetres(20), Measure::metric), "20 m2");
  EXPECT_EQ(area_text(base::SquareMetres(200 * foot * foot), Measure::feet), "200 sq ft");
  EXPECT_EQ(volume_text(base::CubicMetres(0.09), Measure::metric), "90 litres");
  EXPECT_EQ(volume_text(base::CubicMetres(6 * cubic_foot), Measure::feet), "6 cu ft");
  EXPECT_EQ(volume_text(base::CubicMetres(6), Measure::metric), "6 m3");
  EXPECT_EQ(concrete_text(base::CubicMetres(0.764554857984), Measure::feet), "1 cu yd");
  EXPECT_EQ(mass_text(base::Kilograms(3120), Measure::metric), "3.12 t");
  EXPECT_EQ(mass_text(base::Kilograms(3120), Measure::feet), "6,878 lb");
}

}  // namespace
}  // namespace weatherstruck::works
