// What somebody says who has never been asked before, at home and in American units.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "desk/job_talk_support.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/answer_times.h"

namespace weatherstruck::desk {
namespace {

using testing::HasSubstr;

/// Without its line ends.
std::string in_one_line(const std::string& said) {
  std::string out;
  for (const char c : said) {
    const char to = c == '\n' ? ' ' : c;
    if (to != ' ' || out.empty() || out.back() != ' ') out += to;
  }
  return out;
}

/// A mason of Oregon, asked at the same moment.
files::MeDocument american() {
  std::istringstream in("Joe\n\njoe@brick.example\nLos Angeles\n" + std::string(20, '\n'));
  std::ostringstream out;
  Talk talk(in, out, true);
  return *ask_me(talk, {}, zones()).document;
}

std::string in_oregon(const std::string& parts) {
  return "Log store\n\n\n45.0 -122.78\n2 h\nMon 5\nThu 9pm\n" + parts + std::string(20, '\n');
}

TEST(AskedForAJob, WhatIsUsualRaisesNoCaution) {
  const std::string parts =
      "base, bed, box, steps, path\n3 x 1.8 m\n\n\n\n\n\n3 x 0.9 m\n\n1.2 x 0.9 m\n\n3\n"
      "6 x 0.75 m\n\n";
  for (const AskedJob& asked : {ask_for(least_job(parts)), ask_for(in_oregon(parts), {}, american())}) {
    ASSERT_TRUE(asked.talk.job) << asked.said;
    EXPECT_THAT(asked.said, testing::Not(HasSubstr("Caution")));
    EXPECT_EQ(asked.talk.job->parts.size(), 5U);
  }
}

TEST(AskedForAJob, AFootingIsOneLineWithWhatIsUsualUnderItsRules) {
  EXPECT_THAT(ask_for(least_job("base\n3 x 1.8 m\n")).said,
              HasSubstr("Its footing [450 mm wide, 175 mm thick, 450 mm deep]"));
  EXPECT_THAT(ask_for(in_oregon("base\n10 x 6\n"), {}, american()).said,
              HasSubstr("Its footing [18 in wide, 7 in thick, 12 in deep]"));
}

TEST(AskedForAJob, AFrontCanBeOpen) {
  const AskedJob asked = ask_for(
      least_job("base\n3 x 1.8 m\nlog store\nfront, 3 m\na wall on three sides, open at the front\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(in_one_line(asked.said), HasSubstr("from 400 mm to 2.55 m, such as 900 mm"));
  EXPECT_THAT(asked.said, HasSubstr("Walls on three sides, open at the front"));
  EXPECT_TRUE(works::is_open_sided(std::get<works::Base>(asked.talk.job->parts[0])));
}

TEST(AskedForAJob, SizesAreShownBackInBothUnits) {
  EXPECT_THAT(ask_for(in_oregon("box\n10 ft 6 x 3\n"), {}, american()).said,
              HasSubstr("10 ft 6 in x 3 ft (3.2 x 0.914 m)."));
  const AskedJob asked = ask_for(in_oregon("box\n10 ft 6 x 3\n"), {}, american());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_NEAR(std::get<works::Box>(asked.talk.job->parts[0]).width.value(), 0.9144, 1e-9);
}

TEST(AskedForAJob, UnderAmericanLimitsNothingIsShownInMetresAlone) {
  const std::string said =
      in_one_line(ask_for(in_oregon("path, box\n3 x 3\n\n20 x 3\nflags\n\n"), {}, american()).said);
  EXPECT_THAT(said, HasSubstr("[60 ft, level, no steps, 3 ft wide]"));
  EXPECT_THAT(said, HasSubstr("20 ft x 3 ft, in flags"));
  EXPECT_THAT(said, HasSubstr("All told it takes"));
  EXPECT_THAT(said, testing::ContainsRegex("the van[ \n]carries 2,200 lb"));
  EXPECT_THAT(said, HasSubstr("modular"));
  EXPECT_THAT(ask_for(least_job()).said, testing::Not(HasSubstr("modular")));
}

TEST(AskedForAJob, APlaceOnTheWrongSideOfTheWorldIsAskedAgain) {
  std::string input = in_oregon("path\n20 x 3\n\n");
  input.replace(input.find("45.0 -122.78"), 12, "45.0 122.78\n45.0 -122.78");
  const AskedJob asked = ask_for(input, {}, american());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("That is in eastern Asia"));
  EXPECT_THAT(asked.said, HasSubstr("west is minus"));
  EXPECT_EQ(asked.talk.job->site.longitude, -122.78);
  input.replace(input.find("45.0 122.78"), 11, "45.0N 122.78E\nLos Angeles\nShanghai");
  const AskedJob meant = ask_for(input, {}, american());
  EXPECT_THAT(in_one_line(meant.said),
              testing::ContainsRegex("America/Los_Angeles keeps a clock [0-9]+[ \n]hours from the sun"));
}

TEST(AskedForAJob, WhatHeNamesAtTheEndIsAskedAgainAndTheRestStays) {
  const std::string straight = ask_for(joined_lines(job_answers())).talk.document;
  std::vector<std::string> lines = job_answers();
  lines.insert(lines.end() - 1, {"change the bed", "2 m x 900 mm", ""});
  const AskedJob asked = ask_for(joined_lines(lines));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).length.value(), 2);
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).drop.value(), 0.15) << "as he said before";
  EXPECT_EQ(asked.talk.job->trip.leave_home,
            base::Instant(std::chrono::sys_days(std::chrono::year(2026) / 2 / 9)) + std::chrono::hours(5));
  lines = job_answers();
  lines.insert(lines.end() - 1,
               {"change dates", "", "Thu 20:00", "change pond", "change shelter", "", "", "", "", "", ""});
  const AskedJob dates = ask_for(joined_lines(lines));
  ASSERT_TRUE(dates.talk.job) << dates.said;
  EXPECT_THAT(dates.said, HasSubstr("Allowed: yes, no, or change and one of title, name"));
  std::string later = straight;
  later.replace(later.find("2026-02-12T21:00"), 16, "2026-02-12T20:00");
  EXPECT_EQ(dates.talk.document, later);
}

TEST(AskedForAJob, WorkBesidesIsKeptWithItsHours) {
  const AskedJob asked =
      ask_for(least_job("path\n6 x 0.75 in gravel\nhang the gate, 2 hours\nunload, half an hour\n\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  ASSERT_EQ(asked.talk.job->tasks.size(), 2U);
  EXPECT_EQ(asked.talk.job->tasks[0].name, "hang-the-gate");
  EXPECT_EQ(asked.talk.job->tasks[0].hours.value(), 2);
  EXPECT_EQ(asked.talk.job->tasks[1].name, "own-unload") << "the list of work has an unload of its own";
}

TEST(AskedForAJob, NearHomeTheDaysLeaveRoomForTheDrive) {
  std::string input = least_job();
  input.replace(input.find("2 h\nMon 5:00"), 12, "an hour\nMon 7");
  const AskedJob asked = ask_for(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(works::span_words(asked.talk.job->trip.working_day), "08:00-21:00");
  // Thirteen hours of work and wheel together are the red line; two of them are the drives.
  EXPECT_EQ(asked.talk.job->trip.longest_day.value(), 11);
  EXPECT_THAT(asked.said, HasSubstr("you drive home each evening"));
  EXPECT_EQ(ask_for(least_job()).talk.job->trip.longest_day.value(), 14) << "two hours away he stays";
}

TEST(AskedForAJob, PartsAreCalledAsHeSaysThem) {
  std::vector<std::string> lines = job_answers();
  *std::find(lines.begin(), lines.end(), "path, steps") = "the path and the step";
  const AskedJob asked = ask_for(joined_lines(lines));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.document, ask_for(joined_lines(job_answers())).talk.document);
}

TEST(AskedForAJob, TheSameMassIsSaidTwice) {
  const std::string said = ask_for(joined_lines(job_answers())).said;
  const std::size_t at = said.find("All told it takes ");
  ASSERT_NE(at, std::string::npos);
  const std::string mass = said.substr(at + 18, said.find(" with waste", at) - at - 18);
  EXPECT_THAT(said.substr(said.find("That makes")), HasSubstr(mass + " with waste"));
}

TEST(AskedForAJob, ASmallJobTakesEighteenQuestionsWithItsPrice) {
  const std::string said = ask_for(least_job("path\n6 x 0.75 in gravel\n")).said;
  EXPECT_EQ(std::count(said.begin(), said.end(), '>'), 18);
}

TEST(AskedForAJob, AWallStandsOnAStripOfItsOwn) {
  const AskedJob asked = ask_for(least_job("wall\n6 m, 6 courses, falls 150 mm, coping\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& footing = std::get<works::Footing>(asked.talk.job->parts.at(0));
  const auto& wall = std::get<works::Wall>(asked.talk.job->parts.at(1));
  EXPECT_EQ(wall.footing, footing.name);
  EXPECT_EQ(wall.bond, trade::Bond::one_english) << "450 mm is more than half a brick may stand alone";
  EXPECT_EQ(wall.courses - wall.courses_below, 6);
  EXPECT_TRUE(wall.coping);
  EXPECT_NEAR(footing.length.value(), 6.25, 1e-9) << "6 m, 450 mm of strip less 215 mm of wall, in 25 mm";
  EXPECT_EQ(footing.drop.value(), 0.15);
  EXPECT_THAT(asked.said, testing::Not(HasSubstr("If it turns"))) << "one piece: nothing can wait for it";
  EXPECT_THAT(asked.said, testing::Not(HasSubstr("Caution")));
  const AskedJob low = ask_for(least_job("wall\n6 m, 5 courses\n"));
  ASSERT_TRUE(low.talk.job) << low.said;
  EXPECT_EQ(std::get<works::Wall>(low.talk.job->parts.at(1)).bond, trade::Bond::half_stretcher);
}

TEST(AskedForAJob, TheHalfOfTheDayMayFollowTheHour) {
  std::string input = least_job("path\n6 x 0.75 m\n\n");
  input.replace(input.find("Thu 21:00"), 9, "Thu 9\npm");
  const AskedJob asked = ask_for(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("Home by Thu 12 Feb 21:00."));
}

TEST(AskedForAJob, TomorrowIsCountedFromTodayAndMaterialsGoByTheirOtherNames) {
  std::string input =
      "Garden path\n\n\n51.9 -3.4\n2 h\ntomorrow 5:00\nThu 21:00\npath\n6 x 0.75 m slabs\n\n\n"
      "\n\n\nhardcore and slabs\n10 tomorrow\n" +
      std::string(20, '\n');
  const AskedJob asked = ask_for(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& deliveries = asked.talk.job->supplies.deliveries;
  ASSERT_EQ(deliveries.size(), 2U) << asked.said;
  EXPECT_EQ(deliveries[0].material, "sub-base");
  EXPECT_EQ(deliveries[0].at, *base::parse_iso_instant("2026-02-08T10:00:00Z"));
}

TEST(AskedForAJob, ABaseGoesWithoutPlatesIfHeSaysSo) {
  const AskedJob asked = ask_for(least_job("base\n3 x 1.8 m\nlog store, no plates\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& base = std::get<works::Base>(asked.talk.job->parts.at(0));
  EXPECT_EQ(base.name, "log-store");
  EXPECT_FALSE(base.plates);
  EXPECT_THAT(asked.said, HasSubstr("no plates"));
}

}  // namespace
}  // namespace weatherstruck::desk
