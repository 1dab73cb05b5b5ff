#include "weatherstruck/render/late_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"
#include "weatherstruck/render/days.h"

namespace weatherstruck::render {
namespace {

using programme::Cure;
using sample::at;
using testing::HasSubstr;

TEST(LateWords, NameTheWeatherThatStoodLongest) {
  const sample::Trip trip = sample::trip();
  programme::Late late;
  late.weather = true;
  late.in_fair_weather = at(10, 19);
  late.longest_stop =
      programme::Late::Stop{{{at(9, 11), at(9, 13)}, "rain", "rain 2.1 mm/h, stops at 0.5"}, 2};
  const LateWords words = late_words(trip.facts(), late);
  EXPECT_THAT(words.because, HasSubstr("the weather: dry and mild, you would be home Tue 10 Feb 19:00."));
  EXPECT_THAT(words.because, HasSubstr("rain 2.1 mm/h, stops at 0.5, Mon 9 Feb 11:00 to 13:00, before \""));
  EXPECT_EQ(words.cure, "");
}

TEST(LateWords, SayWhatWasTriedWhereNothingHelps) {
  const sample::Trip trip = sample::trip();
  programme::Late late;
  late.work = std::chrono::hours(49);
  late.tried = {Cure::Kind::lights, Cure::Kind::without};
  const LateWords words = late_words(trip.facts(), late);
  EXPECT_THAT(words.because, HasSubstr("more than the weather: even dry and mild no plan"));
  EXPECT_THAT(words.because, HasSubstr("Work in the plan: 49 h"));
  EXPECT_THAT(words.cure, HasSubstr("none found"));
  EXPECT_THAT(words.cure, HasSubstr("lights and leaving out a part."));
}

TEST(LateWords, StandUnderTheHourOfBeingHome) {
  const sample::Trip trip = sample::trip();
  programme::Late late;
  late.tried = {Cure::Kind::lights};
  late.cures = {{Cure::Kind::without, "path", at(10, 19)}, {Cure::Kind::lights, "", at(10, 20)}};
  const std::string sheet = days_sheet(trip.facts(), Ink::plain, &late);
  EXPECT_THAT(sheet, HasSubstr("\nDecides      more than the weather"));
  EXPECT_THAT(sheet, HasSubstr("\nCure         without the path, home Tue 10 Feb 19:00; or with lights"));
  EXPECT_LE(sample::widest(sheet), page_width);
}

}  // namespace
}  // namespace weatherstruck::render
