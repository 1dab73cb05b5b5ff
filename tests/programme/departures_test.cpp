#include "weatherstruck/programme/departures.h"

#include <cmath>

#include <gtest/gtest.h>

#include "programme/planned_case.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::days;
using std::chrono::hours;

// Years of one weather, but in winter (December to February) `winter` degrees, and in `wet_july` rain all
// through July of every year.
sky::Series years(int from, int to, double winter, bool wet_july = false) {
  sky::Series series;
  const base::Instant begin = std::chrono::sys_days(std::chrono::year(from) / 1 / 1);
  const base::Instant end = std::chrono::sys_days(std::chrono::year(to) / 1 / 1);
  for (base::Instant t = begin; t < end; t += hours(1)) {
    const std::chrono::year_month_day date(std::chrono::floor<days>(t));
    const unsigned month = static_cast<unsigned>(date.month());
    sky::Hour hour;
    hour.start = t;
    hour.temperature = {base::Celsius(month == 12 || month <= 2 ? winter : 12)};
    hour.humidity = {base::Fraction(0.8)};
    hour.wind = {base::MetresPerSecond(3)};
    hour.gust = {base::MetresPerSecond(6)};
    hour.rain = {base::Millimetres(wet_july && month == 7 ? 2 : 0)};
    series.hours.push_back(hour);
  }
  return series;
}

base::LocalDay day(int month, int date) {
  return base::LocalDay(std::chrono::year(2027) / month / date);
}

std::vector<Departure> asked(const sky::Series& past, std::vector<base::LocalDay> list,
                             std::uint64_t seed = 1) {
  works::Job job = works::demo_job();
  job.trip.home_by += days(2);  // so that it is to be done at all
  const PlannedCase it(job, {});
  return departures({it.job, it.limits, past, std::move(list), seed});
}

TEST(Departures, InAMildDrySpringAreSurerThanInFrostOrInAWetMonth) {
  const sky::Series past = years(2015, 2020, -6, true);
  const std::vector<Departure> all = asked(past, {day(1, 18), day(4, 19), day(7, 5)});
  ASSERT_EQ(all.size(), 3U);
  for (const Departure& one : all)
    EXPECT_EQ(one.years, 5);
  EXPECT_GT(all[1].good, all[0].good);
  EXPECT_GT(all[1].good, all[2].good);
  EXPECT_EQ(all[1].frost_nights, 0);
  EXPECT_GT(all[0].frost_nights, 3);
  EXPECT_GT(all[2].wet_hours, 30);
  EXPECT_EQ(all[1].wet_hours, 0);
  EXPECT_LT(all[0].light_hours, all[1].light_hours);
}

TEST(Departures, AreTheSameWhateverElseIsAskedAndWhenAskedAgain) {
  const sky::Series past = years(2015, 2020, 3);
  const std::vector<Departure> both = asked(past, {day(3, 1), day(5, 3)});
  EXPECT_EQ(asked(past, {day(5, 3)}).front(), both[1]);
  EXPECT_EQ(asked(past, {day(3, 1), day(5, 3)}), both);
}

TEST(Departures, CountOnlyYearsWhoseWeatherIsThereForTheWholeTrip) {
  sky::Series past = years(2015, 2020, 3);
  for (sky::Hour& hour : past.hours) {
    const std::chrono::year_month_day date(std::chrono::floor<days>(hour.start));
    if (date.year() == std::chrono::year(2017) && date.month() == std::chrono::May) hour.rain.reset();
  }
  const std::vector<Departure> all = asked(past, {day(5, 10), day(8, 9)});
  EXPECT_EQ(all[0].years, 4);
  EXPECT_EQ(all[1].years, 5);
}

TEST(Departures, WithTooFewYearsSayNothing) {
  EXPECT_EQ(asked(years(2018, 2020, 3), {day(5, 10)}).front().years, 0);
  EXPECT_EQ(asked({}, {day(5, 10)}).front().years, 0);
  EXPECT_EQ(Departure{}.chance(), 0);
}

// n + 4 trials with two more of each kind (Agresti & Coull 1998).
TEST(Departures, TellTheErrorOfSoFewYears) {
  Departure one;
  one.years = 14;
  one.good = 14;
  EXPECT_NEAR(one.error(), std::sqrt(16.0 / 18 * 2.0 / 18 / 18), 1e-12);
}

TEST(MovedByDays, KeepsTheHoursByTheClockAcrossAChangeOfTime) {
  works::Job job = works::demo_job();
  const base::Zone& zone = job.site.zone;
  const auto clock = [&](base::Instant t) {
    const base::LocalTime local = zone.to_local(t);
    return local - base::LocalTime(std::chrono::floor<days>(local));
  };
  const works::Job later = moved_by_days(job, days(120));
  EXPECT_EQ(zone.day_of(later.trip.leave_home), zone.day_of(job.trip.leave_home) + days(120));
  EXPECT_EQ(clock(later.trip.leave_home), clock(job.trip.leave_home));
  EXPECT_EQ(clock(later.trip.home_by), clock(job.trip.home_by));
  ASSERT_EQ(later.supplies.deliveries.size(), job.supplies.deliveries.size());
  for (std::size_t i = 0; i < job.supplies.deliveries.size(); ++i)
    EXPECT_EQ(clock(later.supplies.deliveries[i].at), clock(job.supplies.deliveries[i].at));
}

}  // namespace
}  // namespace weatherstruck::programme
