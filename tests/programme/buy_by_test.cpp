#include "weatherstruck/programme/buy_by.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;

Instant at(unsigned day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year_month_day(std::chrono::year(2026), std::chrono::February,
                                                           std::chrono::day(day))) +
         hours(hour) + minutes(minute);
}

// The demo's merchant is 25 minutes away and serves 07:30 to 17:00, on Saturdays 08:00 to 12:00; half an hour
// is spent there (norm, an assumption). By hand, the 9th is a Monday.
TEST(BuyBy, TheLastTripIsBackInTimeAndEndsBeforeHeShuts) {
  const works::Job job = works::demo_job();
  // Wanted Tuesday at ten: back at ten, there at 09:05 to 09:35, away at 08:40.
  const auto same_day = last_trip_to_merchant(job, at(9, 12), at(10, 10));
  ASSERT_TRUE(same_day);
  EXPECT_EQ(same_day->from, at(10, 8, 40));
  EXPECT_EQ(same_day->to, at(10, 10));
  // Wanted Tuesday at eight: he would be there at 07:05, before it opens. So Monday, served until 17:00.
  const auto evening = last_trip_to_merchant(job, at(9, 12), at(10, 8));
  ASSERT_TRUE(evening);
  EXPECT_EQ(evening->from, at(9, 16, 5));
  EXPECT_EQ(evening->to, at(9, 17, 25));
  // Monday at half past four that is over.
  EXPECT_FALSE(last_trip_to_merchant(job, at(9, 16, 30), at(10, 8)));
}

TEST(BuyBy, SaturdayClosesAtNoonAndSundayAllDay) {
  const works::Job job = works::demo_job();
  const auto trip = last_trip_to_merchant(job, at(13, 20), at(16, 7));
  ASSERT_TRUE(trip);
  EXPECT_EQ(trip->from, at(14, 11, 5));
  works::Job none = job;
  none.supplies.merchant.reset();
  EXPECT_FALSE(last_trip_to_merchant(none, at(13, 20), at(16, 7)));
}

// Two stretches of 63 bricks; 100 last for the first and not for the second.
TEST(BuyBy, AStockRunsOutWhereTheStretchBeginsThatItDoesNotLastFor) {
  works::TaskList list;
  works::Task lay;
  lay.name = "lay";
  lay.operation = trade::Operation::lay_facing;
  lay.materials = {{"facing-brick", 126}};
  list.tasks.push_back(lay);
  lay.name = "carry";
  lay.operation = trade::Operation::wheel_in;
  list.tasks.push_back(lay);
  Plan plan;
  plan.tasks.resize(2);
  plan.tasks[0].runs = {{{at(9, 16), at(9, 18)}, 0.5}, {{at(10, 9), at(10, 11)}, 0.5}};
  plan.tasks[1].runs = {{{at(9, 9), at(9, 10)}, 1.0}};
  EXPECT_EQ(runs_out(list, plan, "facing-brick", 100, at(9, 8)), at(10, 9));
  EXPECT_EQ(runs_out(list, plan, "facing-brick", 10, at(9, 8)), at(9, 16));
  EXPECT_EQ(runs_out(list, plan, "facing-brick", 126, at(9, 8)), std::nullopt);
  EXPECT_EQ(runs_out(list, plan, "facing-brick", 63, at(10, 8)), std::nullopt);
}

}  // namespace
}  // namespace weatherstruck::programme
