#include "weatherstruck/feed/fetch_rules.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"
#include "fetch_support.h"

namespace weatherstruck::feed {
namespace {

using std::chrono::hours;
using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;
using ::testing::HasSubstr;

const base::Instant t0 = instant("2026-02-09T05:00:00Z");
const char* const modified = "Mon, 09 Feb 2026 04:58:07 GMT";

CachedAnswer good() {
  return {"u", "body", modified, t0 + minutes(30), t0, 200};
}

std::optional<std::string> no_fault(std::string_view) {
  return std::nullopt;
}

class TakeAnswer : public ::testing::Test {
 protected:
  Taken take(const HttpAnswer& answer, std::optional<CachedAnswer> stored = good(), int tries = 1) {
    return take_answer({ForecastService::met_norway, "u", std::move(stored), tries, fault_in}, answer, now,
                       random);
  }
  base::Instant now = t0 + hours(2);
  base::Random random{7};
  std::function<std::optional<std::string>(std::string_view)> fault_in = &no_fault;
};

TEST(NextStep, AsksWhereNothingIsStored) {
  const Step step = next_step(std::nullopt, t0, false);
  EXPECT_EQ(step.kind, StepKind::ask);
  EXPECT_EQ(step.if_modified_since, "");
}

// MET Norway Terms of Service: not again before Expires, then with the same bytes that came as Last-Modified.
TEST(NextStep, AsksNobodyBeforeExpiresAndThenWithTheServicesOwnBytes) {
  EXPECT_EQ(next_step(good(), t0 + minutes(30) - seconds(1), false).kind, StepKind::keep);
  EXPECT_EQ(next_step(good(), t0 + minutes(30) - seconds(1), false).note.text, "");
  const Step step = next_step(good(), t0 + minutes(30), false);
  EXPECT_EQ(step.kind, StepKind::ask);
  EXPECT_EQ(step.if_modified_since, modified);
}

// MET Norway: there is no 304 on a 203.
TEST(NextStep, SetsNoConditionWhereItCannotHold) {
  CachedAnswer moved = good();
  moved.status = 203;
  EXPECT_EQ(next_step(moved, t0 + hours(1), false).if_modified_since, "");
  CachedAnswer empty = good();
  empty.body.clear();
  EXPECT_EQ(next_step(empty, t0 + hours(1), false).if_modified_since, "");
  CachedAnswer spoilt = good();
  spoilt.last_modified = "Mon\r\nX: y";
  EXPECT_EQ(next_step(spoilt, t0 + hours(1), false).if_modified_since, "");
}

TEST(NextStep, KeepsARestThatTheServiceAskedForAndSaysSo) {
  CachedAnswer throttled = good();
  throttled.status = 429;
  throttled.expires = t0 + hours(3);
  const Step kept = next_step(throttled, t0 + hours(2), false);
  EXPECT_EQ(kept.kind, StepKind::keep);
  EXPECT_EQ(kept.note.text, "The service is not asked again for 1 h: its last answer was no forecast (429).");
  throttled.body.clear();
  EXPECT_EQ(next_step(throttled, t0 + hours(2), false).kind, StepKind::refuse);
  EXPECT_EQ(next_step(throttled, t0 + hours(3), false).kind, StepKind::ask);
}

TEST(NextStep, DoesNotBelieveAnExpiryBeyondReason) {
  // As after a clock that ran a year ahead was put right.
  EXPECT_EQ(next_step(good(), t0 - hours(24 * 365), false).kind, StepKind::ask);
}

TEST(NextStep, OfflineAsksNobody) {
  const Step kept = next_step(good(), t0 + hours(9), true);
  EXPECT_EQ(kept.kind, StepKind::keep);
  EXPECT_EQ(kept.note.text, "Nobody was asked.");
  EXPECT_EQ(next_step(std::nullopt, t0, true).kind, StepKind::refuse);
}

TEST(NextMappingStep, AMappingIsKeptForThirtyDays) {
  EXPECT_EQ(next_mapping_step(good(), t0 + hours(24 * 30) - seconds(1), false).kind, StepKind::keep);
  EXPECT_EQ(next_mapping_step(good(), t0 + hours(24 * 30), false).kind, StepKind::ask);
  CachedAnswer outside{"u", "", "", t0 + hours(1), t0, 404};
  EXPECT_EQ(next_mapping_step(outside, t0 + hours(24 * 29), false).kind, StepKind::keep);
  CachedAnswer down{"u", "", "", t0 + minutes(5), t0, 503};
  EXPECT_EQ(next_mapping_step(down, t0 + minutes(4), false).kind, StepKind::refuse);
  EXPECT_EQ(next_mapping_step(down, t0 + minutes(5), false).kind, StepKind::ask);
}

TEST_F(TakeAnswer, A200IsStoredWithBothDates) {
  const Taken taken = take(response(200, "new",
                                    {{"last-modified", "Mon, 09 Feb 2026 06:58:00 GMT"},
                                     {"expires", "Mon, 09 Feb 2026 07:29:11 GMT"},
                                     {"content-type", "application/json"}}));
  EXPECT_EQ(taken.verdict, Verdict::fresh);
  EXPECT_EQ(taken.store, (CachedAnswer{"u", "new", "Mon, 09 Feb 2026 06:58:00 GMT",
                                       instant("2026-02-09T07:29:11Z"), now, 200}));
  EXPECT_FALSE(taken.trouble);
}

TEST_F(TakeAnswer, WithoutExpiryTheServiceHasItsRest) {
  EXPECT_EQ(take(response(200, "new")).store->expires, now + FetchRules::least_hold);
  EXPECT_EQ(take(response(200, "new", {{"cache-control", "max-age=0"}})).store->expires,
            now + FetchRules::least_hold);
  EXPECT_EQ(take(response(200, "new", {{"cache-control", "max-age=99999999"}})).store->expires,
            now + FetchRules::most_hold);
}

TEST_F(TakeAnswer, A203IsUsedWithAWarning) {
  const Taken taken = take(response(203, "new"));
  EXPECT_EQ(taken.verdict, Verdict::fresh);
  ASSERT_TRUE(taken.note);
  EXPECT_THAT(taken.note->text, HasSubstr("will end soon (203)"));
}

TEST_F(TakeAnswer, A304KeepsTheBodyAndItsBytesOfLastModified) {
  const Taken taken = take(response(
      304, "",
      {{"expires", "Mon, 09 Feb 2026 07:40:00 GMT"}, {"last-modified", "Mon, 09 Feb 2026 04:58:08 GMT"}}));
  EXPECT_EQ(taken.verdict, Verdict::unchanged);
  EXPECT_EQ(taken.store, (CachedAnswer{"u", "body", modified, instant("2026-02-09T07:40:00Z"), now, 304}));
}

TEST_F(TakeAnswer, A304WithNothingStoredIsNoAnswer) {
  const Taken taken = take(response(304), std::nullopt);
  EXPECT_EQ(taken.verdict, Verdict::fall_back);
  EXPECT_EQ(taken.trouble->code, "odd-answer");
}

TEST_F(TakeAnswer, A403StopsAndSaysWhatToPutRight) {
  const Taken taken = take(response(403, "<html>"));
  EXPECT_EQ(taken.verdict, Verdict::fall_back);
  EXPECT_EQ(taken.store->body, "body");
  EXPECT_EQ(taken.store->fetched_at, t0);
  EXPECT_EQ(taken.store->expires, now + hours(1));
  EXPECT_EQ(taken.trouble->found,
            "MET Norway turns us away (403): it answers only those who say truly how to reach them.");
  EXPECT_EQ(taken.trouble->remedy,
            "Check that the contact you gave to \"weatherstruck me\" is a mail address or site of your own; "
            "it is not asked again for "
            "1 h.");
}

TEST_F(TakeAnswer, A429StopsForAsLongAsItSays) {
  EXPECT_EQ(take(response(429)).verdict, Verdict::fall_back);
  EXPECT_EQ(take(response(429)).store->expires, now + FetchRules::throttled_hold);
  const Taken taken = take(response(429, "", {{"retry-after", "7200"}}));
  EXPECT_EQ(taken.store->expires, now + hours(2));
  EXPECT_EQ(taken.trouble->remedy, "Wait: it is not asked again for 2 h.");
}

TEST_F(TakeAnswer, A503IsAskedAgainThreeTimesWithGrowingWaits) {
  for (int tries = 1; tries <= 3; ++tries) {
    const Taken taken = take(response(503), good(), tries);
    ASSERT_EQ(taken.verdict, Verdict::retry) << tries;
    const milliseconds middle = FetchRules::first_wait * (1 << (tries - 1));
    EXPECT_GE(taken.wait, middle / 2);
    EXPECT_LE(taken.wait, middle * 3 / 2);
  }
  const Taken last = take(response(503), good(), 4);
  EXPECT_EQ(last.verdict, Verdict::fall_back);
  EXPECT_EQ(last.store->body, "body");
  EXPECT_EQ(last.store->expires, now + FetchRules::least_hold);
}

TEST_F(TakeAnswer, WaitsAreDrawn) {
  EXPECT_NE(take(response(503)).wait, take(response(503)).wait);
}

TEST_F(TakeAnswer, A503ThatAsksForLongerIsLeftAlone) {
  EXPECT_EQ(take(response(503, "", {{"retry-after", "30"}})).wait, seconds(30));
  const Taken taken = take(response(503, "", {{"retry-after", "3600"}}));
  EXPECT_EQ(taken.verdict, Verdict::fall_back);
  EXPECT_EQ(taken.store->expires, now + hours(1));
}

TEST_F(TakeAnswer, A404SaysThatThePlaceIsNotTheServices) {
  EXPECT_EQ(take(response(404)).verdict, Verdict::not_here);
  EXPECT_EQ(take(response(422)).trouble->code, "bad-request");
  EXPECT_EQ(take(response(204)).trouble->code, "odd-answer");
}

TEST_F(TakeAnswer, ABodyThatCannotBeReadLeavesTheStoredOne) {
  fault_in = [](std::string_view) { return std::optional<std::string>("it is odd"); };
  const Taken taken = take(response(200, "new"));
  EXPECT_EQ(taken.verdict, Verdict::fall_back);
  EXPECT_EQ(taken.store->body, "body");
  EXPECT_EQ(taken.store->last_modified, modified);
  EXPECT_EQ(taken.store->status, 0);
  EXPECT_EQ(taken.trouble->found, "What MET Norway sent cannot be read (it is odd).");
}

TEST_F(TakeAnswer, AWebPageIsNoForecast) {
  const Taken taken = take(response(200, "new", {{"content-type", "text/html"}}));
  EXPECT_EQ(taken.trouble->found, "What MET Norway sent cannot be read (it came as text/html).");
}

TEST_F(TakeAnswer, BrokenConnectionsAreRetriedAndTheRestIsNot) {
  for (const auto trouble :
       {HttpTrouble::no_connection, HttpTrouble::no_answer, HttpTrouble::too_slow, HttpTrouble::cut_short}) {
    EXPECT_EQ(take(HttpFailure{trouble, ""}).verdict, Verdict::retry);
    EXPECT_EQ(take(HttpFailure{trouble, ""}, good(), 4).verdict, Verdict::fall_back);
    EXPECT_FALSE(take(HttpFailure{trouble, ""}).store) << "nobody answered, so nobody needs a rest";
  }
  for (const auto trouble :
       {HttpTrouble::no_name, HttpTrouble::too_big, HttpTrouble::redirects, HttpTrouble::not_https,
        HttpTrouble::certificate, HttpTrouble::garbled, HttpTrouble::other}) {
    const Taken taken = take(HttpFailure{trouble, "why"});
    EXPECT_EQ(taken.verdict, Verdict::fall_back);
    EXPECT_THAT(taken.trouble->found, HasSubstr("(why)."));
    EXPECT_FALSE(taken.trouble->remedy.empty());
  }
}

TEST(AgeInWords, IsSpokenToTheMinuteHourOrDay) {
  EXPECT_EQ(age_in_words(seconds(-5)), "less than a minute");
  EXPECT_EQ(age_in_words(seconds(59)), "less than a minute");
  EXPECT_EQ(age_in_words(minutes(35)), "35 min");
  EXPECT_EQ(age_in_words(hours(7) + minutes(20)), "7 h 20 min");
  EXPECT_EQ(age_in_words(hours(9)), "9 h");
  EXPECT_EQ(age_in_words(hours(24)), "1 day");
  EXPECT_EQ(age_in_words(hours(51)), "2 days 3 h");
}

}  // namespace
}  // namespace weatherstruck::feed
