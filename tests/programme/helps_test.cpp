#include "weatherstruck/programme/helps.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

Helps helps_for(const works::Job& job, int weathers = 20) {
  const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  const sky::Series weather = demo_week();
  return what_would_help({job, weather, limits.values, job.trip.leave_home, 60, weathers, 1});
}
const Help* find(const Helps& helps, Cure::Kind kind) {
  const auto it = std::find_if(helps.helps.begin(), helps.helps.end(),
                               [&](const Help& help) { return help.kind == kind; });
  return it == helps.helps.end() ? nullptr : &*it;
}

TEST(Helps, EachChangeIsSetBesideTheTripAsItIsInTheSameWeathers) {
  const Helps helps = helps_for(works::demo_job());
  EXPECT_EQ(helps.as_it_is.gain, 0);
  EXPECT_EQ(helps.as_it_is.outlook.weathers, 20);
  ASSERT_NE(find(helps, Cure::Kind::labourer), nullptr);
  for (const Help& help : helps.helps) {
    EXPECT_NEAR(help.gain, (help.outlook.home_and_sound - helps.as_it_is.outlook.home_and_sound) / 20.0,
                1e-9);
    EXPECT_GT(help.error, 0);
  }
}

TEST(Helps, WhatShowsComesFirstTheGreatestGainAtTheTop) {
  const Helps helps = helps_for(works::demo_job());
  EXPECT_TRUE(std::is_sorted(helps.helps.begin(), helps.helps.end(), [](const Help& a, const Help& b) {
    return a.shows() != b.shows() ? a.shows() : a.shows() && a.gain > b.gain;
  }));
  for (const Help& help : helps.helps) {
    if (help.gain <= 0) {
      EXPECT_FALSE(help.shows());
    }
  }
}

TEST(Helps, WhatHeHasAlreadyIsNotOffered) {
  works::Job job = works::demo_job();
  job.kit.floodlights = true;
  job.crew.push_back({"mate", false, 1.0});
  const Helps helps = helps_for(job, 2);
  EXPECT_EQ(find(helps, Cure::Kind::lights), nullptr);
  EXPECT_EQ(find(helps, Cure::Kind::labourer), nullptr);
  // The forecast begins when he leaves: nobody can plan the day before it.
  EXPECT_EQ(find(helps, Cure::Kind::day_earlier), nullptr);
}

// Of two outlooks through the same weathers only those count in which they differ (McNemar 1947): the
// variance of the difference is (b + c - (b - c)^2 / n) / n^2; one of each kind is added.
TEST(Helps, TheErrorOfAGainIsThatOfTheWeathersInWhichThePlansDiffer) {
  const Helps helps = helps_for(works::demo_job());
  int differing = 0;
  for (const Help& help : helps.helps) {
    double better = 0;
    double worse = 0;
    for (std::size_t k = 0; k < help.outlook.each.size(); ++k) {
      better += help.outlook.each[k] != 0 && helps.as_it_is.outlook.each[k] == 0 ? 1 : 0;
      worse += help.outlook.each[k] == 0 && helps.as_it_is.outlook.each[k] != 0 ? 1 : 0;
    }
    differing += better + worse > 0 ? 1 : 0;
    const double n = 20;
    const double variance = std::max(1.0, better + worse + 2 - (better - worse) * (better - worse) / n);
    EXPECT_NEAR(help.error, std::sqrt(variance) / n, 1e-12);
    EXPECT_EQ(help.shows(), better - worse > 2 * std::sqrt(variance));
  }
  EXPECT_GT(differing, 0);
}

}  // namespace
}  // namespace weatherstruck::programme
