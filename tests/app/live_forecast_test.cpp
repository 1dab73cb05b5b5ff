// The whole program, from the command line to the kept record, with a forecast from a server: when it is
// asked, and what becomes of the answer. What bad answers do is in live_answers_test.cpp.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <utility>

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
using std::chrono::minutes;
using std::chrono::seconds;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;
using testing::StartsWith;

class LiveForecast : public testing::Test {
 protected:
  LiveProgram live;
};

TEST_F(LiveForecast, NobodyIsAskedBeforeExpiresAndA304RenewsIt) {
  live.keep_a_good_one();
  live.server.behave(always(head("304 Not Modified",
                                 "Date: Mon, 09 Feb 2026 05:31:00 GMT\r\nExpires: Mon, 09 Feb 2026 06:02:00 "
                                 "GMT\r\n") +
                            "\r\n"));
  live.later(minutes(30) + seconds(59));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 0U);
  live.later(seconds(1));
  const Said renewed = live.say({"morning", "bed"});
  EXPECT_EQ(renewed.requests, 1U);
  EXPECT_EQ(live.line(renewed), "");
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
  EXPECT_EQ(live.line(plan), "");
  EXPECT_EQ(plan.requests, 1U);
  // Its time counts from when it came, not from when it was asked for.
  live.later(minutes(30) + seconds(59));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 0U);
  live.later(seconds(1));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 1U);
}

TEST_F(LiveForecast, WithNothingKeptTheRefusalIsNamed) {
  live.server.behave(always(whole("403 Forbidden", "")));
  const Said plan = live.say({"plan", "bed"});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(live.line(plan),
              AllOf(HasSubstr("found MET Norway turns us away (403): it answers only those who say truly how "
                              "to reach them; allowed: a forecast for the site. Check that the contact"),
                    HasSubstr("--forecast FILE")));
  const Said again = live.say({"plan", "bed"});
  EXPECT_EQ(again.requests, 0U);
  EXPECT_THAT(live.line(again), HasSubstr("found The service is not asked again for 1 h"));
}

TEST_F(LiveForecast, ForAMomentThatIsPastNobodyIsAsked) {
  const Said none = live.say({"plan", "bed", "--now", "2026-02-09T04:00"});
  EXPECT_EQ(none.code, ExitCode::invalid);
  EXPECT_THAT(none.err, HasSubstr("Leave --now out"));
  live.keep_a_good_one();
  live.later(hours(3));
  const Said plan = live.say({"plan", "bed", "--now", "2026-02-09T06:00"});
  EXPECT_EQ(plan.code, ExitCode::ok);
  EXPECT_EQ(plan.err,
            "The moment that --now names is past: nobody was asked. The last forecast kept is used, of Mon 9 "
            "Feb 04:43, 1 h 17 min old.");
  EXPECT_EQ(none.requests + plan.requests, 0U);
}

TEST_F(LiveForecast, AThrottleIsNotGotRoundByAnotherAltitude) {
  live.keep_a_good_one();
  live.later(hours(2));
  live.server.behave(always(whole("429 Too Many Requests", "")));
  live.move_to(52.06, -3.61, 190);
  EXPECT_EQ(live.say({"plan", "bed"}).requests, 1U);
  EXPECT_EQ(live.say({"plan", "bed"}).requests, 0U) << "held, with nothing kept under the new address";
  live.move_to(52.06, -3.61, 200);
  const Said plan = live.say({"plan", "bed"});
  EXPECT_EQ(plan.requests, 0U);
  EXPECT_EQ(plan.code, ExitCode::ok) << "the one for the other altitude stands in";
  EXPECT_EQ(live.line(plan),
            "The service is not asked again for 15 min: its last answer was no forecast (429). Wait, or give "
            "a saved forecast. The last forecast kept is used, of Mon 9 Feb 04:43, "
            "2 h 17 min old.");
}

TEST_F(LiveForecast, AKeptOneThatCannotBeReadIsPassedOver) {
  live.keep_a_good_one();
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
  const auto answers = [grid](std::string status) -> feed::LoopbackServer::Answer {
    return [grid, status = std::move(status)](feed::Connection& connection, const std::string& request) {
      const bool points = request.starts_with("GET /points/30,-85 ");
      connection.send(points ? whole("200 OK", R"({"properties":{"gridId":"TAE","gridX":58,"gridY":65}})")
                             : whole(status, grid));
    };
  };
  live.server.behave(answers("200 OK"));
  EXPECT_EQ(live.say({"forecast", "show", "bed"}).requests, 2U);
  EXPECT_THAT(live.server.requests().back(), StartsWith("GET /gridpoints/TAE/58,65 "));
  live.later(hours(2));
  live.server.behave(answers("503 Service Unavailable"));
  const Said table = live.say({"forecast", "show", "bed"});
  EXPECT_EQ(table.code, ExitCode::ok);
  EXPECT_EQ(table.requests, 4U) << "the square is known";
  EXPECT_THAT(live.line(table), AllOf(StartsWith(std::string(LiveProgram::once_more) +
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
  if (!program_is_watched()) {
    EXPECT_LT(ran.kilobytes, 80'000) << "16 MiB are taken before it is given up";
  }
  const Variable bad("WEATHERSTRUCK_SERVICE", "http://weather.example");
  const Ran refused = run_binary("plan bed");
  EXPECT_EQ(refused.code, 3);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("WEATHERSTRUCK_SERVICE"), HasSubstr("http://weather.example"),
                                 HasSubstr("https://host")));
}

}  // namespace
}  // namespace weatherstruck::app
