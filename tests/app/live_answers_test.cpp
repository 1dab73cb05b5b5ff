// The whole program, from the command line to the kept record, against a server that behaves badly: what its
// user reads, what is asked, and that the last good forecast stays.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <memory>
#include <regex>
#include <string>

#include "app/live_forecast.h"
#include "feed/bad_answers.h"
#include "weatherstruck/desk/forecast_shelf.h"

namespace weatherstruck::app {
namespace {

using feed::always;
using feed::head;
using feed::whole;
using std::chrono::hours;
using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;
using testing::AllOf;
using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

const char* const stands_in = " The last good forecast stands in; it is 2 h old.";

struct Bad {
  std::string name;
  feed::LoopbackServer::Answer answer;
  std::string found;   ///< how the line begins; the library's own words may follow in brackets
  std::string remedy;  ///< how it ends
  std::size_t requests = 1;
  std::size_t again = 0;  ///< requests of the next command, at once
  std::string later{};    ///< how the line of that begins
  milliseconds patience = seconds(20);
};

/// A good forecast is kept; two hours later the server behaves otherwise.
class BadAnswers : public testing::Test {
 protected:
  void leaves_the_last_good_one(const Bad& bad) {
    SCOPED_TRACE(bad.name);
    live.keep_a_good_one();
    const std::vector<std::string> files = live.files();
    live.later(hours(2));
    live.server.behave(bad.answer);
    live.network.limits.whole = bad.patience;

    const Said morning = two_hours_old(live.say({"morning", "bed"}));
    EXPECT_EQ(morning.code, ExitCode::ok);
    EXPECT_THAT(morning.out, AllOf(StartsWith("Morning sheet, Mon 9 Feb"), HasSubstr("Drive to the site"),
                                   HasSubstr(std::string("Mind") + stands_in)));
    EXPECT_EQ(morning.requests, bad.requests);
    const std::string waiting = bad.requests > 1 && !morning.pauses.empty() ? LiveProgram::once_more : "";
    EXPECT_THAT(live.line(morning), AllOf(StartsWith(waiting + bad.found), EndsWith(bad.remedy + stands_in)));
    EXPECT_THAT(morning.err, Not(HasSubstr("lat="))) << "no query in a message";
    // Grows from about five seconds, drawn anew each time, within the minute.
    for (std::size_t i = 0; i < morning.pauses.size(); ++i) {
      EXPECT_GE(morning.pauses[i], milliseconds(2500) * (1 << i));
      EXPECT_LE(morning.pauses[i], milliseconds(7500) * (1 << i));
    }

    const Said table = two_hours_old(live.say({"forecast", "show", "bed"}));
    EXPECT_EQ(table.code, ExitCode::ok);
    EXPECT_EQ(table.requests, bad.again);
    EXPECT_THAT(table.out, AllOf(StartsWith("Forecast"), HasSubstr(stands_in)));
    if (!bad.later.empty())
      EXPECT_EQ(live.line(table), bad.later + stands_in);
    else
      EXPECT_THAT(live.line(table), AllOf(StartsWith(waiting + bad.found), EndsWith(bad.remedy + stands_in)));

    EXPECT_THAT(live.bodies(), ElementsAre(live.good())) << "the kept one as it was, and no other";
    EXPECT_EQ(live.files(), files) << "nothing is left lying about";
  }
  // The minutes that the exchanges took are left out of the age.
  static Said two_hours_old(Said said) {
    static const std::regex age("it is 2 h [123] min old");
    said.out = std::regex_replace(said.out, age, "it is 2 h old");
    said.err = std::regex_replace(said.err, age, "it is 2 h old");
    return said;
  }
  // An exchange that runs into its time: a minute for the program, a moment for the test.
  feed::LoopbackServer::Answer for_a_minute(feed::LoopbackServer::Answer answer) {
    return [this, answer = std::move(answer)](feed::Connection& connection, const std::string& request) {
      live.takes(seconds(60));
      answer(connection, request);
    };
  }
  LiveProgram live;
};

const char* const nothing_usable =
    "The service is not asked again for 5 min: its last answer was no forecast.";
const char* const in_the_open = "Try again where the signal is better.";
const char* const or_a_file = "Try again later, or give a saved forecast.";

TEST_F(BadAnswers, A403) {
  leaves_the_last_good_one(
      {"403", always(whole("403 Forbidden", "<html>no")),
       "MET Norway turns us away (403): it answers only those who say truly how to reach them.",
       "Check that the contact you gave to \"weatherstruck me\" is a mail address or site of your own; it is "
       "not asked again for 1 "
       "h.",
       1, 0, "The service is not asked again for 1 h: its last answer was no forecast (403)."});
  live.later(minutes(59));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 0U);
  live.later(minutes(1));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 1U);
}

TEST_F(BadAnswers, A429HoldsForAsLongAsItSays) {
  leaves_the_last_good_one({"429", always(whole("429 Too Many Requests", "", "Retry-After: 5400\r\n")),
                            "MET Norway was asked too often (429).",
                            "Wait: it is not asked again for 1 h 30 min.", 1, 0,
                            "The service is not asked again for 1 h 30 min: its last answer was no forecast "
                            "(429)."});
  live.server.behave(always(live.good_answer()));
  live.later(minutes(89));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 0U);
  live.later(minutes(1));
  const Said after = live.say({"forecast", "show", "bed"});
  EXPECT_EQ(after.requests, 1U);
  EXPECT_THAT(after.out, Not(HasSubstr("last good")));
}

TEST_F(BadAnswers, A503IsAskedThreeTimesMoreAndThenLeftInPeace) {
  leaves_the_last_good_one({"503", always(whole("503 Service Unavailable", "later")),
                            "MET Norway could not answer (503).", "It is not asked again for 5 min.", 4, 0,
                            "The service is not asked again for 5 min: its last answer was no forecast "
                            "(503)."});
}

TEST_F(BadAnswers, A503ThatNamesItsTimeIsNotAskedBefore) {
  leaves_the_last_good_one({"503", always(whole("503 Service Unavailable", "", "Retry-After: 1800\r\n")),
                            "MET Norway could not answer (503).", "It is not asked again for 30 min.", 1, 0,
                            "The service is not asked again for 30 min: its last answer was no forecast "
                            "(503)."});
}

TEST_F(BadAnswers, ATruncatedBody) {
  leaves_the_last_good_one({"truncated", always(live.good_answer().substr(0, 20'000)),
                            "The forecast broke off half way (", in_the_open, 4, 4});
}

TEST_F(BadAnswers, ATruncatedBodyOfNoLength) {
  leaves_the_last_good_one({"truncated, no length",
                            always(head("200 OK") + "\r\n" + live.good().substr(0, 20'000)),
                            "What MET Norway sent cannot be read (line ", or_a_file, 1, 0, nothing_usable});
}

TEST_F(BadAnswers, SixtyMegabytesInChunks) {
  const auto sent = std::make_shared<std::atomic<std::size_t>>(0);
  leaves_the_last_good_one({"60 MB", feed::chunks(60 * feed::megabyte, sent),
                            "The answer is far bigger than a forecast and was given up (stopped at 16 MB). ",
                            or_a_file, 1, 0, nothing_usable});
  EXPECT_LT(sent->load(), 40 * feed::megabyte);
}

TEST_F(BadAnswers, AGzipBomb) {
  leaves_the_last_good_one(
      {"bomb",
       always(whole("200 OK", feed::gzip_of_zeros(60 * feed::megabyte), "Content-Encoding: gzip\r\n")),
       "The answer is far bigger than a forecast and was given up (stopped at 16 MB). ", or_a_file, 1, 0,
       nothing_usable});
}

TEST_F(BadAnswers, AGzipThatIsNone) {
  leaves_the_last_good_one({"no gzip", always(whole("200 OK", "plain", "Content-Encoding: gzip\r\n")),
                            "The answer cannot be unpacked (", or_a_file, 1, 0, nothing_usable});
}

const char* const sent_round = "MET Norway sends us round in circles or to an address that is not allowed";
const char* const open_a_page =
    "Try again later. On a public network, open a web page first: it may want to be agreed to.";

TEST_F(BadAnswers, ARedirectLoop) {
  leaves_the_last_good_one({"loop", always(whole("302 Found", "", "Location: /again?lat=1\r\n")), sent_round,
                            open_a_page, 1 + 3, 0, nothing_usable});
}

TEST_F(BadAnswers, ARedirectToAFile) {
  leaves_the_last_good_one({"file", always(whole("302 Found", "", "Location: file:///etc/hostname\r\n")),
                            sent_round, open_a_page, 1, 0, nothing_usable});
}

TEST_F(BadAnswers, ARedirectToAnotherMachine) {
  const feed::LoopbackServer elsewhere(always(live.good_answer()), "127.0.0.2");
  leaves_the_last_good_one({"away",
                            always(whole("302 Found", "", "Location: " + elsewhere.address() + "/\r\n")),
                            sent_round, open_a_page, 1, 0, nothing_usable});
  EXPECT_THAT(elsewhere.requests(), IsEmpty());
}

TEST_F(BadAnswers, TenBytesASecond) {
  leaves_the_last_good_one({"drip", for_a_minute(feed::drip()),
                            "The forecast came too slowly and was given up (", in_the_open, 1, 1, "",
                            milliseconds(250)});
}

TEST_F(BadAnswers, NothingAtAll) {
  leaves_the_last_good_one({"silence", for_a_minute(feed::silence()), "MET Norway did not answer in time (",
                            in_the_open, 1, 1, "", milliseconds(100)});
}

TEST_F(BadAnswers, AClosedDoor) {
  leaves_the_last_good_one({"closed", [](feed::Connection&, const std::string&) {},
                            "No connection to MET Norway (", in_the_open, 4, 4});
}

TEST_F(BadAnswers, AWebPageInPlaceOfAForecast) {
  leaves_the_last_good_one({"page", always(whole("200 OK", "<html>hello", "Content-Type: text/html\r\n")),
                            "What MET Norway sent cannot be read (it came as text/html). ", or_a_file, 1, 0,
                            nothing_usable});
}

TEST_F(BadAnswers, TlsWithAWrongName) {
  live.keep_a_good_one();
  live.later(hours(2));
  const feed::TlsServer tls(live.scratch().folder().string(), "wrong.example");
  if (!tls.ok()) GTEST_SKIP() << "the openssl command is not here or does not start: TLS was not tried";
  // Its seal is trusted, so that only the name is wrong; and the good one is known as that address's.
  live.network.address = "https://localhost:" + std::to_string(tls.port());
  live.network.ca_file = tls.certificate();
  {
    record::Store store = live.store();
    desk::RecordCache cache(store, "52.0600,-3.6100");
    const feed::ForecastPlace place{52.06, -3.61, base::Metres(180)};
    feed::CachedAnswer known =
        cache.get(feed::met_norway_request(place, {live.server.address(), ""}).url).value();
    known.url = feed::met_norway_request(place, {live.network.address, ""}).url;
    cache.put(known);
  }
  const Said morning = live.say({"morning", "bed"});
  EXPECT_EQ(morning.code, ExitCode::ok);
  EXPECT_THAT(morning.out, HasSubstr(std::string("Mind") + stands_in));
  EXPECT_THAT(live.line(morning),
              AllOf(StartsWith("Whoever answers cannot prove to be MET Norway ("), HasSubstr("localhost"),
                    EndsWith(std::string("Check date and time of this machine, and use another network: this "
                                         "one may read along.") +
                             stands_in)));
  EXPECT_THAT(live.bodies(), ElementsAre(live.good(), live.good()));
  EXPECT_EQ(morning.requests, 0U) << "nor is the other address tried";
}

}  // namespace
}  // namespace weatherstruck::app
