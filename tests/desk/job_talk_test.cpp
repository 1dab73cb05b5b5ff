#include "weatherstruck/desk/job_talk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>

#include "desk/job_talk_support.h"
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

TEST(AskedForAJob, TheWholeTalkGivesAJobWithoutAFault) {
  const AskedJob asked = ask_for(joined_lines(job_answers()));
  ASSERT_EQ(asked.talk.end, TalkEnd::through) << asked.said;
  const files::JobRead read = files::read_job(asked.talk.document, zones());
  for (const base::Fault& fault : read.faults)
    ADD_FAILURE() << base::to_text(fault);
  ASSERT_TRUE(read.job);
  EXPECT_EQ(files::write_job(*read.job), asked.talk.document);
}

/// The demonstration's job as it was written by hand.
TEST(AskedForAJob, TheDemonstrationsAnswersGiveItsJob) {
  const AskedJob asked = ask_for(joined_lines(job_answers()));
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
  const std::string said = ask_for(joined_lines(job_answers())).said;
  EXPECT_THAT(said, HasSubstr("leave Mon 9 Feb 05:00, home by Thu 12 Feb 21:00"));
  EXPECT_THAT(said, HasSubstr("3 x 1.8 m, 4 courses showing over 2 below, ground falls 150 mm"));
  EXPECT_THAT(said, HasSubstr("Assumed"));
  EXPECT_LT(said.find("Assumed"), said.find("Keep it? [yes]"));
  std::istringstream lines(said);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), 80U) << line;
}

TEST(AskedForAJob, EveryTruncationAndQuitLeavesNothing) {
  for (std::size_t k = 0; k < job_answers().size(); ++k) {
    const std::vector<std::string> first(job_answers().begin(),
                                         job_answers().begin() + static_cast<std::ptrdiff_t>(k));
    const AskedJob cut = ask_for(joined_lines(first));
    EXPECT_EQ(cut.talk.end, TalkEnd::cut_off) << k;
    const AskedJob left = ask_for(joined_lines(first) + "quit\n");
    EXPECT_EQ(left.talk.end, TalkEnd::left) << k;
    for (const AskedJob* one : {&cut, &left}) {
      EXPECT_FALSE(one->talk.job) << k;
      EXPECT_TRUE(one->talk.document.empty()) << k;
    }
  }
}

TEST(AskedForAJob, BackAtEveryQuestionChangesNothing) {
  const std::string straight = ask_for(joined_lines(job_answers())).talk.document;
  for (std::size_t k = 1; k < job_answers().size(); ++k) {
    std::vector<std::string> lines = job_answers();
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(k), {"back", lines[k - 1]});
    const AskedJob asked = ask_for(joined_lines(lines));
    ASSERT_EQ(asked.talk.end, TalkEnd::through) << k << asked.said;
    EXPECT_EQ(asked.talk.document, straight) << k;
  }
}

TEST(AskedForAJob, NoAtTheEndKeepsNothing) {
  std::vector<std::string> lines = job_answers();
  lines.back() = "no";
  const AskedJob asked = ask_for(joined_lines(lines));
  EXPECT_EQ(asked.talk.end, TalkEnd::left);
  EXPECT_FALSE(asked.talk.job);
}

TEST(AskedForAJob, EnterSkipsWhatIsNotThere) {
  const AskedJob asked = ask_for(least_job());
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->parts.size(), 1U);
  EXPECT_EQ(asked.talk.job->name, "garden-path");
  EXPECT_TRUE(asked.talk.job->importance.empty());
}

TEST(AskedForAJob, SomethingHasToBeBuilt) {
  const AskedJob asked = ask_for(least_job("nothing\n\na pond\npath\n2 x 1\n\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("some of base, wall, bed, box, steps and"));
  EXPECT_THAT(asked.said, HasSubstr("An answer is needed here"));
  EXPECT_THAT(asked.said, HasSubstr("\"a pond\" is none of these."));
}

TEST(AskedForAJob, BedsAreAsManyAsHeSays) {
  const AskedJob asked = ask_for(least_job("2 beds\n2 x 1\n\n3 x 1\n3 sides, 4 courses\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  ASSERT_EQ(asked.talk.job->parts.size(), 2U);
  EXPECT_EQ(works::name_of(asked.talk.job->parts[0]), "bed");
  EXPECT_EQ(works::name_of(asked.talk.job->parts[1]), "bed-2");
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).sides, 3);
  EXPECT_EQ(std::get<works::Bed>(asked.talk.job->parts[1]).courses, 4);
}

TEST(AskedForAJob, ANameThatIsKeptIsNotTakenTwice) {
  const AskedJob asked = ask_for(least_job(), {"garden-path", "garden-path-2"});
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->name, "garden-path-3");
  std::string input = least_job();
  input.replace(input.find('\n') + 1, 0, "Garden Path");
  input.insert(input.find("Garden Path") + 11, "\nother");
  const AskedJob again = ask_for(input, {"garden-path"});
  ASSERT_TRUE(again.talk.job) << again.said;
  EXPECT_EQ(again.talk.job->name, "other");
  EXPECT_THAT(again.said, HasSubstr("is kept already"));
}

TEST(AskedForAJob, ATripThatCannotBeIsAskedAgain) {
  std::string input = least_job();
  input.replace(input.find("Thu 21:00"), 9, "Mon 7:00\nThu 21:00");
  const AskedJob asked = ask_for(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("Come home later"));
}

// 2 m over 3 m: 27 courses of fall with no room for their overlaps.
TEST(AskedForAJob, GroundTooSteepForAFootingIsToldAtOnce) {
  const AskedJob asked =
      ask_for(least_job("base\n3 x 1.8\n\n\n2 m right\n\n\nback\nback\n150 mm right\n\n\n"));
  EXPECT_THAT(asked.said, HasSubstr("It cannot be built like that"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(std::get<works::Base>(asked.talk.job->parts[0]).drop_along_length.value(), 0.15);
}

TEST(AskedForAJob, CoursesOutOfSightFillTheTrenchToTheGround) {
  // 600 mm deep less 150 mm of concrete is 450 mm: six courses of 75 mm.
  const AskedJob asked = ask_for(least_job("base\n3 x 1.8\n\n\n\n5\n150 thick, 600 mm deep\n"));
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& base = std::get<works::Base>(asked.talk.job->parts[0]);
  EXPECT_EQ(base.courses_below, 6);
  EXPECT_EQ(base.courses, 11);
}

TEST(AskedForAJob, APlaceFarFromTheClockOfHomeAsksForItsClock) {
  std::string input = least_job();
  input.replace(input.find("51.9 -3.4"), 9, "40.7 -74.0\nNew York");
  const AskedJob asked = ask_for(input);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->site.zone.name(), "America/New_York");
  EXPECT_EQ(asked.talk.job->trip.home_zone.name(), "Europe/London");
}

TEST(AskedForAJob, FeetAndInchesHoldForTheUsSet) {
  files::MeDocument american = me();
  american.me.limits.set = trade::LimitSet::us;
  const AskedJob asked = ask_for(least_job("path\n20 x 3\n\n"), {}, american);
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_NEAR(std::get<works::Path>(asked.talk.job->parts[0]).length.value(), 6.096, 1e-9);
}

TEST(CopiedJob, GetsItsNewTripAndMovesItsDeliveries) {
  const works::Job job = *ask_for(joined_lines(job_answers())).talk.job;
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
  auto lines = job_answers();
  const auto changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    const auto at = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(lines.size())));
    lines[at] =
        *rc::gen::oneOf(rc::gen::arbitrary<std::string>(),
                        rc::gen::element<std::string>("", "back", "?", "none", "3 x 3", "0.3", "20 m", "yes",
                                                      "no", "Mon 5:00", "1e9", "20", "left", "all"));
  }
  const AskedJob asked = ask_for(joined_lines(lines) + std::string(40, '\n'));
  RC_ASSERT((asked.talk.end == TalkEnd::through) == asked.talk.job.has_value());
  if (asked.talk.job) RC_ASSERT(files::read_job(asked.talk.document, zones()).faults.empty());
}

}  // namespace
}  // namespace weatherstruck::desk
