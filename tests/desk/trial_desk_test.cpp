#include "weatherstruck/desk/trial_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "desk/code_of.h"
#include "record/scratch.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/desk/file_text.h"
#include "weatherstruck/desk/forecast_desk.h"

namespace weatherstruck::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

const std::string demo = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/";
const std::string name = "valley-shelter";

base::Instant at(int day, int hour) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / day) + std::chrono::hours(hour);
}

class Trial : public testing::Test {
 protected:
  void SetUp() override {
    (void)shelf_.add(text_of_file(demo + "job.json", "a job"), "job.json", zones_, at(8, 20));
  }
  OpenJob open() { return shelf_.open(name, zones_); }
  int courses_of_the_bed() { return std::get<works::Bed>(open().job.parts[1]).courses; }
  void log(works::What what, base::Instant when) {
    OpenJob job = open();
    const std::string key = "k" + std::to_string(job.book.size());
    (void)keep_entries(shelf_, job, {{key, std::move(what), when, when, {}}}, zones_, when);
  }

  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
};

TEST_F(Trial, StandsUntilItIsKeptAndThenIsANewVersionOfTheJob) {
  EXPECT_FALSE(standing_trial(shelf_, open()));
  stand(shelf_, open(), {"bed +2 courses"}, at(8, 21));
  const auto standing = standing_trial(shelf_, open());
  ASSERT_TRUE(standing);
  EXPECT_THAT(standing->changes, ElementsAre("bed +2 courses"));
  EXPECT_EQ(courses_of_the_bed(), 3) << "nothing is changed by trying";
  const files::Altered kept = keep_trial(shelf_, open(), zones_, at(8, 22));
  EXPECT_THAT(kept.changes.front().said, HasSubstr("5 instead of 3"));
  EXPECT_EQ(courses_of_the_bed(), 5);
  EXPECT_EQ(open().kept->version, 2);
  EXPECT_THAT(shelf_.store().job_version(open().kept->id, 1)->text, HasSubstr("\"courses\": 3"))
      << "what it was stays in the record";
  EXPECT_FALSE(standing_trial(shelf_, open()));
  EXPECT_EQ(code_of([&] { (void)keep_trial(shelf_, open(), zones_, at(8, 23)); }), "nothing-tried");
}

TEST_F(Trial, TheLastOneTriedTakesThePlaceOfTheOneBeforeAndDroppingForgetsIt) {
  stand(shelf_, open(), {"bed +2 courses"}, at(8, 21));
  stand(shelf_, open(), {"path gravel"}, at(8, 21));
  EXPECT_THAT(standing_trial(shelf_, open())->changes, ElementsAre("path gravel"));
  EXPECT_THAT(drop_trial(shelf_, open(), at(8, 22))->changes, ElementsAre("path gravel"));
  EXPECT_FALSE(standing_trial(shelf_, open()));
  EXPECT_FALSE(drop_trial(shelf_, open(), at(8, 22)));
  EXPECT_EQ(open().kept->version, 1);
}

TEST_F(Trial, IsRefusedOnceTheJobWasChangedOtherwise) {
  stand(shelf_, open(), {"bed +2 courses"}, at(8, 21));
  (void)shelf_.replace(name, open().document, zones_, at(8, 22));
  EXPECT_EQ(code_of([&] { (void)keep_trial(shelf_, open(), zones_, at(8, 23)); }), "job-changed");
  EXPECT_EQ(courses_of_the_bed(), 3);
}

TEST_F(Trial, WhatIsDugIsChangedNoMoreButMayStillGrow) {
  log(works::Done{"bed-dig", works::Whole{}}, at(9, 12));
  const auto refused = [&](const std::string& change) {
    return code_of([&] { (void)try_on(open(), {change}, zones_, at(9, 13)); });
  };
  EXPECT_EQ(refused("bed length 4 m"), "begun-already");
  EXPECT_EQ(refused("turn bed"), "begun-already");
  EXPECT_EQ(refused("without bed"), "begun-already");
  EXPECT_EQ(refused("bed +2 courses"), "");
  EXPECT_EQ(refused("bed brick common"), "");
  EXPECT_EQ(refused("turn shelter"), "") << "of which nothing is begun";
}

TEST(TrialOfAFile, BothSidesArePlannedThroughTheSameWeathersAndMeasuredAsTheJobWouldBe) {
  const files::SystemZones zones;
  OpenJob open = open_job(demo + "job.json", zones);
  const files::Altered altered = try_on(open, {"bed +2 courses"}, zones, at(9, 4));
  auto forecasts = read_forecasts({demo + "forecast-day1.json"}, open.job.site);
  const PlannedTrip trip =
      plan_trip(std::move(open), {std::move(forecasts), std::nullopt, {}, false, {}}, at(9, 4));
  const auto facts = tried(trip, altered, nullptr, 1);
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->before.result.plan.home, trip.result.plan.home) << "the plan of the job is the plan shown";
  EXPECT_EQ(facts->before.result.outlook->each, trip.result.outlook->each);
  works::Job by_hand = trip.open.job;
  std::get<works::Bed>(by_hand.parts[1]).courses = 5;
  EXPECT_EQ(facts->after.bill.bricks, works::bill_of(by_hand).bricks);
  EXPECT_GT(facts->after.work, facts->before.work);
  EXPECT_FALSE(facts->advice.empty()) << "half a brick holds no 525 mm of soil";
  EXPECT_TRUE(facts->name.empty());
}

}  // namespace
}  // namespace weatherstruck::desk
