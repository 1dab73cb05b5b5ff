#include "weatherstruck/programme/helps.h"

#include <algorithm>

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
    EXPECT_NEAR(help.gain, help.outlook.chance() - helps.as_it_is.outlook.chance(), 1e-9);
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

// McNemar 1947 by hand: ten weathers better, two worse, of a hundred.
TEST(Helps, AGainWithinTwiceItsErrorDoesNotShow) {
  Help help;
  help.gain = 0.08;
  help.error = 0.0374;  // sqrt(14 - 0.64) / 100
  EXPECT_TRUE(help.shows());
  help.gain = 0.05;
  EXPECT_FALSE(help.shows());
}

}  // namespace
}  // namespace weatherstruck::programme
