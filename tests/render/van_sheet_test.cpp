#include "weatherstruck/render/van_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;

VanFacts loaded(double payload) {
  VanFacts facts;
  facts.title = "A wall by the lane";
  facts.items = {{"mixer", base::Kilograms(60), base::CubicMetres(0.5), 1, 0},
                 {"cement", base::Kilograms(100), base::CubicMetres(0.08), 4, 1}};
  facts.payload = base::Kilograms(payload);
  facts.room = base::CubicMetres(6);
  facts.plan = measure::plan_van(facts.items, facts.payload, facts.room);
  facts.brought = {{"ballast", "0.48 m3", "on the kerb Mon 9 Feb 08:30"}};
  return facts;
}

TEST(VanSheet, ShowsTheLoadAgainstPayloadAndRoom) {
  EXPECT_EQ(van_sheet(loaded(1000), Ink::plain),
            "Van                                                           A wall by the lane\n"
            "\n"
            "The load\n"
            "               mass     room\n"
            "  mixer       60 kg  0.50 m3\n"
            "  cement  4  100 kg  0.08 m3\n"
            "\n"
            "  160 kg of 1 t, 16 %; room 0.58 m3 of 6.00 m3, 10 %\n"
            "\n"
            "Not in the van\n"
            "  ballast  0.48 m3  on the kerb Mon 9 Feb 08:30\n");
}

TEST(VanSheet, SaysWhatIsOverAndSplitsTheLoad) {
  const std::string text = van_sheet(loaded(120), Ink::plain);
  EXPECT_THAT(text, HasSubstr("Load 2\n"));
  EXPECT_THAT(text, HasSubstr("2 of 4"));
  EXPECT_THAT(text, HasSubstr("It does not go in one load: 40 kg too heavy for it."));
  EXPECT_THAT(van_sheet(loaded(1000), Ink::plain), Not(HasSubstr("does not go")));
}

}  // namespace
}  // namespace weatherstruck::render
