#include "engine/miniature_support.h"

#include <gtest/gtest.h>

#include <string>
#include <tuple>

#include "engine/brute_force_support.h"
#include "engine/lists_support.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine::brute {
namespace {

std::tuple<int, std::int64_t, Tick> rank(const Value& value) {
  return {value.must_unplaced, value.must_late, value.finish};
}

void expect_rules_kept(const Network& network, const Schedule& schedule, const std::string& whose) {
  for (const Violation& violation : check(network, schedule)) {
    ADD_FAILURE() << whose << " breaks " << to_text(violation.rule) << ": " << violation.what;
  }
  const Verdict verdict = replay(network, schedule);
  EXPECT_TRUE(verdict.valid()) << whose << " breaks " << to_text(verdict.broken->rule) << " at "
                               << verdict.broken->at << ": " << verdict.broken->what;
}

}  // namespace

Plans expect_answer(const Sketch& job, Expected expected, std::optional<Expected> list_no_worse) {
  const Network& network = job.network;
  const auto faults = faults_of(network);
  EXPECT_TRUE(faults.empty()) << (faults.empty() ? "" : faults[0]);
  const Answer least = brute_force(network);
  EXPECT_TRUE(least.settled && least.found);
  EXPECT_EQ(least.must_unplaced, expected.unplaced);
  EXPECT_EQ(least.must_late, expected.late);
  EXPECT_EQ(least.finish, expected.done);
  expect_rules_kept(network, least.schedule, "the brute force");

  const ListPlan plan = plan_by_list(network);
  expect_rules_kept(network, plan.best.schedule, "the list plan");
  EXPECT_EQ(plan.best.value, value_of(network, plan.best.schedule));
  const Expected worst = list_no_worse.value_or(expected);
  EXPECT_GE(rank(plan.best.value), std::tuple(expected.unplaced, expected.late, expected.done))
      << "list plan";
  EXPECT_LE(rank(plan.best.value), std::tuple(worst.unplaced, worst.late, worst.done)) << "list plan";
  return {least.schedule, plan.best.schedule};
}

Tick start_of(const Schedule& schedule, TaskId task) {
  return at(schedule.tasks, task).start();
}
int way_of(const Schedule& schedule, TaskId task) {
  return at(schedule.tasks, task).way;
}

}  // namespace weatherstruck::engine::brute
