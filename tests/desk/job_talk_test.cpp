#include "weatherstruck/desk/job_talk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>

#include "desk/talk_support.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {
namespace {

using testing::HasSubstr;

const files::SystemZones& zones() {
  static const files::SystemZones system;
  return system;
}

/// As the demonstration has him.
const files::MeDocument& me() {
  static const files::MeDocument document = [] {
    std::istringstream in(joined_lines(lines_of_answers("fixtures/demo/me-answers.txt")));
    std::ostringstream out;
    Talk talk(in, out, true);
    return *ask_me(talk, {}, zones()).document;
  }();
  return document;
}

base::Instant saturday_evening() {
  return *base::parse_iso_instant("2026-02-07T18:00:00Z");
}

struct Asked {
  JobTalk talk;
  std::string said;
};

Asked ask(const std::string& input, const std::vector<std::string>& taken = {},
          const files::MeDocument& who = me()) {
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, true);
  Asked result;
  result.talk = ask_job(talk, who, saturday_evening(), taken, zones());
  result.said = out.str();
  return result;
}

const std::vector<std::string>& answers() {
  static const std::vector<std::string> lines = lines_of_answers("fixtures/demo/ask-answers.txt");
  return lines;
}

/// The shortest talk that makes a job.
std::string least(const std::string& parts = "path\n6 x 0.75\n\n") {
  return "Garden path\n\n\n51.9 -3.4\n2 h\nMon 5:00\nThu 21:00\n" + parts + std::string(20, '\n');
}

TEST(AskedForAJob, TheWholeTalkGivesAJobWithoutAFault) {
  const Asked asked = ask(joined_lines(answers()));
  ASSERT_EQ(asked.talk.end, TalkEnd::through) << asked.said;
  const files::JobRead read = files::read_job(asked.talk.document, zones());
  for (const base::Fault& fault : read.faults)
    ADD_FAILURE() << base::to_text(fault);
  ASSERT_TRUE(read.job);
  EXPECT_EQ(files::write_job(*read.job), asked.talk.document);
}

/// The demonstration's job as it was written by hand.
TEST(AskedForAJob, TheDemonstrationsAnswersGiveItsJob) {
  const Asked asked = ask(joined_lines(answers()));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  std::ifstream file(std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / "fixtures/demo/job.json");
  std::ostringstream text;
  text << file.rdbuf();
  const files::JobRead by_hand = files::read_job(text.str(), zones());
  ASSERT_TRUE(by_hand.job);
  files::Json hand = files::job_to_json(*by_hand.job);
  files::Json talked = files::job_to_json(*asked.talk.job);
  // What a talk does not ask: the altitude and the name of the way in. The price stands in the talk.
  hand["site"].erase("altitude");
  hand["site"]["routes"][0]["name"] = "way-in";
  talked.erase("price");
  hand.erase("price");
  // Deliveries are reckoned and in the order of their kinds; those by hand are ample.
  const auto by_material = [](const files::Json& a, const files::Json& b) {
    return a["material"] < b["material"];
  };
  std::map<std::string, double> ample;
  for (const auto& delivery : hand["supplies"]["deliveries"])
    ample[delivery["material"]] = delivery["amount"];
  for (files::Json* one : {&hand, &talked}) {
    auto& list = (*one)["supplies"]["deliveries"];
    std::sort(list.begin(), list.end(), by_material);
    for (auto& delivery : list)
      delivery.erase("amount");
  }
  EXPECT_EQ(talked, hand) << files::Json::diff(hand, talked).dump(1);
  const works::Bill bill = works::bill_of(*asked.talk.job);
  for (const works::Delivery& delivery : asked.talk.job->supplies.deliveries) {
    EXPECT_GE(delivery.amount, bill.total_of(delivery.material) - 1e-9) << delivery.material;
    EXPECT_LE(delivery.amount, ample[delivery.material] + 1e-9) << delivery.material;
    const double pack = trade::material(delivery.material).pack_size;
    EXPECT_NEAR(delivery.amount / pack, std::round(delivery.amount / pack), 1e-9) << delivery.material;
  }
}

TEST(AskedForAJob, ItIsShownWithWhatWasAssumedBeforeItIsKept) {
  const std::string said = ask(joined_lines(answers())).said;
  EXPECT_THAT(said, HasSubstr("leave Mon 9 Feb 05:00, home by Thu 12 Feb 21:00"));
  EXPECT_THAT(said, HasSubstr("3 x 1.8 m, 4 courses showing over 2 below, ground falls 150 mm"));
  EXPECT_THAT(said, HasSubstr("Assumed"));
  EXPECT_LT(said.find("Assumed"), said.find("Keep it? [yes]"));
  std::istringstream lines(said);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), 80U) << line;
}

TEST(AskedForAJob, EveryTruncationAndQuitLeavesNothing) {
  for (std::size_t k = 0; k < answers().size(); ++k) {
    const std::vector<std::string> first(answers().begin(),
                                         answers().begin() + static_cast<std::ptrdiff_t>(k));
    const Asked cut = ask(joined_lines(first));
    EXPECT_EQ(cut.talk.end, TalkEnd::cut_off) << k;
    const Asked left = ask(joined_lines(first) + "quit\n");
    EXPECT_EQ(left.talk.end, TalkEnd::left) << k;
    for (const Asked* one : {&cut, &left}) {
      EXPECT_FALSE(one->talk.job) << k;
      EXPECT_TRUE(one->talk.document.empty()) << k;
    }
  }
}

TEST(AskedForAJob, BackAtEveryQuestionChangesNothing) {
  const std::string straight = ask(joined_lines(answers())).talk.document;
  for (std::size_t k = 1; k < answers().size(); ++k) {
    std::vector<std::string> lines = answers();
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(k), {"back", lines[k - 1]});
    const Asked asked = ask(joined_lines(lines));
    ASSERT_EQ(asked.talk.end, TalkEnd::through) << k << asked.said;
    EXPECT_EQ(asked.talk.document, straight) << k;
  }
}

TEST(AskedForAJob, NoAtTheEndKeepsNothing) {
  std::vector<std::string> lines = answers();
  lines.back() = "no";
  const Asked asked = ask(joined_lines(lines));
  EXPECT_EQ(asked.talk.end, TalkEnd::left);
  EXPECT_FALSE(asked.talk.job);
}

TEST(AskedForAJob, EnterSkipsWhatIsNotThere) {
  const Asked asked = ask(least());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->parts.size(), 1U);
  EXPECT_EQ(asked.talk.job->name, "garden-path");
  EXPECT_TRUE(asked.talk.job->importance.empty());
}

TEST(AskedForAJob, SomethingHasToBeBuilt) {
  const Asked asked = ask(least("nothing\n\na wall\npath\n2 x 1\n\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("some of base, bed, box, steps and path"));
  EXPECT_THAT(asked.said, HasSubstr("An answer is needed here"));
  EXPECT_THAT(asked.said, HasSubstr("A wall by itself is not asked for"));
}

TEST(AskedForAJob, BedsAreAsManyAsHeSays) {
  const Asked asked = ask(least("2 beds\n2 x 1\n\n3 x 1\n3 sides, 4 courses\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  ASSERT_EQ(asked.talk.job->parts.size(), 2U);
  EXPECT_EQ(works::name_of(asked.talk.job->parts[0]), "bed");
  EXPECT_EQ(works::name_of(asked.talk.job->parts[1]), "bed-2");
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).sides, 3);
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).courses, 4);
}

TEST(AskedForAJob, ANameThatIsKeptIsNotTakenTwice) {
  const Asked asked = ask(least(), {"garden-path", "garden-path-2"});
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->name, "garden-path-3");
  std::string input = least();
  input.replace(input.find('\n') + 1, 0, "Garden Path");
  input.insert(input.find("Garden Path") + 11, "\nother");
  const Asked again = ask(input, {"garden-path"});
  ASSERT_TRUE(again.talk.job) << again.said;
  EXPECT_EQ(again.talk.job->name, "other");
  EXPECT_THAT(again.said, HasSubstr("is kept already"));
}

TEST(AskedForAJob, ATripThatCannotBeIsAskedAgain) {
  std::string input = least();
  input.replace(input.find("Thu 21:00"), 9, "Mon 7:00\nThu 21:00");
  const Asked asked = ask(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("Come home later"));
}

// 2 m over 3 m: 27 courses of fall with no room for their overlaps.
TEST(AskedForAJob, GroundTooSteepForAFootingIsToldAtOnce) {
  const Asked asked = ask(least("base\n3 x 1.8\n\n\n2 m right\n\n\nback\nback\n150 mm right\n\n\n"));
  EXPECT_THAT(asked.said, HasSubstr("It cannot be built like that"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(std::get<works::Base>(asked.talk.job->parts[0]).drop_along_length.value(), 0.15);
}

TEST(AskedForAJob, CoursesOutOfSightFillTheTrenchToTheGround) {
  // 600 mm deep less 150 mm of concrete is 450 mm: six courses of 75 mm.
  const Asked asked = ask(least("base\n3 x 1.8\n\n\n\n5\n150 thick, 600 mm deep\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& base = std::get<works::Base>(asked.talk.job->parts[0]);
  EXPECT_EQ(base.courses_below, 6);
  EXPECT_EQ(base.courses, 11);
}

TEST(AskedForAJob, APlaceFarFromTheClockOfHomeAsksForItsClock) {
  std::string input = least();
  input.replace(input.find("51.9 -3.4"), 9, "40.7 -74.0\nNew York");
  const Asked asked = ask(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->site.zone.name(), "America/New_York");
  EXPECT_EQ(asked.talk.job->trip.home_zone.name(), "Europe/London");
}

TEST(AskedForAJob, FeetAndInchesHoldForTheUsSet) {
  files::MeDocument american = me();
  american.me.limits.set = trade::LimitSet::us;
  const Asked asked = ask(least("path\n20 x 3\n\n"), {}, american);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_NEAR(std::get<works::Path>(asked.talk.job->parts[0]).length.value(), 6.096, 1e-9);
}

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
  for (const Asked& asked : {ask(least(parts)), ask(in_oregon(parts), {}, american())}) {
    ASSERT_TRUE(asked.talk.job) << asked.said;
    EXPECT_THAT(asked.said, testing::Not(HasSubstr("Caution")));
    EXPECT_EQ(asked.talk.job->parts.size(), 5U);
  }
}

TEST(AskedForAJob, AFootingIsOneLineWithWhatIsUsualUnderItsRules) {
  EXPECT_THAT(ask(least("base\n3 x 1.8 m\n")).said,
              HasSubstr("Its footing [450 mm wide, 175 mm thick, 450 mm deep]"));
  EXPECT_THAT(ask(in_oregon("base\n10 x 6\n"), {}, american()).said,
              HasSubstr("Its footing [18 in wide, 7 in thick, 12 in deep]"));
}

TEST(AskedForAJob, AFrontCanBeOpen) {
  const Asked asked =
      ask(least("base\n3 x 1.8 m\nlog store\nfront, 3 m\na wall on three sides, open at the front\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(in_one_line(asked.said), HasSubstr("from 400 mm to 2.55 m, such as 900 mm"));
  EXPECT_THAT(asked.said, HasSubstr("Walls on three sides, open at the front"));
  EXPECT_TRUE(works::is_open_sided(std::get<works::Base>(asked.talk.job->parts[0])));
}

TEST(AskedForAJob, SizesAreShownBackInBothUnits) {
  EXPECT_THAT(ask(in_oregon("box\n10 ft 6 x 3\n"), {}, american()).said,
              HasSubstr("10 ft 6 in x 3 ft (3.2 x 0.914 m)."));
  const Asked asked = ask(in_oregon("box\n10 ft 6 x 3\n"), {}, american());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_NEAR(std::get<works::Box>(asked.talk.job->parts[0]).width.value(), 0.9144, 1e-9);
}

TEST(AskedForAJob, UnderAmericanLimitsNothingIsShownInMetresAlone) {
  const std::string said =
      in_one_line(ask(in_oregon("path, box\n3 x 3\n\n20 x 3\nflags\n\n"), {}, american()).said);
  EXPECT_THAT(said, HasSubstr("[60 ft, level, no steps, 3 ft wide]"));
  EXPECT_THAT(said, HasSubstr("20 ft x 3 ft, in flags"));
  EXPECT_THAT(said, HasSubstr("All told it takes"));
  EXPECT_THAT(said, testing::ContainsRegex("the van[ \n]carries 2,200 lb"));
  EXPECT_THAT(said, HasSubstr("modular"));
  EXPECT_THAT(ask(least()).said, testing::Not(HasSubstr("modular")));
}

TEST(AskedForAJob, APlaceOnTheWrongSideOfTheWorldIsAskedAgain) {
  std::string input = in_oregon("path\n20 x 3\n\n");
  input.replace(input.find("45.0 -122.78"), 12, "45.0 122.78\n45.0 -122.78");
  const Asked asked = ask(input, {}, american());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("That is in eastern Asia"));
  EXPECT_THAT(asked.said, HasSubstr("west is minus"));
  EXPECT_EQ(asked.talk.job->site.longitude, -122.78);
  input.replace(input.find("45.0 122.78"), 11, "45.0N 122.78E\nLos Angeles\nShanghai");
  const Asked meant = ask(input, {}, american());
  EXPECT_THAT(in_one_line(meant.said),
              testing::ContainsRegex("America/Los_Angeles keeps a clock [0-9]+[ \n]hours from the sun"));
}

TEST(AskedForAJob, WhatHeNamesAtTheEndIsAskedAgainAndTheRestStays) {
  const std::string straight = ask(joined_lines(answers())).talk.document;
  std::vector<std::string> lines = answers();
  lines.insert(lines.end() - 1, {"change the bed", "2 m x 900 mm", ""});
  const Asked asked = ask(joined_lines(lines));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).length.value(), 2);
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).drop.value(), 0.15) << "as he said before";
  EXPECT_EQ(asked.talk.job->trip.leave_home,
            base::Instant(std::chrono::sys_days(std::chrono::year(2026) / 2 / 9)) + std::chrono::hours(5));
  lines = answers();
  lines.insert(lines.end() - 1,
               {"change dates", "", "Thu 20:00", "change pond", "change shelter", "", "", "", "", "", ""});
  const Asked dates = ask(joined_lines(lines));
  ASSERT_TRUE(dates.talk.job) << dates.said;
  EXPECT_THAT(dates.said, HasSubstr("Allowed: yes, no, or change and one of title, name"));
  std::string later = straight;
  later.replace(later.find("2026-02-12T21:00"), 16, "2026-02-12T20:00");
  EXPECT_EQ(dates.talk.document, later);
}

TEST(AskedForAJob, WorkBesidesIsKeptWithItsHours) {
  const Asked asked =
      ask(least("path\n6 x 0.75 in gravel\nhang the gate, 2 hours\nunload, half an hour\n\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  ASSERT_EQ(asked.talk.job->tasks.size(), 2U);
  EXPECT_EQ(asked.talk.job->tasks[0].name, "hang-the-gate");
  EXPECT_EQ(asked.talk.job->tasks[0].hours.value(), 2);
  EXPECT_EQ(asked.talk.job->tasks[1].name, "own-unload") << "the list of work has an unload of its own";
}

TEST(AskedForAJob, NearHomeTheDaysLeaveRoomForTheDrive) {
  std::string input = least();
  input.replace(input.find("2 h\nMon 5:00"), 12, "an hour\nMon 7");
  const Asked asked = ask(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(works::span_words(asked.talk.job->trip.working_day), "08:00-21:00");
  // Thirteen hours of work and wheel together are the red line; two of them are the drives.
  EXPECT_EQ(asked.talk.job->trip.longest_day.value(), 11);
  EXPECT_THAT(asked.said, HasSubstr("you drive home each evening"));
  EXPECT_EQ(ask(least()).talk.job->trip.longest_day.value(), 14) << "two hours away he stays";
}

TEST(AskedForAJob, PartsAreCalledAsHeSaysThem) {
  std::vector<std::string> lines = answers();
  *std::find(lines.begin(), lines.end(), "path, steps") = "the path and the step";
  const Asked asked = ask(joined_lines(lines));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.document, ask(joined_lines(answers())).talk.document);
}

TEST(AskedForAJob, TheSameMassIsSaidTwice) {
  const std::string said = ask(joined_lines(answers())).said;
  const std::size_t at = said.find("All told it takes ");
  ASSERT_NE(at, std::string::npos);
  const std::string mass = said.substr(at + 18, said.find(" with waste", at) - at - 18);
  EXPECT_THAT(said.substr(said.find("That makes")), HasSubstr(mass + " with waste"));
}

TEST(AskedForAJob, ASmallJobTakesEighteenQuestionsWithItsPrice) {
  const std::string said = ask(least("path\n6 x 0.75 in gravel\n")).said;
  EXPECT_EQ(std::count(said.begin(), said.end(), '>'), 18);
}

TEST(CopiedJob, GetsItsNewTripAndMovesItsDeliveries) {
  const works::Job job = *ask(joined_lines(answers())).talk.job;
  std::istringstream in("Mon 16 Feb 5:00\nThu 21:00\n\n");
  std::ostringstream out;
  Talk talk(in, out, true);
  const JobTalk copy = ask_copy(talk, job, "next-door", saturday_evening(), zones());
  ASSERT_TRUE(copy.job) << out.str();
  EXPECT_EQ(copy.job->name, "next-door");
  EXPECT_EQ(copy.job->trip.leave_home - job.trip.leave_home, std::chrono::hours(7 * 24));
  ASSERT_EQ(copy.job->supplies.deliveries.size(), job.supplies.deliveries.size());
  EXPECT_EQ(copy.job->supplies.deliveries[0].at - job.supplies.deliveries[0].at, std::chrono::hours(7 * 24));
  EXPECT_EQ(copy.job->parts.size(), job.parts.size());
  std::istringstream half("Mon 16 Feb 5:00\n");
  Talk cut(half, out, true);
  EXPECT_FALSE(ask_copy(cut, job, "next-door", saturday_evening(), zones()).job);
}

RC_GTEST_PROP(AskedForAJobWithAnything, KeepsASoundDocumentOrNone, ()) {
  auto lines = answers();
  const auto changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    const auto at = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(lines.size())));
    lines[at] =
        *rc::gen::oneOf(rc::gen::arbitrary<std::string>(),
                        rc::gen::element<std::string>("", "back", "?", "none", "3 x 3", "0.3", "20 m", "yes",
                                                      "no", "Mon 5:00", "1e9", "20", "left", "all"));
  }
  const Asked asked = ask(joined_lines(lines) + std::string(40, '\n'));
  RC_ASSERT((asked.talk.end == TalkEnd::through) == asked.talk.job.has_value());
  if (asked.talk.job) RC_ASSERT(files::read_job(asked.talk.document, zones()).faults.empty());
}

}  // namespace
}  // namespace weatherstruck::desk
