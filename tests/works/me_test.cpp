#include "weatherstruck/works/me.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weatherstruck/works/check.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

TEST(Me, AsIsUsualHasNoFault) {
  EXPECT_TRUE(faults_of(usual_me(winter_greenwich())).empty());
}

TEST(Me, GivesAJobThatPassesTheChecks) {
  const Job job = job_for(usual_me(winter_greenwich()));
  const CheckResult result = check(job);
  for (const base::Fault& fault : result.faults)
    ADD_FAILURE() << base::to_text(fault);
  EXPECT_EQ(job.site.zone.name(), "Europe/London");
}

TEST(Me, FaultsAreToldAllAtOnceWhereTheyStand) {
  Me me = usual_me(winter_greenwich());
  me.crew[0].pace = 9;
  me.kit.van_payload = base::Kilograms(1);
  me.longest_day = base::Hours(30);
  me.limits.overrides.push_back({"no-such-limit", 1});
  std::vector<std::string> places;
  for (const base::Fault& fault : faults_of(me))
    places.push_back(fault.place);
  EXPECT_THAT(places, testing::IsSupersetOf({"/crew/0/pace", "/kit/van_payload", "/hours/longest_day"}));
  EXPECT_THAT(places, testing::Contains(testing::StartsWith("/limits/overrides/0")));
}

TEST(Me, NeedsSomebodyWhoLays) {
  Me me = usual_me(winter_greenwich());
  me.crew[0].lays_bricks = false;
  ASSERT_EQ(faults_of(me).size(), 1U);
  EXPECT_EQ(faults_of(me)[0].code, "nobody-lays");
}

}  // namespace
}  // namespace weatherstruck::works
