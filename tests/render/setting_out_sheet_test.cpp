#include "weatherstruck/render/setting_out_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "weatherstruck/base/text.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

SettingOutSheet demo() {
  const works::Job job = works::demo_job();
  return setting_out_sheet_of(job, works::expand(job));
}

// By hand for the shelter, 3.0 x 1.8 m of half brick on strips .45 wide: trench 3 - .1025 + .45 = 3.3475
// by 2.1475 (half a millimetre goes either way), diagonal 3.977; outside diagonal 3.499; 3-4-5 of six
// parts: 2.4, 1.8, 3.0; (450 - 102.5) / 2 = 174 mm.
TEST(SettingOutSheet, ABaseHasRoughLinesThenTrueOnes) {
  const SettingOutSheet::Part base = demo().parts.at(0);
  EXPECT_THAT(base.rough.front(), AllOf(HasSubstr("3.348 x 2.147 m"), HasSubstr("3.977 m")));
  EXPECT_THAT(base.true_lines, Contains(AllOf(HasSubstr("3 x 1.8 m"), HasSubstr("3.499 m"))));
  EXPECT_THAT(base.true_lines,
              Contains(HasSubstr("2.4 m along the length, 1.8 m along the width, 3 m across")));
  EXPECT_THAT(base.true_lines, Contains(HasSubstr("174 mm in from the edge")));
  // The door, 900 wide in the middle of 3.0 m; its side falls from the west.
  EXPECT_THAT(base.openings, Contains(HasSubstr("1.05 m to 1.95 m")));
}

// 150 mm of fall: two steps of one course. The strips are 3.3475 m long: the ground has fallen 37.5 mm at a
// quarter.
TEST(SettingOutSheet, EachStepOfAStripHasItsPlaceAndLevel) {
  const SettingOutSheet::Part base = demo().parts.at(0);
  EXPECT_THAT(base.rough, Contains(AllOf(StartsWith("North footing, step 1"),
                                         HasSubstr("drops 75 mm at 0.687 m"), HasSubstr("ends at 0.987 m"))));
  EXPECT_THAT(base.rough, Contains(AllOf(StartsWith("North footing, top of the concrete"),
                                         HasSubstr("at 0 mm"), HasSubstr("at -150 mm"))));
}

// Six courses above the concrete of the high end, two more below it at the low end, 75 mm each.
TEST(SettingOutSheet, GaugeMarksCountFromTheConcreteOfTheHighEnd) {
  const auto marks = demo().parts.at(0).marks;
  ASSERT_EQ(marks.size(), 8U);
  EXPECT_EQ(marks.front().top, -75);
  EXPECT_EQ(marks[1].top, 0);
  EXPECT_EQ(marks.back().top, 450);
  double laid = 0;
  for (const auto& mark : marks)
    laid += mark.below + mark.seen;
  double counted = 0;
  for (const works::WallPart& wall : works::expand(works::demo_job()).walls) {
    if (wall.of == "shelter") counted += wall.count.laid();
  }
  EXPECT_EQ(laid, counted);
}

TEST(SettingOutSheet, FitsThePageAndSaysTheSameAsAPage) {
  const SettingOutSheet sheet = demo();
  std::istringstream lines(setting_out_text(sheet, Ink::plain));
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), page_width) << line;
  // A page keeps number and unit together.
  std::string page = setting_out_html(sheet);
  for (std::size_t at = 0; (at = page.find("&nbsp;", at)) != std::string::npos;)
    page.replace(at, 6, " ");
  for (const std::string& words : sheet.parts.at(0).true_lines)
    EXPECT_TRUE(page.find(words) != std::string::npos) << words;
}

}  // namespace
}  // namespace weatherstruck::render
