#include "weatherstruck/works/work_hours.h"

#include <gtest/gtest.h>

#include "weatherstruck/works/standing.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

Job at_pace(double pace) {
  Job job = demo_job();
  job.crew = {{"mason", true, pace}};
  return job;
}

TEST(CrewHours, AreThoseOfTheNormOverThePace) {
  const TaskList list = derive_tasks(at_pace(1));
  EXPECT_NEAR(crew_hours(at_pace(1), list).value(), list.total_hours().value(), 1e-9);
  EXPECT_NEAR(crew_hours(at_pace(1.3), list).value(), list.total_hours().value() / 1.3, 1e-9);
}

// A labourer twice as quick draws the mean up for digging, and not for laying.
TEST(CrewHours, AQuickLabourerLaysNoBricks) {
  Job job = at_pace(1);
  job.crew.push_back({"mate", false, 2});
  TaskList list;
  Task dig;
  dig.name = "dig";
  dig.operation = trade::Operation::dig;
  dig.hours = base::Hours(3);
  Task lay;
  lay.name = "lay";
  lay.operation = trade::Operation::lay_facing;
  lay.hours = base::Hours(3);
  list.tasks = {dig};
  EXPECT_NEAR(crew_hours(job, list).value(), 3 / 1.5, 1e-9);
  list.tasks = {lay};
  EXPECT_NEAR(crew_hours(job, list).value(), 3, 1e-9);
}

TEST(CrewHours, WhatIsDoneCountsNoMore) {
  const Job job = at_pace(1);
  const TaskList list = derive_tasks(job);
  Progress progress;
  for (const Task& task : list.tasks) {
    TaskProgress state;
    state.task = task.name;
    state.amount = task.amount;
    progress.tasks.push_back(state);
  }
  const double all = crew_hours(job, list, &progress).value();
  EXPECT_NEAR(all, list.total_hours().value(), 1e-9);
  const auto dig = std::find_if(list.tasks.begin(), list.tasks.end(),
                                [](const Task& task) { return task.operation == trade::Operation::dig; });
  ASSERT_NE(dig, list.tasks.end());
  TaskProgress& state = progress.tasks[static_cast<std::size_t>(dig - list.tasks.begin())];
  state.done = dig->amount / 2;
  EXPECT_NEAR(crew_hours(job, list, &progress).value(), all - dig->hours.value() / 2, 1e-9);
  state.finished = job.trip.leave_home;
  EXPECT_NEAR(crew_hours(job, list, &progress).value(), all - dig->hours.value() - dig->set_up.value(), 1e-9);
}

TEST(HoursByPart, ComeToTheHoursOfAllTheWorkAndTheSiteIsLast) {
  const Job job = at_pace(1.2);
  const TaskList list = derive_tasks(job);
  const std::vector<PartHours> parts = hours_by_part(job, list);
  base::Hours sum(0);
  for (const PartHours& part : parts)
    sum += part.hours;
  EXPECT_NEAR(sum.value(), crew_hours(job, list).value(), 1e-9);
  ASSERT_GE(parts.size(), 3U);
  EXPECT_EQ(parts.front().of, name_of(job.parts.front()));
  EXPECT_TRUE(parts.back().of.empty());
}

}  // namespace
}  // namespace weatherstruck::works
