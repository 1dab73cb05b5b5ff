// A programme whose tables are made again for another weather is the programme of that weather.
#include <gtest/gtest.h>

#include "programme/any_job.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {
namespace {

/// Another week for the same days: what `of` brings, hour by hour from `like`'s first hour on.
sky::Series moved(const sky::Series& of, const sky::Series& like) {
  sky::Series series = of;
  for (std::size_t i = 0; i < series.hours.size(); ++i)
    series.hours[i].start = like.hours.front().start + std::chrono::hours(i);
  return series;
}

TEST(PutWeather, GivesTheTablesThatTheOtherWeatherWouldHaveGiven) {
  int clocks_that_moved = 0;
  int canopies_that_moved = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const AnyJob any = any_job(seed);
    const sky::Series other = moved(any_job(seed + 100).weather, any.weather);
    const works::TaskList list = works::derive_tasks(any.job);
    const auto limits = trade::limits_for(any.job.limits.set, any.job.limits.cold_rule);
    const auto build = [&](const sky::Series& weather) {
      return build_programme(any.job, list, weather, limits.values, any.job.trip.leave_home);
    };
    const Programme wanted = build(other);
    Programme made = build(any.weather);
    const engine::Network first = made.network;
    put_weather(made, any.job, limits.values, other);

    ASSERT_EQ(made.network.clocks.size(), wanted.network.clocks.size());
    ASSERT_EQ(made.recipes.size(), made.network.clocks.size()) << "a clock that no recipe makes";
    for (std::size_t c = 0; c < wanted.network.clocks.size(); ++c) {
      const engine::Clock& as_made = made.network.clocks[c];
      const engine::Clock& as_wanted = wanted.network.clocks[c];
      int moved_here = 0;
      for (engine::Tick t = 0; t <= as_wanted.horizon(); ++t) {
        ASSERT_EQ(as_made.passed(t), as_wanted.passed(t))
            << "seed " << seed << ", " << as_wanted.name() << " at " << t;
        ASSERT_EQ(as_made.next_running(t), as_wanted.next_running(t)) << as_wanted.name();
        ASSERT_EQ(as_made.next_standing(t), as_wanted.next_standing(t)) << as_wanted.name();
        moved_here += as_made.passed(t) != first.clocks[c].passed(t) ? 1 : 0;
      }
      clocks_that_moved += moved_here > 0 ? 1 : 0;
    }
    for (std::size_t s = 0; s < wanted.network.statefuls.size(); ++s) {
      EXPECT_EQ(made.network.statefuls[s].allowed, wanted.network.statefuls[s].allowed);
      canopies_that_moved += made.network.statefuls[s].allowed != first.statefuls[s].allowed ? 1 : 0;
    }
    EXPECT_EQ(made.table.assumptions, wanted.table.assumptions);
    EXPECT_EQ(made.table.forecast_until, wanted.table.forecast_until);
  }
  EXPECT_GE(clocks_that_moved, 100) << "the other weathers are hardly others";
  EXPECT_GE(canopies_that_moved, 1);
}

}  // namespace
}  // namespace weatherstruck::programme
