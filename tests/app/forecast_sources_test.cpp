// The whole program, from the command line to the kept record: what it says its plan stands on where the
// forecast is short, stale, missing or a lie, and what a second service or file beside it changes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "app/live_forecast.h"
#include "feed/bad_answers.h"
#include "feed/other_services.h"
#include "record/scratch.h"

namespace weatherstruck::app {
namespace {

using feed::always;
using feed::whole;
using nlohmann::json;
using std::chrono::hours;
using std::chrono::minutes;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

const base::Instant departure =
    std::chrono::sys_days(std::chrono::year(2026) / std::chrono::February / 9) + hours(5);

std::string json_answer(const std::string& body) {
  return whole("200 OK", body, "Content-Type: application/json\r\n");
}

class ForecastSources : public testing::Test {
 protected:
  [[nodiscard]] json good() const { return json::parse(live.good()); }
  [[nodiscard]] std::string file(const std::string& name, const std::string& bytes) const {
    const std::string path = (live.scratch().folder() / name).string();
    record::write_bytes(path, bytes);
    return path;
  }
  /// A good one is kept; two hours later the service sends that.
  void stands_on_the_last_good_one(const std::string& lie, const std::string& found) {
    live.keep_a_good_one();
    live.later(hours(2));
    live.server.behave(always(json_answer(lie)));
    const Said morning = live.say({"morning", "bed"});
    EXPECT_EQ(morning.code, ExitCode::ok) << morning.err;
    EXPECT_THAT(morning.out,
                AllOf(HasSubstr("Stands on MET Norway of Mon 9 Feb 04:43, to the end of the trip"),
                      HasSubstr("Mind The last good forecast stands in; it is 2 h old.")));
    EXPECT_THAT(morning.err, AllOf(HasSubstr("What MET Norway sent cannot be read ("), HasSubstr(found)));
    EXPECT_THAT(live.bodies(), ElementsAre(live.good())) << "nothing of the lie is kept";
  }
  LiveProgram live;
};

// ---- a service that lies

TEST_F(ForecastSources, EightyDegreesAreNoForecast) {
  json lie = good();
  lie["properties"]["timeseries"][3]["data"]["instant"]["details"]["air_temperature"] = 80;
  stands_on_the_last_good_one(lie.dump(), "air_temperature: temperature 80 C");
}

TEST_F(ForecastSources, NegativeRainIsNoForecast) {
  json lie = good();
  lie["properties"]["timeseries"][3]["data"]["next_1_hours"]["details"]["precipitation_amount"] = -1;
  stands_on_the_last_good_one(lie.dump(), "precipitation_amount: rain in an hour -1 mm");
}

TEST_F(ForecastSources, TimesThatRunBackwardsAreNoForecast) {
  json lie = good();
  json& steps = lie["properties"]["timeseries"];
  std::swap(steps[4], steps[5]);
  stands_on_the_last_good_one(lie.dump(), "/properties/timeseries/5/time");
}

TEST_F(ForecastSources, NotANumberIsNoForecast) {
  std::string lie = live.good();
  const std::size_t at = lie.find("\"air_temperature\"");
  const std::size_t colon = lie.find(':', lie.find("air_temperature\"", lie.find("timeseries")));
  ASSERT_NE(at, std::string::npos);
  lie.replace(colon + 1, lie.find_first_of(",}", colon) - colon - 1, "NaN");
  stands_on_the_last_good_one(lie, "line ");
}

TEST_F(ForecastSources, AnEmptySeriesIsNoForecast) {
  json lie = good();
  lie["properties"]["timeseries"] = json::array();
  stands_on_the_last_good_one(lie.dump(), "/properties/timeseries: an empty list");
}

TEST_F(ForecastSources, OneThatNeverSaysDryOrWetIsNoForecast) {
  json lie = good();
  for (json& step : lie["properties"]["timeseries"]) {
    for (const char* window : {"next_1_hours", "next_6_hours", "next_12_hours"})
      step["data"].erase(window);
  }
  stands_on_the_last_good_one(lie.dump(), "it gives no rain at all");
}

TEST_F(ForecastSources, AFileThatLiesIsRefusedWithEachOfItsFaultsAndKeepsNothing) {
  const std::string path = file("lie.csv",
                                "time_utc,temperature (degC),wind (m/s),rain (mm)\n2026-02-09T05:00Z,80,4,0\n"
                                "2026-02-09T06:00Z,5,4,-1\n2026-02-09T04:00Z,5,4,0\n");
  const Said plan = live.say({"plan", "bed", "--forecast", path});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(plan.err, AllOf(HasSubstr("line 2"), HasSubstr("line 3"), HasSubstr("line 4")));
  EXPECT_THAT(live.bodies(), IsEmpty());
  EXPECT_EQ(plan.requests, 0U);
}

TEST_F(ForecastSources, AFileWithoutAnyWindIsRefusedInWords) {
  std::string table = "time_utc,temperature (degC),rain (mm)\n";
  for (int hour = 0; hour < 90; ++hour)
    table += base::iso_utc(departure + hours(hour)) + ",5,0\n";
  const Said plan = live.say({"plan", "bed", "--forecast", file("calm.csv", table)});
  EXPECT_EQ(plan.code, ExitCode::failed);
  EXPECT_THAT(plan.err, HasSubstr("The forecast gives no wind. A plan wants temperature, rain and wind"));
}

// ---- short, stale, ended, out of reach

TEST_F(ForecastSources, OneThatEndsInsideTheTripIsFollowedToItsEndAndTheRestIsSaid) {
  json shorter = good();
  json& steps = shorter["properties"]["timeseries"];
  steps.erase(steps.begin() + 30, steps.end());
  live.server.behave(always(json_answer(shorter.dump())));
  const Said plan = live.say({"plan", "bed"});
  EXPECT_THAT(plan.out,
              HasSubstr("Stands on MET Norway of Mon 9 Feb 04:43 to Tue 10 Feb 11:00; then no forecast, "
                        "each hour as that of the day before"));
  EXPECT_THAT(plan.out, HasSubstr("Home about "));
  const json answer = json::parse(live.say({"plan", "bed", "--json"}).out);
  ASSERT_THAT(answer["stands_on"], SizeIs(2));
  EXPECT_EQ(answer["stands_on"][0]["kind"], "forecast");
  EXPECT_EQ(answer["stands_on"][0]["source"], "MET Norway");
  EXPECT_EQ(answer["stands_on"][0]["issued"], "2026-02-09T04:43:00Z");
  EXPECT_EQ(answer["stands_on"][1]["kind"], "nothing");
  EXPECT_EQ(answer["stands_on"][1]["from"], "2026-02-10T11:00:00Z");
  EXPECT_EQ(answer["stands_on"][1]["to"], "2026-02-11T21:00:00Z");
}

TEST_F(ForecastSources, WithoutASignalAStaleOneCarriesOnWithItsAge) {
  live.keep_a_good_one();
  live.later(hours(26));
  live.server.behave([](feed::Connection&, const std::string&) {});
  const Said morning = live.say({"morning", "bed"});
  EXPECT_THAT(morning.out, AllOf(HasSubstr("Stands on MET Norway of Mon 9 Feb 04:43, to the end of the trip"),
                                 HasSubstr("The last good forecast stands in; it is 1 day 2 h old.")));
  EXPECT_THAT(morning.err, HasSubstr("No connection to MET Norway"));
}

TEST_F(ForecastSources, OneThatHasEndedIsNoPlan) {
  json over = good();
  json& steps = over["properties"]["timeseries"];
  steps.erase(steps.begin() + 8, steps.end());
  const std::string path = file("over.json", over.dump());
  const Said plan = live.say({"plan", "bed", "--forecast", path, "--now", "2026-02-10T06:00"});
  EXPECT_EQ(plan.code, ExitCode::stale);
  EXPECT_THAT(plan.err, HasSubstr("The forecast ended Mon 9 Feb 13:00, before Tue 10 Feb 06:00."));
}

TEST_F(ForecastSources, TheSecondMorningSaysWhichHoursStoodOnWhat) {
  live.keep_a_good_one();
  live.later(hours(25));
  json newer = good();
  newer["properties"]["meta"]["updated_at"] = "2026-02-10T05:43:00Z";
  json& steps = newer["properties"]["timeseries"];
  steps.erase(steps.begin(), steps.begin() + 25);
  live.server.behave(always(json_answer(newer.dump())));
  ASSERT_EQ(live.say({"log", "bed", "gauge 4 mm since 2", "--yes"}).code, ExitCode::ok);
  const Said morning = live.say({"morning", "bed"});
  EXPECT_THAT(morning.out,
              HasSubstr("Stands on MET Norway of Tue 10 Feb 05:43, to the end of the trip; gone by: as "
                        "forecast then 21 h, read on site 4 h"));
  const json table = json::parse(live.say({"forecast", "show", "bed", "--json"}).out);
  EXPECT_THAT(table["sources"], SizeIs(2));
}

// ---- a second source

std::string wet_table() {
  std::string table = "time_utc,temperature (degC),wind (m/s),rain (mm)\n";
  for (int hour = 0; hour < 90; ++hour)
    table += base::iso_utc(departure + hours(hour)) + (hour < 60 ? ",6,4,3\n" : ",6,4,0\n");
  return table;
}

TEST_F(ForecastSources, AFileBesideSaysWhatItWouldChangeAndChangesNothing) {
  const Said alone = live.say({"plan", "bed", "--json"});
  const Said beside = live.say({"plan", "bed", "--json", "--beside", file("wet.csv", wet_table())});
  const json one = json::parse(alone.out);
  const json two = json::parse(beside.out);
  EXPECT_TRUE(one["beside"].is_null());
  EXPECT_EQ(one["tasks"], two["tasks"]);
  EXPECT_TRUE(two["beside"]["differs"].get<bool>());
  EXPECT_FALSE(two["beside"]["in_time"].get<bool>());
  const Said sheet = live.say({"plan", "bed", "--beside", file("wet.csv", wet_table())});
  EXPECT_THAT(sheet.out,
              AllOf(HasSubstr("it comes otherwise: "), HasSubstr("after the promise or without work")));
}

TEST_F(ForecastSources, AServiceBesideIsAskedAndKeptApart) {
  live.server.behave([this](feed::Connection& connection, const std::string& request) {
    if (request.find("/mos/MOSMIX_L/single_stations/10315/") == std::string::npos)
      return (void)connection.send(live.good_answer());
    connection.send(whole("200 OK", feed::mosmix_kmz(departure, 100, [](int) { return feed::Made{}; }),
                          "Content-Type: application/vnd.google-earth.kmz\r\n"));
  });
  const Said plan = live.say({"plan", "bed", "--beside", "mosmix:10315"});
  EXPECT_EQ(plan.requests, 2U);
  EXPECT_THAT(plan.out, HasSubstr("MOSMIX"));
  EXPECT_THAT(plan.out, HasSubstr("Stands on MET Norway of Mon 9 Feb 04:43, to the end of the trip"));
  EXPECT_THAT(live.bodies(), ElementsAre(live.good())) << "the plan's own stays its own";
  const Said offline = live.say({"plan", "bed", "--offline", "--beside", "mosmix:10315"});
  EXPECT_EQ(offline.requests, 0U);
  EXPECT_THAT(offline.out, HasSubstr("MOSMIX"));
}

TEST_F(ForecastSources, TheTableHoldsTheTwoWeathersSideBySide) {
  const Said table = live.say({"forecast", "show", "bed", "--beside", file("wet.csv", wet_table())});
  EXPECT_THAT(table.out, HasSubstr("Beside it "));
  EXPECT_THAT(table.out, HasSubstr(" of rain instead of "));
}

TEST_F(ForecastSources, AServiceBesideThatIsDownStopsNothing) {
  live.server.behave([this](feed::Connection& connection, const std::string& request) {
    const bool mosmix = request.find("/mos/MOSMIX_L/") != std::string::npos;
    connection.send(mosmix ? whole("404 Not Found", "") : live.good_answer());
  });
  const Said plan = live.say({"plan", "bed", "--beside", "mosmix:10315"});
  EXPECT_EQ(plan.code, ExitCode::ok);
  EXPECT_THAT(plan.err,
              HasSubstr("No second forecast: The Deutscher Wetterdienst has no forecast of that station"));
}

TEST_F(ForecastSources, MosmixInPlaceOfTheServiceOfThePlaceAsksForItsSource) {
  live.server.behave(
      always(whole("200 OK", feed::mosmix_kmz(departure, 100, [](int) { return feed::Made{}; }),
                   "Content-Type: application/vnd.google-earth.kmz\r\n")));
  const Said table = live.say({"forecast", "show", "bed", "--service", "mosmix:10315"});
  EXPECT_EQ(table.code, ExitCode::ok) << table.err;
  EXPECT_THAT(table.out, AllOf(HasSubstr("Quelle: Deutscher Wetterdienst"),
                               HasSubstr("MOSMIX is the forecast of station 10315, 772 km from the site.")));
  EXPECT_THAT(live.bodies(), IsEmpty());
  EXPECT_EQ(live.say({"plan", "bed", "--service", "metoffice"}).code, ExitCode::usage);
}

TEST_F(ForecastSources, OpenMeteoWantsAKeyWhichIsNeitherShownNorKept) {
  const Said without = live.say({"plan", "bed", "--service", "open-meteo"});
  EXPECT_EQ(without.code, ExitCode::invalid);
  EXPECT_EQ(without.requests, 0U);
  EXPECT_THAT(without.err, AllOf(HasSubstr("not for trade use"), HasSubstr("WEATHERSTRUCK_OPEN_METEO_KEY")));
  live.network.open_meteo_key = "secret7";
  live.server.behave(always(json_answer(feed::open_meteo_json(departure, 100))));
  const Said table = live.say({"forecast", "show", "bed", "--service", "open-meteo"});
  EXPECT_EQ(table.code, ExitCode::ok) << table.err;
  EXPECT_THAT(live.server.requests().back(), HasSubstr("&apikey=secret7 HTTP"));
  EXPECT_THAT(table.out + table.err, Not(HasSubstr("secret7")));
  for (const auto& entry : std::filesystem::recursive_directory_iterator(live.scratch().folder())) {
    if (entry.is_directory()) continue;
    std::ifstream in(entry.path(), std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    EXPECT_THAT(bytes.str(), Not(HasSubstr("secret7"))) << entry.path();
  }
}

}  // namespace
}  // namespace weatherstruck::app
