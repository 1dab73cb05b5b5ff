// Ten small jobs that can be read in a minute, each planned and read as a mason would (docs/ten-jobs.md).
// What each plan comes to is kept here, so that one that moves is read again.
#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/desk/trip_desk.h"

namespace weatherstruck::desk {
namespace {

struct Read {
  const char* folder;
  const char* home;          ///< local, of his home
  std::size_t left_out = 0;  ///< tasks
};

constexpr std::array<Read, 10> jobs{{
    {"01-one-pour", "Tue 10 Mar 17:05", 0},
    {"02-existing-footing", "Wed 22 Apr 17:35", 1},
    {"03-flag-path", "Thu 18 Jun 12:25", 0},
    {"04-cold-strip-wall", "Thu 22 Jan 16:15", 0},
    {"05-wet-afternoon", "Thu 15 Oct 12:35", 0},
    {"06-too-much", "Thu 12 Nov 11:50", 13},
    {"07-two-walls-canopy", "Wed 16 Sep 19:40", 0},
    {"08-bed-with-mate", "Thu 14 May 14:50", 1},
    {"09-hot-wind", "Thu 16 Jul 10:20", 0},
    {"10-merchant-december", "Mon 7 Dec 14:40", 3},
}};

PlannedTrip planned(const std::string& folder) {
  const std::string path = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/ten/" + folder;
  OpenJob open = open_job(path + "/job.json", files::SystemZones());
  auto forecasts = read_forecasts({path + "/forecast.csv"}, open.job.site);
  const base::Instant now = open.job.trip.leave_home - std::chrono::minutes(30);
  return plan_trip(std::move(open), {std::move(forecasts), std::nullopt, {}, false, {}}, now);
}

TEST(TenJobs, ArePlannedAsTheyWereRead) {
  for (const Read& read : jobs) {
    const PlannedTrip trip = planned(read.folder);
    const programme::Plan& plan = trip.result.plan;
    EXPECT_TRUE(trip.result.objections.empty()) << read.folder;
    ASSERT_TRUE(plan.home) << read.folder;
    EXPECT_EQ(base::day_and_time(trip.open.job.trip.home_zone.to_local(*plan.home)), read.home)
        << read.folder;
    EXPECT_EQ(plan.left_out.size(), read.left_out) << read.folder;
    EXPECT_EQ(plan.in_hand.count() < 0, read.folder == std::string("06-too-much")) << read.folder;
  }
}

// Each lift was covered as soon as it was laid, and the next waited for that and took it off again.
TEST(TenJobs, LeaveNoGapBetweenTheLiftsOfOneWallOnADryDay) {
  const PlannedTrip trip = planned("02-existing-footing");
  const programme::PlannedTask* below = nullptr;
  const programme::PlannedTask* facing = nullptr;
  for (std::size_t i = 0; i < trip.list.tasks.size(); ++i) {
    const auto operation = trip.list.tasks[i].operation;
    if (operation == trade::Operation::lay_below) below = &trip.result.plan.tasks[i];
    if (operation == trade::Operation::lay_facing && facing == nullptr) facing = &trip.result.plan.tasks[i];
  }
  ASSERT_NE(below, nullptr);
  ASSERT_NE(facing, nullptr);
  EXPECT_EQ(facing->start(), below->finish());
}

}  // namespace
}  // namespace weatherstruck::desk
