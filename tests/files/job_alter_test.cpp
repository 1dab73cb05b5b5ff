#include "weatherstruck/files/job_alter.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "files/job_support.h"
#include "weatherstruck/works/without_part.h"
#include "works/demo_job.h"

namespace weatherstruck::files {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using works::demo_job;

Altered altered(const std::vector<std::string>& changes, const works::Job& job = demo_job()) {
  auto outcome = alter_job(job, changes, SystemZones());
  if (auto* faults = std::get_if<base::Faults>(&outcome)) throw std::runtime_error(all_texts(*faults));
  return std::get<Altered>(std::move(outcome));
}
base::Faults refused(const std::vector<std::string>& changes, const works::Job& job = demo_job()) {
  auto outcome = alter_job(job, changes, SystemZones());
  const auto* faults = std::get_if<base::Faults>(&outcome);
  return faults == nullptr ? base::Faults{} : *faults;
}
const works::Bed& bed_of(const works::Job& job) {
  return std::get<works::Bed>(job.parts[1]);
}
int courses_after(const std::string& change) {
  return bed_of(altered({change}).job).courses;
}

TEST(JobAlter, CoursesAreSaidInAnyOfTheUsualWays) {
  for (const char* change :
       {"bed +2 courses", "bed courses +2", "bed 2 courses more", "the bed two courses higher",
        "bed courses to 5", "bed 5 courses", "bed courses 5", "bed 2 higher"})
    EXPECT_EQ(courses_after(change), 5) << change;
  for (const char* change : {"bed -1 course", "bed one course lower", "bed 1 course less", "Bed 2 courses"})
    EXPECT_EQ(courses_after(change), 2) << change;
}

TEST(JobAlter, LengthsAreTakenInTheUnitsOfTheJob) {
  EXPECT_DOUBLE_EQ(bed_of(altered({"bed length 3.5 m"}).job).length.value(), 3.5);
  EXPECT_DOUBLE_EQ(bed_of(altered({"bed 500 mm longer"}).job).length.value(), 3.5);
  EXPECT_DOUBLE_EQ(bed_of(altered({"bed +0.5 m length"}).job).length.value(), 3.5);
  EXPECT_DOUBLE_EQ(bed_of(altered({"bed 100 mm deeper"}).job).footing_depth.value(), 0.35);
  works::Job feet = demo_job();
  feet.limits.set = trade::LimitSet::us;
  EXPECT_NEAR(bed_of(altered({"bed length 12"}, feet).job).length.value(), 12 * 0.3048, 1e-9);
}

TEST(JobAlter, AFallMayBeTurnedRoundByAFigureThatIsToBeTakenAsItStands) {
  const auto fall = [](const works::Job& job) {
    return std::get<works::Base>(job.parts[0]).drop_along_length.value();
  };
  EXPECT_DOUBLE_EQ(fall(altered({"shelter drop along length to -0.15 m"}).job), -0.15);
  EXPECT_DOUBLE_EQ(fall(altered({"shelter drop_along_length -0.05 m"}).job), 0.10);
}

TEST(JobAlter, WordsOfClosedListsNeedNoKeyWhereOnlyOneListHasThem) {
  EXPECT_EQ(std::get<works::Path>(altered({"path gravel"}).job.parts[3]).surface, trade::Surface::gravel);
  EXPECT_EQ(std::get<works::Base>(altered({"shelter door east"}).job.parts[0]).door_side, works::Side::east);
  EXPECT_EQ(std::get<works::Base>(altered({"shelter door none"}).job.parts[0]).door_side, std::nullopt);
  EXPECT_EQ(bed_of(altered({"bed brick engineering b"}).job).brick, trade::BrickKind::engineering_b);
  EXPECT_FALSE(bed_of(altered({"bed filled no"}).job).filled);
  EXPECT_EQ(std::get<works::Steps>(altered({"steps 4"}).job.parts[2]).count, 4);
  const base::Faults which = refused({"shelter common"});
  ASSERT_EQ(which.size(), 1U);
  EXPECT_EQ(which[0].code, "unclear-change");
  EXPECT_THAT(which[0].expected, HasSubstr("brick or brick below"));
}

TEST(JobAlter, PartsAreTurnedLeftOutAndWeighed) {
  const Altered turned = altered({"turn shelter", "bed turned left"});
  EXPECT_DOUBLE_EQ(std::get<works::Base>(turned.job.parts[0]).length.value(), 1.8);
  EXPECT_DOUBLE_EQ(bed_of(turned.job).length.value(), 0.9);
  const Altered without = altered({"without path"});
  EXPECT_EQ(without.job.parts.size(), 3U);
  EXPECT_THAT(without.job.fallbacks, IsEmpty());
  EXPECT_THAT(without.job.site.routes[0].shut_by, IsEmpty());
  const Altered must = altered({"steps must", "bed importance may"});
  ASSERT_EQ(must.job.importance.size(), 2U);
  for (const works::PartImportance& one : must.job.importance)
    EXPECT_EQ(one.importance, works::Importance::may) << one.part;
}

TEST(JobAlter, SaysEachChangeBackWithWhatItWas) {
  const Altered made = altered({"bed +2 courses", "path gravel"});
  ASSERT_EQ(made.changes.size(), 2U);
  EXPECT_EQ(made.changes[0].part, "bed");
  EXPECT_EQ(made.changes[0].key, "courses");
  EXPECT_EQ(made.changes[0].said, "bed: courses 5 instead of 3");
  EXPECT_EQ(made.changes[1].said, "path: surface gravel instead of flags");
}

TEST(JobAlter, TellsEveryFaultAtOnceAndWhatMayBeChanged) {
  const base::Faults faults = refused({"bad +1 course", "bed banana", "bed courses 99", "path surface mud",
                                       "shelter-north 5 courses", "turn path", "bed 3 courses", "bed"});
  ASSERT_EQ(faults.size(), 8U);
  EXPECT_EQ(faults[0].code, "no-such-part");
  EXPECT_THAT(faults[0].remedy, HasSubstr("\"bed\""));
  EXPECT_EQ(faults[1].code, "unclear-change");
  EXPECT_THAT(faults[1].expected, HasSubstr("courses 1 to 20 (is 3)"));
  EXPECT_THAT(faults[1].expected, HasSubstr("length 0.5 to 60 m (is 3 m)"));
  EXPECT_EQ(faults[2].code, "out-of-range");
  EXPECT_THAT(faults[2].expected, HasSubstr("1 to 20"));
  EXPECT_EQ(faults[3].code, "bad-word");
  EXPECT_THAT(faults[3].expected, HasSubstr("flags or gravel"));
  EXPECT_EQ(faults[4].code, "no-such-part");
  EXPECT_THAT(faults[4].found, HasSubstr("a piece of the shelter"));
  EXPECT_EQ(faults[5].code, "cannot-turn");
  EXPECT_EQ(faults[5].place, "\"turn path\"");
  EXPECT_EQ(faults[6].code, "no-change");
  EXPECT_EQ(faults[7].code, "unclear-change");
}

TEST(JobAlter, WhatTheCheckOfAJobRefusesIsRefusedWithThePartsName) {
  const base::Faults faults = refused({"shelter courses below to 9"});
  ASSERT_FALSE(faults.empty());
  EXPECT_THAT(faults[0].place, HasSubstr("shelter: courses below"));
}

TEST(JobAlter, AdviceOnTheChangedJobComesWithIt) {
  const auto on_the_bed = [](const Altered& made) {
    return std::count_if(made.advice.begin(), made.advice.end(), [](const base::Fault& advice) {
      return advice.place.rfind("bed: courses", 0) == 0;
    });
  };
  EXPECT_EQ(on_the_bed(altered({"bed 2 courses"})), 0);
  EXPECT_EQ(on_the_bed(altered({"bed 8 courses"})), 1) << "half a brick holds no 750 mm of soil";
}

TEST(JobAlter, APathOfGravelKeepsTheFallbackThatItWasForSoThatItsPriceCanBeBilled) {
  EXPECT_EQ(altered({"path gravel"}).job.fallbacks.size(), 1U);
}

TEST(ChangesSaid, AreJoinedUpToACommaOrStandInQuotes) {
  EXPECT_THAT(changes_said({"bed", "+2", "courses,", "turn", "shelter"}),
              ElementsAre("bed +2 courses", "turn shelter"));
  EXPECT_THAT(changes_said({"bed +2 courses", "path gravel"}), ElementsAre("bed +2 courses", "path gravel"));
  EXPECT_THAT(changes_said({"turn", "shelter", "path gravel; bed 4 courses"}),
              ElementsAre("turn shelter", "path gravel", "bed 4 courses"));
  EXPECT_THAT(changes_said({"keep"}), ElementsAre("keep"));
  EXPECT_THAT(changes_said({" , "}), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::files
