#include "weatherstruck/render/trip.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::ElementsAre;

TEST(TripDays, LetterTheTasksOfEachDayByTheirStart) {
  const sample::Trip trip = sample::trip();
  const auto days = trip_days(trip.facts());
  ASSERT_EQ(days.size(), 2U);
  ASSERT_EQ(days[0].tasks.size(), 4U);
  EXPECT_EQ(days[0].tasks[1].letter, 'b');
  EXPECT_EQ(days[0].tasks[1].task, 1U);
  EXPECT_EQ(days[0].tasks[1].runs.size(), 2U);
  EXPECT_EQ(days[1].number, 2);
  EXPECT_TRUE(days[1].tasks[0].begun_before);
  EXPECT_TRUE(days[0].tasks[3].goes_on);
}

TEST(TripDays, CutARunAtMidnightAndShareItByTime) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[4].runs = {{{at(10, 23), at(11, 1)}, 1, 0}};
  const auto days = trip_days(trip.facts());
  ASSERT_EQ(days.size(), 3U);
  EXPECT_DOUBLE_EQ(days[1].tasks.back().share, 0.5);
  EXPECT_DOUBLE_EQ(days[2].tasks.front().share, 0.5);
  EXPECT_EQ(days[2].tasks.front().finish(), at(11, 1));
  EXPECT_THAT(hours_of(trip.facts(), days[1].tasks.back()), ElementsAre("23:00-24:00"));
}

TEST(TripDays, TasksAreFoundByNameAndByDayAndLetter) {
  const sample::Trip trip = sample::trip();
  EXPECT_EQ(find_task(trip.facts(), "wall-pour"), 2U);
  EXPECT_EQ(find_task(trip.facts(), "mon-c"), 2U);
  EXPECT_EQ(find_task(trip.facts(), "Tue-a"), 3U);
  EXPECT_EQ(find_task(trip.facts(), "tue-z"), std::nullopt);
  EXPECT_EQ(find_task(trip.facts(), "wall"), std::nullopt);
}

TEST(TripDays, SayWhatOfATaskFallsOnADay) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  EXPECT_EQ(portion(facts, days[0].tasks[0]), "");
  EXPECT_EQ(portion(facts, days[0].tasks[3]), "to course 3 of 6");
  EXPECT_EQ(portion(facts, days[1].tasks[0]), "to course 6 of 6");
  EXPECT_EQ(words_for(facts, days[0].tasks[1]), "Dig the trench of the wall (0.5 m3); again 09:30-10:45");
  EXPECT_EQ(words_for(facts, days[0].tasks[3]), "Lay the wall (120 facing bricks), to course 3 of 6; lights");
  EXPECT_EQ(words_for(facts, days[1].tasks[0]), "Lay the wall (120 facing bricks), to course 6 of 6; canopy");
}

TEST(TripDays, LeaveOutSizesThatDoNotFit) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  EXPECT_EQ(words_in(facts, days[0].tasks[2], 60), "Pour the footing of the wall (0.3 m3, 4 mixes)");
  EXPECT_EQ(words_in(facts, days[0].tasks[2], 40), "Pour the footing of the wall");
  EXPECT_EQ(words_in(facts, days[0].tasks[3], 50), "Lay the wall, to course 3 of 6; lights");
}

TEST(TripDays, JoinStretchesThatLeaveNoQuarterBetweenThem) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[1].runs[1].span.from = at(9, 9, 5);
  const auto days = trip_days(trip.facts());
  EXPECT_THAT(hours_of(trip.facts(), days[0].tasks[1]), ElementsAre("07:00-10:45"));
}

TEST(TripDays, TellWhatIsLeftAloneAndWhatComesThen) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const auto days = trip_days(facts);
  EXPECT_THAT(left_alone(facts, days[0], true),
              ElementsAre("the footing of the wall until about 08:45 tomorrow (a boot heel leaves no mark)"));
  EXPECT_THAT(left_alone(facts, days[1], true), ElementsAre());
  EXPECT_THAT(left_alone(facts, days[1], false),
              ElementsAre("the footing of the wall until about 08:45 (a boot heel leaves no mark)"));
}

TEST(TripDays, WhatIsReadyInTheNightIsLeftUntilMorning) {
  const sample::Trip trip = sample::trip();
  const base::LocalDay monday = trip.job.site.zone.day_of(at(9, 12));
  // The working day is from seven to seven.
  EXPECT_EQ(until_when(trip.job, monday, at(9, 17, 20)), "about 17:15");
  EXPECT_EQ(until_when(trip.job, monday, at(9, 22, 10)), "tomorrow morning");
  EXPECT_EQ(until_when(trip.job, monday, at(10, 4)), "tomorrow morning");
  EXPECT_EQ(until_when(trip.job, monday, at(10, 8, 50)), "about 08:45 tomorrow");
  EXPECT_EQ(until_when(trip.job, monday, at(12, 2)), "Thu morning");
}

TEST(TripDays, HeadAPlanThatFailsItsCheck) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  EXPECT_EQ(warning(facts), "");
  facts.sound = false;
  EXPECT_EQ(warning(facts), "THIS PLAN FAILS ITS OWN CHECK. DO NOT FOLLOW IT.");
}

}  // namespace
}  // namespace weatherstruck::render
