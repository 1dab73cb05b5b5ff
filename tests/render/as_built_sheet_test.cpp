#include "weatherstruck/render/as_built_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/left_behind.h"
#include "render/sample.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::render {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const AsBuiltSheet::Part& bed(const AsBuiltSheet& sheet) {
  return sheet.parts.at(1);
}

// 3 x 0.9 m in half-brick (102.5 mm): inside 2.795 x 0.695 m; diagonals sqrt(9.81) = 3.132 and
// sqrt(8.295) = 2.88 m. A fall of 0.15 m is two courses of 75 mm. Soil: see the customer's sheet.
TEST(AsBuilt, HasSizesDiagonalsAndCorners) {
  const TickDay site = left_behind();
  const AsBuiltSheet sheet = as_built_sheet_of(site.facts());
  const AsBuiltSheet::Part& part = bed(sheet);
  EXPECT_EQ(part.title, "The bed");
  EXPECT_THAT(part.sizes, Contains("Outside 3 x 0.9 m, diagonal 3.132 m"));
  EXPECT_THAT(part.sizes, Contains("Inside 2.795 x 0.695 m, diagonal 2.88 m"));
  ASSERT_EQ(part.corners.size(), 4U);
  EXPECT_EQ(part.corners[0].which, "north-west");
  EXPECT_EQ(part.corners[0].courses, 3);
  EXPECT_EQ(part.corners[1].courses, 5);
  EXPECT_EQ(part.corners[1].height, 375);
  EXPECT_THAT(part.level_note, HasSubstr("guessed"));
  EXPECT_THAT(part.bears, ElementsAre("Soil to half height: from Thu 12 Feb, about 12:00",
                                      "Soil to the top, or a load against it: from Fri 13 Feb, about 14:00"));
}

TEST(AsBuilt, HasTheDoor) {
  const TickDay site = left_behind();
  const AsBuiltSheet sheet = as_built_sheet_of(site.facts());
  EXPECT_THAT(sheet.parts.front().openings, ElementsAre(HasSubstr("south side: 0.9 m wide")));
}

TEST(AsBuilt, TheGroundHighInTheEastTurnsTheCorners) {
  TickDay site = left_behind();
  std::get<works::Base>(site.job.parts[0]).drop_along_length = base::Metres(-0.15);
  const AsBuiltSheet sheet = as_built_sheet_of(site.facts());
  const auto& corners = sheet.parts.front().corners;
  ASSERT_EQ(corners.size(), 4U);
  EXPECT_EQ(corners[0].courses, 8);  // north-west, low
  EXPECT_EQ(corners[1].courses, 6);  // north-east, high
}

TEST(AsBuilt, LevelsReadAreShownAndMoveTheCourses) {
  TickDay site = left_behind();
  works::Book book;
  const auto enter = [&](const char* key, works::What what, base::Instant at) {
    EXPECT_EQ(book.append({key, std::move(what), at, at, std::nullopt}), works::Book::Appended::added);
  };
  // The bed's strip falls three courses instead of the two that were guessed.
  enter("1", works::LevelRead{"bed-south-footing", base::Metres(0), base::Metres(0)}, TickDay::at(7, 30));
  enter("2", works::LevelRead{"bed-south-footing", base::Metres(3.1), base::Metres(-0.225)},
        TickDay::at(7, 31));
  enter("3", works::Begin{"bed-dig"}, TickDay::at(7));
  enter("4", works::Done{"bed-dig", works::Whole{}}, TickDay::at(8));
  enter("5", works::Note{"Gate latch broken"}, TickDay::at(9));
  const works::Standing standing = works::standing_of(site.job, book, TickDay::at(40));
  site.job = standing.job;
  TripFacts facts = site.facts();
  facts.progress = &standing.progress;
  const AsBuiltSheet sheet = as_built_sheet_of(facts);
  const AsBuiltSheet::Part& part = bed(sheet);
  ASSERT_EQ(part.levels.size(), 2U);
  EXPECT_EQ(part.levels[1].footing, "south footing");
  EXPECT_NEAR(part.levels[1].below, 225, 0.5);
  EXPECT_THAT(part.level_note, HasSubstr("as read"));
  EXPECT_EQ(part.corners[2].which, "south-east");
  EXPECT_EQ(part.corners[2].courses, 6);
  EXPECT_THAT(sheet.notes, ElementsAre("Tue 10 Feb 09:00: Gate latch broken"));
  EXPECT_THAT(sheet.state, HasSubstr("by the site book"));
  const std::string text = as_built_text(sheet, Ink::plain);
  EXPECT_THAT(text, HasSubstr("225 mm below"));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(AsBuilt, TextAndPageSayTheSame) {
  const TickDay site = left_behind();
  const AsBuiltSheet sheet = as_built_sheet_of(site.facts());
  const std::string text = as_built_text(sheet, Ink::plain);
  const std::string html = as_built_html(sheet);
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(sheet.left, Not(IsEmpty()));
  for (const AsBuiltSheet::Part& part : sheet.parts) {
    EXPECT_THAT(text, HasSubstr("\n" + part.title + "\n"));
    EXPECT_THAT(html, HasSubstr(">" + part.title + "</h2>"));
    for (const std::string& words : part.bears) {
      EXPECT_THAT(html, HasSubstr(words));
      EXPECT_THAT(text, HasSubstr(words));
    }
  }
}

}  // namespace
}  // namespace weatherstruck::render
