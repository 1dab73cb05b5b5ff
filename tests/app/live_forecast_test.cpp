// The whole program, from the command line to the kept record, against a server that behaves badly: what its
// user reads, what is asked, and that the last good forecast stays.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <cstdlib>
#include <filesystem>
#include <functional>
#include <memory>
#include <regex>
#include <string>

#include "app/live_forecast.h"
#include "app/run_binary.h"
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
using testing::AnyOf;
using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;
using testing::StartsWith;

const char* const stands_in = " The last good forecast stands in; it is 2 h old.";
const char* const once_more = "No forecast yet: it is asked for again, for a minute at most. ";

/// A good forecast is kept; two hours later the server behaves otherwise.
class LiveForecast : public testing::Test {
 protected:
  void keep_a_good_one() {
    const Said first = live.say({"plan", "bed"});
    ASSERT_EQ(first.code, ExitCode::ok) << first.err;
    ASSERT_EQ(first.requests, 1U);
    ASSERT_THAT(first.out, Not(HasSubstr("last good")));
    ASSERT_THAT(live.bodies(), ElementsAre(live.good()));
  }
  /// What was said but for the line that names the server.
  std::string line(const Said& said) const {
    const std::string where = "Forecasts come from " + live.network.address +
                              " (WEATHERSTRUCK_SERVICE), not from the service itself.";
    EXPECT_THAT(said.err, StartsWith(where));
    return said.err.size() > where.size() ? said.err.substr(where.size() + 1) : "";
  }
  LiveProgram live;
};

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

class BadAnswers : public LiveForecast {
 protected:
  void leaves_the_last_good_one(const Bad& bad) {
    SCOPED_TRACE(bad.name);
    keep_a_good_one();
    const std::vector<std::string> files = live.files();
    live.later(hours(2));
    live.server.behave(bad.answer);
    live.network.limits.whole = bad.patience;

    const Said morning = two_hours_old(live.say({"morning", "bed"}));
    EXPECT_EQ(morning.code, ExitCode::ok);
    EXPECT_THAT(morning.out, AllOf(StartsWith("Morning sheet, Mon 9 Feb"), HasSubstr("Drive to the site"),
                                   HasSubstr(std::string("Mind") + stands_in)));
    EXPECT_EQ(morning.requests, bad.requests);
    const std::string waiting = bad.requests > 1 && !morning.pauses.empty() ? once_more : "";
    EXPECT_THAT(line(morning), AllOf(StartsWith(waiting + bad.found), EndsWith(bad.remedy + stands_in)));
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
      EXPECT_EQ(line(table), bad.later + stands_in);
    else
      EXPECT_THAT(line(table), AllOf(StartsWith(waiting + bad.found), EndsWith(bad.remedy + stands_in)));

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
};

const char* const nothing_usable =
    "The service is not asked again for 5 min: its last answer was no forecast.";
const char* const in_the_open = "Try again where the signal is better.";
const char* const or_a_file = "Try again later, or give a saved forecast.";

TEST_F(BadAnswers, A403) {
  leaves_the_last_good_one(
      {"403", always(whole("403 Forbidden", "<html>no")),
       "MET Norway turns us away (403): it answers only those who say truly how to reach them.",
       "Check that the contact you gave is a mail address or site of your own; it is not asked again for 1 "
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
                            "MET Norway could not answer (503).", "Try again in some minutes.", 4, 0,
                            "The service is not asked again for 5 min: its last answer was no forecast "
                            "(503)."});
}

TEST_F(BadAnswers, A503ThatNamesItsTimeIsNotAskedBefore) {
  leaves_the_last_good_one({"503", always(whole("503 Service Unavailable", "", "Retry-After: 1800\r\n")),
                            "MET Norway could not answer (503).", "Try again in some minutes.", 1, 0,
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
                            "What MET Norway sent cannot be read: ", or_a_file, 1, 0, nothing_usable});
}

TEST_F(BadAnswers, SixtyMegabytesInChunks) {
  const auto sent = std::make_shared<std::atomic<std::size_t>>(0);
  leaves_the_last_good_one({"60 MB", feed::chunks(60 * feed::megabyte, sent),
                            "The answer is far bigger than a forecast and was given up", or_a_file, 1, 0,
                            nothing_usable});
  EXPECT_LT(sent->load(), 40 * feed::megabyte);
}

TEST_F(BadAnswers, AGzipBomb) {
  leaves_the_last_good_one(
      {"bomb",
       always(whole("200 OK", feed::gzip_of_zeros(60 * feed::megabyte), "Content-Encoding: gzip\r\n")),
       "The answer is far bigger than a forecast and was given up", or_a_file, 1, 0, nothing_usable});
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
                            "What MET Norway sent cannot be read: it came as text/html", or_a_file, 1, 0,
                            nothing_usable});
}

TEST_F(BadAnswers, TlsWithAWrongName) {
  keep_a_good_one();
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
  EXPECT_THAT(line(morning),
              AllOf(StartsWith("Whoever answers cannot prove to be MET Norway ("), HasSubstr("localhost"),
                    EndsWith(std::string("Check date and time of this machine, and use another network: this "
                                         "one may read along.") +
                             stands_in)));
  EXPECT_THAT(live.bodies(), ElementsAre(live.good(), live.good()));
  EXPECT_EQ(morning.requests, 0U) << "nor is the other address tried";
}

TEST_F(LiveForecast, NobodyIsAskedBeforeExpiresAndA304RenewsIt) {
  keep_a_good_one();
  live.server.behave(always(head("304 Not Modified",
                                 "Date: Mon, 09 Feb 2026 05:31:00 GMT\r\nExpires: Mon, 09 Feb 2026 06:02:00 "
                                 "GMT\r\n") +
                            "\r\n"));
  live.later(minutes(30) + seconds(59));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 0U);
  live.later(seconds(1));
  const Said renewed = live.say({"morning", "bed"});
  EXPECT_EQ(renewed.requests, 1U);
  EXPECT_EQ(line(renewed), "");
  EXPECT_THAT(renewed.out, Not(HasSubstr("last good")));
  const std::string request = live.server.requests().back();
  EXPECT_THAT(request, HasSubstr("\r\nIf-Modified-Since: Mon, 09 Feb 2026 04:43:07 GMT\r\n"));
  EXPECT_THAT(request, HasSubstr("\r\nUser-Agent: weatherstruck/9.9 post@brickfield.example\r\n"));
  EXPECT_THAT(request, StartsWith("GET /weatherapi/locationforecast/2.0/complete?altitude=180&lat=52.06&lon="
                                  "-3.61 "));
  live.later(minutes(30) + seconds(59));
  EXPECT_EQ(live.say({"now", "bed"}).requests, 0U);
  EXPECT_THAT(live.bodies(), ElementsAre(live.good()));
  live.later(seconds(1));
  EXPECT_EQ(live.say({"why", "bed", "bed-pour"}).requests, 1U);
}

TEST_F(LiveForecast, OneThatTakesItsTimeIsUsed) {
  live.server.behave([this](feed::Connection& connection, const std::string&) {
    live.takes(seconds(20));
    connection.send(live.good_answer());
  });
  const Said plan = live.say({"plan", "bed"});
  EXPECT_EQ(plan.code, ExitCode::ok) << plan.err;
  EXPECT_EQ(line(plan), "");
  EXPECT_EQ(plan.requests, 1U);
}

TEST_F(LiveForecast, WithNothingKeptTheRefusalIsNamed) {
  live.server.behave(always(whole("403 Forbidden", "")));
  const Said plan = live.say({"plan", "bed"});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(line(plan),
              AllOf(HasSubstr("found MET Norway turns us away (403): it answers only those who say truly how "
                              "to reach them; allowed: a forecast for the site. Check that the contact"),
                    HasSubstr("--forecast FILE")));
  const Said again = live.say({"plan", "bed"});
  EXPECT_EQ(again.requests, 0U);
  EXPECT_THAT(line(again), HasSubstr("found The service is not asked again for 1 h"));
}

TEST_F(LiveForecast, ForAMomentThatIsPastNobodyIsAsked) {
  const Said none = live.say({"plan", "bed", "--now", "2026-02-09T04:00"});
  EXPECT_EQ(none.code, ExitCode::invalid);
  EXPECT_THAT(none.err, HasSubstr("Leave --now out"));
  keep_a_good_one();
  live.later(hours(3));
  const Said plan = live.say({"plan", "bed", "--now", "2026-02-09T06:00"});
  EXPECT_EQ(plan.code, ExitCode::ok);
  EXPECT_EQ(plan.err,
            "The moment that --now names is past: nobody was asked. The last forecast kept is used, of Mon 9 "
            "Feb 04:43, 1 h 17 min old.");
  EXPECT_EQ(none.requests + plan.requests, 0U);
}

TEST_F(LiveForecast, AThrottleIsNotGotRoundByAnotherAltitude) {
  keep_a_good_one();
  live.later(hours(2));
  live.server.behave(always(whole("429 Too Many Requests", "")));
  live.move_to(52.06, -3.61, 190);
  EXPECT_EQ(live.say({"plan", "bed"}).requests, 1U);
  EXPECT_EQ(live.say({"plan", "bed"}).requests, 0U) << "held, with nothing kept under the new address";
  live.move_to(52.06, -3.61, 200);
  const Said plan = live.say({"plan", "bed"});
  EXPECT_EQ(plan.requests, 0U);
  EXPECT_EQ(plan.code, ExitCode::ok) << "the one for the other altitude stands in";
  EXPECT_EQ(line(plan),
            "The service is not asked again for 15 min: its last answer was no forecast (429). Wait, or give "
            "a saved forecast. The last forecast kept is used, of Mon 9 Feb 04:43, "
            "2 h 17 min old.");
}

TEST_F(LiveForecast, AKeptOneThatCannotBeReadIsPassedOver) {
  keep_a_good_one();
  live.later(hours(12));
  {
    record::Store store = live.store();
    desk::RecordCache cache(store, "52.0600,-3.6100");
    feed::CachedAnswer torn =
        cache
            .get(feed::met_norway_request({52.06, -3.61, base::Metres(180)}, {live.server.address(), ""}).url)
            .value();
    torn.body.resize(20'000);
    torn.fetched_at += hours(11);
    cache.put(torn);
  }
  const Said plan = live.say({"plan", "bed", "--offline"});
  EXPECT_EQ(plan.code, ExitCode::ok) << plan.err;
  EXPECT_THAT(plan.err, StartsWith("The forecast kept Mon 9 Feb 16:00 cannot be read any more and was passed "
                                   "over."));
}

// The fixture is of the service's sample: Florida, a square of the office TAE.
TEST_F(LiveForecast, TheUsServiceIsAskedForItsSquareOnceAndItsLastGoodOneStandsIn) {
  live.move_to(30, -85, 5);
  const std::string grid = text_of(in_source("fixtures/forecasts/nws_grid_small.json"));
  live.later(feed::read_forecast("grid", grid).begin_time() - live.time());
  std::string status = "200 OK";
  live.server.behave([&](feed::Connection& connection, const std::string& request) {
    const bool points = request.starts_with("GET /points/30,-85 ");
    connection.send(points ? whole("200 OK", R"({"properties":{"gridId":"TAE","gridX":58,"gridY":65}})")
                           : whole(status, grid));
  });
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 2U);
  EXPECT_THAT(live.server.requests().back(), StartsWith("GET /gridpoints/TAE/58,65 "));
  live.later(hours(2));
  status = "503 Service Unavailable";
  const Said table = live.say({"forecast", "show", "bed"});
  EXPECT_EQ(table.code, ExitCode::ok);
  EXPECT_EQ(table.requests, 4U) << "the square is known";
  EXPECT_THAT(line(table), AllOf(StartsWith(std::string(once_more) +
                                            "The US National Weather Service could not answer (503)."),
                                 HasSubstr("The last good forecast stands in; it is 2 h")));
}

/// The environment of the built program, put back at the end.
class Variable {
 public:
  Variable(const char* name, const std::string& value) : name_(name) { setenv(name, value.c_str(), 1); }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;
  ~Variable() { unsetenv(name_); }

 private:
  const char* name_;
};

TEST_F(LiveForecast, TheBuiltProgramTakesTheAddressFromTheEnvironmentAndStaysSmall) {
  const Variable data("XDG_DATA_HOME", (live.scratch().folder() / "built").string());
  const std::filesystem::path folder = live.scratch().folder() / "built" / "weatherstruck";
  std::filesystem::create_directories(folder);
  std::filesystem::permissions(folder, std::filesystem::perms::owner_all);
  std::filesystem::copy_file(live.scratch().file(), folder / "record.db");
  const Variable service("WEATHERSTRUCK_SERVICE", live.server.address());
  const auto sent = std::make_shared<std::atomic<std::size_t>>(0);
  live.server.behave(feed::chunks(60 * feed::megabyte, sent));
  const Ran ran = run_binary("forecast show bed");
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("far bigger than a forecast"));
  EXPECT_THAT(live.server.requests(), SizeIs(1));
  EXPECT_THAT(live.server.requests()[0], HasSubstr("\r\nUser-Agent: weatherstruck/"));
#if !defined(__SANITIZE_ADDRESS__)
  rusage children{};
  ASSERT_EQ(getrusage(RUSAGE_CHILDREN, &children), 0);
  EXPECT_LT(children.ru_maxrss, 80'000) << "kilobytes; 16 MiB are taken before it is given up";
#endif
  const Variable bad("WEATHERSTRUCK_SERVICE", "http://weather.example");
  const Ran refused = run_binary("plan bed");
  EXPECT_EQ(refused.code, 3);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("WEATHERSTRUCK_SERVICE"), HasSubstr("http://weather.example"),
                                 HasSubstr("https://host")));
}

}  // namespace
}  // namespace weatherstruck::app
