#include "weatherstruck/render/page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::ElementsAre;

TEST(Table, SizesColumnsByTheirWidestCellAndAlignsNumbersRight) {
  Table table({{"", Table::Kind::left}, {"mass", Table::Kind::right}});
  table.add({"sand", "9"});
  table.add({"bricks", "12"});
  EXPECT_THAT(table.lines(80), ElementsAre("        mass", "sand       9", "bricks    12"));
}

TEST(Table, WrapsOneColumnIntoTheRoomThatIsLeft) {
  Table table({{"", Table::Kind::left}, {"", Table::Kind::wrapped}});
  table.add({"a", "lay the bricks of the wall"});
  EXPECT_THAT(table.lines(20), ElementsAre("a  lay the bricks of", "   the wall"));
}

TEST(Table, SectionsStandBetweenRowsAndWidenNothing) {
  Table table({{"", Table::Kind::left}, {"", Table::Kind::left}});
  table.section("Monday the ninth");
  table.add({"a", "b"});
  EXPECT_THAT(table.lines(80), ElementsAre("Monday the ninth", "a  b"));
}

TEST(Table, RefusesARowOfAnotherLength) {
  Table table({{"", Table::Kind::left}});
  EXPECT_THROW(table.add({"a", "b"}), std::invalid_argument);
}

TEST(Page, PutsTheSecondTitleAtTheRightEdgeOrBelow) {
  Page page;
  page.title("Van", "A wall");
  EXPECT_EQ(page.str(), "Van" + std::string(71, ' ') + "A wall\n");
  Page full;
  full.title(std::string(50, 'x'), std::string(40, 'y'));
  EXPECT_EQ(full.str(), std::string(50, 'x') + "\n" + std::string(40, 'y') + "\n");
}

TEST(Page, HangsItemsUnderTheirFirstLine) {
  Page page;
  page.item("Cover",
            "hessian over the wall, then sheet over it, weighed down along both of its edges with brick", 8);
  EXPECT_EQ(page.str(),
            "Cover   hessian over the wall, then sheet over it, weighed down along both of\n"
            "        its edges with brick\n");
}

TEST(Page, SetsHeadingsInBoldOnlyWhereAsked) {
  Page plain;
  plain.heading("Soil");
  EXPECT_EQ(plain.str(), "Soil\n");
  Page bold(Ink::bold);
  bold.heading("Soil");
  EXPECT_EQ(bold.str(), "\x1b[1mSoil\x1b[0m\n");
}

TEST(Page, NeverLeavesTwoBlankLinesNorOneForNoWords) {
  Page page;
  page.text("a");
  page.text("");
  page.gap();
  page.gap();
  page.text("b");
  EXPECT_EQ(page.str(), "a\n\nb\n");
}

}  // namespace
}  // namespace weatherstruck::render
