#include "weatherstruck/feed/mosmix_stations.h"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>

#include "weatherstruck/feed/forecast_service.h"

namespace weatherstruck::feed {
namespace {

// London (51.5074, -0.1278) to Paris (48.8566, 2.3522) is 344 km by great circle; from memory.
TEST(MosmixStations, DistancesAreGreatCircles) {
  EXPECT_NEAR(great_circle_km(51.5074, -0.1278, 48.8566, 2.3522), 344, 1);
  EXPECT_NEAR(great_circle_km(0, 179.9, 0, -179.9), 22.2, 0.1);
}

TEST(MosmixStations, TheNearestIsFoundAndHowFarItIs) {
  const NearStation near = nearest_mosmix_station(51.97, 7.63);  // Muenster
  EXPECT_EQ(near.station.number, "10315");
  EXPECT_NEAR(near.kilometres, 18, 2);
  EXPECT_GT(nearest_mosmix_station(0, 0).kilometres, 1000);
  EXPECT_THROW((void)nearest_mosmix_station(91, 0), std::invalid_argument);
}

TEST(MosmixStations, EachNumberStandsOnceAndIsOneThatMayBeAsked) {
  std::set<std::string_view> seen;
  for (const MosmixStation& station : mosmix_stations()) {
    EXPECT_TRUE(seen.insert(station.number).second) << station.number;
    EXPECT_TRUE(read_choice("mosmix:" + std::string(station.number))) << station.number;
    EXPECT_LT(nearest_mosmix_station(station.latitude, station.longitude).kilometres, 0.001);
  }
}

}  // namespace
}  // namespace weatherstruck::feed
