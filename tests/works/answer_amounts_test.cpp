// Loads, room, areas, mixers and rates as people say them. The foot is 0.3048 m and the pound 0.45359237 kg
// exactly (1959); a short ton is 2,000 lb.
#include "weatherstruck/works/answer_amounts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace weatherstruck::works {
namespace {

using testing::HasSubstr;

constexpr double refused = -1;

template <class T>
double value(const Answer<T>& answer) {
  const T* taken = std::get_if<T>(&answer);
  return taken == nullptr ? refused : std::round(taken->value() * 1e4) / 1e4;
}

TEST(MixerSaid, IsTakenInLitresCubicFeetAndBags) {
  const auto mixer = [](const char* text, Measure measure = Measure::metric) {
    return value(mixer_answer(text, measure));
  };
  EXPECT_EQ(mixer("90 litres"), 0.09);
  EXPECT_EQ(mixer("90"), 0.09);
  EXPECT_EQ(mixer("half bag mixer"), 0.09);
  for (const char* text : {"6 cu ft", "6 cubic feet", "6 cu. ft.", "6"})
    EXPECT_EQ(mixer(text, Measure::feet), 0.1699) << text;
  EXPECT_EQ(mixer("6 cubic feet"), 0.1699);
  EXPECT_EQ(mixer("half bag", Measure::feet), 0.085);
  EXPECT_EQ(mixer("90", Measure::feet), 0.09) << "ninety cubic feet cannot be meant";
  EXPECT_EQ(mixer("none"), 0);
  EXPECT_EQ(mixer("by hand"), 0);
  for (const char* text : {"7.30", "7.30 litres", "600", "big"})
    EXPECT_EQ(mixer(text), refused) << text;
  EXPECT_THAT(std::get<Refused>(mixer_answer("7.30", Measure::metric)).allowed, HasSubstr("from 20 to 500"));
}

TEST(LoadSaid, IsTakenInTonnesAndPounds) {
  const auto load = [](const char* text, Measure measure = Measure::metric) {
    return value(load_answer(text, measure));
  };
  EXPECT_EQ(load("1100 kg"), 1100);
  EXPECT_EQ(load("a tonne"), 1000);
  EXPECT_EQ(load("half a tonne"), 500);
  EXPECT_EQ(load("one and a half tonnes"), 1500);
  EXPECT_EQ(load("1.1 t"), 1100);
  EXPECT_EQ(load("a ton"), 1000);
  EXPECT_EQ(load("a ton", Measure::feet), 907.1847);
  EXPECT_EQ(load("2000 lb"), 907.1847);
  EXPECT_EQ(load("2000", Measure::feet), 907.1847);
  for (const char* text : {"10", "1100 m", "lots", ""})
    EXPECT_EQ(load(text), refused) << text;
}

TEST(RoomSaid, IsTakenAsAVolumeOrAsThreeLengths) {
  const auto room = [](const char* text, Measure measure = Measure::metric) {
    return value(room_answer(text, measure));
  };
  EXPECT_EQ(room("6 m3"), 6);
  for (const char* text :
       {"2.5 x 1.7 x 1.4", "2.5m x 1.7m x 1.4m", "2.5 by 1.7 by 1.4 m", "2500 x 1700 x 1400 mm"})
    EXPECT_EQ(room(text), 5.95) << text;
  EXPECT_EQ(room("8 x 5 x 5", Measure::feet), 5.6634);
  EXPECT_EQ(room("200 cu ft"), 5.6634);
  for (const char* text : {"2.5 x 1.7", "100 m3", "much", "x x x"})
    EXPECT_EQ(room(text), refused) << text;
}

TEST(AreaSaid, IsTakenAndARollIsAskedForItsSize) {
  const auto area = [](const char* text, Measure measure = Measure::metric) {
    return value(area_answer(text, measure));
  };
  EXPECT_EQ(area("20"), 20);
  EXPECT_EQ(area("20 sq m"), 20);
  EXPECT_EQ(area("200 sq ft"), 18.5806);
  EXPECT_EQ(area("200", Measure::feet), 18.5806);
  EXPECT_EQ(area("10 x 2 m"), 20);
  EXPECT_EQ(area("two 4 x 3 m"), 24);
  EXPECT_EQ(area("2 of 4 x 3 m"), 24);
  EXPECT_EQ(area("none"), 0);
  EXPECT_EQ(area("one roll"), refused);
  EXPECT_THAT(std::get<Refused>(area_answer("one roll", Measure::metric)).why, HasSubstr("what it covers"));
}

TEST(RatesSaid, AreOfAnHourOrOfADayOfEightHours) {
  const auto bricks = [](const char* text) {
    const auto answer = bricks_answer(text, 10, 150);
    const auto* number = std::get_if<double>(&answer);
    return number == nullptr ? refused : *number;
  };
  EXPECT_EQ(bricks("50"), 50);
  EXPECT_EQ(bricks("50 an hour"), 50);
  EXPECT_EQ(bricks("50 bricks/h"), 50);
  EXPECT_EQ(bricks("400 a day"), 50);
  EXPECT_EQ(bricks("400"), refused);
  const base::Currency pounds = *base::Currency::from_code("GBP");
  const auto hour = [&](const char* text) {
    const auto answer = hourly_answer(text, pounds);
    const auto* money = std::get_if<std::optional<base::Money>>(&answer);
    return money == nullptr ? "refused" : *money ? (*money)->text() : "none";
  };
  EXPECT_EQ(hour("38"), "38.00 GBP");
  EXPECT_EQ(hour("220 a day"), "27.50 GBP");
  EXPECT_EQ(hour("\xC2\xA3"
                 "220/day"),
            "27.50 GBP");
  EXPECT_EQ(hour("none"), "none");
  EXPECT_EQ(hour("a lot a day"), "refused");
  const auto mile = [&](const char* text) {
    const auto answer = mileage_answer(text, pounds);
    const auto* money = std::get_if<std::optional<base::Money>>(&answer);
    return money == nullptr ? "refused" : *money ? (*money)->text() : "none";
  };
  for (const char* text : {"45p", "45 pence a mile", "0.45",
                           "\xC2\xA3"
                           "0.45 per mile"})
    EXPECT_EQ(mile(text), "0.45 GBP") << text;
}

}  // namespace
}  // namespace weatherstruck::works
