#include "weatherstruck/render/morning_lines.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::ElementsAre;

TEST(MorningLines, HoldEachPartOnceAndInOrder) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  facts.remarks = {"Look twice."};
  const MorningLines lines = morning_lines(facts, {0, {&trade::row_for(trade::Hazard::wet_cement)}});
  EXPECT_EQ(lines.title, "Morning sheet, Mon 9 Feb");
  EXPECT_EQ(lines.which, "day 1 of 2");
  std::vector<MorningPart> parts;
  for (const auto& section : lines.sections)
    parts.push_back(section.part);
  EXPECT_THAT(
      parts, ElementsAre(MorningPart::light, MorningPart::weather, MorningPart::tonight, MorningPart::tasks,
                         MorningPart::leave, MorningPart::cover, MorningPart::needs, MorningPart::by_tonight,
                         MorningPart::home, MorningPart::stands_on, MorningPart::mind, MorningPart::caution));
  EXPECT_EQ(lines.find(MorningPart::canopy), nullptr);
  ASSERT_NE(lines.find(MorningPart::tasks), nullptr);
  const auto& rows = lines.find(MorningPart::tasks)->rows;
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[2].letter, 'c');
  EXPECT_EQ(rows[2].time, "14:00-15:30");
  EXPECT_EQ(rows[2].task, "wall-pour");
}

TEST(MorningLines, SetYesterdaysHoursInHandBesideTodays) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  const auto home = [&] { return morning_lines(facts, {0, {}}).find(MorningPart::home)->sentences.front(); };
  programme::Plan before = trip.plan;
  facts.before = &before;
  EXPECT_EQ(home(), "7 h (as yesterday): home about Tue 13:00, promised 20:00");
  before.in_hand = std::chrono::hours(9);
  EXPECT_EQ(home(), "7 h (yesterday 9 h): home about Tue 13:00, promised 20:00");
  before.in_hand = -std::chrono::hours(1);
  EXPECT_EQ(home(), "7 h (yesterday 1 h late): home about Tue 13:00, promised 20:00");
  before.home.reset();
  EXPECT_EQ(home(), "7 h (yesterday none): home about Tue 13:00, promised 20:00");
}

TEST(MorningLines, ADayWithNothingInItSaysSo) {
  sample::Trip trip = sample::trip();
  trip.plan.tasks[0].runs[0].span = {at(8, 6), at(8, 7)};
  for (std::size_t i = 1; i < 3; ++i)
    trip.plan.tasks[i].runs = {};
  trip.plan.tasks[3].runs.erase(trip.plan.tasks[3].runs.begin());
  trip.plan.covers.clear();
  const TripFacts facts = trip.facts();
  const MorningLines lines = morning_lines(facts, {1, {}});
  ASSERT_NE(lines.find(MorningPart::tasks), nullptr);
  EXPECT_THAT(lines.find(MorningPart::tasks)->sentences, ElementsAre("nothing planned today"));
}

}  // namespace
}  // namespace weatherstruck::render
