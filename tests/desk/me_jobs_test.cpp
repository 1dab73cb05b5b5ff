#include "weatherstruck/desk/me_jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/job_talk_support.h"
#include "record/scratch.h"

namespace weatherstruck::desk {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class KeptJobs : public testing::Test {
 protected:
  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  works::Me me_ = me().me;

  void SetUp() override {
    (void)shelf_.add(ask_for(least_job("path\n6 x 0.75 m\n\n")).talk.document, "asked", zones(),
                     saturday_evening());
  }
};

TEST_F(KeptJobs, AreLikeHimUntilHeChanges) {
  EXPECT_THAT(jobs_unlike(shelf_, me_, zones(), saturday_evening()), IsEmpty());
  me_.longest_day = base::Hours(9);
  EXPECT_THAT(jobs_unlike(shelf_, me_, zones(), saturday_evening()), ElementsAre("garden-path"));
  EXPECT_THAT(jobs_unlike(shelf_, me_, zones(), saturday_evening() + std::chrono::days(30)), IsEmpty())
      << "over by then";
}

TEST_F(KeptJobs, TakeOverWhatIsHisWhenHeSaysSo) {
  me_.longest_day = base::Hours(9);
  me_.crew.push_back({"mate", false, 1.0});
  EXPECT_TRUE(put_into_job(shelf_, "garden-path", me_, zones(), saturday_evening()));
  const works::Job job = shelf_.open("garden-path", zones()).job;
  EXPECT_EQ(job.trip.longest_day, base::Hours(9));
  EXPECT_EQ(job.crew.size(), 2U);
  EXPECT_EQ(job.title, "Garden path");
  EXPECT_THAT(jobs_unlike(shelf_, me_, zones(), saturday_evening()), IsEmpty());
  EXPECT_FALSE(put_into_job(shelf_, "garden-path", me_, zones(), saturday_evening()));
}

}  // namespace
}  // namespace weatherstruck::desk
