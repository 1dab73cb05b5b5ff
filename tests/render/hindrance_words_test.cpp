#include "weatherstruck/render/hindrance_words.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using programme::Hindrance;

TEST(HindranceWords, NameTheDayThePartAndTheFigure) {
  works::Job job = works::demo_job();
  const base::LocalDay tuesday{std::chrono::sys_days(std::chrono::year(2026) / 2 / 10).time_since_epoch()};
  EXPECT_EQ(hindrance_words(job, {Hindrance::Kind::rain, tuesday, {}}), "the rain of Tue 10 Feb");
  EXPECT_EQ(without_words(job, {Hindrance::Kind::cold, tuesday, {}}),
            "without the cold of the night to Tue 10 Feb");
  EXPECT_EQ(hindrance_words(job, {Hindrance::Kind::hours, {}, {}}),
            "days from 07:00 to 21:00 of at most 14 h");
  EXPECT_EQ(without_words(job, {Hindrance::Kind::wait, {}, "shelter", works::Wait::concrete_to_lay}),
            "without the wait on the concrete of the shelter");
  EXPECT_EQ(without_words(job, {Hindrance::Kind::covers, {}, {}}), "with 20 m2 more of each cover");
  job.limits.set = trade::LimitSet::us;
  EXPECT_EQ(without_words(job, {Hindrance::Kind::covers, {}, {}}), "with 200 sq ft more of each cover");
}

}  // namespace
}  // namespace weatherstruck::render
