#include "weatherstruck/render/html.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weatherstruck/base/digest.h"

namespace weatherstruck::render::html {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Html, TextIsEscaped) {
  EXPECT_EQ(text("<a href=\"x\">'&'</a>").str(), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
  EXPECT_EQ(text(std::string("a\0b\x7F", 4)).str(), "a b ");
  EXPECT_EQ(text("\xC3\xA9 \xC2\xB0").str(), "\xC3\xA9 \xC2\xB0");
  EXPECT_EQ(text("\xFF").str(), "?");
}

TEST(Html, UnitsStayWithTheirNumber) {
  EXPECT_EQ(text("80 %, 3 m2 and 4 men").str(), "80&nbsp;%, 3&nbsp;m2 and 4 men");
  EXPECT_EQ(element("p", {{"title", "3 m2"}}, "x").str(), "<p title=\"3 m2\">x</p>");
}

TEST(Html, AttributesAreEscapedAndMayBeAbsent) {
  EXPECT_EQ(element("p", {{"title", "\"><script>"}, {"lang", "cy", false}, flag("hidden")}, "x").str(),
            "<p title=\"&quot;&gt;&lt;script&gt;\" hidden>x</p>");
}

TEST(Document, AllowsItsOwnStyleAndScriptAndNothingElse) {
  const std::string page = document({"A & B", element("main", "x"), "p { margin: 0; }", "var a = 1;"});
  EXPECT_THAT(page, HasSubstr("<title>A &amp; B</title>"));
  EXPECT_THAT(page, HasSubstr("script-src '" + base::policy_hash("var a = 1;") + "'"));
  const std::size_t from = page.find("<style>") + 7;
  EXPECT_THAT(page, HasSubstr("style-src '" +
                              base::policy_hash(page.substr(from, page.find("</style>") - from)) + "'"));
  const std::string bare = document({"A", element("main", "x"), "", ""});
  EXPECT_THAT(bare, Not(HasSubstr("script")));
}

}  // namespace
}  // namespace weatherstruck::render::html
