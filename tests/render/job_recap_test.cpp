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
  EXPECT_THAT(text, HasSubstr("38 m, up 3 m, narrowest place 750 mm"));
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

TEST(LengthWords, AreMillimetresUnderAMetre) {
  EXPECT_EQ(length_words(base::Metres(0.15)), "150 mm");
  EXPECT_EQ(length_words(base::Metres(3)), "3 m");
  EXPECT_EQ(length_words(base::Metres(0)), "0 m");
  EXPECT_EQ(length_words(base::Metres(1.25)), "1.25 m");
}

}  // namespace
}  // namespace weatherstruck::render
