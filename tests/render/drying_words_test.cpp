#include "weatherstruck/render/drying_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

sample::Trip in_air(double celsius, double humidity, double wind) {
  sample::Trip trip = sample::trip();
  for (sky::Hour& hour : trip.series.hours) {
    hour.temperature = {base::Celsius(celsius)};
    hour.humidity = {base::Fraction(humidity)};
    hour.wind = {base::MetresPerSecond(wind)};
  }
  return trip;
}

std::vector<std::string> first_day(const sample::Trip& trip) {
  const TripFacts facts = trip.facts();
  return drying_lines(facts, trip_days(facts).front());
}

// By hand with Uno's rounded form (ACI Materials Journal 1998), 5 ((Tc+18)^2.5 - r (Ta+18)^2.5) (V+4) 1e-6:
// 9 m/s at 10 m are 4.36 at half a metre, 15.7 km/h; 5 x 15144 x 0.8 x 19.7e-6 is 1.19, and the form with
// unrounded constants is 4 to 5 % above it.
TEST(Drying, OfAPourIsSaidFromTheLimitOn) {
  EXPECT_THAT(first_day(in_air(29, 0.2, 9)),
              ElementsAre(AllOf(HasSubstr("would dry at 1.2 kg/m2 an hour"), HasSubstr("from 1.0 kg/m2"))));
  EXPECT_THAT(first_day(in_air(29, 0.2, 5)), IsEmpty());
  EXPECT_THAT(first_day(in_air(6, 0.8, 4)), IsEmpty());
}

TEST(Drying, IsSaidInPoundsUnderTheAmericanSet) {
  sample::Trip trip = in_air(29, 0.2, 9);
  trip.job.limits.set = trade::LimitSet::us;
  EXPECT_THAT(first_day(trip), ElementsAre(HasSubstr("lb/ft2 an hour")));
}

TEST(Drying, IsNotGuessedWhereTheDampOfTheAirIsNotGiven) {
  sample::Trip trip = in_air(29, 0.2, 9);
  for (sky::Hour& hour : trip.series.hours)
    hour.humidity.reset();
  EXPECT_THAT(first_day(trip), IsEmpty());
  // 29 degrees with a dew point of 4 is a fifth of what the air could hold (Tetens).
  for (sky::Hour& hour : trip.series.hours)
    hour.dew_point = {base::Celsius(4)};
  EXPECT_THAT(first_day(trip), ElementsAre(HasSubstr("would dry at 1.2 kg/m2 an hour")));
}

TEST(Drying, SaysNothingOnADayWithoutAPour) {
  const sample::Trip trip = in_air(29, 0.2, 9);
  const TripFacts facts = trip.facts();
  EXPECT_THAT(drying_lines(facts, trip_days(facts).back()), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::render
