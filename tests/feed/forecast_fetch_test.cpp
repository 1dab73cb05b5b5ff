#include "weatherstruck/feed/forecast_fetch.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"
#include "fetch_support.h"
#include "other_services.h"

namespace weatherstruck::feed {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

const ForecastPlace england{51.5, -0.1, base::Metres(20)};
const ForecastPlace florida{30, -85, base::Metres(5)};
const ForecastPlace toronto{43.65, -79.38, base::Metres(80)};

const char* const points_url = "https://api.weather.gov/points/30,-85";
const char* const points_body = R"({"properties":{"gridId":"TAE","gridX":58,"gridY":65}})";
const char* const grid_url = "https://api.weather.gov/gridpoints/TAE/58,65";

class ForecastFetch : public ::testing::Test {
 protected:
  ForecastFetch() {
    const auto series = read_forecast("fixture", met_body);
    world.now = series.begin_time();
    nws_begin = read_forecast("fixture", nws_body).begin_time();
  }

  FetchOutcome fetch(const ForecastPlace& place) { return fetch_forecast(place, options, world.ports(http)); }
  FetchedForecast got(const ForecastPlace& place) {
    FetchOutcome outcome = fetch(place);
    if (auto* fetched = std::get_if<FetchedForecast>(&outcome)) return std::move(*fetched);
    throw std::runtime_error("refused: " + std::get<FetchRefused>(outcome).trouble.found);
  }
  FetchRefused refused(const ForecastPlace& place) {
    FetchOutcome outcome = fetch(place);
    if (auto* refusal = std::get_if<FetchRefused>(&outcome)) return std::move(*refusal);
    throw std::runtime_error("not refused");
  }
  std::vector<std::string> asked() const {
    std::vector<std::string> out;
    for (const HttpRequest& request : http.requests)
      out.push_back(request.url);
    return out;
  }
  static std::string remarks(const std::vector<sky::SeriesNote>& notes) {
    std::string out;
    for (const sky::SeriesNote& note : notes)
      out += note.text + "\n";
    return out;
  }

  const std::string met_body = bytes_of(fixture("met_norway_small.json"));
  const std::string nws_body = bytes_of(fixture("nws_grid_small.json"));
  base::Instant nws_begin;
  ScriptedClient http;
  FakeWorld world;
  FetchOptions options;
};

TEST_F(ForecastFetch, AFirstAnswerIsReadAndKept) {
  http.script = {response(200, met_body, {{"last-modified", "Mon, 09 Feb 2026 04:58:07 GMT"}})};
  const FetchedForecast out = got(england);
  EXPECT_FALSE(out.from_cache);
  EXPECT_EQ(out.age, seconds(0));
  EXPECT_EQ(out.body, met_body);
  EXPECT_EQ(out.series.hours.size(), 15U);
  EXPECT_EQ(out.fetched_at, world.now);
  EXPECT_THAT(out.remarks, IsEmpty());
  EXPECT_THAT(world.cache.held, SizeIs(1));
}

TEST_F(ForecastFetch, NobodyIsAskedBeforeExpiresAndThenOnCondition) {
  http.script = {
      response(200, met_body,
               {{"last-modified", "Mon, 09 Feb 2026 04:58:07 GMT"}, {"cache-control", "max-age=1860"}}),
      response(304, "", {{"cache-control", "max-age=1860"}})};
  (void)got(england);
  const base::Instant begin = world.now;
  for (int minute = 1; minute <= 30; ++minute) {
    world.now = begin + minutes(minute);
    const FetchedForecast out = got(england);
    EXPECT_TRUE(out.from_cache);
    EXPECT_EQ(out.age, minutes(minute));
  }
  EXPECT_THAT(http.requests, SizeIs(1));
  world.now = begin + minutes(31);
  const FetchedForecast out = got(england);
  ASSERT_THAT(http.requests, SizeIs(2));
  EXPECT_EQ(http.requests[1].if_modified_since, "Mon, 09 Feb 2026 04:58:07 GMT");
  EXPECT_TRUE(out.from_cache);
  EXPECT_EQ(out.age, seconds(0));
  EXPECT_EQ(out.body, met_body);
  EXPECT_THAT(out.remarks, IsEmpty());
}

TEST_F(ForecastFetch, A503IsRetriedAndThenTheLastGoodOneStandsIn) {
  http.script = {response(200, met_body), response(503), response(503), response(503), response(503)};
  (void)got(england);
  world.now += hours(2);
  const FetchedForecast out = got(england);
  EXPECT_THAT(http.requests, SizeIs(5));
  EXPECT_THAT(world.slept, SizeIs(3));
  EXPECT_TRUE(out.from_cache);
  EXPECT_GE(out.age, hours(2));
  EXPECT_THAT(remarks(out.remarks),
              HasSubstr("MET Norway could not answer (503). It is not asked again for 5 min.\n"
                        "The last good forecast stands in; it is 2 h"));
  // The next command leaves the service its rest.
  EXPECT_THAT(remarks(got(england).remarks), HasSubstr("not asked again for 5 min"));
  EXPECT_THAT(http.requests, SizeIs(5));
}

TEST_F(ForecastFetch, ARetryThatWorksLeavesNoRemark) {
  http.script = {response(503), HttpFailure{HttpTrouble::no_answer, ""}, response(200, met_body)};
  const FetchedForecast out = got(england);
  EXPECT_THAT(out.remarks, IsEmpty());
  EXPECT_FALSE(out.from_cache);
}

TEST_F(ForecastFetch, RetriesEndWithTheMinute) {
  // An exchange that eats its whole time is not tried for minutes on end.
  class Slow : public HttpClient {
   public:
    explicit Slow(FakeWorld& world) : world_(world) {}
    HttpAnswer get(const HttpRequest&) override {
      ++requests;
      world_.now += seconds(60);
      return HttpFailure{HttpTrouble::too_slow, ""};
    }
    int requests = 0;

   private:
    FakeWorld& world_;
  };
  Slow slow(world);
  const auto outcome = fetch_forecast(england, options, world.ports(slow));
  EXPECT_EQ(slow.requests, 1);
  EXPECT_EQ(std::get<FetchRefused>(outcome).trouble.code, "too-slow");
}

TEST_F(ForecastFetch, WithNothingStoredTheRefusalSaysWhatToDo) {
  http.script = {HttpFailure{HttpTrouble::no_name, "Could not resolve host: api.met.no"}};
  const FetchRefused out = refused(england);
  EXPECT_EQ(out.trouble.found,
            "No network: the name of MET Norway was not found (Could not resolve host: api.met.no).");
  EXPECT_EQ(out.trouble.remedy, "Try again where the phone has a signal.");
}

TEST_F(ForecastFetch, A403IsNotAskedAgainInTheSameHour) {
  http.script = {response(403), response(200, met_body)};
  EXPECT_EQ(refused(england).trouble.code, "refused");
  world.now += minutes(59);
  EXPECT_THAT(refused(england).trouble.found, HasSubstr("(403)"));
  EXPECT_THAT(http.requests, SizeIs(1));
  world.now += minutes(1);
  EXPECT_FALSE(got(england).from_cache);
}

TEST_F(ForecastFetch, OfflineTakesWhatIsThere) {
  http.script = {response(200, met_body)};
  options.offline = true;
  EXPECT_EQ(refused(england).trouble.found, "Nobody was asked, and no forecast of this place is stored.");
  options.offline = false;
  (void)got(england);
  options.offline = true;
  world.now += hours(9);
  const FetchedForecast out = got(england);
  EXPECT_EQ(out.age, hours(9));
  EXPECT_EQ(remarks(out.remarks), "Nobody was asked.\nThe last good forecast stands in; it is 9 h old.\n");
  EXPECT_THAT(http.requests, SizeIs(1));
}

TEST_F(ForecastFetch, AStoredForecastThatHasEndedIsNone) {
  http.script = {response(200, met_body)};
  const auto end = got(england).series.end_time();
  options.offline = true;
  world.now = end - seconds(1);
  EXPECT_TRUE(got(england).from_cache);
  world.now = end;
  EXPECT_EQ(refused(england).trouble.code, "ended");
}

TEST_F(ForecastFetch, ADamagedStoreIsPassedOver) {
  http.script = {response(200, met_body, {{"last-modified", "Mon, 09 Feb 2026 04:58:07 GMT"}}),
                 response(200, met_body)};
  (void)got(england);
  world.cache.held.begin()->second.body.resize(met_body.size() / 2);
  const FetchedForecast out = got(england);
  EXPECT_EQ(http.requests.back().if_modified_since, "");
  EXPECT_THAT(remarks(out.remarks), HasSubstr("cannot be read any more"));
}

TEST_F(ForecastFetch, AFullDiskCostsTheStoreAndNotTheForecast) {
  world.cache.full = true;
  http.script = {response(200, met_body)};
  EXPECT_THAT(remarks(got(england).remarks), HasSubstr("could not be stored: no space left"));
}

TEST_F(ForecastFetch, WithoutAltitudeItSaysWhatThatMeans) {
  http.script = {response(200, met_body)};
  EXPECT_THAT(remarks(got({51.5, -0.1, std::nullopt}).remarks), HasSubstr("altitude is not known"));
}

TEST_F(ForecastFetch, TheUsServiceIsAskedForTheSquareOnceAndThenForTheForecast) {
  world.now = nws_begin;
  http.script = {response(200, points_body), response(200, nws_body), response(200, nws_body)};
  EXPECT_EQ(got(florida).service, ForecastService::nws);
  EXPECT_THAT(asked(), ElementsAre(points_url, grid_url));
  world.now += hours(1);
  (void)got(florida);
  EXPECT_THAT(asked(), ElementsAre(points_url, grid_url, grid_url));
}

TEST_F(ForecastFetch, BeyondTheBorderMetNorwayIsAskedAndThatIsRemembered) {
  http.script = {response(404), response(200, met_body), response(200, met_body)};
  const FetchedForecast out = got(toronto);
  EXPECT_EQ(out.service, ForecastService::met_norway);
  EXPECT_THAT(remarks(out.remarks), HasSubstr("outside what the US National Weather Service covers"));
  world.now += hours(2);
  EXPECT_EQ(got(toronto).service, ForecastService::met_norway);
  EXPECT_THAT(asked(), SizeIs(3));
  EXPECT_THAT(asked().back(), HasSubstr("api.met.no"));
}

TEST_F(ForecastFetch, ASquareThatIsNoMoreIsLookedUpAnew) {
  world.now = nws_begin;
  http.script = {response(200, points_body), response(200, nws_body)};
  (void)got(florida);
  world.now += hours(1);
  http.script = {response(404), response(200, R"({"properties":{"gridId":"TAE","gridX":60,"gridY":66}})"),
                 response(200, nws_body)};
  EXPECT_FALSE(got(florida).from_cache);
  EXPECT_THAT(asked(), ElementsAre(points_url, grid_url, grid_url, points_url,
                                   "https://api.weather.gov/gridpoints/TAE/60,66"));
}

TEST_F(ForecastFetch, ASquareThatStaysAwayLeavesTheLastGoodForecast) {
  world.now = nws_begin;
  http.script = {response(200, points_body), response(200, nws_body)};
  (void)got(florida);
  world.now += hours(1);
  http.script = {response(404), response(200, points_body)};
  const FetchedForecast out = got(florida);
  EXPECT_TRUE(out.from_cache);
  EXPECT_EQ(out.age, hours(1));
  EXPECT_THAT(remarks(out.remarks), HasSubstr("(404)"));
}

const ForecastPlace munster{51.97, 7.63, base::Metres(60)};

const base::Instant monday = instant("2026-02-09T05:00:00Z");

std::string mosmix_body() {
  return mosmix_kmz(monday, 48, [](int) { return Made{}; });
}

TEST_F(ForecastFetch, MosmixComesAsAnArchiveOfTheNearestStationAndIsHeldForHalfAnHour) {
  options.service = ServiceChoice{ForecastService::mosmix, ""};
  http.script = {response(200, mosmix_body(),
                          {{"content-type", "application/vnd.google-earth.kmz"},
                           {"last-modified", "Mon, 09 Feb 2026 03:58:07 GMT"}}),
                 response(304)};
  world.now = monday;
  const FetchedForecast out = got(munster);
  EXPECT_EQ(out.service, ForecastService::mosmix);
  EXPECT_THAT(asked().front(), HasSubstr("/10315/kml/MOSMIX_L_LATEST_10315.kmz"));
  EXPECT_THAT(remarks(out.remarks), HasSubstr("MOSMIX is the forecast of station 10315, "));
  EXPECT_THAT(out.series.attribution, HasSubstr("Deutscher Wetterdienst"));
  world.now += minutes(29);
  (void)got(munster);
  EXPECT_THAT(http.requests, SizeIs(1)) << "the answer named no expiry";
  world.now += minutes(1);
  EXPECT_TRUE(got(munster).from_cache);
  EXPECT_EQ(http.requests.at(1).if_modified_since, "Mon, 09 Feb 2026 03:58:07 GMT");
}

TEST_F(ForecastFetch, AWebPageInPlaceOfAnArchiveIsNoForecast) {
  options.service = ServiceChoice{ForecastService::mosmix, "10315"};
  http.script = {response(200, "<html>", {{"content-type", "text/html"}})};
  EXPECT_EQ(refused(munster).trouble.code, "unreadable");
}

TEST_F(ForecastFetch, FarFromEveryStationMosmixIsNotAskedUnlessOneIsNamed) {
  options.service = ServiceChoice{ForecastService::mosmix, ""};
  const FetchRefused far = refused({0, 0, {}});
  EXPECT_EQ(far.trouble.code, "no-station");
  EXPECT_THAT(far.trouble.remedy, HasSubstr("mosmix:NUMBER"));
  EXPECT_THAT(http.requests, IsEmpty());
  options.service->station = "67090";
  http.script = {response(404)};
  EXPECT_THAT(refused({0, 0, {}}).trouble.found, HasSubstr("no forecast of that station (404)"));
}

TEST_F(ForecastFetch, OpenMeteoIsNotAskedWithoutAKeyOfTheUsersOwn) {
  options.service = ServiceChoice{ForecastService::open_meteo, ""};
  const FetchRefused none = refused(england);
  EXPECT_EQ(none.trouble.code, "no-key");
  EXPECT_THAT(none.trouble.found, HasSubstr("not for trade use"));
  EXPECT_THAT(http.requests, IsEmpty());
}

TEST_F(ForecastFetch, TheKeyGoesToOpenMeteoAndIsNeverKept) {
  options.service = ServiceChoice{ForecastService::open_meteo, ""};
  options.open_meteo_key = "secret7";
  const std::string body = open_meteo_json(monday, 48);
  world.now = monday;
  http.script = {response(200, body), response(401)};
  EXPECT_EQ(got(england).service, ForecastService::open_meteo);
  EXPECT_EQ(http.requests.front().key, "apikey=secret7");
  for (const auto& [url, kept] : world.cache.held)
    EXPECT_THAT(url + kept.url + kept.body, Not(HasSubstr("secret7")));
  world.now += hours(1);
  EXPECT_THAT(remarks(got(england).remarks), HasSubstr("it does not take the key"));
}

const char* const stations_body = R"({"features":[{"properties":{"stationIdentifier":"KTLH"}}]})";

TEST_F(ForecastFetch, TheReportsOfTheNightComeWithTheGridAndItsStationIsLookedUpOnce) {
  options.observed_from = instant("2026-02-08T00:00:00Z");
  const std::string reports = nws_reports(instant("2026-02-08T00:53:00Z"), 3, 1);
  world.now = nws_begin + hours(1);
  http.script = {response(200, points_body), response(200, nws_body), response(200, stations_body),
                 response(200, reports),     response(200, nws_body), response(200, reports)};
  EXPECT_THAT(got(florida).remarks, IsEmpty());
  EXPECT_EQ(asked().back(), "https://api.weather.gov/stations/KTLH/observations?start=2026-02-08T00:00:00Z");
  EXPECT_THAT(world.cache.held, testing::SizeIs(4));
  world.now += minutes(31);
  (void)got(florida);
  EXPECT_THAT(http.requests, SizeIs(6));
}

TEST_F(ForecastFetch, WithoutTheReportsTheForecastStands) {
  options.observed_from = instant("2026-02-08T00:00:00Z");
  world.now = nws_begin;
  http.script = {response(200, points_body), response(200, nws_body), response(200, stations_body),
                 response(200, R"({"features":[]})")};
  const FetchedForecast out = got(florida);
  EXPECT_EQ(out.service, ForecastService::nws);
  EXPECT_THAT(remarks(out.remarks), HasSubstr("No readings of a station for the hours gone by: "));
}

TEST_F(ForecastFetch, AServiceThatIsDownIsNotAskedForReportsToo) {
  options.observed_from = instant("2026-02-08T00:00:00Z");
  world.now = nws_begin;
  options.observed_from.reset();
  http.script = {response(200, points_body), response(200, nws_body)};
  (void)got(florida);
  options.observed_from = instant("2026-02-08T00:00:00Z");
  world.now += hours(2);
  http.script = {response(503), response(503), response(503), response(503)};
  EXPECT_THAT(remarks(got(florida).remarks), HasSubstr("The last good forecast stands in"));
  EXPECT_THAT(http.requests, SizeIs(6));
}

TEST_F(ForecastFetch, AnAnswerWithoutAnyRainIsNoForecast) {
  std::string dry = met_body;
  for (std::size_t at = 0; (at = dry.find("\"precipitation_amount\"", at)) != std::string::npos;)
    dry.replace(at, 22, "\"precipitation_missing\"");
  http.script = {response(200, dry)};
  const FetchRefused out = refused(england);
  EXPECT_EQ(out.trouble.code, "unreadable");
  EXPECT_THAT(out.trouble.found, HasSubstr("it gives no rain at all"));
}

}  // namespace
}  // namespace weatherstruck::feed
