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

}  // namespace
}  // namespace weatherstruck::desk
