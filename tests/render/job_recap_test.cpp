#include "weatherstruck/render/job_recap.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/page.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using works::demo_job;

TEST(JobRecap, TellsTheJobInTheTradesWords) {
  const works::Job job = demo_job();
  const std::string text = job_recap(job, works::bill_of(job));
  EXPECT_THAT(text, HasSubstr("Marged Penhallow-Rees"));
  EXPECT_THAT(text, HasSubstr("52.06 N 3.61 W"));
  EXPECT_THAT(text, HasSubstr("leave Mon 9 Feb 05:00, home by Thu 12 Feb 21:00"));
  EXPECT_THAT(text, HasSubstr("4 courses showing over 2 below"));
  EXPECT_THAT(text, HasSubstr("door of 900 mm"));
  EXPECT_THAT(text, HasSubstr("raised bed 3 x 0.9 m, 3 courses"));
  EXPECT_THAT(text, HasSubstr("6 x 0.75 m in flags; may wait"));
  EXPECT_THAT(text, HasSubstr("38 m, 3 m up, no steps, 750 mm wide"));
  EXPECT_THAT(text, HasSubstr("1,000 facing bricks"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), page_width) << line;
}

TEST(JobRecap, SaysWhichWayTheGroundFalls) {
  works::Base base = std::get<works::Base>(demo_job().parts[0]);
  EXPECT_THAT(part_words(base), HasSubstr("150 mm left to right"));
  base.drop_along_length = base::Metres(-0.15);
  base.drop_along_width = base::Metres(0.2);
  EXPECT_THAT(part_words(base), HasSubstr("150 mm right to left, ground falls 200 mm back to front"));
  base.drop_along_length = base::Metres(0);
  base.drop_along_width = base::Metres(-0.2);
  EXPECT_THAT(part_words(base), HasSubstr("200 mm front to back"));
}

TEST(JobRecap, SaysWhatNobodyWasAsked) {
  works::Job job = demo_job();
  std::string all;
  for (const std::string& one : assumed_in(job))
    all += one + "\n";
  EXPECT_THAT(all, HasSubstr("Europe/London"));
  EXPECT_THAT(all, HasSubstr("garden"));
  EXPECT_THAT(all, HasSubstr("5 % in bricks"));
  EXPECT_THAT(all, testing::Not(HasSubstr("altitude"))) << "it is given here";
  job.site.altitude.reset();
  EXPECT_THAT(assumed_in(job), testing::Contains(HasSubstr("altitude")));
}

TEST(TurnSheet, PutsBeforeBesideAfter) {
  const works::Job job = demo_job();
  const auto turned = std::get<works::Turned>(works::turn(job, "shelter", works::Quarter::left));
  const std::string text = turn_sheet(turned, job, "shelter");
  EXPECT_THAT(text, HasSubstr("3 x 1.8 m"));
  EXPECT_THAT(text, HasSubstr("1.8 x 3 m"));
  EXPECT_THAT(text, testing::ContainsRegex("steps of the footings +4 +2"));
  EXPECT_THAT(text, testing::ContainsRegex("shelter north: courses at the low end +8 +7"));
}

TEST(JobRecap, IsInFeetAndPoundsUnderAmericanLimitsAndNamesTheBrick) {
  works::Job job = demo_job();
  EXPECT_THAT(assumed_in(job), testing::Not(testing::Contains(HasSubstr("modular"))));
  job.limits.set = trade::LimitSet::us;
  const std::string text = job_recap(job, works::bill_of(job));
  EXPECT_THAT(text, HasSubstr("9 ft 10 in x 5 ft 11 in"));
  EXPECT_THAT(text, HasSubstr("cu yd of concrete"));
  EXPECT_THAT(text, HasSubstr(" lb with waste"));
  EXPECT_THAT(text, testing::Not(testing::ContainsRegex("[0-9] (m|mm|t|kg|m3)[,;]")));
  // 59.26 a square metre is 5.5 a square foot; 6.75 is 23 % more.
  EXPECT_THAT(assumed_in(job),
              testing::Contains(HasSubstr("5.5 a square foot; of modular ones, 6.75 a square "
                                          "foot, about 23 % more")));
}

TEST(JobRecap, TellsWhatIsUsedFromWhatIsBoughtInWholePacks) {
  const works::Job job = demo_job();
  const works::Bill bill = works::bill_of(job);
  EXPECT_LT(mass_used(bill).value(), bill.mass.value());
  works::Job carried = job;
  carried.supplies.deliveries.clear();
  EXPECT_NEAR(mass_used(works::bill_of(carried)).value(), mass_used(bill).value(), 1)
      << "how it is packed changes nothing in the work";
  EXPECT_THAT(job_recap(job, bill), HasSubstr("with waste"));
}

TEST(JobRecap, SaysThatASideIsOpenAndWhatIsDoneBesides) {
  works::Job job = demo_job();
  auto& base = std::get<works::Base>(job.parts[0]);
  base.door_width = works::open_width(base, works::Side::south);
  EXPECT_THAT(part_words(base), HasSubstr("walls on three sides, open at the front"));
  job.tasks.push_back(
      {.name = "hang-the-gate", .title = "hang the gate", .hours = base::Hours(2), .after = {}});
  EXPECT_THAT(job_recap(job, works::bill_of(job)), HasSubstr("hang the gate, 2 h"));
}

}  // namespace
}  // namespace weatherstruck::render
