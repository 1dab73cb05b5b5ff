// People's units as they are typed. The foot is 0.3048 m and the inch 25.4 mm exactly (international yard and
// pound agreement, 1959).
#include "weatherstruck/works/answer_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "weatherstruck/works/answer_times.h"

namespace weatherstruck::works {
namespace {

constexpr LengthRange base_side{0.8, 60};
constexpr LengthRange strip{0.15, 2};

template <class T>
std::optional<T> taken(const Answer<T>& answer) {
  const T* value = std::get_if<T>(&answer);
  return value == nullptr ? std::nullopt : std::optional(*value);
}

/// Metres; nullopt where it is refused.
std::optional<double> metres(std::string_view text, LengthRange range = base_side,
                             Measure measure = Measure::metric) {
  const auto length = taken(length_answer(text, range, measure));
  return length ? std::optional(length->value()) : std::nullopt;
}

TEST(Length, IsTakenInTheUnitsPeopleUse) {
  EXPECT_EQ(metres("3 m"), 3);
  EXPECT_EQ(metres("1.2"), 1.2);
  EXPECT_EQ(metres(".9m"), 0.9);
  EXPECT_EQ(metres("900 mm"), 0.9);
  EXPECT_EQ(metres("90cm"), 0.9);
  EXPECT_EQ(metres("3 metres"), 3);
  EXPECT_EQ(metres("10 ft"), 3.048);
  EXPECT_EQ(metres("10ft 6in"), 3.2004);
  EXPECT_EQ(metres("10' 6\""), 3.2004);
  EXPECT_EQ(metres("10\xE2\x80\x99 6"), 3.2004);
  EXPECT_EQ(metres("1 m 50"), 1.5);
  EXPECT_EQ(metres("1m 250mm"), 1.25);
  EXPECT_EQ(metres("1,200 mm"), 1.2);
}

TEST(Length, WithoutAUnitIsWhatCanBeMeant) {
  EXPECT_EQ(metres("450", strip), 0.45) << "450 m of footing depth cannot be meant";
  EXPECT_EQ(metres("1.2", strip), 1.2);
  EXPECT_EQ(metres("10", base_side, Measure::feet), 3.048);
  EXPECT_NEAR(metres("18", strip, Measure::feet).value_or(0), 0.4572, 1e-9) << "inches";
  EXPECT_EQ(metres("450 mm", strip, Measure::feet), 0.45);
}

TEST(Length, OutOfRangeOrNotUnderstoodSaysWhatIsAllowed) {
  for (const char* text : {"", "long", "3 m 4 ft", "3 m m", "-3", "0.5 m", "61 m", "3 kg", "3 m 5", "1e9",
                           "3..4", "99999999999999999999999999"}) {
    const auto answer = length_answer(text, base_side, Measure::metric);
    ASSERT_TRUE(std::holds_alternative<Refused>(answer)) << text;
    EXPECT_THAT(std::get<Refused>(answer).allowed, testing::HasSubstr("from 800 mm to 60 m")) << text;
  }
}

/// The examples in "..., such as 3 m or 900 mm", each alone.
std::vector<std::string> examples_in(const std::string& allowed) {
  std::vector<std::string> out;
  const std::size_t begin = allowed.find("such as ");
  if (begin == std::string::npos) return out;
  std::string rest = allowed.substr(begin + 8, allowed.find(';') - begin - 8);
  for (std::size_t at = rest.find(" or "); at != std::string::npos; at = rest.find(" or ")) {
    out.push_back(rest.substr(0, at));
    rest = rest.substr(at + 4);
  }
  out.push_back(rest);
  return out;
}

RC_GTEST_PROP(ARefusedLength, GivesExamplesThatAreTaken, ()) {
  const double low = *rc::gen::inRange(0, 3000) / 1000.0;
  const LengthRange range{low, low + *rc::gen::inRange(200, 60000) / 1000.0};
  const Measure measure = *rc::gen::element(Measure::metric, Measure::feet);
  for (const std::string& one : examples_in(std::get<Refused>(length_answer("what", range, measure)).allowed))
    RC_ASSERT(metres(one, range, measure));
  for (const std::string& one :
       examples_in(std::get<Refused>(size_answer("what", range, range, measure)).allowed))
    RC_ASSERT(taken(size_answer(one, range, range, measure)));
}

TEST(ARefusedLength, OfADoorInAShortSideNamesOneThatFits) {
  const auto refused = std::get<Refused>(length_answer("3 m", {0.4, 2.55}, Measure::metric));
  EXPECT_EQ(refused.allowed, "a length from 400 mm to 2.55 m, such as 900 mm or 450 mm or 3 ft 6 in");
}

TEST(Length, EndsOfTheRangeAreIn) {
  EXPECT_EQ(metres("0.8"), 0.8);
  EXPECT_EQ(metres("60"), 60);
  EXPECT_EQ(metres("0.79"), std::nullopt);
}

std::optional<std::pair<double, double>> size(std::string_view text) {
  const auto s = taken(size_answer(text, base_side, base_side, Measure::metric));
  return s ? std::optional(std::pair(s->length.value(), s->width.value())) : std::nullopt;
}

TEST(SizeOfTwo, IsLengthByWidth) {
  const auto three = std::optional(std::pair(3.0, 1.8));
  for (const char* text : {"3 x 1.8", "3 by 1.8 m", "3m x 1.8m", "3 \xC3\x97 1.8", "3000 x 1800 mm",
                           "3 m, 1800 mm", "3000 x 1800", "3x1.8", "300 x 180 cm", "3 m and 1.8"})
    EXPECT_EQ(size(text), three) << text;
  EXPECT_EQ(size("10 ft x 6 ft"), std::optional(std::pair(3.048, 1.8288)));
  EXPECT_EQ(size("10 x 6 ft"), std::optional(std::pair(3.048, 1.8288)));
  EXPECT_EQ(size("10' 6\" by 6'"), std::optional(std::pair(3.2004, 1.8288)));
  EXPECT_EQ(size("10 ft 6 x 6"), std::optional(std::pair(3.2004, 1.8288))) << "feet both";
  EXPECT_EQ(size("10 x 6 ft 6"), std::optional(std::pair(3.048, 1.9812)));
  EXPECT_EQ(size("3 m x 900"), std::optional(std::pair(3.0, 0.9))) << "900 m cannot be meant";
  EXPECT_EQ(size("900 mm x 3"), std::optional(std::pair(0.9, 3.0)));
  for (const char* text : {"3", "3 x", "x 3", "3 x 1.8 x 2", "3 x 0.1", "none", "3 x 1.8 kg"})
    EXPECT_EQ(size(text), std::nullopt) << text;
  EXPECT_TRUE(taken(optional_size_answer("none", base_side, base_side, Measure::metric)).has_value());
}

std::optional<double> hours(std::string_view text) {
  const auto h = taken(hours_answer(text, 0, 24));
  return h ? std::optional(h->value()) : std::nullopt;
}

TEST(HoursSaid, AreTakenAsPeopleSayThem) {
  EXPECT_EQ(hours("2 h"), 2);
  EXPECT_EQ(hours("2"), 2);
  EXPECT_EQ(hours("2:30"), 2.5);
  EXPECT_EQ(hours("2h30"), 2.5);
  EXPECT_EQ(hours("2h 30m"), 2.5);
  EXPECT_EQ(hours("2.5 hours"), 2.5);
  EXPECT_EQ(hours("90 min"), 1.5);
  EXPECT_EQ(hours("1 hour 15"), 1.25);
  EXPECT_EQ(hours("1 hour and 15 minutes"), 1.25);
  EXPECT_EQ(hours("half an hour"), 0.5);
  EXPECT_EQ(hours("an hour"), 1);
  EXPECT_EQ(hours("an hour and a half"), 1.5);
  EXPECT_EQ(hours("two and a half hours"), 2.5);
  EXPECT_EQ(hours("hour and a half"), 1.5);
  EXPECT_EQ(hours("1 and a half"), 1.5);
  EXPECT_EQ(hours("two hours"), 2);
  EXPECT_EQ(hours("1 1/2 h"), 1.5);
  EXPECT_EQ(hours("a quarter of an hour"), 0.25);
  EXPECT_EQ(hours("three quarters of an hour"), 0.75);
  EXPECT_EQ(hours("twenty minutes"), std::nullopt);
  for (const char* text :
       {"", "25 h", "2:3", "2:60", "2.5:30", "soon", "-1", "2 h 75", "2:30:00", "2 and 30"})
    EXPECT_EQ(hours(text), std::nullopt) << text;
}

void expect_place(std::string_view text, double latitude, double longitude) {
  const auto place = taken(place_answer(text));
  ASSERT_TRUE(place) << text;
  EXPECT_NEAR(place->latitude, latitude, 1e-9) << text;
  EXPECT_NEAR(place->longitude, longitude, 1e-9) << text;
}

TEST(PlaceSaid, IsTakenFromWhatMapsShow) {
  for (const char* text : {"51.9 -3.4", "51.9, -3.4", "(51.9, -3.4)", "51.9N 3.4W", "51.9 N, 3.4 W",
                           "N51.9 W3.4", "3.4W 51.9N", "51.9\xC2\xB0 N 3.4\xC2\xB0 W",
                           "51\xC2\xB0"
                           "54'N 3\xC2\xB0"
                           "24'W",
                           "51 54 0 N 3 24 0 W",
                           "51\xC2\xB0"
                           "54'00\"N 3\xC2\xB0"
                           "24'00\"W",
                           "51.9 \xE2\x88\x92"
                           "3.4"})
    expect_place(text, 51.9, -3.4);
  expect_place("-33.9 151.2", -33.9, 151.2);
  expect_place("33.9S 151.2E", -33.9, 151.2);
  for (const char* text : {"", "51.9", "91 0", "51.9N -3.4W", "51.9N 3.4", "51.9N 3.4N", "51.9 -181", "here",
                           "51.9 -3.4 7", "51,9 -3,4 x"})
    EXPECT_TRUE(std::holds_alternative<Refused>(place_answer(text))) << text;
  EXPECT_EQ(place_text({51.9, -3.4}), "51.9 N 3.4 W");
}

TEST(Count, IsAWholeNumberPerhapsWithItsWord) {
  const auto count = [](std::string_view text) { return taken(count_answer(text, 0, 20, "course")); };
  EXPECT_EQ(count("3"), 3);
  EXPECT_EQ(count("three courses"), 3);
  EXPECT_EQ(count("1 course"), 1);
  EXPECT_EQ(count("none"), 0);
  for (const char* text : {"", "21", "2.5", "-1", "3 bricks", "courses", "3 4"})
    EXPECT_EQ(count(text), std::nullopt) << text;
}

TEST(Amount, TakesItsUnits) {
  constexpr std::array<UnitWord, 2> masses{{{"kg", 1}, {"t", 1000}}};
  const auto kg = [&](std::string_view text) {
    return taken(amount_answer(text, 50, 20000, masses, "kilograms"));
  };
  EXPECT_EQ(kg("1100 kg"), 1100);
  EXPECT_EQ(kg("1,100"), 1100);
  EXPECT_EQ(kg("1.1 t"), 1100);
  for (const char* text : {"none", "10", "1100 m", "lots", ""})
    EXPECT_EQ(kg(text), std::nullopt) << text;
}

TEST(SmallAnswers, AreTaken) {
  EXPECT_EQ(taken(yes_no_answer("Yes")), true);
  EXPECT_EQ(taken(yes_no_answer("yep")), true);
  EXPECT_EQ(taken(yes_no_answer("n")), false);
  EXPECT_EQ(taken(yes_no_answer("Nope")), false);
  EXPECT_EQ(taken(yes_no_answer("perhaps")), std::nullopt);
  EXPECT_EQ(taken(text_answer("  Ty'r Odyn ", 20)), "Ty'r Odyn");
  EXPECT_EQ(taken(text_answer("\x01", 20)), std::nullopt);
  EXPECT_EQ(taken(text_answer("\xFF", 20)), std::nullopt);
  EXPECT_EQ(taken(text_answer("123456", 5)), std::nullopt);
  EXPECT_EQ(taken(optional_text_answer("none", 5)), "");
  const base::Currency pounds = *base::Currency::from_code("GBP");
  for (const char* text : {"120", "120.00",
                           "\xC2\xA3"
                           "120",
                           "120 GBP", "120 pounds"})
    EXPECT_EQ(taken(money_answer(text, pounds)), base::Money(12000, pounds)) << text;
  for (const char* text : {"", "1.234", "120 EUR", "much", "-5"})
    EXPECT_EQ(taken(money_answer(text, pounds)), std::nullopt) << text;
}

TEST(NameFromATitle, IsANameOfAJob) {
  EXPECT_EQ(name_from("Potting shelter, steps"), "potting-shelter-steps");
  EXPECT_EQ(name_from("Ty'r Odyn"), "tyr-odyn");
  EXPECT_EQ(name_from("3 beds"), "beds");
  EXPECT_EQ(name_from("\xC3\xA9\xC3\xA9"), "job");
  EXPECT_EQ(name_from("Potting shelter base, long bed, steps and path"),
            "potting-shelter-base-long-bed-steps-and");
}

RC_GTEST_PROP(AnyBytes, AreTakenOrRefusedAndNeverMore, (const std::string& text)) {
  const auto length = length_answer(text, base_side, Measure::metric);
  if (const auto* metres_taken = std::get_if<base::Metres>(&length))
    RC_ASSERT(metres_taken->value() > 0.79 && metres_taken->value() < 60.01);
  const auto place = place_answer(text);
  if (const auto* at = std::get_if<Place>(&place)) RC_ASSERT(std::abs(at->latitude) <= 90);
  const auto h = hours_answer(text, 0, 24);
  if (const auto* value = std::get_if<base::Hours>(&h))
    RC_ASSERT(value->value() >= -1e-8 && value->value() <= 24.001);
  const Name name = name_from(text);
  RC_ASSERT(!name.empty() && name.size() <= 40 && name.front() >= 'a' && name.front() <= 'z');
  (void)size_answer(text, base_side, base_side, Measure::feet);
  (void)money_answer(text, *base::Currency::from_code("GBP"));
  (void)span_answer(text);
  (void)noisy_answer(text, {});
}

/// Pieces that answers are made of, in any order.
RC_GTEST_PROP(PiecesOfAnswers, AreTakenOrRefused, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "3", "1.8", "450", "m", "mm", "ft", "'", "\"", "x", "by", "-", ",", "N", "W", "h", ":", "30", "min",
      "deg", "Thu", "12", "Feb", "9pm", "2026-02-12", "21:00", "tomorrow", "none", "to", "left", "GBP", "."));
  std::string text;
  for (const std::string& piece : pieces)
    text += piece + (*rc::gen::arbitrary<bool>() ? " " : "");
  (void)length_answer(text, base_side, Measure::feet);
  (void)size_answer(text, base_side, strip, Measure::metric);
  (void)hours_answer(text, 0, 24);
  (void)place_answer(text);
  const base::Zone utc = base::Zone::fixed("UTC", std::chrono::seconds(0));
  const base::Instant after(std::chrono::seconds(1770000000));
  const auto moment = moment_answer(text, utc, after);
  if (const auto* t = std::get_if<base::Instant>(&moment)) RC_ASSERT(*t > after);
}

}  // namespace
}  // namespace weatherstruck::works
