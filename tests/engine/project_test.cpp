#include "weatherstruck/engine/project.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/check.h"

namespace weatherstruck::engine {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Project random_project(base::Random& random, int tasks, int resources) {
  Project project;
  for (int r = 0; r < resources; ++r)
    project.capacity.push_back(random.between(3, 9));
  for (int i = 0; i < tasks; ++i) {
    project.duration.push_back(random.between(0, 6));
    project.demand.emplace_back();
    for (const int capacity : project.capacity)
      project.demand.back().push_back(random.between(0, capacity));
    project.successors.emplace_back();
    for (int after = i + 1; after < tasks; ++after) {
      if (random.chance(0.15)) project.successors.back().push_back(after);
    }
  }
  return project;
}

// Every order of the tasks, each placed as early as it goes by the plainest of rules: some order gives an
// optimum (active schedules; Sprecher, Kolisch & Drexl 1995).
Tick least_by_trying_all(const Project& project) {
  const std::size_t tasks = project.duration.size();
  std::vector<std::size_t> order(tasks);
  std::iota(order.begin(), order.end(), 0U);
  const Tick horizon = std::accumulate(project.duration.begin(), project.duration.end(), 0) + 1;
  Tick best = horizon;
  do {
    std::vector<Tick> end(tasks, -1);
    std::vector<std::vector<int>> used(static_cast<std::size_t>(horizon),
                                       std::vector<int>(project.capacity.size(), 0));
    bool fits = true;
    for (const std::size_t i : order) {
      Tick t = 0;
      for (std::size_t j = 0; j < tasks; ++j) {
        const auto& after = project.successors[j];
        if (std::find(after.begin(), after.end(), static_cast<int>(i)) == after.end()) continue;
        fits = fits && end[j] >= 0;
        t = std::max(t, end[j]);
      }
      if (!fits) break;
      const auto free = [&](Tick from) {
        for (Tick k = from; k < from + project.duration[i]; ++k) {
          for (std::size_t r = 0; r < project.capacity.size(); ++r) {
            if (used[static_cast<std::size_t>(k)][r] + project.demand[i][r] > project.capacity[r])
              return false;
          }
        }
        return true;
      };
      while (!free(t))
        ++t;
      for (Tick k = t; k < t + project.duration[i]; ++k) {
        for (std::size_t r = 0; r < project.capacity.size(); ++r)
          used[static_cast<std::size_t>(k)][r] += project.demand[i][r];
      }
      end[i] = t + project.duration[i];
    }
    if (fits) best = std::min(best, *std::max_element(end.begin(), end.end()));
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

TEST(Project, APlanKeepsEveryRuleAndIsNoShorterThanItsBound) {
  base::Random random(7);
  for (int round = 0; round < 60; ++round) {
    // More than four resources, and more than eight, need more words for a tick.
    const Project project = random_project(random, random.between(1, 25), round % 3 == 0 ? 4 : round % 12);
    const ProjectPlan plan = plan_project(project, {200, 3});
    EXPECT_THAT(check(network_of(project, plan.makespan + 1), schedule_of(project, plan.start)), IsEmpty());
    EXPECT_GE(plan.makespan, plan.bound);
    EXPECT_LE(plan.schedules, 200);
    Tick last = 0;
    for (std::size_t i = 0; i < plan.start.size(); ++i)
      last = std::max(last, plan.start[i] + project.duration[i]);
    EXPECT_EQ(plan.makespan, last);
  }
}

TEST(Project, FindsTheShortestOfAllOrdersOnSmallProjects) {
  base::Random random(11);
  for (int round = 0; round < 40; ++round) {
    const Project project = random_project(random, 7, 2);
    const Tick least = least_by_trying_all(project);
    const ProjectPlan plan = plan_project(project, {2000, 1});
    EXPECT_EQ(plan.makespan, least);
    EXPECT_LE(plan.bound, least);
  }
}

TEST(Project, SameSeedSamePlanAndAGreaterBudgetNoLongerOne) {
  base::Random random(5);
  const Project project = random_project(random, 40, 3);
  const ProjectPlan one = plan_project(project, {500, 9});
  const ProjectPlan again = plan_project(project, {500, 9});
  EXPECT_EQ(one.start, again.start);
  EXPECT_EQ(one.schedules, again.schedules);
  EXPECT_LE(plan_project(project, {20'000, 9}).makespan, one.makespan);
}

TEST(Project, NothingToDoTakesNoTime) {
  EXPECT_EQ(plan_project({}, {}).makespan, 0);
  const ProjectPlan plan = plan_project({{0, 0}, {{1}, {}}, {{}, {}}, {}}, {10, 1});
  EXPECT_EQ(plan.makespan, 0);
  EXPECT_THAT(plan.start, ElementsAre(0, 0));
}

TEST(Project, FaultsNameTheTaskAndWhatIsAllowed) {
  Project project{{3, -1}, {{1}, {5}}, {{2}, {9}}, {4}};
  EXPECT_THAT(faults_of(project),
              ElementsAre(HasSubstr("task 1: it takes -1"), HasSubstr("task 1: its successor 5"),
                          HasSubstr("task 1: it demands 9 of resource 0, of which there are 4")));
  project = {{3, 1}, {{1}, {0}}, {{2}, {1}}, {4}};
  EXPECT_THAT(faults_of(project), ElementsAre(HasSubstr("in a circle")));
  EXPECT_THROW(static_cast<void>(plan_project(project)), std::invalid_argument);
  project.capacity.assign(17, 1);
  EXPECT_THAT(faults_of(project).front(), HasSubstr("17 resources; at most 16"));
}

}  // namespace
}  // namespace weatherstruck::engine
