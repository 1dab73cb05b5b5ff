#include "weatherstruck/render/customer_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/left_behind.h"
#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

CustomerSheet sheet() {
  const TickDay site = left_behind();
  return customer_sheet_of(site.facts(), {"Rhys Vaughan", "01970 000000"});
}

// Laid until 12:00 on Wednesday 11 February: soil to half after 24 h, to the top after 48 h, of which the
// four below 5 C on Friday count half, so two hours more; feet on the steps 24 h after 15:00 (limits table).
TEST(CustomerSheet, SaysWhatToKeepOffUncoverAndFill) {
  const std::string text = customer_text(sheet(), Ink::plain);
  EXPECT_THAT(text, HasSubstr("The mason leaves on Wed 11 Feb 16:00."));
  EXPECT_THAT(text,
              HasSubstr("  The bed: brickwork\n"
                        "    Nobody on it, nothing leaned or stacked against it until Fri 13 Feb, about\n"
                        "    14:00."));
  EXPECT_THAT(
      text,
      HasSubstr("  The steps\n    Keep feet off until Thu 12 Feb, about 15:00 (nothing rocks underfoot)."));
  EXPECT_THAT(
      text,
      HasSubstr(
          "  The brickwork of the bed\n    Hessian under sheet stays on until Thu 12 Feb, about 14:00"));
  EXPECT_THAT(text, HasSubstr("To half height from Thu 12 Feb, about 12:00"));
  EXPECT_THAT(text, HasSubstr("To the top, or level with the ground, from Fri 13 Feb, about 14:00."));
  EXPECT_THAT(text, HasSubstr("call Rhys\nVaughan, 01970 000000."));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(CustomerSheet, NamesTheNightsThatFreeze) {
  EXPECT_EQ(sheet().frost.front(), "The night of Thu 12 Feb: down to -3 °C");
  TickDay site = left_behind();
  for (sky::Hour& hour : site.series.hours)
    hour.temperature = {base::Celsius(5)};
  EXPECT_THAT(customer_sheet_of(site.facts(), {}).frost.front(), HasSubstr("None in the forecast"));
}

TEST(CustomerSheet, SaysWhatWasNotDone) {
  const CustomerSheet all = sheet();
  EXPECT_THAT(all.left, testing::Contains("All of the path"));
  EXPECT_THAT(all.left, testing::Contains("Fill the bed to the top"));
  EXPECT_THAT(all.left, Not(testing::Contains(HasSubstr("Lay courses"))));
}

TEST(CustomerSheet, WithoutACallerNamesNobody) {
  const TickDay site = left_behind();
  EXPECT_THAT(customer_sheet_of(site.facts(), {}).call, IsEmpty());
}

TEST(CustomerSheet, TextAndPageSayTheSame) {
  const CustomerSheet all = sheet();
  const std::string html = customer_html(all);
  for (const auto* lines : {&all.keep_off, &all.covers, &all.fill}) {
    EXPECT_THAT(*lines, Not(IsEmpty()));
    for (const CareLine& care : *lines)
      EXPECT_THAT(html, HasSubstr(care.what));
  }
  for (const auto* words : {&all.general, &all.left}) {
    for (const std::string& one : *words)
      EXPECT_THAT(html, HasSubstr(one));
  }
  EXPECT_THAT(html, Not(HasSubstr("<script")));
}

TEST(CustomerSheet, TextFromOutsideStaysText) {
  TickDay site = left_behind();
  site.job.customer.name = "<b>Mrs & Mr</b>";
  EXPECT_THAT(
      customer_html(customer_sheet_of(site.facts(), {"<i>", "\"'"})),
      testing::AllOf(Not(HasSubstr("<b>")), Not(HasSubstr("<i>")), HasSubstr("&lt;b&gt;Mrs &amp; Mr")));
}

}  // namespace
}  // namespace weatherstruck::render
