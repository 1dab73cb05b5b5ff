#include "weatherstruck/desk/forecast_desk.h"

#include <gtest/gtest.h>

namespace weatherstruck::desk {
namespace {

const std::string demo = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/";

works::Site site(double latitude, double longitude) {
  return {latitude,
          longitude,
          std::nullopt,
          base::Zone::fixed("Site/Fixed", std::chrono::seconds(0)),
          trade::Soil::garden,
          {},
          {}};
}

// London (51.5074, -0.1278) to Paris (48.8566, 2.3522) is 344 km by great circle; from memory.
TEST(ForecastDesk, DistancesAreGreatCircles) {
  EXPECT_NEAR(kilometres_between(51.5074, -0.1278, 48.8566, 2.3522), 344, 1);
  EXPECT_NEAR(kilometres_between(0, 179.9, 0, -179.9), 22.2, 0.1);
}

TEST(ForecastDesk, JoinsWithTheLaterIssueOnTopWhateverTheOrder) {
  const works::Site here = site(52.06, -3.61);
  const sky::Series one = joined(read_forecasts({demo + "forecast-day1.json"}, here));
  const sky::Series two = joined(read_forecasts({demo + "forecast-day2.json"}, here));
  const sky::Series both =
      joined(read_forecasts({demo + "forecast-day1.json", demo + "forecast-day2.json"}, here));
  const sky::Series reversed =
      joined(read_forecasts({demo + "forecast-day2.json", demo + "forecast-day1.json"}, here));
  EXPECT_EQ(both.issued, two.issued);
  EXPECT_EQ(both.begin_time(), one.begin_time());
  ASSERT_EQ(both.hours.size(), reversed.hours.size());
  const base::Instant later = two.begin_time() + std::chrono::hours(5);
  EXPECT_EQ(both.at(later)->temperature, two.at(later)->temperature);
  EXPECT_EQ(reversed.at(later)->temperature, two.at(later)->temperature);
}

TEST(ForecastDesk, NotesAForecastForAnotherPlace) {
  const auto far = [](const sky::Series& series) {
    for (const sky::SeriesNote& note : series.notes)
      if (note.code == "far-away") return true;
    return false;
  };
  EXPECT_FALSE(far(joined(read_forecasts({demo + "forecast-day1.json"}, site(52.06, -3.61)))));
  EXPECT_TRUE(far(joined(read_forecasts({demo + "forecast-day1.json"}, site(55.06, -3.61)))));
}

TEST(ForecastDesk, NeedsAFile) {
  EXPECT_TRUE(joined(read_forecasts({}, site(0, 0))).empty());
}

}  // namespace
}  // namespace weatherstruck::desk
