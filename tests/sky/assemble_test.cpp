#include "weatherstruck/sky/assemble.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::sky {
namespace {

using base::Instant;
using base::Millimetres;
using std::chrono::hours;
using std::chrono::minutes;
using ::testing::ElementsAre;

const Instant kNoon = Instant(std::chrono::days(20000)) + hours(12);

std::vector<double> rain_of(const Series& series) {  // -1 where there is no value
  std::vector<double> out;
  for (const Hour& hour : series.hours)
    out.push_back(hour.rain ? hour.rain->value.value() : -1.0);
  return out;
}

std::vector<double> numbers(const std::vector<Millimetres>& parts) {
  std::vector<double> out;
  for (const Millimetres part : parts)
    out.push_back(part.value());
  return out;
}

bool has_note(const Series& series, const std::string& code) {
  return std::any_of(series.notes.begin(), series.notes.end(),
                     [&](const SeriesNote& note) { return note.code == code; });
}

TEST(SplitTotal, SharesByWeightAndGivesTheRestToTheLargestRemainders) {
  const double even[] = {1, 1, 1, 1, 1, 1};
  EXPECT_THAT(numbers(split_total(Millimetres(2.0), even)), ElementsAre(0.4, 0.4, 0.3, 0.3, 0.3, 0.3));
  const double uneven[] = {0, 1, 3};
  EXPECT_THAT(numbers(split_total(Millimetres(1.2), uneven)), ElementsAre(0.0, 0.3, 0.9));
}

TEST(SplitTotal, GivesNothingToAPartOfNoWeight) {
  const double weights[] = {0, 1, 0};
  EXPECT_THAT(numbers(split_total(Millimetres(0.3), weights)), ElementsAre(0.0, 0.3, 0.0));
}

TEST(SplitTotal, RefusesWhatCannotBeSplit) {
  const double none[] = {0.0, 0.0};
  const double negative[] = {1.0, -1.0};
  const double one[] = {1.0};
  EXPECT_THROW((void)split_total(Millimetres(1), none), std::invalid_argument);
  EXPECT_THROW((void)split_total(Millimetres(1), negative), std::invalid_argument);
  EXPECT_THROW((void)split_total(Millimetres(-1), one), std::invalid_argument);
  EXPECT_THROW((void)split_total(Millimetres(std::numeric_limits<double>::quiet_NaN()), one),
               std::invalid_argument);
}

RC_GTEST_PROP(SplitTotal, NeverChangesTheTotal, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 30);
  std::vector<double> weights;
  for (std::size_t i = 0; i < count; ++i)
    weights.push_back(*rc::gen::inRange(0, 50) * 0.37);
  RC_PRE(std::any_of(weights.begin(), weights.end(), [](double w) { return w > 0; }));
  const Millimetres total(*rc::gen::inRange(0, 300000) * 0.001);
  long long tenths = 0;
  for (const Millimetres part : split_total(total, weights)) {
    RC_ASSERT(part.value() >= 0);
    tenths += std::llround(part.value() * 10.0);
  }
  RC_ASSERT(tenths == std::llround(quantised(total).value() * 10.0));
}

TEST(SeriesBuilder, InterpolatesBetweenReadingsAndSaysSo) {
  SeriesBuilder builder(kNoon, kNoon + hours(7));
  builder.moments(Layer::temperature, {{kNoon + hours(6), 11.0}, {kNoon, 5.0}}, hours(6));
  const Series series = builder.finish({});
  ASSERT_EQ(series.hours.size(), 7U);
  EXPECT_EQ(series.hours[0].temperature->origin, Origin::given);
  for (std::size_t i = 0; i <= 6; ++i) {
    EXPECT_DOUBLE_EQ(series.hours[i].temperature->value.value(), 5.0 + static_cast<double>(i));
  }
  EXPECT_EQ(series.hours[3].temperature->origin, Origin::held);
  EXPECT_TRUE(has_note(series, "held"));
}

TEST(SeriesBuilder, DoesNotBridgeAGapLongerThanAllowed) {
  SeriesBuilder builder(kNoon, kNoon + hours(8));
  builder.moments(Layer::wind, {{kNoon, 5.0}, {kNoon + hours(7), 5.0}}, hours(6));
  const Series series = builder.finish({});
  ASSERT_EQ(series.hours.size(), 8U);
  for (std::size_t i = 1; i < 7; ++i)
    EXPECT_FALSE(series.hours[i].wind);
  EXPECT_TRUE(has_note(series, "gap"));
}

TEST(SeriesBuilder, TakesReadingsBesideTheHourByInterpolation) {
  SeriesBuilder builder(kNoon, kNoon + hours(1));
  builder.moments(Layer::temperature, {{kNoon - minutes(10), 4.0}, {kNoon + minutes(10), 5.0}}, hours(1));
  EXPECT_DOUBLE_EQ(builder.finish({}).hours.at(0).temperature->value.value(), 4.5);
}

TEST(SeriesBuilder, HoldsAValueOverItsInterval) {
  SeriesBuilder builder(kNoon, kNoon + hours(4));
  builder.holding(Layer::cloud, {{kNoon, kNoon + hours(3), 0.5}, {kNoon + hours(3), kNoon + hours(4), 0.9}});
  const Series series = builder.finish({});
  EXPECT_EQ(series.hours[2].cloud->origin, Origin::held);
  EXPECT_DOUBLE_EQ(series.hours[2].cloud->value.value(), 0.5);
  EXPECT_EQ(series.hours[3].cloud->origin, Origin::given);
}

TEST(SeriesBuilder, TheIntervalThatCoversMostOfAnHourWins) {
  SeriesBuilder builder(kNoon, kNoon + hours(2));
  builder.holding(Layer::wind,
                  {{kNoon, kNoon + minutes(20), 9.0}, {kNoon + minutes(20), kNoon + hours(2), 3.0}});
  EXPECT_DOUBLE_EQ(builder.finish({}).hours[0].wind->value.value(), 3.0);
}

TEST(SeriesBuilder, SplitsATotalOverItsHoursWithoutChangingIt) {
  SeriesBuilder builder(kNoon, kNoon + hours(7));
  builder.rain_totals({{kNoon + hours(1), kNoon + hours(7), 2.04}, {kNoon, kNoon + hours(1), 0.3}});
  const Series series = builder.finish({});
  EXPECT_THAT(rain_of(series), ElementsAre(0.3, 0.4, 0.4, 0.3, 0.3, 0.3, 0.3));
  EXPECT_EQ(series.hours[0].rain->origin, Origin::given);
  EXPECT_EQ(series.hours[1].rain->origin, Origin::split);
  EXPECT_TRUE(has_note(series, "split"));
}

TEST(SeriesBuilder, AddsShortPiecesBeforeItRounds) {
  SeriesBuilder builder(kNoon, kNoon + hours(1));
  std::vector<Stretch> tens;
  for (int i = 0; i < 6; ++i)
    tens.push_back({kNoon + minutes(10 * i), kNoon + minutes(10 * i + 10), 0.04});
  builder.rain_totals(tens);
  EXPECT_DOUBLE_EQ(builder.finish({}).hours[0].rain->value.value(), 0.2);
}

TEST(SeriesBuilder, AnHourOnlyPartlyCoveredHasNoRainValue) {
  SeriesBuilder builder(kNoon, kNoon + hours(3));
  builder.moments(Layer::temperature, {{kNoon, 1}, {kNoon + hours(1), 1}, {kNoon + hours(2), 1}}, hours(1));
  builder.rain_totals({{kNoon + minutes(30), kNoon + hours(2), 3.0}});
  EXPECT_THAT(rain_of(builder.finish({})), ElementsAre(-1, 2.0, -1));
}

TEST(SeriesBuilder, RefusesOverlappingAndNegativeRain) {
  SeriesBuilder builder(kNoon, kNoon + hours(3));
  EXPECT_THROW(builder.rain_totals({{kNoon, kNoon + hours(2), 1}, {kNoon + hours(1), kNoon + hours(3), 1}}),
               std::invalid_argument);
  EXPECT_THROW(builder.rain_totals({{kNoon, kNoon + hours(2), -1}}), std::invalid_argument);
  EXPECT_THROW(SeriesBuilder(kNoon, kNoon), std::invalid_argument);
  EXPECT_THROW(SeriesBuilder(kNoon, kNoon + kLongestSeries + hours(1)), std::invalid_argument);
}

TEST(SeriesBuilder, ALayerThatEndsEarlyIsMissingAndNotZero) {
  SeriesBuilder builder(kNoon, kNoon + hours(4));
  builder.holding(Layer::temperature, {{kNoon, kNoon + hours(4), 3.0}});
  builder.rain_totals({{kNoon, kNoon + hours(2), 0.0}});
  const Series series = builder.finish({});
  EXPECT_THAT(rain_of(series), ElementsAre(0, 0, -1, -1));
  ASSERT_TRUE(has_note(series, "ends-early"));
  for (const SeriesNote& note : series.notes) {
    if (note.code == "ends-early") {
      EXPECT_EQ(note.text,
                "rain known only until 2024-10-04 14:00 UTC, the series runs until 2024-10-04 16:00 UTC");
    }
  }
}

TEST(SeriesBuilder, AHoleInOneLayerIsTold) {
  SeriesBuilder builder(kNoon, kNoon + hours(3));
  builder.holding(Layer::temperature, {{kNoon, kNoon + hours(3), 3.0}});
  builder.rain_totals({{kNoon, kNoon + hours(1), 0.0}, {kNoon + hours(2), kNoon + hours(3), 1.0}});
  const Series series = builder.finish({});
  ASSERT_TRUE(has_note(series, "gap"));
  EXPECT_FALSE(has_note(series, "ends-early"));
}

TEST(SeriesBuilder, ALayerThatIsNotThereAtAllIsTold) {
  SeriesBuilder builder(kNoon, kNoon + hours(1));
  builder.holding(Layer::temperature, {{kNoon, kNoon + hours(1), 3.0}});
  std::vector<std::string> told;
  for (const SeriesNote& note : builder.finish({}).notes)
    told.push_back(note.text);
  EXPECT_THAT(told, ElementsAre("wind not given at all", "rain not given at all"));
}

TEST(SeriesBuilder, TheChanceStaysTheChanceOfTheWholeInterval) {
  SeriesBuilder builder(kNoon, kNoon + hours(6));
  builder.rain_chances({{kNoon, kNoon + hours(6), 0.4}});
  const Series series = builder.finish({});
  for (const Hour& hour : series.hours) {
    EXPECT_DOUBLE_EQ(hour.rain_chance->value.value(), 0.4);
    EXPECT_EQ(hour.rain_chance->origin, Origin::split);
  }
}

TEST(SeriesBuilder, DerivesGustsOnlyWhereThereAreNone) {
  SeriesBuilder builder(kNoon, kNoon + hours(2));
  builder.holding(Layer::wind, {{kNoon, kNoon + hours(2), 6.0}});
  builder.holding(Layer::gust, {{kNoon, kNoon + hours(1), 9.0}});
  builder.derive_gusts(GustFactor::inland);
  const Series series = builder.finish({});
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 9.0);
  EXPECT_EQ(series.hours[0].gust->origin, Origin::given);
  EXPECT_DOUBLE_EQ(series.hours[1].gust->value.value(), 14.0);  // 6 x 2.33 = 13.98
  EXPECT_EQ(series.hours[1].gust->origin, Origin::derived);
  EXPECT_TRUE(has_note(series, "derived-gust"));
}

TEST(SeriesBuilder, DropsEmptyHoursAtBothEnds) {
  SeriesBuilder builder(kNoon - hours(5), kNoon + hours(5));
  builder.holding(Layer::wind, {{kNoon, kNoon + hours(1), 6.0}});
  const Series series = builder.finish({});
  ASSERT_EQ(series.hours.size(), 1U);
  EXPECT_EQ(series.begin_time(), kNoon);
}

Series flat(Instant from, int count, double temperature, std::optional<double> rain,
            std::optional<Instant> issued) {
  SeriesBuilder builder(from, from + hours(count));
  builder.holding(Layer::temperature, {{from, from + hours(count), temperature}});
  if (rain) builder.rain_totals({{from, from + hours(count), *rain * count}});
  Series heading;
  heading.issued = issued;
  heading.source = issued ? "dated" : "undated";
  return builder.finish(heading);
}

TEST(Join, TheLaterIssueWinsWhicheverComesFirst) {
  const Series old_one = flat(kNoon, 4, 3, 0.0, kNoon - hours(24));
  const Series new_one = flat(kNoon + hours(2), 4, 8, 0.5, kNoon);
  for (const Series& both : {join(old_one, new_one), join(new_one, old_one)}) {
    ASSERT_EQ(both.hours.size(), 6U);
    EXPECT_DOUBLE_EQ(both.hours[1].temperature->value.value(), 3);
    EXPECT_DOUBLE_EQ(both.hours[2].temperature->value.value(), 8);
    EXPECT_EQ(both.issued, new_one.issued);
  }
}

TEST(Join, AnUndatedSecondWins) {
  EXPECT_DOUBLE_EQ(join(flat(kNoon, 1, 3, 0, kNoon), flat(kNoon, 1, 8, 0, std::nullopt))
                       .hours[0]
                       .temperature->value.value(),
                   8);
}

TEST(Join, WhatTheLaterDoesNotHaveComesFromTheEarlier) {
  const Series both = join(flat(kNoon, 2, 3, 0.7, kNoon), flat(kNoon, 2, 8, std::nullopt, kNoon + hours(1)));
  EXPECT_DOUBLE_EQ(both.hours[0].temperature->value.value(), 8);
  EXPECT_DOUBLE_EQ(both.hours[0].rain->value.value(), 0.7);
}

TEST(Join, FillsTheHoursBetweenWithRecordsWithoutValues) {
  const Series both = join(flat(kNoon, 2, 3, 0, kNoon), flat(kNoon + hours(4), 2, 8, 0, kNoon + hours(1)));
  ASSERT_EQ(both.hours.size(), 6U);
  EXPECT_EQ(both.hours[2].start, kNoon + hours(2));
  EXPECT_FALSE(both.hours[2].temperature || both.hours[3].rain);
  EXPECT_TRUE(has_note(both, "gap"));
}

TEST(Join, AGustComesFromTheSeriesOfItsWind) {
  SeriesBuilder a(kNoon, kNoon + hours(1));
  a.holding(Layer::wind, {{kNoon, kNoon + hours(1), 9}});
  a.holding(Layer::gust, {{kNoon, kNoon + hours(1), 20}});
  SeriesBuilder b(kNoon, kNoon + hours(1));
  b.holding(Layer::wind, {{kNoon, kNoon + hours(1), 2}});
  const Series both = join(a.finish({}), b.finish({}));
  EXPECT_DOUBLE_EQ(both.hours[0].wind->value.value(), 2);
  EXPECT_FALSE(both.hours[0].gust);
}

TEST(Join, EachHourSaysWhereItCameFrom) {
  Series old = flat(kNoon, 4, 3, 0.5, kNoon);
  old.source = "old";
  old.attribution = "of old";
  Series fresh = flat(kNoon + hours(2), 3, 5, 0, kNoon + hours(1));
  fresh.source = "new";
  fresh.attribution = "of new";
  fresh.hours[1].rain.reset();
  const Series both = join(old, fresh);
  ASSERT_EQ(both.parts.size(), 2U);
  const auto from = [&](std::size_t i) { return both.parts[both.hours[i].part].source; };
  EXPECT_EQ(from(0), "old");
  EXPECT_EQ(from(1), "old");
  EXPECT_EQ(from(2), "new");
  EXPECT_FALSE(both.hours[2].filled_from);
  EXPECT_EQ(from(3), "new");
  EXPECT_EQ(both.parts[*both.hours[3].filled_from].source, "old");  // its rain
  EXPECT_EQ(from(4), "new");
  EXPECT_EQ(both.attribution, "of new; of old");
  // A third joined on: what the parts were called stays.
  Series third = flat(kNoon + hours(4), 2, 7, 0, kNoon + hours(2));
  third.source = "third";
  const Series all = join(both, third);
  EXPECT_EQ(all.parts[all.hours[0].part].source, "old");
  EXPECT_EQ(all.parts[all.hours[2].part].source, "new");
  EXPECT_EQ(all.parts[all.hours[5].part].source, "third");
}

TEST(Join, WhatIsOfNoUseAsksForNoAttribution) {
  Series old = flat(kNoon, 2, 3, 0.5, kNoon);
  old.attribution = "of old";
  Series fresh = flat(kNoon, 2, 5, 0, kNoon + hours(1));
  fresh.attribution = "of new";
  EXPECT_EQ(join(old, fresh).attribution, "of new");
}

TEST(Join, WhatWasMeasuredIsNotForecastAnew) {
  Series night = flat(kNoon, 2, 3, 0.5, kNoon);
  for (Hour& hour : night.hours)
    hour.temperature->origin = Origin::measured;
  const Series both = join(night, flat(kNoon, 4, 9, 0, kNoon + hours(3)));
  EXPECT_DOUBLE_EQ(both.hours[0].temperature->value.value(), 3);
  EXPECT_DOUBLE_EQ(both.hours[0].rain->value.value(), 0);  // that was a forecast
  EXPECT_DOUBLE_EQ(both.hours[2].temperature->value.value(), 9);
}

TEST(Derived, AChanceOfRainComesFromTheAmountAndFadesAndIsMarked) {
  SeriesBuilder builder(kNoon, kNoon + hours(48));
  builder.rain_totals({{kNoon, kNoon + hours(1), 0}, {kNoon + hours(1), kNoon + hours(2), 2}});
  builder.rain_chances({{kNoon + hours(1), kNoon + hours(2), 0.5}});
  builder.derive_rain_chances(std::nullopt);
  builder.derive_rain_chances(kNoon);
  const Series series = builder.finish({});
  EXPECT_DOUBLE_EQ(series.hours[0].rain_chance->value.value(), 0.03);
  EXPECT_EQ(series.hours[0].rain_chance->origin, Origin::derived);
  EXPECT_DOUBLE_EQ(series.hours[1].rain_chance->value.value(), 0.5);
  EXPECT_TRUE(has_note(series, "derived-chance"));
  // 0.115 + (0.92 - 0.115) / e four days ahead.
  EXPECT_NEAR(usual_chance(base::Millimetres(2), 4, kWetHours), 0.411, 0.001);
  EXPECT_NEAR(usual_chance(base::Millimetres(0), 400, kWetHours), 0.115, 0.001);
}

TEST(SeriesBuilder, ErrorsAreCarriedBetweenTheStepsLikeTheirValues) {
  SeriesBuilder builder(kNoon, kNoon + hours(7));
  builder.moments(Layer::temperature, {{kNoon, 4}, {kNoon + hours(6), 4}}, hours(6));
  builder.errors(Layer::temperature, {{kNoon, 1}, {kNoon + hours(6), 2}}, hours(6));
  const Series series = builder.finish({});
  EXPECT_DOUBLE_EQ(series.hours[3].temperature_error->value.value(), 1.5);
  EXPECT_EQ(series.hours[3].temperature_error->origin, Origin::held);
  EXPECT_THROW(builder.errors(Layer::cloud, {}, hours(1)), std::invalid_argument);
}

TEST(Join, WithNothingIsTheOther) {
  const Series one = flat(kNoon, 2, 3, 0, kNoon);
  EXPECT_EQ(join(one, Series{}).hours.size(), 2U);
  EXPECT_EQ(join(Series{}, one).hours.size(), 2U);
}

TEST(Cut, KeepsTheHoursThatTouchTheSpan) {
  const Series part = cut(flat(kNoon, 6, 3, 0, kNoon), kNoon + minutes(90), kNoon + hours(3));
  ASSERT_EQ(part.hours.size(), 2U);
  EXPECT_EQ(part.begin_time(), kNoon + hours(1));
  EXPECT_TRUE(cut(part, kNoon + hours(9), kNoon + hours(10)).empty());
}

}  // namespace
}  // namespace weatherstruck::sky
