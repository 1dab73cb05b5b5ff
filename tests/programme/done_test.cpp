#include "weatherstruck/programme/done.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using testing::IsEmpty;
using works::Begin;
using works::Done;
using works::Whole;

base::Instant at(int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / 9) + std::chrono::hours(hour) +
         std::chrono::minutes(minute);
}

struct Said {
  works::What what;
  base::Instant when;
};

DoneSoFar done_by(const std::vector<Said>& said, base::Instant now, const Plan* before = nullptr) {
  const works::Job job = works::demo_job();
  const works::TaskList list = works::derive_tasks(job);
  works::Book book;
  for (const Said& one : said)
    book.append({"k" + std::to_string(book.size()), one.what, one.when, one.when, std::nullopt});
  return done_so_far(job, list, works::progress_of(job, list, book, now), before, now);
}

const PlannedTask& task(const DoneSoFar& done, const std::string& name) {
  const auto found = std::find_if(done.plan.tasks.begin(), done.plan.tasks.end(),
                                  [&](const PlannedTask& it) { return it.task == name; });
  return *found;
}
double share(const PlannedTask& planned) {
  double sum = 0;
  for (const PlannedRun& run : planned.runs)
    sum += run.share;
  return sum;
}

TEST(DoneSoFar, WithAnEmptyBookNothingIsDone) {
  for (const PlannedTask& planned : done_by({}, at(12)).plan.tasks)
    EXPECT_THAT(planned.runs, IsEmpty()) << planned.task;
}

TEST(DoneSoFar, WorkStandsWhereItWasDoneWithItsShare) {
  const DoneSoFar done = done_by({{Begin{"set-out"}, at(7, 40)},
                                  {Done{"set-out", Whole{}}, at(8, 30)},
                                  {Begin{"shelter-north-dig"}, at(9)},
                                  {Done{"shelter-north-dig", works::Share{base::Fraction(0.4)}}, at(10)}},
                                 at(12));
  ASSERT_EQ(task(done, "set-out").runs.size(), 1U);
  EXPECT_EQ(task(done, "set-out").runs.front().span, (Span{at(7, 40), at(8, 30)}));
  EXPECT_NEAR(share(task(done, "set-out")), 1, 1e-9);
  EXPECT_NEAR(share(task(done, "shelter-north-dig")), 0.4, 1e-9);
}

TEST(DoneSoFar, WhoIsAtWorkHasDrivenThere) {
  const DoneSoFar done = done_by({{Begin{"unload"}, at(7, 5)}, {Done{"unload", Whole{}}, at(7, 35)}}, at(9));
  EXPECT_EQ(task(done, "drive-out").finish(), at(7, 5));
  EXPECT_THAT(done.assumed, IsEmpty());
}

TEST(DoneSoFar, WhatMustComeBeforeIsTakenAsDone) {
  // Poured, with the trench never logged: it must have been dug.
  const DoneSoFar done =
      done_by({{Begin{"shelter-north-pour"}, at(13)}, {Done{"shelter-north-pour", Whole{}}, at(14)}}, at(15));
  EXPECT_NEAR(share(task(done, "shelter-north-dig")), 1, 1e-9);
  EXPECT_LE(task(done, "shelter-north-dig").finish(), at(13));
}

TEST(DoneSoFar, WhatTheBookContradictsIsTakenAsDoneAndSaid) {
  // Poured at one, and at three still at the trench that the concrete is in.
  const DoneSoFar done = done_by({{Begin{"shelter-north-pour"}, at(13)},
                                  {Done{"shelter-north-pour", Whole{}}, at(14)},
                                  {Done{"shelter-north-dig", works::Share{base::Fraction(0.4)}}, at(15)}},
                                 at(16));
  EXPECT_NEAR(share(task(done, "shelter-north-dig")), 1, 1e-9);
  EXPECT_THAT(done.assumed, testing::Contains(testing::HasSubstr("is taken as done")));
}

TEST(DoneSoFar, WorkThatMayBeLeftOutIsNotTakenAsDoneBecauseTheClearingUpBegan) {
  // The path may be left out: nobody lays it by sweeping up.
  const DoneSoFar done =
      done_by({{Begin{"clear-up"}, at(16)}, {Done{"clear-up", Whole{}}, at(17)}}, at(17, 30));
  EXPECT_THAT(task(done, "path-flags").runs, IsEmpty());
  EXPECT_NEAR(share(task(done, "shelter-lay")), 1, 1e-9);
}

TEST(DoneSoFar, WhatIsStillToDoKeepsItsOrderAndNoneOfItIsBeforeNow) {
  const works::TaskList list = works::derive_tasks(works::demo_job());
  Plan before;
  for (std::size_t i = 0; i < list.tasks.size(); ++i) {
    PlannedTask planned;
    planned.task = list.tasks[i].name;
    PlannedRun run;
    run.span = {at(8) + std::chrono::minutes(10 * i), at(8) + std::chrono::minutes(10 * i + 10)};
    run.share = 1;
    planned.runs.push_back(run);
    before.tasks.push_back(planned);
  }
  const DoneSoFar done =
      done_by({{Begin{"set-out"}, at(8)}, {Done{"set-out", Whole{}}, at(9)}}, at(10), &before);
  for (std::size_t i = 0; i < list.tasks.size(); ++i) {
    const PlannedTask& planned = done.plan.tasks[i];
    const bool past = planned.task == "set-out" || planned.task == "drive-out" || planned.task == "unload";
    EXPECT_EQ(planned.start() < at(10), past) << planned.task;
  }
}

}  // namespace
}  // namespace weatherstruck::programme
