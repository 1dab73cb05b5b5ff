// No published table says how a reading on site corrects a forecast: the rule is ours and stands in the
// header; every value here is worked by hand from it.
#include "weatherstruck/sky/observed.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <chrono>
#include <cmath>

namespace weatherstruck::sky {
namespace {

using base::Celsius;
using base::Instant;
using base::Millimetres;
using namespace std::chrono_literals;

constexpr Instant midnight = std::chrono::sys_days(
    std::chrono::year_month_day(std::chrono::year(2026), std::chrono::February, std::chrono::day(10)));

Instant at(int hour, int minute = 0) {
  return midnight + std::chrono::hours(hour) + std::chrono::minutes(minute);
}

/// Hours 0 .. n-1 at 4 degrees and with the rain given; nothing beyond it.
Series series_of(const std::vector<double>& rain) {
  Series series;
  for (std::size_t i = 0; i < rain.size(); ++i) {
    Hour hour;
    hour.start = at(static_cast<int>(i));
    hour.temperature = {Celsius(4), Origin::given};
    if (rain[i] >= 0) hour.rain = {Millimetres(rain[i]), Origin::given};
    series.hours.push_back(hour);
  }
  return series;
}
Series dry(std::size_t hours) {
  return series_of(std::vector<double>(hours, 0.0));
}

std::vector<double> temperatures(const Series& series) {
  std::vector<double> all;
  for (const Hour& hour : series.hours)
    all.push_back(hour.temperature ? hour.temperature->value.value() : std::nan(""));
  return all;
}
std::vector<double> rain_of(const Series& series) {
  std::vector<double> all;
  for (const Hour& hour : series.hours)
    all.push_back(hour.rain ? hour.rain->value.value() : -1);
  return all;
}
Observed with_thermometer(const Series& series, std::vector<TemperatureReading> readings) {
  return observe(series, readings, {});
}
Observed with_gauge(const Series& series, std::vector<RainReading> readings) {
  return observe(series, {}, readings);
}
void expect_all_near(const std::vector<double>& found, const std::vector<double>& wanted) {
  ASSERT_EQ(found.size(), wanted.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    EXPECT_NEAR(found[i], wanted[i], 1e-9) << "hour " << i;
}

TEST(Thermometer, ShiftsTheHoursRoundItAndFadesWithinSixHours) {
  // At 12:00 exactly it is 1 degree where 4 was forecast: 3 K less. Hour 12 holds it. Hour 13 begins an hour
  // later: weight (6-1)/5 = 1, hour 14 4/5, 15 3/5, 16 2/5, 17 1/5, 18 nothing. Hour 11 ends at 12:00, off 0:
  // all; hour 10 ends an hour before: all; hours 9, 8, 7, 6: 4/5, 3/5, 2/5, 1/5; hour 5 nothing.
  const Observed seen = with_thermometer(dry(20), {{at(12), Celsius(1)}});
  expect_all_near(temperatures(seen.series),
                  {4, 4, 4, 4, 4, 4, 3.4, 2.8, 2.2, 1.6, 1, 1, 1, 1, 1.6, 2.2, 2.8, 3.4, 4, 4});
  EXPECT_EQ(seen.series.hours[12].temperature->origin, Origin::measured);
  EXPECT_EQ(seen.series.hours[13].temperature->origin, Origin::measured);
  EXPECT_EQ(seen.series.hours[14].temperature->origin, Origin::derived);
  EXPECT_EQ(seen.series.hours[18].temperature->origin, Origin::given);
  ASSERT_EQ(seen.series.notes.size(), 1U);
  EXPECT_EQ(seen.series.notes[0].code, "measured");
  EXPECT_EQ(seen.series.seen, (SeenError{at(12), base::Kelvins(-3)}));
}

TEST(Thermometer, OfTwoReadingsTheHoursBetweenTakeBothByTheirWeights) {
  // 6:00 reads 2 K less, 12:00 reads 4 K less. Hour 8 (8:00 to 9:00): 2 h from the first, weight 4/5; 3 h
  // from the second, weight 3/5; together 1.4, so (0.8*-2 + 0.6*-4) / 1.4 = -4/1.4 = -2.857: 1.1 degrees.
  // Readings 8 h apart, 6:00 and 14:00, hour 9: 3 h from 6:00 weight 3/5, 4 h from 14:00 weight 2/5: together
  // 1, 0.6*-2 + 0.4*-4 = -2.8: 1.2 degrees.
  const Observed near = with_thermometer(dry(20), {{at(12), Celsius(0)}, {at(6), Celsius(2)}});
  EXPECT_NEAR(near.series.hours[8].temperature->value.value(), 1.1, 1e-9);
  EXPECT_NEAR(near.series.hours[6].temperature->value.value(), 2, 1e-9);
  EXPECT_NEAR(near.series.hours[12].temperature->value.value(), 0, 1e-9);
  const Observed far = with_thermometer(dry(20), {{at(6), Celsius(2)}, {at(14), Celsius(0)}});
  EXPECT_NEAR(far.series.hours[9].temperature->value.value(), 1.2, 1e-9);
}

TEST(Thermometer, OfSeveralInAnHourTheMeanCounts) {
  const Observed seen = with_thermometer(dry(20), {{at(9, 10), Celsius(1)}, {at(9, 50), Celsius(2)}});
  EXPECT_NEAR(seen.series.hours[9].temperature->value.value(), 1.5, 1e-9);
}

TEST(Thermometer, GivesNoTemperatureToHoursThatHadNoneButItsOwn) {
  Series series = dry(6);
  series.hours[2].temperature.reset();
  series.hours[3].temperature.reset();
  const Observed seen = with_thermometer(series, {{at(2, 30), Celsius(-1)}});
  EXPECT_NEAR(seen.series.hours[2].temperature->value.value(), -1, 1e-9);
  EXPECT_FALSE(seen.series.hours[3].temperature);
  EXPECT_NEAR(seen.series.hours[4].temperature->value.value(), 4, 1e-9);
}

TEST(Thermometer, LeavesHoursOfPastYearsMarkedSoWhereItOnlyFades) {
  Series series = dry(12);
  for (Hour& hour : series.hours)
    hour.temperature->origin = Origin::climate;
  const Observed seen = with_thermometer(series, {{at(2), Celsius(0)}});
  EXPECT_EQ(seen.series.hours[2].temperature->origin, Origin::measured);
  EXPECT_EQ(seen.series.hours[5].temperature->origin, Origin::climate);
  EXPECT_LT(seen.series.hours[5].temperature->value.value(), 4);
}

TEST(Gauge, ScalesTheForecastRainToWhatItCaught) {
  // Forecast 1, 2, 1 mm from 1:00 to 4:00; caught 8 mm between 0:00 and 6:00: twice as much, hour by hour.
  const Observed seen = with_gauge(series_of({0, 1, 2, 1, 0, 0, 0.5}), {{at(0), at(6), Millimetres(8)}});
  expect_all_near(rain_of(seen.series), {0, 2, 4, 2, 0, 0, 0.5});
  EXPECT_EQ(seen.series.hours[0].rain->origin, Origin::measured);
  EXPECT_EQ(seen.series.hours[6].rain->origin, Origin::given);
}

TEST(Gauge, SpreadsEvenlyWhereTheForecastWasDry) {
  // 4 mm over 4 h.
  const Observed seen = with_gauge(dry(6), {{at(1), at(5), Millimetres(4)}});
  expect_all_near(rain_of(seen.series), {0, 1, 1, 1, 1, 0});
}

TEST(Gauge, ThatStayedEmptyMakesForecastRainNone) {
  const Observed seen = with_gauge(series_of({1, 2, 3}), {{at(0), at(3), Millimetres(0)}});
  expect_all_near(rain_of(seen.series), {0, 0, 0});
}

TEST(Gauge, LeavesTheRestOfAnHourItCoversInPart) {
  // 2 mm each hour; 3 mm caught from 0:30 to 2:00, of which the forecast had 1 and 2: 1 and 2 again. The half
  // hour before it keeps its 1 mm.
  const Observed seen = with_gauge(series_of({2, 2, 2}), {{at(0, 30), at(2), Millimetres(3)}});
  expect_all_near(rain_of(seen.series), {2, 2, 2});
  const Observed wet = with_gauge(series_of({2, 2, 2}), {{at(0, 30), at(2), Millimetres(6)}});
  expect_all_near(rain_of(wet.series), {3, 4, 2});
}

TEST(Gauge, NotEmptiedBetweenPutsTheDifferenceIntoTheLaterHours) {
  // "4 mm since six", then at noon "6 mm since six": 2 mm from ten to twelve.
  const Observed seen =
      with_gauge(dry(14), {{at(6), at(12), Millimetres(6)}, {at(6), at(10), Millimetres(4)}});
  expect_all_near(rain_of(seen.series), {0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 0, 0});
  EXPECT_TRUE(seen.rain_left_out.empty());
}

TEST(Gauge, WhichSaysLessThanBeforeIsLeftOutAndTold) {
  const RainReading less{at(6), at(12), Millimetres(3)};
  const Observed seen = with_gauge(dry(14), {less, {at(6), at(10), Millimetres(4)}});
  EXPECT_EQ(seen.rain_left_out, std::vector<RainReading>{less});
  expect_all_near(rain_of(seen.series), {0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0, 0});
}

TEST(Gauge, WeighsHoursThatTheForecastDoesNotKnowAsTheMeanOfTheOthers) {
  // 1 mm, unknown, 3 mm: the unknown hour weighs 2; of 12 mm 2, 4, 6.
  const Observed seen = with_gauge(series_of({1, -1, 3}), {{at(0), at(3), Millimetres(12)}});
  expect_all_near(rain_of(seen.series), {2, 4, 6});
}

TEST(Gauge, ReadOutsideTheForecastMakesTheSeriesLonger) {
  // The forecast begins at 0:00; 3 mm from 21:00 the evening before till then.
  const Observed seen = with_gauge(dry(2), {{at(-3), at(0), Millimetres(3)}});
  ASSERT_EQ(seen.series.hours.size(), 5U);
  EXPECT_EQ(seen.series.begin_time(), at(-3));
  expect_all_near(rain_of(seen.series), {1, 1, 1, 0, 0});
  EXPECT_FALSE(seen.series.hours[0].temperature);
}

TEST(Gauge, OfAnotherMonthOrOfNoTimeIsLeftOut) {
  const Observed seen = with_gauge(dry(2), {{at(-24 * 40), at(-24 * 40 + 3), Millimetres(3)},
                                            {at(1), at(1), Millimetres(1)},
                                            {at(0), at(1), Millimetres(-1)}});
  EXPECT_EQ(seen.rain_left_out.size(), 3U);
  EXPECT_EQ(seen.series.hours.size(), 2U);
  EXPECT_TRUE(seen.series.notes.empty());
}

TEST(Gauge, FillsASeriesThatIsEmpty) {
  const Observed seen = with_gauge(Series{}, {{at(1), at(3), Millimetres(1)}});
  expect_all_near(rain_of(seen.series), {0.5, 0.5});
}

RC_GTEST_PROP(Gauge, KeepsItsTotalToATenthWhateverTheForecast, ()) {
  const auto tenths = *rc::gen::container<std::vector<int>>(24, rc::gen::inRange(-1, 60));
  std::vector<double> forecast;
  for (const int t : tenths)
    forecast.push_back(t < 0 ? -1 : t / 10.0);
  const int from = *rc::gen::inRange(0, 23);
  const int to = *rc::gen::inRange(from + 1, 25);
  const int total = *rc::gen::inRange(0, 800);
  const Observed seen = with_gauge(series_of(forecast), {{at(from), at(to), Millimetres(total / 10.0)}});
  double sum = 0;
  for (int h = from; h < to; ++h) {
    const double rain = seen.series.hours[static_cast<std::size_t>(h)].rain->value.value();
    RC_ASSERT(std::abs(rain * 10 - std::round(rain * 10)) < 1e-9);
    sum += rain;
  }
  RC_ASSERT(std::abs(sum - total / 10.0) < 1e-9);
  for (int h = 0; h < 24; ++h) {
    if (h >= from && h < to) continue;
    RC_ASSERT(seen.series.hours[static_cast<std::size_t>(h)].rain ==
              series_of(forecast).hours[static_cast<std::size_t>(h)].rain);
  }
}

}  // namespace
}  // namespace weatherstruck::sky
