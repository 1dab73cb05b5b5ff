#include "weatherstruck/render/try_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "weatherstruck/base/text.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;

TrySide side(const works::Job& job, int hours_in_hand, int good) {
  TrySide out{job, works::derive_tasks(job), works::bill_of(job), base::Hours(30), base::Hours(20), {}};
  out.result.plan.home = job.trip.home_by - std::chrono::hours(hours_in_hand);
  out.result.plan.in_hand = std::chrono::hours(hours_in_hand);
  programme::Outlook outlook;
  outlook.weathers = 60;
  outlook.home_and_sound = good;
  out.result.outlook = outlook;
  return out;
}

TryFacts facts(int hours_in_hand, programme::Paired beside) {
  works::Job higher = works::demo_job();
  std::get<works::Bed>(higher.parts[1]).courses = 5;
  TryFacts out{{"bed: courses 5 instead of 3"},
               {"bed"},
               side(works::demo_job(), 2, 42),
               side(higher, hours_in_hand, 24),
               beside,
               {},
               {},
               {},
               {},
               {},
               "valley-shelter"};
  out.after.work = base::Hours(31.5);
  out.materials = works::material_changes({out.before.job, out.before.bill}, {out.after.job, out.after.bill});
  return out;
}

// Without the breaks of the lines.
std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n';
    if (!space || (!out.empty() && out.back() != ' ')) out += space ? ' ' : c;
  }
  return out;
}

TEST(TrySheet, PutsBothBesideEachOtherInEightyColumns) {
  const std::string text = try_sheet(facts(1, {-0.3, 0.06}), Ink::plain);
  EXPECT_THAT(text, HasSubstr("bed: courses 5 instead of 3"));
  EXPECT_THAT(text, HasSubstr("Work, hours                     30.0      31.5        +1.5"));
  EXPECT_THAT(text, HasSubstr("as it is Thu 12 Feb 19:00, 2 h in hand"));
  EXPECT_THAT(text, HasSubstr("as tried Thu 12 Feb 20:00, 1 h in hand"));
  EXPECT_THAT(text, HasSubstr("Home by the promise"));
  EXPECT_THAT(text, HasSubstr("30 points less, give or take 6."));
  EXPECT_THAT(text, HasSubstr("facing bricks ("));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), 80U) << line;
}

TEST(TrySheet, SaysThatThePromiseIsBrokenAndWhereNothingShows) {
  TryFacts late = facts(-3, {-0.05, 0.06});
  late.after.result.plan.left_out = {late.after.list.tasks[5].name};
  const std::string text = flat(try_sheet(late, Ink::plain));
  EXPECT_THAT(text, HasSubstr("3 h late, without"));
  EXPECT_THAT(text, HasSubstr("(1 task that must be done)"));
  EXPECT_THAT(text, HasSubstr("Not home by the promise"));
  EXPECT_THAT(text, HasSubstr("(-5 points, give or take 6)"));
  EXPECT_FALSE(late.after.keeps_promise());
}

TEST(TrySheet, TellsWhatToDoNextByWhetherTheJobIsKept) {
  TryFacts kept = facts(1, {0, 0.02});
  kept.stands = true;
  EXPECT_THAT(try_sheet(kept, Ink::plain), HasSubstr("weatherstruck try valley-shelter keep"));
  kept.name.clear();
  const std::string file = try_sheet(kept, Ink::plain);
  EXPECT_THAT(file, HasSubstr("this job is a file"));
  EXPECT_THAT(file, Not(HasSubstr("keep\"")));
}

TEST(TrySheet, MoneyIsToldAsFarAsItIsKnown) {
  TryFacts it = facts(1, {0, 0.02});
  EXPECT_THAT(flat(try_sheet(it, Ink::plain)), HasSubstr("is not kept"));
  const base::Currency pounds = *base::Currency::from_code("GBP");
  it.price.an_hour = base::Money(3800, pounds);
  it.price.before = base::Money(114000, pounds);
  it.price.after = base::Money(119700, pounds);
  it.price.apart = base::Money(5700, pounds);
  it.price.on_materials = 1000;
  EXPECT_THAT(flat(try_sheet(it, Ink::plain)), HasSubstr("come to 57.00 GBP more"));
  EXPECT_THAT(flat(try_sheet(it, Ink::plain)), HasSubstr("10 %"));
  it.price.by_the_hour = true;
  EXPECT_THAT(flat(try_sheet(it, Ink::plain)), HasSubstr("1140.00 GBP as it is, 1197.00 GBP as tried"));
}

}  // namespace
}  // namespace weatherstruck::render
