#include "weatherstruck/trade/cautions.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <set>

#include "weatherstruck/base/text.h"

namespace weatherstruck::trade {
namespace {

LimitValues uk() {
  return limits_for(LimitSet::uk, ColdRule::nbs).values;
}

std::vector<Hazard> chosen(const DayFacts& day, std::size_t most = 2) {
  std::vector<Hazard> hazards;
  for (const CautionRow* row : choose_cautions(day, uk(), most))
    hazards.push_back(row->hazard);
  return hazards;
}

using Hazards = std::vector<Hazard>;

TEST(Cautions, AreShortAndSayWhereTheyComeFrom) {
  std::set<std::string_view> keys;
  for (const CautionRow& row : cautions()) {
    keys.insert(row.key);
    EXPECT_LE(base::display_width(row.text), 150U) << row.key;
    EXPECT_FALSE(row.source.text.empty()) << row.key;
    EXPECT_EQ(row.text.back(), '.') << row.key;
    EXPECT_EQ(&row_for(row.hazard, row.set.value_or(LimitSet::uk)), &row);
    EXPECT_EQ(&row_for(row.hazard, row.set.value_or(LimitSet::us)), &row);
  }
  EXPECT_EQ(keys.size(), 10U);
}

TEST(Cautions, SpeakOfTheCountryWhoseLimitsHold) {
  DayFacts day;
  day.power_tools_wet = true;
  day.first_digging = true;
  day.operations = {Operation::dig};
  const auto texts = [&](LimitSet set) {
    day.set = set;
    std::string all;
    for (const CautionRow* row : choose_cautions(day, limits_for(set, ColdRule::nbs).values, 9))
      all.append(row->text);
    return all;
  };
  EXPECT_NE(texts(LimitSet::us).find("call 811"), std::string::npos);
  EXPECT_NE(texts(LimitSet::us).find("ground-fault"), std::string::npos);
  EXPECT_EQ(texts(LimitSet::us).find("110 V"), std::string::npos);
  EXPECT_NE(texts(LimitSet::uk).find("110 V"), std::string::npos);
  EXPECT_EQ(texts(LimitSet::uk).find("811"), std::string::npos);
}

TEST(Cautions, AQuietDayCallsForNone) {
  EXPECT_EQ(chosen(DayFacts{}), Hazards{});
}

TEST(Cautions, APourCallsForWetCement) {
  DayFacts day;
  day.operations = {Operation::pour};
  EXPECT_EQ(chosen(day), Hazards{Hazard::wet_cement});
}

TEST(Cautions, ADeepTrenchComesBeforeEverything) {
  DayFacts day;
  day.operations = {Operation::dig, Operation::pour};
  day.first_digging = true;
  day.deepest_trench = base::Metres(1.0);
  EXPECT_EQ(chosen(day), (Hazards{Hazard::trench_side, Hazard::buried_services}));
}

TEST(Cautions, ATrenchBesideAWallCountsAtAnyDepth) {
  DayFacts day;
  day.deepest_trench = base::Metres(0.4);
  EXPECT_EQ(chosen(day), Hazards{});
  day.trench_beside_wall = true;
  EXPECT_EQ(chosen(day), Hazards{Hazard::trench_side});
}

TEST(Cautions, ThirteenHoursOfWorkAndDrivingCallForRest) {
  DayFacts day;
  day.drive = base::Hours(1.5);
  day.work_and_drive = base::Hours(12.5);
  EXPECT_EQ(chosen(day), Hazards{});
  day.work_and_drive = base::Hours(13);
  EXPECT_EQ(chosen(day), Hazards{Hazard::tired_driving});
}

TEST(Cautions, FollowTheJobsOwnLimits) {
  DayFacts day;
  day.heaviest_lift = base::Kilograms(22);
  EXPECT_EQ(chosen(day), Hazards{});
  const LimitSetting setting{"lift-caution", 20};
  const LimitValues own = limits_for(LimitSet::uk, ColdRule::nbs, std::span(&setting, 1)).values;
  ASSERT_EQ(choose_cautions(day, own).size(), 1U);
  EXPECT_EQ(choose_cautions(day, own)[0]->hazard, Hazard::lifting);
}

RC_GTEST_PROP(Cautions, AreNeverMoreThanAskedNorTwiceTheSame, ()) {
  DayFacts day;
  const int count = *rc::gen::inRange(0, 8);
  for (int i = 0; i < count; ++i) {
    day.operations.push_back(
        static_cast<Operation>(*rc::gen::inRange(0, static_cast<int>(Operation::other) + 1)));
  }
  day.deepest_trench = base::Metres(*rc::gen::inRange(0, 20) / 10.0);
  day.first_digging = *rc::gen::arbitrary<bool>();
  day.cuts = *rc::gen::arbitrary<bool>();
  day.canopy_up = *rc::gen::arbitrary<bool>();
  day.highest_gust = base::MetresPerSecond(*rc::gen::inRange(0, 25));
  day.heaviest_lift = base::Kilograms(*rc::gen::inRange(0, 60));
  const auto most = static_cast<std::size_t>(*rc::gen::inRange(0, 5));
  const Hazards hazards = chosen(day, most);
  RC_ASSERT(hazards.size() <= most);
  RC_ASSERT(std::set<Hazard>(hazards.begin(), hazards.end()).size() == hazards.size());
}

}  // namespace
}  // namespace weatherstruck::trade
