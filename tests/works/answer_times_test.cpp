// 7 February 2026 is a Saturday (any calendar). British clocks go forward on 29 March 2026 at 01:00 and back
// on 25 October 2026 at 02:00 (the last Sundays, Summer Time Order 2002).
#include "weatherstruck/works/answer_times.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

using testing::HasSubstr;

base::Zone britain() {
  const auto at = [](const char* text) { return *base::parse_iso_instant(text); };
  return base::Zone("Europe/London", std::chrono::seconds(0), "GMT",
                    {{at("2026-03-29T01:00:00Z"), std::chrono::hours(1), "BST"},
                     {at("2026-10-25T01:00:00Z"), std::chrono::hours(0), "GMT"}});
}

/// By the clock of home, from six in the evening of Saturday 7 February 2026.
std::string moment(std::string_view text, const TimeWays& ways = {}) {
  const auto answer = moment_answer(text, britain(), *base::parse_iso_instant("2026-02-07T18:00:00Z"), ways);
  if (const auto* refused = std::get_if<Refused>(&answer)) return refused->why + " " + refused->allowed;
  return base::iso_local(britain().to_local(std::get<base::Instant>(answer)));
}

const TimeWays leaving{false, 4};
const TimeWays american{true, 4};

TEST(Moment, IsTakenAsAMasonSaysWhenHeLeaves) {
  for (const char* text :
       {"Mon 7:30", "Monday at half seven", "Mon half past seven", "Mon 7.30", "mon 7:30am",
        "half seven on Monday", "next Monday at half seven", "9/2 7:30", "9/2/26 7:30"})
    EXPECT_EQ(moment(text, leaving), "2026-02-09T07:30") << text;
  for (const char* text : {"Mon 9", "Monday nine", "Mon 9 o'clock", "next Monday 9", "Mon 9 9am",
                           "Monday morning at 9", "9 in the morning on Monday"})
    EXPECT_EQ(moment(text, leaving), "2026-02-09T09:00") << text;
  EXPECT_EQ(moment("Mon quarter to six", leaving), "2026-02-09T05:45");
  EXPECT_EQ(moment("Mon 12", leaving), "2026-02-09T12:00");
}

TEST(Moment, OfABareHourIsAskedBackWhereItCouldBeEither) {
  EXPECT_THAT(moment("Thu 9"), HasSubstr("morning or in the evening. 9am or 9pm"));
  EXPECT_THAT(moment("Thu half seven"), HasSubstr("7:30am or 7:30pm"));
  EXPECT_EQ(moment("Thu evening at 9"), "2026-02-12T21:00");
  EXPECT_EQ(moment("Thu 21"), "2026-02-12T21:00");
}

TEST(Moment, PutsTheMonthFirstInAmericaAndAsksWhatHalfIs) {
  EXPECT_EQ(moment("2/9 5am", american), "2026-02-09T05:00");
  EXPECT_EQ(moment("2/9 5am", leaving), "2026-09-02T05:00");
  EXPECT_EQ(moment("2/13 5am", leaving), "2026-02-13T05:00") << "there is no thirteenth month";
  EXPECT_THAT(moment("Mon half seven", american), HasSubstr("7:30am or 6:30am"));
  EXPECT_EQ(moment("Mon half past seven", american), "2026-02-09T07:30");
}

TEST(Moment, SaysThatAMonthIsNotSoLong) {
  EXPECT_THAT(moment("31 Feb 7am"), HasSubstr("February has no 31st."));
  EXPECT_THAT(moment("30 Feb 7am"), HasSubstr("February has no 30th."));
  EXPECT_THAT(moment("31/4 7am"), HasSubstr("April has no 31st."));
  EXPECT_THAT(moment("29 Feb 7am"), HasSubstr("There is no 29 February so soon."));
}

TEST(Moment, IsTakenAsPeopleSayIt) {
  for (const char* text :
       {"Thu 21:00", "thursday 9pm", "9pm thurs", "12 Feb 9pm", "Feb 12 21:00", "12th February at 21:00",
        "Thu 12 Feb 9.00 pm", "2026-02-12 21:00", "2026-02-12T21:00", "2026-02-12 9pm", "12 Feb 2026 9 p.m.",
        "2026-02-12T21:00Z", "next Thu 21:00", "on Thu, 12 Feb, at 21.00"})
    EXPECT_EQ(moment(text), "2026-02-12T21:00") << text;
  EXPECT_EQ(moment("tomorrow 5am"), "2026-02-08T05:00");
  EXPECT_EQ(moment("today 20:00"), "2026-02-07T20:00");
  EXPECT_EQ(moment("Mon noon"), "2026-02-09T12:00");
  EXPECT_EQ(moment("Sat midnight"), "2026-02-08T00:00");
  EXPECT_EQ(moment("12am Mon"), "2026-02-09T00:00");
}

TEST(Moment, OfAWeekdayIsTheNextOne) {
  EXPECT_EQ(moment("Sat 19:00"), "2026-02-07T19:00") << "later today";
  EXPECT_EQ(moment("Sat 17:00"), "2026-02-14T17:00") << "gone today";
}

TEST(Moment, OfTheNextWeekdayIsNeverToday) {
  EXPECT_EQ(moment("Saturday 9pm", leaving), "2026-02-07T21:00");
  EXPECT_EQ(moment("next Saturday 9pm", leaving), "2026-02-14T21:00");
  EXPECT_EQ(moment("Monday about half nine", leaving), "2026-02-09T09:30");
}

TEST(Moment, OfADateWithoutAYearIsTheNextOne) {
  EXPECT_EQ(moment("6 Feb 9am"), "2027-02-06T09:00");
  EXPECT_EQ(moment("31 Dec 9am"), "2026-12-31T09:00");
}

TEST(Moment, ThatCannotBeIsRefusedWithItsReason) {
  EXPECT_THAT(moment("today 17:00"), HasSubstr("after Sat 7 Feb 18:00"));
  EXPECT_THAT(moment("12 Feb 2029 21:00"), HasSubstr("400 days"));
  EXPECT_THAT(moment("Wed 12 Feb 21:00"), HasSubstr("belong together"));
  EXPECT_THAT(moment("21:00"), HasSubstr("the day as well"));
  for (const char* text : {"", "Thu", "Thu 25:00", "Thu 13pm", "Thu 9 10", "Thu 9pm 10pm", "soon", "2026",
                           "Thu 9:5", "Thu Fri 9pm"})
    EXPECT_THAT(moment(text), HasSubstr("such as")) << text;
}

TEST(Moment, OnAnHourThatIsMissingOrComesTwiceIsAskedAgain) {
  EXPECT_THAT(moment("29 Mar 1:30"), HasSubstr("clocks go forward"));
  EXPECT_THAT(moment("25 Oct 1:30"), HasSubstr("2026-10-25T00:30:00Z or 2026-10-25T01:30:00Z"));
  EXPECT_EQ(moment("2026-10-25T01:30:00Z"), "2026-10-25T01:30");
}

std::string span(std::string_view text) {
  const auto answer = span_answer(text);
  const auto* s = std::get_if<DaySpan>(&answer);
  return s == nullptr ? "refused" : span_words(*s);
}

TEST(StretchOfTheDay, IsTakenAsPeopleSayIt) {
  for (const char* text :
       {"7:00-21:00", "7 to 21", "7am-9pm", "from 7 till 21", "07:00 \xE2\x80\x93 21:00", "7am to 21.00"})
    EXPECT_EQ(span(text), "07:00-21:00") << text;
  EXPECT_EQ(span("0-24"), "00:00-24:00");
  for (const char* text : {"", "7", "21-7", "21:00 to 9:00", "7am to 5am", "7-25", "7-9-11", "morning"})
    EXPECT_EQ(span(text), "refused") << text;
}

TEST(StretchOfTheDay, EndsInTheAfternoonWhereItCouldNotElse) {
  EXPECT_EQ(span("7 till 6"), "07:00-18:00");
  EXPECT_EQ(span("7.30 to 5.30"), "07:30-17:30");
  EXPECT_EQ(span("half seven to half five"), "07:30-17:30");
  EXPECT_EQ(span("seven to six"), "07:00-18:00");
  EXPECT_EQ(span("7-7"), "07:00-19:00");
  EXPECT_EQ(span("8 to 12"), "08:00-12:00");
}

const NoisyHours council{
    {{std::chrono::hours(8), std::chrono::hours(18)}}, {{std::chrono::hours(8), std::chrono::hours(13)}}, {}};

std::string noisy(std::string_view text) {
  const auto answer = noisy_answer(text, council);
  const auto* hours = std::get_if<NoisyHours>(&answer);
  return hours == nullptr ? "refused" : noisy_words(*hours);
}

TEST(QuietHours, KeepWhatIsNotSaid) {
  EXPECT_EQ(noisy("7:30-19:00"), "Mon-Fri 07:30-19:00, Sat 08:00-13:00, Sun none");
  EXPECT_EQ(noisy("7:30-19:00, Sat 9-12, Sun none"), "Mon-Fri 07:30-19:00, Sat 09:00-12:00, Sun none");
  EXPECT_EQ(noisy("Sat none"), "Mon-Fri 08:00-18:00, Sat none, Sun none");
  EXPECT_EQ(noisy("any time"), "Mon-Fri 00:00-24:00, Sat 00:00-24:00, Sun 00:00-24:00");
  for (const char* text : {"Mon-Fri 08:00-18:00, Sat 08:00-13:00, Sun none", "weekdays 8 to 18"})
    EXPECT_EQ(noisy(text), noisy_words(council)) << "what is shown is understood";
  for (const char* text : {"", "Sat", "Tue 8-18", "8-18, 9-17", "8-18, Sat 9-12, Sat 1-2", "never mind"})
    EXPECT_EQ(noisy(text), "refused") << text;
}

}  // namespace
}  // namespace weatherstruck::works
