#include "weatherstruck/desk/book_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <thread>

#include "record/scratch.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/strip_bytes.h"
#include "weatherstruck/programme/fitted_strips.h"

namespace weatherstruck::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

base::Instant at(int day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / day) + std::chrono::hours(hour) +
         std::chrono::minutes(minute);
}
std::string demo(const std::string& name) {
  return std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/" + name;
}
std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

HearRequest request(const std::string& words, base::Instant now) {
  return {words, now, *base::Currency::from_code("GBP")};
}

class Kept : public testing::Test {
 protected:
  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  OpenJob open_ = shelf_.add(text_of(demo("job.json")), "job.json", zones_, at(8, 20));

  KeptEntries say(const std::string& words, base::Instant now) {
    const works::Standing standing = works::standing_of(open_.job, open_.book, now);
    const HeardText heard = hear(open_, standing, request(words, now));
    EXPECT_THAT(heard.doubts, IsEmpty()) << words;
    std::vector<works::Entry> entries;
    for (const Ready& ready : heard.ready)
      entries.push_back(ready.entry);
    return keep_entries(shelf_, open_, entries, zones_, now);
  }
  PlannedTrip plan(base::Instant now, const std::vector<std::string>& files) {
    OpenJob open = shelf_.open(open_.job.name, zones_);
    ForecastWish wish{files, true, 0};
    ForecastsAtHand at_hand = forecasts_for(shelf_, open, wish, {}, now);
    return plan_kept(shelf_, std::move(open), std::move(at_hand), now, {1, "test", zones_.version()});
  }
};

TEST_F(Kept, StripsAreFittedOnceForAllPlansOfTheirWeek) {
  const std::string early = demo("forecast-day1.json");
  const std::optional<base::Instant> home = plan(at(9, 4), {early}).result.plan.home;
  const auto fitted = shelf_.store().reckoned_under("strip 1 test ");
  ASSERT_FALSE(fitted.empty()) << "the demonstration has frost";
  EXPECT_THAT(shelf_.store().reckoned_under("strip 1 other "), IsEmpty());
  // Another lane has fitted nothing: what it plans with comes from the record, and the plan is the same.
  std::thread([&] {
    ASSERT_THAT(programme::fitted_strips(), IsEmpty());
    EXPECT_EQ(plan(at(9, 5), {early}).result.plan.home, home);
    std::vector<std::string> known;
    for (const programme::FittedStrip& strip : programme::fitted_strips())
      known.push_back(files::pack_strip(strip));
    EXPECT_EQ(known, fitted);
  }).join();
  EXPECT_EQ(shelf_.store().reckoned_under("strip 1 test "), fitted);
}

TEST_F(Kept, TheSameTextSentTwiceIsOneEntryEach) {
  const std::string words = "began set-out at 7:40, did set-out by 8:30";
  EXPECT_EQ(say(words, at(9, 18)).added, 2);
  const KeptEntries again = say(words, at(9, 19));
  EXPECT_EQ(again.added, 0);
  EXPECT_EQ(again.there_already, 2);
  EXPECT_THAT(open_.book.entries(), SizeIs(2));
}

TEST_F(Kept, WordsWithoutATimeSentAgainLaterThatDayAreOneEntry) {
  const std::string words = "bought 2 bags cement 9.80, stood down since 3, rain; did 2 courses of bed-lay";
  EXPECT_EQ(say(words, at(9, 17)).added, 3);
  EXPECT_EQ(say(words, at(9, 17, 10)).added, 0);
  EXPECT_EQ(say("did 2 courses of bed-lay. bought 2 bags cement 9.80", at(9, 19)).there_already, 2);
  EXPECT_EQ(open_.book.entries().at(0).at, at(9, 17));
  EXPECT_EQ(say("bought 2 bags cement 9.80", at(10, 17)).added, 1) << "of another day";
}

TEST_F(Kept, AnotherOneOfTheSameDayIsSaidWithAgainOrATime) {
  say("bought 2 bags cement 9.80", at(9, 12));
  EXPECT_EQ(say("bought another 2 bags cement 9.80", at(9, 13)).added, 1);
  EXPECT_EQ(say("bought 2 bags cement 9.80 again", at(9, 14)).there_already, 1) << "another, said again";
  EXPECT_EQ(say("bought 2 bags cement 9.80 at 11", at(9, 15)).added, 1);
  say("began bed-lay", at(9, 12));
  EXPECT_EQ(say("began bed-lay", at(9, 13)).added, 0);
  EXPECT_EQ(say("began bed-lay again", at(9, 13)).added, 1);
  say("did 3 courses of bed-lay", at(9, 14));
  EXPECT_EQ(say("did 3 more courses of bed-lay", at(9, 15)).added, 1);
  for (const works::Entry& entry : open_.book.entries()) {
    if (const auto* spent = std::get_if<works::Expense>(&entry.what)) {
      EXPECT_EQ(spent->what, "2 bags cement");
    }
  }
}

TEST_F(Kept, WhatIsInTheBookAlreadyIsSaidSoBeforeItIsKept) {
  say("bought 2 bags cement 9.80", at(9, 17));
  const works::Standing standing = works::standing_of(open_.job, open_.book, at(9, 18));
  const auto said = [&](const std::string& words) {
    const HeardText heard = hear(open_, standing, request(words, at(9, 18)));
    std::vector<std::string> sentences;
    for (const Ready& ready : heard.ready)
      sentences.push_back(ready.sentence);
    return sentences;
  };
  EXPECT_THAT(
      said("bought 2 bags cement 9.80"),
      ElementsAre(HasSubstr("In the book already, line 1. If it was another one, say it with \"again\"")));
  EXPECT_THAT(said("took the canopy down; took the canopy down"),
              ElementsAre(Not(HasSubstr("twice")), HasSubstr("Said twice, kept once")));
  const works::EntryKey key = open_.book.entries().front().key;
  keep_entries(shelf_, open_, {strike(key, at(9, 18))}, zones_, at(9, 18));
  EXPECT_THAT(said("bought 2 bags cement 9.80"), ElementsAre(HasSubstr("line 1, and corrected since")));
}

TEST_F(Kept, WhatHadToComeFirstIsSaidBackAndAgreesInPlanAndBook) {
  plan(at(9, 4, 30), {demo("forecast-day1.json")});
  const works::Standing before = works::standing_of(open_.job, open_.book, at(10, 18));
  const HeardText heard = hear(open_, before, request("did 2 courses of bed-lay at 16:10", at(10, 18)));
  EXPECT_THAT(heard.taken, HasSubstr("Then these are done too, by Tue 10 Feb 16:10 at the latest: "));
  EXPECT_THAT(heard.taken, HasSubstr("\"Pour the footing of the bed\""));
  EXPECT_THAT(heard.taken, Not(HasSubstr("Drive")));
  say("did 2 courses of bed-lay at 16:10", at(10, 18));
  const PlannedTrip next = plan(at(11, 4, 30), {});
  EXPECT_THAT(next.result.plan.assumptions,
              Contains("\"Pour the footing of the bed\" is taken as done, since what follows it is begun."));
  for (const programme::PlannedTask& task : next.result.plan.tasks) {
    // The bed goes on in the morning: what stands under it has had its time.
    if (task.task == "bed-pour") {
      EXPECT_EQ(task.finish(), at(9, 21));
    }
  }
  for (const programme::PlannedWait& wait : next.result.plan.waits) {
    if (wait.next == "bed-lay") {
      EXPECT_LE(wait.span.to, at(11, 4, 30));
    }
  }
  for (const programme::Verdict& verdict : next.verdicts)
    EXPECT_THAT(verdict.title, Not(HasSubstr("concrete"))) << "of an hour that nobody knows";
  EXPECT_THAT(
      hear(open_, works::standing_of(open_.job, open_.book, at(10, 19)), request("note: x", at(10, 19)))
          .taken,
      IsEmpty());
}

TEST_F(Kept, AStruckLineCountsNoMoreAndStaysInTheBook) {
  say("did set-out by 8:30", at(9, 18));
  const works::EntryKey key = open_.book.entries().front().key;
  keep_entries(shelf_, open_, {strike(key, at(9, 19))}, zones_, at(9, 19));
  const works::Standing standing = works::standing_of(open_.job, open_.book, at(9, 20));
  EXPECT_FALSE(standing.book);
  const std::vector<BookLine> lines = book_lines(open_, standing, at(9, 20));
  ASSERT_THAT(lines, SizeIs(2));
  EXPECT_FALSE(lines.front().counts);
}

TEST_F(Kept, APlanStandsForTheDayUntilSomethingMoves) {
  const PlannedTrip first = plan(at(9, 4, 30), {demo("forecast-day1.json")});
  EXPECT_THAT(first.result.objections, IsEmpty());
  const PlannedTrip second = plan(at(9, 4, 40), {});
  EXPECT_EQ(second.kept_as, first.kept_as);
  EXPECT_EQ(second.result.plan.home, first.result.plan.home);
  say("began set-out at 7:40, did set-out by 8:30", at(9, 9));
  const PlannedTrip third = plan(at(9, 9, 10), {});
  EXPECT_NE(third.kept_as, first.kept_as);
  ASSERT_TRUE(third.progress);
  // What is done stays where it was done, and nothing new begins before now.
  for (const programme::PlannedTask& task : third.result.plan.tasks) {
    if (task.task == "set-out") {
      EXPECT_EQ(task.start(), at(9, 7, 40));
    } else if (task.placed() && task.task != "drive-out" && task.task != "unload") {
      EXPECT_GE(task.start(), at(9, 9, 10)) << task.task;
    }
  }
}

}  // namespace
}  // namespace weatherstruck::desk
