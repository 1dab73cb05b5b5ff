#include "weatherstruck/programme/after_trip.h"

#include <gtest/gtest.h>

#include "weatherstruck/works/expand.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::hours;
using Load = MayBear::Load;

base::Instant feb(unsigned day, int hour) {
  return std::chrono::sys_days(std::chrono::year(2026) / std::chrono::February / std::chrono::day(day)) +
         hours(hour);
}

struct Site {
  works::Job job = works::demo_job();
  works::TaskList list = works::derive_tasks(job);
  trade::LimitValues limits = works::limits_of(job).values;
  sky::Series weather{};
  Plan plan{};

  /// Twenty days of one temperature; the forecast is given for so many hours.
  explicit Site(double celsius, int given = 24 * 24) {
    for (int i = 0; i < given; ++i) {
      sky::Hour hour;
      hour.start = feb(9, 0) + hours(i);
      hour.temperature = {base::Celsius(celsius)};
      hour.humidity = {base::Fraction(0.8)};
      hour.wind = {base::MetresPerSecond(2)};
      hour.rain = {base::Millimetres(0)};
      weather.hours.push_back(hour);
    }
    for (const works::Task& task : list.tasks) {
      PlannedTask planned;
      planned.task = task.name;
      plan.tasks.push_back(planned);
    }
  }
  void place(const char* name, base::Instant from, base::Instant to) {
    for (PlannedTask& task : plan.tasks) {
      if (task.task == name) task.runs.push_back({{from, to}, 1, 0, false, false, false});
    }
  }
  [[nodiscard]] std::optional<base::Instant> from(Load load, const char* of) const {
    for (const MayBear& may : may_bear(job, list, weather, limits, plan)) {
      if (may.load == load && may.of == of) return may.from;
    }
    return std::nullopt;
  }
};

// Limits fill-half-wait 24 h and fill-rest-wait 48 h, double below 5 C; flags-foot-wait 24 h; plate-load-wait
// 72 h; strip-wait-mild 8 h (limits table; common practice where it names no source).
TEST(MayBear, CountsItsHoursFromTheLastOfTheWork) {
  Site site(8);
  site.place("bed-pour", feb(9, 8), feb(9, 9));
  site.place("bed-lay", feb(10, 8), feb(10, 12));
  site.place("shelter-plates", feb(11, 8), feb(11, 10));
  site.place("steps-build", feb(11, 10), feb(11, 15));
  EXPECT_EQ(site.from(Load::soil_half, "bed"), feb(11, 12));
  EXPECT_EQ(site.from(Load::soil, "bed"), feb(12, 12));
  EXPECT_EQ(site.from(Load::roof, "shelter"), feb(14, 10));
  EXPECT_EQ(site.from(Load::feet, "steps"), feb(12, 15));
}

// Rates of clocks are whole numbers, so that a long wait may end a tick of five minutes off.
TEST(MayBear, TakesTwiceAsLongForSoilInTheCold) {
  Site site(4);
  site.place("bed-lay", feb(10, 8), feb(10, 12));
  const auto minutes_off = [&](Load load, base::Instant expected) {
    return std::chrono::abs(site.from(load, "bed").value() - expected);
  };
  EXPECT_LE(minutes_off(Load::soil_half, feb(12, 12)), std::chrono::minutes(5));
  EXPECT_LE(minutes_off(Load::soil, feb(14, 12)), std::chrono::minutes(5));
}

TEST(MayBear, ConcreteIsToldOnlyWhileNothingStandsOnIt) {
  Site site(8);
  site.place("bed-pour", feb(9, 8), feb(9, 9));
  EXPECT_EQ(site.from(Load::bricks, "bed"), feb(9, 17));
  site.place("bed-lay", feb(10, 8), feb(10, 12));
  EXPECT_EQ(site.from(Load::bricks, "bed"), std::nullopt);
}

TEST(MayBear, ConcreteThatTheColdStopsHasNoMoment) {
  Site site(-1);
  site.place("bed-pour", feb(9, 8), feb(9, 9));
  const auto all = may_bear(site.job, site.list, site.weather, site.limits, site.plan);
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].load, Load::bricks);
  EXPECT_EQ(all[0].from, std::nullopt);
}

TEST(MayBear, SaysWhereNoForecastReaches) {
  Site site(8, 48);
  site.place("bed-lay", feb(9, 8), feb(9, 12));
  const auto all = may_bear(site.job, site.list, site.weather, site.limits, site.plan);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_FALSE(all[0].beyond_forecast);
  EXPECT_TRUE(all[1].beyond_forecast);
}

TEST(MayBear, NothingDoneBearsNothing) {
  Site site(8);
  EXPECT_TRUE(may_bear(site.job, site.list, site.weather, site.limits, site.plan).empty());
  site.place("drive-out", feb(9, 5), feb(9, 7));
  EXPECT_TRUE(may_bear(site.job, site.list, site.weather, site.limits, site.plan).empty());
}

}  // namespace
}  // namespace weatherstruck::programme
