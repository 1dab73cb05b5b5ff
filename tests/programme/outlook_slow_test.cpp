// Is the chance right, if the world is as the model has it? Two thousand trips of jobs drawn at random, each
// in a weather and with a luck of its own, of other draws than those that the chance was reckoned from.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include <gtest/gtest.h>

#include "programme/any_job.h"
#include "programme/planned_case.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/programme/choose_plan.h"
#include "weatherstruck/programme/follow.h"

namespace weatherstruck::programme {
namespace {

constexpr int jobs = 50;
constexpr int trips_of_each = 40;
constexpr int weathers = 200;

struct Told {
  double said = 0;  // the chance
  double seen = 0;  // share of the trips
};

// Of a mean over jobs, the half width that holds it in 99 of 100 resamplings of whole jobs (the block
// bootstrap; Efron 1979, from memory): trips of one job hang together.
double half_width(const std::vector<Told>& told) {
  constexpr int resamplings = 2000;
  base::Random random(1);
  double mean = 0;
  for (const Told& one : told)
    mean += (one.seen - one.said) / static_cast<double>(told.size());
  std::vector<double> off;
  for (int k = 0; k < resamplings; ++k) {
    double sum = 0;
    for (std::size_t i = 0; i < told.size(); ++i) {
      const Told& one = told[random.below(told.size())];
      sum += one.seen - one.said;
    }
    off.push_back(std::abs(sum / static_cast<double>(told.size()) - mean));
  }
  std::sort(off.begin(), off.end());
  return off[resamplings * 99 / 100];
}

double bias(const std::vector<Told>& told) {
  double sum = 0;
  for (const Told& one : told)
    sum += one.seen - one.said;
  return sum / static_cast<double>(told.size());
}

TEST(Outlook, OverTwoThousandTripsOfTheModelsOwnWorldTheChanceIsRight) {
  std::vector<Told> all;
  std::vector<Told> open;  // neither hopeless nor sure
  for (unsigned seed = 1; static_cast<int>(all.size()) < jobs; ++seed) {
    AnyJob any = any_job(seed);
    const PlannedCase it(std::move(any.job), std::move(any.weather));
    const Programme programme = it.programme();
    const engine::ListPlan plan = choose_plan(it.request(0, 20), programme);
    const engine::Genes genes = settled(plan);
    const Outlook outlook = outlook_of({it.possible(programme, seed), genes, plan.best.schedule, weathers});
    const std::vector<int> good = race(it.possible(programme, 100'000 + seed), {genes}, 0, trips_of_each);
    // The share itself: what is said leans towards the middle, by Laplace's rule.
    const double share = static_cast<double>(outlook.home_and_sound) / outlook.weathers;
    all.push_back({share, static_cast<double>(good.front()) / trips_of_each});
    if (share > 0.05 && share < 0.95) open.push_back(all.back());
  }
  EXPECT_LT(std::abs(bias(all)), half_width(all));
  ASSERT_GE(open.size(), 10U);
  EXPECT_LT(std::abs(bias(open)), half_width(open));
  EXPECT_LT(half_width(open), 0.06);  // so that the tests above can fail
  RecordProperty("jobs neither hopeless nor sure", static_cast<int>(open.size()));
  std::printf("%d trips: bias %.3f within %.3f; of %zu jobs neither hopeless nor sure %.3f within %.3f\n",
              jobs * trips_of_each, bias(all), half_width(all), open.size(), bias(open), half_width(open));
}

}  // namespace
}  // namespace weatherstruck::programme
