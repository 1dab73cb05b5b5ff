#include "weatherstruck/programme/possible_trips.h"

#include <gtest/gtest.h>

#include <cmath>

#include "programme/demo_week.h"
#include "programme/planned_case.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/sky/possible.h"
#include "weatherstruck/trade/operations.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

struct Sent {
  PlannedCase it{works::demo_job(), demo_week()};
  Programme programme = it.programme();
  PlanRequest request = it.request(0, 20);
  engine::ListPlan listed = choose_plan(request, programme);
};

TEST(PossibleTrips, AWeatherThatIsHandedInIsGoneThroughAsTheOneThatIsDrawn) {
  const Sent sent;
  const engine::Genes genes = settled(sent.listed);
  PossibleTrips drawn(sent.it.possible(sent.programme, 9));
  PossibleTrips given(sent.it.possible(sent.programme, 9));
  for (const int number : {4, 7}) {
    drawn.put(number);
    given.put(sky::draw_weather(sent.it.weather, sent.request.now, 9, number), number);
    EXPECT_EQ(drawn.done(genes), given.done(genes));
    EXPECT_EQ(drawn.ends_well(genes), given.ends_well(genes));
  }
}

TEST(PossibleTrips, TheSameWeatherAtAnotherPaceIsAnotherTrip) {
  const Sent sent;
  const engine::Genes genes = settled(sent.listed);
  const sky::PossibleWeather as_told{sent.it.weather, sent.it.weather};
  PossibleTrips trips(sent.it.possible(sent.programme, 9));
  trips.put(as_told, 1);
  const engine::Schedule one = trips.done(genes);
  trips.put(as_told, 2);
  EXPECT_NE(one, trips.done(genes));
  trips.put(as_told, 1);
  EXPECT_EQ(one, trips.done(genes));
}

TEST(PossibleTrips, HisPaceIsDrawnForEachTaskAndTheSameWheneverItIsAsked) {
  const Sent sent;
  const std::vector<double> paces = draw_paces(sent.it.list, 9, 3);
  ASSERT_EQ(paces.size(), sent.it.list.tasks.size());
  for (const double pace : paces)
    EXPECT_GT(pace, 0);
  EXPECT_EQ(paces, draw_paces(sent.it.list, 9, 3));
  EXPECT_NE(paces, draw_paces(sent.it.list, 9, 4));
}

// Half the deviation, half the logarithm.
TEST(PossibleTrips, APaceThatIsKnownBetterStraysLess) {
  const Sent sent;
  works::TaskList known = sent.it.list;
  for (works::Task& task : known.tasks) {
    const trade::Spread range = trade::row_for(task.operation).spread();
    task.own_pace = trade::OwnPace{1, range.low > 0 ? std::log(range.high / range.low) / 5.126 / 2 : 0};
  }
  const std::vector<double> wide = draw_paces(sent.it.list, 9, 3);
  const std::vector<double> narrow = draw_paces(known, 9, 3);
  for (std::size_t i = 0; i < wide.size(); ++i)
    EXPECT_NEAR(std::log(narrow[i]), std::log(wide[i]) / 2, 1e-9);
}

/// Twelve millimetres in two hours of every day (UTC) from Monday to Wednesday, and nothing else.
sky::Series with_showers(sky::Series week, int from_hour) {
  for (sky::Hour& hour : week.hours) {
    const auto clock = hour.start - std::chrono::floor<std::chrono::days>(hour.start);
    const bool falls = clock >= std::chrono::hours(from_hour) && clock < std::chrono::hours(from_hour + 2) &&
                       hour.start < works::demo_job().trip.home_by - std::chrono::hours(24);
    if (hour.rain) hour.rain->value = base::Millimetres(falls ? 6 : 0);
  }
  return week;
}

TEST(PossibleTrips, AShowerThatComesWhileHeIsThereIsCoveredForAsIfTheMorningHadForetoldIt) {
  const Sent sent;
  const engine::Genes genes = settled(sent.listed);
  PossibleTrips trips(sent.it.possible(sent.programme, 9));
  const sky::Series wet = with_showers(sent.it.weather, 13);
  const sky::Series dry = with_showers(sent.it.weather, 24);
  trips.put({wet, wet}, 1);
  const engine::Schedule foretold = trips.done(genes);
  trips.put({wet, dry}, 1);
  EXPECT_EQ(trips.done(genes), foretold);
  // Unlike one that comes when he is not there: for that covers only who was told.
  works::Job mornings = sent.it.job;
  mornings.trip.longest_day = base::Hours(4);
  const PossibleRequest away = sent.it.possible(sent.programme, 9);
  PossibleTrips others({mornings, away.list, away.weather, away.limits, away.now, away.programme, away.seed});
  others.put({wet, dry}, 1);
  EXPECT_NE(others.done(genes), foretold);
}

}  // namespace
}  // namespace weatherstruck::programme
