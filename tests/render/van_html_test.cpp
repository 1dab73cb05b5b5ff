#include "weatherstruck/render/van_html.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

TEST(VanHtml, ListsEachLoadAndWhatComesWithoutTheVan) {
  VanFacts facts;
  facts.title = "A wall & a <bed>";
  facts.items = {{"mixer", base::Kilograms(60), base::CubicMetres(0.5), 1, 0},
                 {"cement", base::Kilograms(100), base::CubicMetres(0.08), 4, 1}};
  facts.payload = base::Kilograms(120);
  facts.room = base::CubicMetres(6);
  facts.plan = measure::plan_van(facts.items, facts.payload, facts.room);
  facts.brought = {{"ballast", "0.48 m3", "on the kerb Mon 9 Feb 08:30"}};
  const std::string html = van_html(facts);
  EXPECT_THAT(html, HasSubstr("A wall &amp; a &lt;bed&gt;"));
  EXPECT_THAT(html, HasSubstr(">Load 2</h2>"));
  // 120 kg carry the mixer and two of four bags of 25 kg.
  EXPECT_THAT(html, HasSubstr("cement, 2 of 4, 50&nbsp;kg"));
  EXPECT_THAT(html, HasSubstr("ballast, 0.48&nbsp;m3, on the kerb Mon 9 Feb 08:30"));
  EXPECT_THAT(html, HasSubstr("It does not go in one load."));
}

}  // namespace
}  // namespace weatherstruck::render
