#include "weatherstruck/render/day_account.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using programme::Finding;
using programme::Move;
using programme::Verdict;
using sample::at;
using testing::ElementsAre;
using testing::IsEmpty;

struct Tuesday {
  sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  TripDay day = trip_days(facts)[1];
};

TEST(DayAccount, TheNightIsToldFromItsHours) {
  // Monday 19:00 to Tuesday 07:00 in the sample: -1 from midnight to six, dry, gusts of 8 m/s, 18 mph.
  const Tuesday t;
  EXPECT_THAT(night_lines(t.facts, t.day), ElementsAre("down to -1 °C, dry, gusts 18 mph"));
  EXPECT_THAT(night_lines(t.facts, trip_days(t.facts)[0]), IsEmpty())
      << "the night before leaving is nobody's";
}

TEST(DayAccount, NothingToLookAtIsSaidOnlyWhereSomethingWasFresh) {
  Tuesday t;
  Verdict sound;
  sound.title = "the footing of the wall";
  t.facts.verdicts = {sound};
  EXPECT_THAT(night_lines(t.facts, t.day),
              ElementsAre("down to -1 °C, dry, gusts 18 mph; nothing to look at"));
}

TEST(DayAccount, TheWorstIsToldInFullWithHowToTestIt) {
  Tuesday t;
  Verdict bad;
  bad.finding = Finding::make_good;
  bad.title = "the brickwork of the bed";
  bad.harms = {{programme::Harm::Cause::rain, Finding::make_good, {}, "6.0 mm of rain on soft joints"}};
  bad.look = "scratch a joint with a nail";
  bad.make_good = "rake out and point again";
  Verdict doubtful;
  doubtful.finding = Finding::inspect;
  doubtful.title = "the footing of the wall";
  Verdict third = doubtful;
  third.title = "the steps";
  t.facts.verdicts = {bad, doubtful, third};
  EXPECT_THAT(
      night_lines(t.facts, t.day),
      ElementsAre("down to -1 °C, dry, gusts 18 mph",
                  "Make good the brickwork of the bed: 6.0 mm of rain on soft joints. Scratch a joint with "
                  "a nail. Rake out and point again.",
                  "Look at the footing of the wall.", "Look at the steps too."));
}

TEST(DayAccount, ChangesAreToldWithTheFactThatForcedThem) {
  Tuesday t;
  Move later;
  later.kind = Move::Kind::later;
  later.title = "Lay the wall";
  later.from = at(9, 18);
  later.to = at(10, 9);
  later.text = "rain 2.1 mm/h, stops at 1";
  later.with = {"wall-pour"};
  Move out;
  out.kind = Move::Kind::left_out;
  out.title = "Dig the trench of the wall";
  out.with = {"wall-pour", "wall-lay"};
  Move home;
  home.kind = Move::Kind::home;
  t.facts.moves = {home, later, out};
  EXPECT_THAT(
      change_lines(t.facts, t.day, 3),
      ElementsAre("Lay the wall and pour the footing of the wall 09:00 instead of Mon 9 Feb 18:00: rain 2.1 "
                  "mm/h, stops at 1",
                  "Dig the trench of the wall and 2 more left out"));
  EXPECT_EQ(change_lines(t.facts, t.day, 1).size(), 1U);
}

works::Stock stock(const char* material, double left, double needed) {
  works::Stock s;
  s.material = material;
  s.left = left;
  s.needed = needed;
  return s;
}

TEST(DayAccount, WhatWasCountedStandsAgainstWhatIsNeeded) {
  Tuesday t;
  EXPECT_THAT(stock_lines(t.facts, t.day), IsEmpty());
  works::Progress progress;
  // A bag of cement holds 25 kg: 110 kg left are four whole bags, 85 kg needed are four begun.
  progress.stock = {stock("facing-brick", 200, 126), stock("cement", 110, 85)};
  t.facts.progress = &progress;
  EXPECT_THAT(stock_lines(t.facts, t.day),
              ElementsAre("200 facing bricks left, 126 needed; 4 bags of cement left, 4 needed"));
}

TEST(DayAccount, AShortageIsToldWithWhenItIsWantedAndWhenTheMerchantServes) {
  sample::Trip trip = sample::trip();
  trip.job.supplies.merchant =
      works::Merchant{base::Hours(0.5), {{std::chrono::hours(8), std::chrono::hours(17)}}, {}};
  TripFacts facts = trip.facts();
  facts.now = at(9, 12);
  works::Progress progress;
  // 63 are laid on Monday evening and 63 on Tuesday at nine; of the 100 left the second lot lacks 26.
  progress.stock = {stock("facing-brick", 100, 126)};
  facts.progress = &progress;
  // Half an hour there, half an hour at the counter (norm), half an hour back: leaving at 07:30 he is there
  // as it opens and back at nine.
  EXPECT_THAT(
      stock_lines(facts, trip_days(facts)[0]),
      ElementsAre("Short of 26 facing bricks, wanted Tue 09:00; leave for the merchant by Tue 07:30"));
  facts.now = at(10, 5);
  trip.job.supplies.merchant->monday_to_friday = {{std::chrono::hours(10), std::chrono::hours(17)}};
  progress.stock = {stock("facing-brick", 10, 63)};
  EXPECT_THAT(stock_lines(facts, trip_days(facts)[1]),
              ElementsAre("Short of 53 facing bricks, wanted 09:00; no merchant serves before that"));
}

TEST(DayAccount, TheLastOfTheFreshWorkMayBeginAsLateAsHandAndDayAllow) {
  sample::Trip trip = sample::trip();
  trip.list.tasks[2].fresh = works::FreshWork{};
  TripFacts facts = trip.facts();
  // The pour, 14:00 to 15:25; seven hours are in hand, but the working day ends at seven.
  EXPECT_EQ(latest_line(facts, trip_days(facts)[0]), "c begun by about 17:30");
  trip.plan.in_hand = std::chrono::minutes(95);
  EXPECT_EQ(latest_line(facts, trip_days(facts)[0]), "c begun by about 15:30");
  trip.plan.in_hand = std::chrono::minutes(20);
  EXPECT_EQ(latest_line(facts, trip_days(facts)[0]), "c begun on time");
  trip.plan.in_hand = -std::chrono::minutes(20);
  EXPECT_EQ(latest_line(facts, trip_days(facts)[0]), "");
}

}  // namespace
}  // namespace weatherstruck::render
