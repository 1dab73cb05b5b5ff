#include "weatherstruck/feed/http_date.h"

#include <gtest/gtest.h>

#include "feed_support.h"
#include "fetch_support.h"

namespace weatherstruck::feed {
namespace {

using std::chrono::seconds;

const base::Instant now_2026 = instant("2026-02-09T08:00:00Z");

std::optional<base::Instant> date(const char* text) {
  return parse_http_date(text, now_2026);
}

// The three examples of RFC 9110, 5.6.7 are one moment.
TEST(HttpDate, ReadsTheThreeFormsOfTheStandard) {
  const base::Instant expected = instant("1994-11-06T08:49:37Z");
  EXPECT_EQ(date("Sun, 06 Nov 1994 08:49:37 GMT"), expected);
  EXPECT_EQ(date("Sunday, 06-Nov-94 08:49:37 GMT"), expected);
  EXPECT_EQ(date("Sun Nov  6 08:49:37 1994"), expected);
}

TEST(HttpDate, TakesATwoDigitYearWithinFiftyYears) {
  EXPECT_EQ(date("Monday, 09-Feb-26 08:00:00 GMT"), now_2026);
  EXPECT_EQ(date("Sunday, 09-Feb-76 08:00:00 GMT"), instant("2076-02-09T08:00:00Z"));
  EXPECT_EQ(date("Wednesday, 09-Feb-77 08:00:00 GMT"), instant("1977-02-09T08:00:00Z"));
}

TEST(HttpDate, RefusesWhatIsNoDate) {
  for (const char* text :
       {"", "0", "-1", "Sun, 31 Feb 1994 08:49:37 GMT", "Sun, 06 Nov 1994 24:49:37 GMT",
        "Sun, 06 Nov 1994 08:49:37 CET", "Day, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Now 1994 08:49:37 GMT",
        "Sun, 06 Nov 99999 08:49:37 GMT", "2026-02-09T08:00:00Z", "Sun, 06 Nov 1994 8:49:37 GMT"}) {
    EXPECT_EQ(date(text), std::nullopt) << text;
  }
}

TEST(MaxAge, IsFoundAmongOtherDirectives) {
  EXPECT_EQ(max_age("public, max-age=1312, s-maxage=3600"), seconds(1312));
  EXPECT_EQ(max_age("Max-Age=\"60\""), seconds(60));
  EXPECT_EQ(max_age("s-maxage=3600"), std::nullopt);
  EXPECT_EQ(max_age("max-age=99999999999"), std::nullopt);
  EXPECT_EQ(max_age("max-age=-1"), std::nullopt);
}

TEST(Lifetime, IsCountedFromTheServicesOwnClock) {
  // Half an hour, however wrong the clock here.
  const auto answer = response(
      200, "", {{"date", "Mon, 09 Feb 2026 10:00:00 GMT"}, {"expires", "Mon, 09 Feb 2026 10:30:00 GMT"}});
  EXPECT_EQ(lifetime(answer, now_2026), seconds(1800));
  EXPECT_EQ(lifetime(response(200, "", {{"expires", "Mon, 09 Feb 2026 08:10:00 GMT"}}), now_2026),
            seconds(600));
}

TEST(Lifetime, IsTheLongerOfTheTwo) {
  const auto answer = [](const char* control) {
    return response(200, "", {{"cache-control", control}, {"expires", "Mon, 09 Feb 2026 08:10:00 GMT"}});
  };
  EXPECT_EQ(lifetime(answer("max-age=60"), now_2026), seconds(600));
  EXPECT_EQ(lifetime(answer("max-age=900"), now_2026), seconds(900));
}

TEST(Lifetime, IsUnknownWhereNothingIsSaid) {
  EXPECT_EQ(lifetime(response(200), now_2026), std::nullopt);
  EXPECT_EQ(lifetime(response(200, "", {{"expires", "0"}}), now_2026), std::nullopt);
}

TEST(RetryAfter, IsSecondsOrADate) {
  EXPECT_EQ(retry_after(response(503, "", {{"retry-after", "120"}}), now_2026), seconds(120));
  EXPECT_EQ(retry_after(response(503, "", {{"retry-after", "Mon, 09 Feb 2026 08:01:00 GMT"}}), now_2026),
            seconds(60));
  EXPECT_EQ(retry_after(response(503, "", {{"retry-after", "Mon, 09 Feb 2026 07:00:00 GMT"}}), now_2026),
            seconds(0));
  EXPECT_EQ(retry_after(response(503), now_2026), std::nullopt);
}

}  // namespace
}  // namespace weatherstruck::feed
