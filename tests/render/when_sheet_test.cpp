#include "weatherstruck/render/when_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(WhenSheet, TellsEachDayWithItsYearsAndWhatStandsInTheWay) {
  const sample::Trip trip = sample::trip();
  programme::Departure spring{base::LocalDay(std::chrono::year(2027) / 4 / 20), 14, 13, 0.1, 2.6, 10.5};
  programme::Departure winter{base::LocalDay(std::chrono::year(2027) / 1 / 12), 14, 3, 1.4, 5, 8};
  programme::Departure none{base::LocalDay(std::chrono::year(2027) / 2 / 12), 0, 0, 0, 0, 0};
  const std::string text = when_sheet(
      {trip.job, {spring, winter, none}, "52.10 N, 5.20 E", 23, 2011, 2024, "by somebody", {}}, Ink::plain);
  EXPECT_THAT(text, HasSubstr("Tue 20 Apr  13 of 14 years"));
  EXPECT_THAT(text, HasSubstr("about 90 %"));
  EXPECT_THAT(text, HasSubstr("Tue 12 Jan  3 of 14 years"));
  EXPECT_THAT(text, HasSubstr("1.4 nights"));
  EXPECT_THAT(text, Not(HasSubstr("12 Feb")));
  EXPECT_THAT(text, HasSubstr("2011 to 2024"));
  EXPECT_THAT(text, HasSubstr("23 km away"));
  EXPECT_THAT(text, HasSubstr("by somebody"));
  EXPECT_LE(sample::widest(text), 80U);
}

}  // namespace
}  // namespace weatherstruck::render
