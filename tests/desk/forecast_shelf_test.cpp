#include "weatherstruck/desk/forecast_shelf.h"

#include <gtest/gtest.h>

#include "record/scratch.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;

TEST(RecordCache, GivesBackWhatWasPutAfterEverySortOfAnswer) {
  record::Scratch scratch;
  record::Store store(scratch.file());
  RecordCache cache(store, "52.0600,-3.6100");
  const std::string url = "https://api.met.no/weatherapi/locationforecast/2.0/complete?lat=52.06&lon=-3.61";
  EXPECT_FALSE(cache.get(url));
  feed::CachedAnswer answer{url, "", "", at_minute(5), at_minute(0), 503};
  cache.put(answer);
  EXPECT_EQ(cache.get(url), answer);
  answer = {url, "one", "Mon, 09 Feb 2026 08:00:00 GMT", at_minute(40), at_minute(10), 200};
  cache.put(answer);
  EXPECT_EQ(cache.get(url), answer);
  // Not modified: the body stands, confirmed later.
  answer.status = 304;
  answer.expires = at_minute(90);
  answer.fetched_at = at_minute(50);
  cache.put(answer);
  EXPECT_EQ(cache.get(url), answer);
  // Throttled: the last good one stays, and the service is not asked before its time.
  answer.status = 429;
  answer.expires = at_minute(120);
  cache.put(answer);
  EXPECT_EQ(cache.get(url), answer);
  answer = {url, "two", "Mon, 09 Feb 2026 11:00:00 GMT", at_minute(200), at_minute(130), 200};
  cache.put(answer);
  EXPECT_EQ(cache.get(url), answer);
  EXPECT_EQ(store.forecasts_since("52.0600,-3.6100", at_minute(0)).size(), 2U);
  EXPECT_FALSE(RecordCache(store, "0.0000,0.0000").get(url));
}

TEST(RecordCache, ASquareThatIsNoMoreDoesNotComeBackAndAForecastOutlivesItsRefusal) {
  record::Scratch scratch;
  record::Store store(scratch.file());
  RecordCache cache(store, "30.0000,-85.0000");
  feed::CachedAnswer points{
      "https://api.weather.gov/points/30,-85", "TAE 58,65", "", at_minute(9), at_minute(0), 200};
  cache.put(points);
  points = {points.url, "", "", at_minute(90), at_minute(20), 404};
  cache.put(points);
  EXPECT_EQ(cache.get(points.url), points);
  feed::CachedAnswer grid{
      "https://api.weather.gov/gridpoints/TAE/58,65", "rain", "", at_minute(9), at_minute(0), 200};
  cache.put(grid);
  grid.status = 404;
  grid.expires = at_minute(90);
  cache.put(grid);
  EXPECT_EQ(cache.get(grid.url), grid);
}

TEST(RecordCache, BeingTurnedAwayHoldsForEveryAddressOfTheServiceAndNothingElseDoes) {
  const std::string low = "https://api.met.no/weatherapi/x?altitude=10";
  const std::string high = "https://api.met.no/weatherapi/x?altitude=20";
  const std::string mirror = "https://mirror.example/weatherapi/x?altitude=20";
  for (const int status : {401, 403, 404, 429, 503}) {
    record::Scratch scratch;
    record::Store store(scratch.file());
    RecordCache cache(store, "52.0600,-3.6100");
    const feed::CachedAnswer good{low, "rain", "", at_minute(9), at_minute(0), 200};
    cache.put(good);
    EXPECT_FALSE(cache.get(high));
    const feed::CachedAnswer refused{high, "", "", at_minute(90), at_minute(20), status};
    cache.put(refused);
    EXPECT_EQ(cache.get(high), refused) << "also with another one's body at hand";
    EXPECT_FALSE(cache.get(mirror)) << "another server knows nothing of it";
    feed::CachedAnswer of_low = good;
    if (status != 404 && status != 503) {
      of_low.expires = refused.expires;
      of_low.status = status;
    }
    EXPECT_EQ(cache.get(low), of_low) << status;
  }
}

}  // namespace
}  // namespace weatherstruck::desk
