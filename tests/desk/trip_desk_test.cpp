#include "weatherstruck/desk/trip_desk.h"

#include <gtest/gtest.h>

#include "feed/other_services.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/sky/basis.h"

namespace weatherstruck::desk {
namespace {

const std::string demo = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/";

base::Instant at(int month, int day, int hour) {
  return std::chrono::sys_days(std::chrono::year(2026) / month / day) + std::chrono::hours(hour);
}

OpenJob job() {
  return open_job(demo + "job.json", files::SystemZones());
}

PlannedTrip planned(base::Instant now) {
  OpenJob open = job();
  auto forecasts = read_forecasts({demo + "forecast-day1.json"}, open.job.site);
  return plan_trip(std::move(open), {std::move(forecasts), std::nullopt, {}, false, {}}, now);
}

TEST(TripDesk, RefusesATripThatIsOverAndAForecastThatMissesIt) {
  const OpenJob open = job();
  sky::Series series = joined(read_forecasts({demo + "forecast-day1.json"}, open.job.site));
  EXPECT_FALSE(refusal(open.job, series, at(2, 9, 5)));
  EXPECT_EQ(refusal(open.job, series, at(2, 13, 5))->kind, Refusal::Kind::trip_over);
  series.hours.resize(2);
  EXPECT_EQ(refusal(open.job, series, at(2, 10, 5))->kind, Refusal::Kind::forecast_over);
  series.hours.front().start = at(3, 1, 0);
  series.hours.resize(1);
  EXPECT_EQ(refusal(open.job, series, at(2, 9, 5))->kind, Refusal::Kind::forecast_over);
  series.hours.clear();
  EXPECT_EQ(refusal(open.job, series, at(2, 9, 5))->kind, Refusal::Kind::forecast_over);
}

TEST(TripDesk, TheMorningIsThatOfNowOrTheNextOnceTheDayIsOver) {
  PlannedTrip trip = planned(at(2, 9, 5));
  EXPECT_EQ(take_morning(trip).day, 0U);
  trip.now = at(2, 1, 5);
  EXPECT_EQ(take_morning(trip).day, 0U);
  trip.now = at(2, 10, 6);
  EXPECT_EQ(take_morning(trip).day, 1U);
  trip.now = at(2, 10, 23);
  EXPECT_EQ(take_morning(trip).day, 2U);
  EXPECT_LE(take_morning(trip).cautions.size(), 2U);
}

TEST(TripDesk, SaysThatDaysGoneByAreTakenAsDone) {
  EXPECT_TRUE(planned(at(2, 9, 5)).remarks.empty());
  const PlannedTrip trip = planned(at(2, 10, 6));
  ASSERT_EQ(trip.remarks.size(), 2U);
  EXPECT_EQ(trip.remarks[0], "Yesterday is taken as done to plan. Look before you trust it.");
  EXPECT_EQ(trip.remarks[1], "The forecast was issued Mon 9 Feb 04:43, 25 h ago.");
}

TEST(TripDesk, AStationsReadingsStandForTheHoursGoneByAndForecastNothing) {
  OpenJob open = job();
  auto forecasts = read_forecasts({demo + "forecast-day1.json"}, open.job.site);
  forecasts.insert(forecasts.begin(), feed::read_forecast("reports", feed::nws_reports(at(2, 9, 18), 10, 2)));
  EXPECT_TRUE(sky::only_readings(forecasts[0]));
  EXPECT_FALSE(sky::only_readings(forecasts[1]));
  const PlannedTrip trip =
      plan_trip(std::move(open), {std::move(forecasts), std::nullopt, {}, false, {}}, at(2, 10, 6));
  EXPECT_EQ(trip.series.source, "MET Norway");
  const sky::Hour& night = *trip.series.at(at(2, 9, 20));
  EXPECT_EQ(night.rain->origin, sky::Origin::measured);
  EXPECT_DOUBLE_EQ(night.rain->value.value(), 2);
}

}  // namespace
}  // namespace weatherstruck::desk
